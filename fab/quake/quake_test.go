package quake_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab/internal/worked"
	"stabile/fab/quake"
)

// digits is the relative error of a value printed to six significant digits.
const digits = 5.1e-6

func near(got, want float64) bool { return math.Abs(got-want) <= digits*math.Abs(want) }

// TestBase holds ASCE 7 against worked cases K37 and K38, whose g is 9.81.
func TestBase(t *testing.T) {
	for _, id := range []string{"K37", "K38"} {
		var in struct {
			Mass   float64 `json:"mass_kg"`
			Short  float64 `json:"S_DS"`
			Ie     float64 `json:"I_e"`
			R      float64
			Height float64 `json:"h_cg_mm"`
			Lever  float64 `json:"lever_mm"`
			One    float64 `json:"S_1"`
			Z      float64 `json:"z_over_h"`
		}
		var out struct {
			Rigid  float64 `json:"V_rigid_N"`
			Cs     float64 `json:"C_s"`
			Flex   float64 `json:"V_flex_N"`
			Fp     float64 `json:"F_p_N"`
			Over   float64 `json:"M_over_Nm"`
			Resist float64 `json:"resist_Nm"`
			Use    float64
			Rocks  float64 `json:"a_tip_g"`
			Ground float64 `json:"PGA_like_0p4SDS_g"`
			Mu     float64 `json:"mu_needed_no_slip"`
		}
		worked.Read(t, id, &in, &out)
		s, weight := quake.Site{Short: in.Short, One: in.One, Importance: in.Ie}, 9.81*in.Mass
		system := quake.System{R: in.R}
		rigid, err := s.Base(weight, 0.05, system)
		require.NoError(t, err)
		flex, err := s.Base(weight, 0.3, system)
		require.NoError(t, err)
		fp, err := quake.Component{Amplification: 2.5, Response: 2.5, Importance: in.Ie, Height: in.Z}.Force(s, weight)
		require.NoError(t, err)
		st, err := s.Stands(flex, weight, in.Height, in.Lever)
		require.NoError(t, err)
		for i, v := range [][2]float64{
			{rigid.Force, out.Rigid}, {flex.Cs, out.Cs}, {flex.Force, out.Flex}, {fp, out.Fp}, {st.Overturning / 1e3, out.Over}, {st.Restoring / 1e3, out.Resist},
			{st.Tips, out.Use}, {st.Rocks, out.Rocks}, {st.Ground, out.Ground}, {st.Friction, out.Mu},
		} {
			if !near(v[0], v[1]) {
				t.Errorf("%s, term %d: %v, want %v", id, i, v[0], v[1])
			}
		}
		if !rigid.Rigid || flex.Rigid {
			t.Errorf("%s: %+v, %+v", id, rigid, flex)
		}
	}
}

// TestFloors: the lower bounds of C_s and F_p and the upper one of F_p.
func TestFloors(t *testing.T) {
	for _, c := range []struct {
		site quake.Site
		r    float64
		want float64
	}{
		{quake.Site{Short: 0.05, Importance: 1}, 3, 0.03},
		{quake.Site{Short: 1, One: 0.7, Importance: 1}, 3, 1. / 3},
		{quake.Site{Short: 0.5, One: 0.7, Importance: 1}, 2, 0.28},
		{quake.Site{Short: 0.5, One: 0.59, Importance: 1.5}, 2, 0.375},
	} {
		if v, err := c.site.Base(1, 1, quake.System{R: c.r}); err != nil || !near(v.Cs, c.want) {
			t.Errorf("%+v: C_s %v, %v, want %v", c.site, v.Cs, err, c.want)
		}
	}
	s := quake.Site{Short: 1, Importance: 1}
	low, _ := quake.Component{Amplification: 1, Response: 6, Importance: 1}.Force(s, 100)
	high, _ := quake.Component{Amplification: 2.5, Response: 1, Importance: 1, Height: 1}.Force(s, 100)
	if !near(low, 30) || !near(high, 160) {
		t.Errorf("F_p %v and %v, want 30 and 160", low, high)
	}
	// With friction of 0.3 and R of 1.25 sliding starts at S_DS 0.31: S/1.25 = 0.3 (0.9 -
	// 0.2 S).
	slide := 0.27 / (0.8 + 0.06)
	at := quake.Site{Short: slide, Importance: 1}
	v, _ := at.Base(100, 1, quake.Other)
	st, _ := at.Stands(v, 100, 1000, 100)
	if !near(st.Friction, 0.3) || math.Abs(slide-0.31) > 0.005 {
		t.Errorf("friction %v at S_DS %v", st.Friction, slide)
	}
}

// TestElement holds EN 1998-1 against worked case K39.
func TestElement(t *testing.T) {
	var in struct {
		Alpha, S float64
		Periods  []float64 `json:"Ta_over_T1"`
		Q        float64   `json:"q_a"`
	}
	var out struct{ Z0, Z1 []float64 }
	worked.Read(t, "K39", &in, &out)
	e := quake.European{Ground: in.Alpha, Soil: in.S}
	for i, p := range in.Periods {
		for z, want := range [2]float64{out.Z0[i], out.Z1[i]} {
			a, err := e.Element(float64(z), p)
			require.NoError(t, err)
			f, err := e.Force(float64(z), p, 200, 1.2, in.Q)
			require.NoError(t, err)
			if !near(a, want) || !near(f, 240*want) {
				t.Errorf("z/H %d, T_a/T_1 %v: %v g and %v N, want %v", z, p, a, f, want)
			}
		}
	}
	// Never more than in step with the building.
	for p := 0.0; p < 5; p += 0.1 {
		if a, _ := e.Element(1, p); a > out.Z1[2]*(1+1e-12) {
			t.Errorf("%v g at T_a/T_1 %v", a, p)
		}
	}
}

// TestMonotone: a harder earthquake is never less.
func TestMonotone(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 16))
	for range 2000 {
		s := quake.Site{Short: 2 * rng.Float64(), One: rng.Float64(), Importance: 1 + rng.Float64()/2}
		harder := s
		harder.Short *= 1.1
		harder.One *= 1.1
		period := rng.Float64()
		a, err := s.Base(100, period, quake.Monument)
		require.NoError(t, err)
		b, err := harder.Base(100, period, quake.Monument)
		require.NoError(t, err)
		was, err := s.Stands(a, 100, 800, 200)
		require.NoError(t, err)
		now, err := harder.Stands(b, 100, 800, 200)
		require.NoError(t, err)
		if b.Force < a.Force || now.Tips < was.Tips || now.Friction < was.Friction {
			t.Errorf("%+v: %+v after %+v", s, now, was)
		}
	}
}

// FuzzQuake: nothing gives a number that is not one.
func FuzzQuake(f *testing.F) {
	f.Add(1., 0.2, 1., 250., 0.3, 2., 190., 195.)
	f.Add(10., 10., 0.5, 1e12, 0., 1., 1e-3, -1e6)
	f.Fuzz(func(t *testing.T, short, one, importance, weight, period, r, height, lever float64) {
		s := quake.Site{Short: short, One: one, Importance: importance}
		if v, err := s.Base(weight, period, quake.System{R: r}); err == nil {
			worked.Finite(t, v)
			if st, err := s.Stands(v, weight, height, lever); err == nil {
				worked.Finite(t, st)
			}
		}
		if x, err := (quake.Component{Amplification: r, Response: r, Importance: importance, Height: one}).Force(s, weight); err == nil {
			worked.Finite(t, x)
		}
		if x, err := (quake.European{Ground: short, Soil: one}).Force(period, r, weight, importance, r); err == nil {
			worked.Finite(t, x)
		}
	})
}

// A monument of 252 N where S_DS is 1 g takes half of its weight level, 126 N, 189 mm up:
// 23.8 N m against (0.9 - 0.2) x 252 x 0.195 = 34.3.
func ExampleSite_Base() {
	s := quake.Site{Short: 1, One: 0.2, Importance: 1}
	v, err := s.Base(251.6, 0.3, quake.Monument)
	if err != nil {
		fmt.Println(err)
		return
	}
	st, err := s.Stands(v, 251.6, 189.3, 194.7)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f N, use %.2f, friction of %.2f needed\n", v.Force, st.Tips, st.Friction)
	// Output: 126 N, use 0.69, friction of 0.71 needed
}
