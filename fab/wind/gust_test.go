package wind_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab/internal/worked"
	"stabile/fab/wind"
)

// sixDigits is the relative error of a value printed to six significant digits.
const sixDigits = 5.1e-6

func agree(got, want, tolerance float64) bool {
	return math.Abs(got-want) <= tolerance*math.Abs(want)
}

// TestAnnexBPieces holds S_L, the admittances and R2 against worked case K20, which a
// public design guide prints to three digits.
func TestAnnexBPieces(t *testing.T) {
	var in struct {
		L, H, B, Delta float64
		F              float64 `json:"f_L"`
	}
	var out struct {
		S  float64 `json:"S_L"`
		E  float64 `json:"eta_h"`
		Rh float64 `json:"R_h"`
		Rb float64 `json:"R_b"`
		R2 float64 `json:"R2"`
	}
	worked.Read(t, "K20", &in, &out)
	s, eta := wind.SpectralDensity(in.F), 4.6*in.H*in.F/in.L
	rh, rb := wind.Admittance(eta), wind.Admittance(4.6*in.B*in.F/in.L)
	r2 := math.Pi * math.Pi * s * rh * rb / (2 * in.Delta)
	for _, v := range [][2]float64{{s, out.S}, {eta, out.E}, {rh, out.Rh}, {rb, out.Rb}, {r2, out.R2}} {
		if !agree(v[0], v[1], sixDigits) {
			t.Errorf("%v, want %v", v[0], v[1])
		}
	}
}

// TestAdmittance holds it against what it stands for, the double integral over 0 to 1
// of e^(-2 eta |x - y|), by the midpoint rule.
func TestAdmittance(t *testing.T) {
	for _, eta := range []float64{0, 1e-6, 0.99e-3, 1.01e-3, 0.1, 1, 7, 30} {
		const n = 1000
		sum := 0.0
		for i := range n {
			for j := range n {
				sum += math.Exp(-2 * eta * math.Abs(float64(i-j)) / n)
			}
		}
		// On the diagonal the midpoint rule has 1 where the cell's mean is 1 - 2/3
		// eta/n: at eta 30 that is 2 % of 1/n.
		if got := wind.Admittance(eta); math.Abs(got-sum/n/n) > 2*eta/n/n+1e-9 {
			t.Errorf("Admittance(%v) = %v, want %v", eta, got, sum/n/n)
		}
	}
}

// TestAnnexB holds c_s c_d and its terms against worked cases K21 and K22.
func TestAnnexB(t *testing.T) {
	for _, id := range []string{"K21", "K22"} {
		var in struct {
			H, B, N, Cf, Vb, Ds float64
			Mass                float64 `json:"m_e"`
		}
		var out struct {
			Zs     float64 `json:"z_s"`
			Vm     float64 `json:"v_m"`
			Iv     float64 `json:"I_v"`
			L      float64
			FL     float64 `json:"f_L"`
			SL     float64 `json:"S_L"`
			B2     float64
			DeltaA float64 `json:"delta_a"`
			Delta  float64
			Rh     float64 `json:"R_h"`
			Rb     float64 `json:"R_b"`
			R2     float64
			Nu     float64
			Kp     float64 `json:"k_p"`
			Cs     float64 `json:"c_s"`
			Cd     float64 `json:"c_d"`
			CsCd   float64
		}
		worked.Read(t, id, &in, &out)
		g, err := wind.GustByAnnexB(wind.Slender{Height: 1e3 * in.H, Width: 1e3 * in.B, Frequency: in.N}, "II", in.Vb, in.Mass, in.Cf, in.Ds)
		require.NoError(t, err)
		for i, v := range [][2]float64{
			{g.Zs, out.Zs}, {g.Vm, out.Vm}, {g.Iv, out.Iv}, {g.L, out.L}, {g.FL, out.FL}, {g.SL, out.SL}, {g.B2, out.B2}, {g.DeltaA, out.DeltaA},
			{g.Delta, out.Delta}, {g.Rh, out.Rh}, {g.Rb, out.Rb}, {g.R2, out.R2}, {g.Nu, out.Nu}, {g.Kp, out.Kp}, {g.Cs, out.Cs}, {g.Cd, out.Cd}, {g.CsCd, out.CsCd},
		} {
			if !agree(v[0], v[1], sixDigits) {
				t.Errorf("%s, term %d: %v, want %v", id, i, v[0], v[1])
			}
		}
		if g.Rigid {
			t.Errorf("%s is taken as rigid", id)
		}
	}
}

// TestGust holds G and G_f of ASCE 7 against worked cases K23 and K24, in US units and
// by the metric constants, which are rounded.
func TestGust(t *testing.T) {
	for id, exposure := range map[string]string{"K23": "C", "K24": "B"} {
		var in struct {
			H    float64 `json:"h_ft"`
			B    float64 `json:"B_ft"`
			L    float64 `json:"L_ft"`
			N    float64 `json:"n1"`
			Beta float64
			V    float64 `json:"V_mph"`
		}
		var out struct {
			Z     float64 `json:"z_bar"`
			Iz    float64 `json:"I_z"`
			Lz    float64 `json:"L_z"`
			Q     float64
			Vz    float64 `json:"V_z"`
			N1    float64
			Rn    float64 `json:"R_n"`
			R     float64
			GR    float64 `json:"g_R"`
			Rigid float64 `json:"G_rigid"`
			G     float64 `json:"G_f"`
		}
		var check struct {
			G     float64 `json:"G_f_metric"`
			Rigid float64 `json:"G_rigid_metric"`
		}
		worked.ReadCheck(t, id, &in, &out, &check)
		const foot, mph = 304.8, 0.44704
		g, err := wind.Gust(wind.Slender{Height: foot * in.H, Width: foot * in.B, Depth: foot * in.L, Frequency: in.N}, exposure, mph*in.V, in.Beta)
		require.NoError(t, err)
		for i, v := range [][2]float64{
			{g.Z, out.Z}, {g.Iz, out.Iz}, {g.Lz, out.Lz}, {g.Q, out.Q}, {g.Vz, out.Vz}, {g.N1, out.N1}, {g.Rn, out.Rn}, {g.R, out.R}, {g.GR, out.GR},
			{g.Rigid, out.Rigid}, {g.Flexible, out.G}, {g.G, out.G},
		} {
			if !agree(v[0], v[1], sixDigits) {
				t.Errorf("%s, term %d: %v, want %v", id, i, v[0], v[1])
			}
		}
		const metric = 2e-4
		if !agree(g.Flexible, check.G, metric) || !agree(g.Rigid, check.Rigid, metric) {
			t.Errorf("%s: %v and %v, by metric constants %+v", id, g.Flexible, g.Rigid, check)
		}
	}
}

// TestGustProperties: a stiffer piece is never worse off, more damping never worse, and
// from 1 Hz on it is rigid and not below 0.85.
func TestGustProperties(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 6))
	for range 2000 {
		s := wind.Slender{Height: 500 + 8000*rng.Float64(), Width: 50 + 2000*rng.Float64(), Depth: 50 + 2000*rng.Float64(), Frequency: 0.2 + 10*rng.Float64()}
		exposure, terrain := string("BCD"[rng.IntN(3)]), []string{"0", "I", "II", "III", "IV"}[rng.IntN(5)]
		speed, damping := 15+40*rng.Float64(), 0.003+0.05*rng.Float64()
		g, err := wind.Gust(s, exposure, speed, damping)
		require.NoError(t, err)
		e, err := wind.GustByAnnexB(s, terrain, speed, 5+50*rng.Float64(), 1.2, damping)
		require.NoError(t, err)
		if s.Frequency >= 1 && (g.G < 0.85 || g.G != max(0.85, g.Rigid)) {
			t.Errorf("%+v: %+v", s, g)
		}
		more, err := wind.Gust(s, exposure, speed, 2*damping)
		require.NoError(t, err)
		stiffer := s
		stiffer.Frequency *= 1.5
		stiff, err := wind.Gust(stiffer, exposure, speed, damping)
		require.NoError(t, err)
		if more.Flexible > g.Flexible || stiff.R > g.R {
			t.Errorf("%+v: damped %v, stiff %v, was %+v", s, more.Flexible, stiff.R, g)
		}
		if e.CsCd <= 0.5 || e.Cs > 1 || e.Cd < e.Cs*0.8 {
			t.Errorf("%+v: %+v", s, e)
		}
	}
}

// FuzzGust: nothing gives a number that is not one.
func FuzzGust(f *testing.F) {
	f.Add(3000., 400., 400., 3., 26., 20., 1.2, 0.012, uint8(2))
	f.Add(1e6, 1e-3, 0., 0.01, 0.1, 1e-3, 100., 1e-4, uint8(4))
	f.Add(1e-3, 1e6, 1e6, 1e5, 300., 1e9, 0., 1., uint8(0))
	f.Fuzz(func(t *testing.T, h, b, l, n, v, m, c, d float64, ground uint8) {
		s := wind.Slender{Height: h, Width: b, Depth: l, Frequency: n}
		if g, err := wind.Gust(s, string("BCD"[ground%3]), v, d); err == nil {
			worked.Finite(t, g)
		}
		if g, err := wind.GustByAnnexB(s, []string{"0", "I", "II", "III", "IV"}[ground%5], v, m, c, d); err == nil {
			worked.Finite(t, g)
		}
		if f, err := wind.Round(wind.Surface(ground%3), n, b, v); err == nil {
			worked.Finite(t, f)
		}
		if k, err := (wind.Rise{Shape: wind.Shape(ground % 3), Exposure: "C", Height: h, HalfLength: b, Beyond: c}).Topography(l); err == nil {
			worked.Finite(t, k)
		}
		if x, err := (wind.Ice{Nominal: c, Importance: m, Hill: n}).Thickness(h); err == nil {
			worked.Finite(t, x)
		}
	})
}

// A piece 3 m high and 0.4 m wide that sways at 3 Hz, in terrain II: the gusts and its
// swaying in them come to a quarter more than the peak pressure by itself.
func ExampleGustByAnnexB() {
	g, err := wind.GustByAnnexB(wind.Slender{Height: 3000, Width: 400, Frequency: 3}, "II", 26, 20, 1.2, wind.SteelDamping)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("c_s %.2f, c_d %.2f, c_s c_d %.2f\n", g.Cs, g.Cd, g.CsCd)
	// Output: c_s 0.93, c_d 1.33, c_s c_d 1.24
}
