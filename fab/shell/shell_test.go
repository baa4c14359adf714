package shell_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab/internal/worked"
	"stabile/fab/shell"
)

// digits is the relative error of a value printed to six significant digits.
const digits = 5.1e-6

func near(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Abs(want)
}

// yield is of the steel of the worked cases, in MPa.
const yield = 250

func capacity(t *testing.T, j shell.Joint) shell.Capacity {
	t.Helper()
	c, err := j.Capacity()
	require.NoError(t, err)
	return c
}

// TestCapacity holds limit loads and their sum against worked cases K1 to K5, and
// checks that elastic-plastic finite elements lie above them at the yield.
func TestCapacity(t *testing.T) {
	for _, id := range []string{"K1", "K2", "K3", "K4", "K5"} {
		var in struct {
			R, T, D, Fy float64
			Tube        float64 `json:"e_b"`
			Force       float64 `json:"F_N"`
			Moment      float64 `json:"M_Nm"`
		}
		var out struct {
			Lam, Kappa, Interaction float64
			Force                   float64 `json:"F_max_N"`
			Moment                  float64 `json:"M_max_Nmm"`
		}
		var check struct {
			Moment []float64 `json:"FE_M_TES_and_max_uncut"`
			Force  []float64 `json:"FE_F_TES_and_max_uncut"`
		}
		worked.ReadCheck(t, id, &in, &out, &check)
		j := shell.Joint{Radius: in.R, Wall: in.T, Diameter: in.D, Tube: in.Tube, Strength: in.Fy / shell.Safety}
		c := capacity(t, j)
		use := c.Use(shell.Load{Force: in.Force, Moment: 1e3 * in.Moment})
		for _, v := range [][2]float64{
			{c.Lambda, out.Lam}, {c.Kappa, out.Kappa}, {c.Outward, out.Force}, {c.Moment, out.Moment}, {use.Interaction, out.Interaction},
		} {
			if !near(v[0], v[1], digits) {
				t.Errorf("%s: %v, want %v", id, v[0], v[1])
			}
		}
		if len(c.Breaches) > 0 || !c.Decides() {
			t.Errorf("%s: outside of %v", id, c.Breaches)
		}
		// Finite elements with the yield itself, without the safety.
		j.Strength = in.Fy
		c = capacity(t, j)
		for _, v := range [][2]float64{{check.Force[0], c.Outward}, {check.Moment[0], c.Moment}} {
			if v[0] < v[1] {
				t.Errorf("%s: finite elements carry %v, less than %v", id, v[0], v[1])
			}
		}
	}
}

// TestRim holds the bare rim of a hole against worked case K6, and against finite
// elements, which are at the formula or above it.
func TestRim(t *testing.T) {
	var in struct{ R, T, D, F float64 }
	var out struct {
		Lam    float64
		Force  float64 `json:"F_max_N"`
		Moment float64 `json:"M_max_Nmm"`
	}
	var check struct {
		Moment float64 `json:"FE_M_TES"`
		Force  float64 `json:"FE_F_TES"`
	}
	worked.ReadCheck(t, "K6", &in, &out, &check)
	c := capacity(t, shell.Joint{Radius: in.R, Wall: in.T, Diameter: in.D, Rim: true, Strength: in.F})
	if c.Kappa != 0 || !near(c.Outward, out.Force, digits) || !near(c.Inward, out.Force, digits) || !near(c.Moment, out.Moment, digits) {
		t.Errorf("%+v, want %+v", c, out)
	}
	if check.Force < c.Outward || check.Moment < c.Moment {
		t.Errorf("finite elements %+v below %+v", check, c)
	}
}

// TestStraightLine holds the sum of force and moment against worked case K44: points
// on the limit by finite elements have a straight sum of 1 or more, but not a square
// sum.
func TestStraightLine(t *testing.T) {
	var out struct {
		Force  []float64 `json:"F_over_Flim"`
		Moment []float64 `json:"M_over_Mlim"`
		Square []float64 `json:"square_sum"`
		Linear []float64 `json:"linear_sum"`
	}
	worked.Read(t, "K44", nil, &out)
	c := shell.Capacity{Outward: 1, Inward: 1, Moment: 1, Shear: 1, Torque: 1}
	for i := range out.Force {
		use := c.Use(shell.Load{Force: out.Force[i], Moment: out.Moment[i]})
		if !near(use.Interaction, out.Linear[i], digits) || use.Interaction < 1 {
			t.Errorf("use %v, want %v, 1 or more", use.Interaction, out.Linear[i])
		}
		if out.Square[i] >= 1 {
			t.Errorf("square sum %v: a circle would do", out.Square[i])
		}
	}
}

// TestDimple holds the force inward against worked case K46: large displacement
// finite elements peak above the capped formula, at 1.22 of it at least.
func TestDimple(t *testing.T) {
	var in struct{ T, Fy float64 }
	var out struct {
		Rows []struct {
			RadiusToWall float64 `json:"R_over_t"`
			Ring         float64 `json:"d_over_2R"`
			Tube         float64 `json:"eb_over_t"`
			Peak         float64 `json:"peak_N"`
			Written      float64 `json:"F_formula_Fy"`
			Capped       float64 `json:"F_capped_Fy"`
		}
		Least float64 `json:"min_over_capped"`
	}
	worked.Read(t, "K46", &in, &out)
	require.Len(t, out.Rows, 10)
	least := math.Inf(1)
	for _, row := range out.Rows {
		r := row.RadiusToWall * in.T
		c := capacity(t, shell.Joint{Radius: r, Wall: in.T, Diameter: row.Ring * 2 * r, Tube: row.Tube * in.T, Strength: in.Fy})
		if !near(c.Outward, row.Written, digits) || !near(c.Inward, row.Capped, digits) {
			t.Errorf("%+v: outward %v, inward %v", row, c.Outward, c.Inward)
		}
		least = min(least, row.Peak/c.Inward)
	}
	if !near(least, out.Least, digits) || least < 1.2 {
		t.Errorf("least of peak over limit %v, want %v", least, out.Least)
	}
}

// TestBreaches: each limit, broken alone, is reported; what is held at a limit is no more
// than at it.
func TestBreaches(t *testing.T) {
	base := shell.Joint{Radius: 150, Wall: 1.5, Diameter: 60, Tube: 1.5, Strength: 160}
	for _, c := range []struct {
		change  func(*shell.Joint)
		ratio   shell.Ratio
		decides bool
	}{
		{func(j *shell.Joint) { j.Wall = 0.1; j.Diameter = 30 }, shell.WallToRadius, false},
		{func(j *shell.Joint) { j.Wall = 16 }, shell.WallToRadius, false},
		{func(j *shell.Joint) { j.Diameter = 180; j.Wall = 3 }, shell.RingToBall, true},
		{func(j *shell.Joint) { j.Radius = 400; j.Diameter = 300 }, shell.Lambda, true},
	} {
		j := base
		c.change(&j)
		got := capacity(t, j)
		if len(got.Breaches) != 1 || got.Breaches[0].Ratio != c.ratio || got.Decides() != c.decides {
			t.Errorf("%+v: %+v, want %s", j, got.Breaches, c.ratio)
		}
	}
	at, beyond := base, base
	at.Wall, beyond.Wall = 3, 3
	at.Diameter, beyond.Diameter = 150, 200
	a, b := capacity(t, at), capacity(t, beyond)
	if a.Outward != b.Outward || a.Moment != b.Moment || a.Inward != b.Inward {
		t.Errorf("beyond the limit %+v, at it %+v", b, a)
	}
}

// TestErrors: what is no joint is an error.
func TestErrors(t *testing.T) {
	base := shell.Joint{Radius: 150, Wall: 1.5, Diameter: 60, Tube: 1.5, Strength: 160}
	for _, change := range []func(*shell.Joint){
		func(j *shell.Joint) { j.Radius = 0 },
		func(j *shell.Joint) { j.Wall = math.NaN() },
		func(j *shell.Joint) { j.Wall = 200 },
		func(j *shell.Joint) { j.Diameter = 301 },
		func(j *shell.Joint) { j.Tube = 0 },
		func(j *shell.Joint) { j.Strength = -1 },
		func(j *shell.Joint) { j.TubeStrength = -1 },
	} {
		j := base
		change(&j)
		if c, err := j.Capacity(); err == nil {
			t.Errorf("%+v has %+v", j, c)
		}
	}
}

// joint returns a joint of any proportions that is a joint at all.
func joint(rng *rand.Rand) shell.Joint {
	r := 20 * math.Exp(4*rng.Float64())
	return shell.Joint{
		Radius: r, Wall: r * math.Exp(-6*rng.Float64()), Diameter: 2 * r * rng.Float64(), Tube: 0.3 + 4*rng.Float64(),
		Strength: 50 + 300*rng.Float64(), Rim: rng.IntN(4) == 0,
	}
}

// TestMonotone: a thicker ball, a thicker tube, a stronger metal or a wider tube
// never carries less.
func TestMonotone(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	for range 5000 {
		j := joint(rng)
		was, err := j.Capacity()
		if err != nil {
			continue
		}
		for name, change := range map[string]func(*shell.Joint){
			"wall":     func(j *shell.Joint) { j.Wall *= 1.05 },
			"tube":     func(j *shell.Joint) { j.Tube *= 1.05 },
			"strength": func(j *shell.Joint) { j.Strength *= 1.05 },
			"diameter": func(j *shell.Joint) { j.Diameter *= 1.05 },
		} {
			k := j
			change(&k)
			now, err := k.Capacity()
			if err != nil {
				continue
			}
			const rounding = 1 - 1e-12
			for _, v := range [][2]float64{
				{now.Outward, was.Outward}, {now.Inward, was.Inward}, {now.Moment, was.Moment}, {now.Shear, was.Shear}, {now.Torque, was.Torque},
			} {
				if v[0] < rounding*v[1] {
					t.Errorf("%+v: more %s carries less: %v after %v", j, name, v[0], v[1])
				}
			}
		}
		if was.Inward > was.Outward || was.KappaInward > was.Kappa {
			t.Errorf("%+v: inward %v above outward %v", j, was.Inward, was.Outward)
		}
	}
}

// TestDoubler: a doubled wall carries more at the ring than the wall alone, and less
// than one as thick as both; its edge is a bare rim on the ball's own wall.
func TestDoubler(t *testing.T) {
	j := shell.Joint{Radius: 150, Wall: 1.5, Diameter: 60, Tube: 1.5, Strength: 160}
	ring, edge, err := j.With(shell.Doubler{Diameter: 120, Wall: 1.5})
	require.NoError(t, err)
	solid := j
	solid.Wall = 3
	alone, doubled, both, rim := capacity(t, j), capacity(t, ring), capacity(t, solid), capacity(t, edge)
	if !(alone.Moment < doubled.Moment && doubled.Moment < both.Moment) {
		t.Errorf("moment %v alone, %v doubled, %v solid", alone.Moment, doubled.Moment, both.Moment)
	}
	if rim.Kappa != 0 || edge.Diameter != 120 || edge.Wall != 1.5 || rim.Moment < alone.Moment {
		t.Errorf("edge %+v carries %+v", edge, rim)
	}
	if _, _, err := j.With(shell.Doubler{Diameter: 60, Wall: 1.5}); err == nil {
		t.Error("a doubler no wider than the tube passes")
	}
}

// FuzzJoint: no joint gives a number that is not one.
func FuzzJoint(f *testing.F) {
	f.Add(150., 1.5, 60., 1.5, 167., 0., false)
	f.Add(150., 150., 300., 1e-3, 1e7, 1e-3, true)
	f.Add(1e6, 1e-3, 2e6, 1e6, 1e-3, 1e7, false)
	f.Add(1e-3, 1e-3, 1e-3, 1e6, 1e-3, 1e7, false)
	f.Fuzz(func(t *testing.T, r, wall, d, tube, strength, other float64, rim bool) {
		j := shell.Joint{Radius: r, Wall: wall, Diameter: d, Tube: tube, Strength: strength, TubeStrength: other, Rim: rim}
		if c, err := j.Capacity(); err == nil {
			worked.Finite(t, c)
			worked.Finite(t, c.Use(shell.Load{Force: -1e3, Moment: 1e5, Shear: 10, Torque: -5}))
			for _, x := range []float64{c.Outward, c.Inward, c.Moment, c.Shear, c.Torque} {
				if !(x > 0) {
					t.Fatalf("%+v carries %+v", j, c)
				}
			}
		}
		if s, err := j.Springs(strength * 1e3); err == nil {
			worked.Finite(t, s)
			worked.Finite(t, s.Series(s))
		}
		if s, err := j.Ring(200e3); err == nil {
			worked.Finite(t, s)
		}
		if ring, edge, err := j.With(shell.Doubler{Diameter: 1.5 * d, Wall: wall}); err == nil {
			worked.Finite(t, [2]shell.Joint{ring, edge})
		}
	})
}
