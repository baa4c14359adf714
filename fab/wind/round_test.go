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

// TestRound holds the force on round posts against worked case K43, and each against a
// scan of all pressures below, to the scan's step.
func TestRound(t *testing.T) {
	var out struct {
		Rows []struct {
			D, Q      float64
			H         float64 `json:"h_over_D"`
			Threshold float64 `json:"q_threshold_Pa"`
			Low       float64 `json:"C_low"`
			High      float64 `json:"C_high"`
			Force     float64 `json:"qCf_safe"`
			C         float64 `json:"Cf_safe"`
		}
	}
	var check struct {
		Scan []float64 `json:"scan_max"`
	}
	worked.ReadCheck(t, "K43", nil, &out, &check)
	for i, row := range out.Rows {
		f, err := wind.Round(wind.Rough, row.H, 1e3*row.D, row.Q)
		require.NoError(t, err)
		for _, v := range [][2]float64{{f.Low, row.Low}, {f.High, row.High}, {f.Threshold, row.Threshold}, {f.Pressure, row.Force}, {f.C, row.C}} {
			if !agree(v[0], v[1], sixDigits) {
				t.Errorf("row %d: %+v, want %+v", i, f, row)
			}
		}
		if !agree(f.Pressure, check.Scan[i], 1e-5) {
			t.Errorf("row %d: %v, by scanning %v", i, f.Pressure, check.Scan[i])
		}
	}
}

// TestRoundNeverFalls sweeps 10,000 posts and speeds: the force never falls as the
// speed rises, and never jumps as the post grows.
func TestRoundNeverFalls(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 8))
	force := func(s wind.Surface, h, d, q float64) float64 {
		f, err := wind.Round(s, h/d, d, q)
		require.NoError(t, err)
		return f.Pressure * d
	}
	for range 10000 {
		s := wind.Surface(rng.IntN(3))
		h, d, v := 200+3000*rng.Float64(), 10+500*rng.Float64(), 5+60*rng.Float64()
		q := 0.613 * v * v
		now := force(s, h, d, q)
		if faster := force(s, h, d, q*(1+rng.Float64())); faster < now*(1-1e-12) {
			t.Errorf("surface %v, %v x %v mm: %v at %v Pa, %v at more", s, h, d, now, q, faster)
		}
		// A step of a millionth in size gives one of a few millionths in force.
		if wider := force(s, h, d*(1+1e-6), q); math.Abs(wider-now) > 5e-6*now {
			t.Errorf("surface %v, %v x %v mm: jumps from %v to %v", s, h, d, now, wider)
		}
	}
}

// TestRoundColumns: the columns of the figure come out of its table.
func TestRoundColumns(t *testing.T) {
	for _, c := range []struct {
		surface            wind.Surface
		slender, low, high float64
	}{
		{wind.ModeratelySmooth, 1, 0.7, 0.5}, {wind.ModeratelySmooth, 7, 0.8, 0.6}, {wind.ModeratelySmooth, 25, 1.2, 0.7},
		{wind.Rough, 0, 0.7, 0.7}, {wind.Rough, 16, 1.0, 0.85}, {wind.Rough, 100, 1.2, 0.9},
		{wind.VeryRough, 4, 0.75, 0.9}, {wind.VeryRough, 25, 1.2, 1.2},
	} {
		if low, high := wind.RoundCoefficients(c.surface, c.slender); !agree(low, c.low, 1e-12) || !agree(high, c.high, 1e-12) {
			t.Errorf("%+v: %v and %v", c, low, high)
		}
	}
}

// TestTopography holds K_zt against worked case K25, a hill at its crest.
func TestTopography(t *testing.T) {
	var in struct {
		H    float64
		Half float64 `json:"L_h"`
		X, Z float64
	}
	var out struct {
		K1, K2, K3 float64
		K          float64 `json:"K_zt"`
	}
	worked.Read(t, "K25", &in, &out)
	k, err := wind.Rise{Shape: wind.Hill, Exposure: "C", Height: 1e3 * in.H, HalfLength: 1e3 * in.Half, Beyond: 1e3 * in.X}.Topography(1e3 * in.Z)
	require.NoError(t, err)
	for _, v := range [][2]float64{{k.K1, out.K1}, {k.K2, out.K2}, {k.K3, out.K3}, {k.Factor, out.K}} {
		if !agree(v[0], v[1], sixDigits) {
			t.Errorf("%+v, want %+v", k, out)
		}
	}
}

// TestTopographyProperties: no hill is no factor, far from the crest neither; downwind of
// an escarpment it reaches farther; a steeper hill than 1 in 2 is one of 1 in 2 that is
// as high; the wind is never less than on level ground.
func TestTopographyProperties(t *testing.T) {
	factor := func(r wind.Rise, z float64) float64 {
		k, err := r.Topography(z)
		require.NoError(t, err)
		return k.Factor
	}
	const m = 1e3
	for shape := range wind.Shape(3) {
		for _, exposure := range []string{"B", "C", "D"} {
			r := wind.Rise{Shape: shape, Exposure: exposure, Height: 20 * m, HalfLength: 80 * m}
			flat, far, steep, limit := r, r, r, r
			flat.Height, far.Beyond = 0, 400*m
			steep.HalfLength, limit.HalfLength = 10*m, 40*m
			if factor(flat, 3*m) != 1 || factor(far, 3*m) != 1 {
				t.Errorf("%+v: %v flat, %v far", r, factor(flat, 3*m), factor(far, 3*m))
			}
			if a, b := factor(steep, 3*m), factor(limit, 3*m); !agree(a, b, 1e-12) {
				t.Errorf("%+v: %v steep, %v at the limit", r, a, b)
			}
			was := factor(r, 0)
			for z := m; z < 50*m; z += m {
				if now := factor(r, z); now > was || now < 1 {
					t.Errorf("%+v: %v at %v after %v", r, now, z, was)
				} else {
					was = now
				}
			}
		}
	}
	r := wind.Rise{Shape: wind.Escarpment, Exposure: "C", Height: 20 * m, HalfLength: 80 * m, Beyond: 100 * m}
	up := r
	up.Beyond = -100 * m
	if factor(r, 3*m) <= factor(up, 3*m) {
		t.Error("an escarpment reaches no farther downwind")
	}
	if k, _ := (wind.Rise{Shape: wind.Hill, Exposure: "C", Height: 10 * m, HalfLength: 80 * m}).Topography(0); !k.Mild {
		t.Error("1 in 8 is not mild")
	}
	for _, bad := range []wind.Rise{{Shape: 3, Exposure: "C", HalfLength: m}, {Exposure: "A", HalfLength: m}, {Exposure: "C"}} {
		if k, err := bad.Topography(0); err == nil {
			t.Errorf("%+v has %+v", bad, k)
		}
	}
}

// TestOrography: 1 on level ground, rising with the slope, and without a jump of more
// than what the slope itself gives.
func TestOrography(t *testing.T) {
	for _, c := range [][3]float64{{0.04, 1, 1}, {0.1, 1, 1.2}, {0.25, 0.5, 1.25}, {0.3, 1, 1.6}, {2, 1, 1.6}, {2, 0, 1}} {
		if got, err := wind.Orography(c[0], c[1]); err != nil || !agree(got, c[2], 1e-12) {
			t.Errorf("Orography(%v, %v) = %v, %v, want %v", c[0], c[1], got, err, c[2])
		}
	}
	if _, err := wind.Orography(0.1, 2); err == nil {
		t.Error("a place factor of 2 passes")
	}
}

// TestIce holds ice on a post and a ball against worked case K40.
func TestIce(t *testing.T) {
	var in struct {
		Nominal float64 `json:"t_nom"`
		I       float64 `json:"I_i"`
		Z       float64 `json:"z_ft"`
		Hill    float64 `json:"K_zt"`
		D       float64
		Ball    float64 `json:"R_ball"`
	}
	var out struct {
		T     float64 `json:"t_d"`
		Area  float64 `json:"A_i_mm2"`
		Mass  float64 `json:"kg_per_m"`
		Code  float64 `json:"ball_kg_code"`
		Shell float64 `json:"ball_kg_full_shell"`
		Width float64 `json:"wind_width_post"`
	}
	worked.Read(t, "K40", &in, &out)
	thick, err := wind.Ice{Nominal: in.Nominal, Importance: in.I, Hill: in.Hill}.Thickness(304.8 * in.Z)
	require.NoError(t, err)
	mass, width := wind.IceOnTube(in.D, thick)
	ball, across := wind.IceOnBall(in.Ball, thick)
	for _, v := range [][2]float64{{thick, out.T}, {mass, out.Mass}, {mass / wind.IceDensity * 1e6, out.Area}, {width, out.Width}, {ball, out.Shell}, {across, 2 * (in.Ball + thick)}} {
		if !agree(v[0], v[1], sixDigits) {
			t.Errorf("%v, want %v", v[0], v[1])
		}
	}
	if code := math.Pi * thick * math.Pi * in.Ball * in.Ball * wind.IceDensity * 1e-9; !agree(code, out.Code, sixDigits) || ball < 1.45*code {
		t.Errorf("by the code %v, want %v; a shell is %v", code, out.Code, ball)
	}
	for category, want := range map[int]float64{1: 0.8, 2: 1, 3: 1.25, 4: 1.25} {
		if got, err := wind.IceImportance(category); err != nil || got != want {
			t.Errorf("IceImportance(%d) = %v, %v", category, got, err)
		}
	}
	if _, err := wind.IceImportance(0); err == nil {
		t.Error("category 0 passes")
	}
	if high, err := (wind.Ice{Nominal: 10, Importance: 1}).Thickness(1e6); err != nil || high != 14 {
		t.Errorf("a kilometre up %v, %v, want 1.4 x 10", high, err)
	}
}

// A post of 190 mm at h/D 25 in 842 Pa is past the threshold of (5.3 / 0.19)2 = 778 Pa.
// The figure's 0.9 would give 758 N/m2; at 778 Pa it had 1.2 x 778 = 934, which stays.
func ExampleRound() {
	f, err := wind.Round(wind.Rough, 25, 190, 842)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f N/m2, C_f %.2f\n", f.Pressure, f.C)
	// Output: 934 N/m2, C_f 1.11
}
