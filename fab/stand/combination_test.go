package stand_test

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"stabile/fab/check"
	"stabile/fab/internal/worked"
	"stabile/fab/stand"
	"stabile/param/design"
)

// sixDigits is the relative error of a value printed to six significant digits.
const sixDigits = 5.1e-6

func agree(got, want float64) bool { return math.Abs(got-want) <= sixDigits*math.Abs(want) }

// TestCombinationTips holds the combinations against worked case K18.
func TestCombinationTips(t *testing.T) {
	var in struct {
		Strength float64 `json:"M_strength_Nm"`
		Char     float64 `json:"M_char50_Nm"`
	}
	var out struct {
		Restoring float64 `json:"restoring_Nm"`
		LRFD      float64 `json:"LRFD_use"`
		ASD       float64 `json:"ASD_use"`
		EQU       float64 `json:"EQU_use"`
		L         float64 `json:"min_ratio_LRFD_vs_strength"`
		A         float64 `json:"min_ratio_ASD_vs_strength"`
		E         float64 `json:"min_ratio_EQU_vs_char"`
	}
	worked.Read(t, "K18", &in, &out)
	for _, c := range []struct {
		c                stand.Combination
		load, use, least float64
	}{
		{stand.StrengthDesign, in.Strength, out.LRFD, out.L},
		{stand.AllowableStress, in.Strength, out.ASD, out.A},
		{stand.Equilibrium, in.Char, out.EQU, out.E},
		{stand.Practice, 1, 1.5 / out.Restoring, 1.5},
	} {
		if got := c.c.Tips(c.load, 0, out.Restoring); !agree(got, c.use) {
			t.Errorf("%s: %v, want %v", c.c.Name, got, c.use)
		}
		if got := c.c.LeastFactor(); !agree(got, c.least) {
			t.Errorf("%s: least factor %v, want %v", c.c.Name, got, c.least)
		}
	}
}

// TestCombinationSlides holds them against worked case K19, whose g is 9.81.
func TestCombinationSlides(t *testing.T) {
	var in struct {
		Mass     float64 `json:"mass_kg"`
		Mu       float64
		Strength float64 `json:"H_strength_N"`
		Char     float64 `json:"H_char50_N"`
	}
	var out struct {
		LRFD   float64 `json:"LRFD_use"`
		ASD    float64 `json:"ASD_use"`
		EQU    float64 `json:"EQU_use"`
		Needed float64 `json:"mu_needed_LRFD"`
	}
	worked.Read(t, "K19", &in, &out)
	weight := 9.81 * in.Mass
	for _, c := range []struct {
		c         stand.Combination
		load, use float64
	}{{stand.StrengthDesign, in.Strength, out.LRFD}, {stand.AllowableStress, in.Strength, out.ASD}, {stand.Equilibrium, in.Char, out.EQU}} {
		if got := c.c.Slides(c.load, in.Mu, weight); !agree(got, c.use) {
			t.Errorf("%s: %v, want %v", c.c.Name, got, c.use)
		}
	}
	if got := stand.StrengthDesign.Slides(in.Strength, out.Needed, weight); !agree(got, 1) {
		t.Errorf("with the friction needed %v", got)
	}
}

// TestCombinationLimit: where the plain factor is the least one, the use is 1; weight
// that hangs over counts against; nothing that holds is Never.
func TestCombinationLimit(t *testing.T) {
	rng := rand.New(rand.NewPCG(9, 10))
	for _, m := range []design.WindMethod{design.ASCE7, design.EN1991, design.NoMethod} {
		for _, c := range stand.Combinations(m) {
			for range 100 {
				load := 1 + 100*rng.Float64()
				if got := c.Tips(load, 0, load*c.LeastFactor()); math.Abs(got-1) > 1e-12 {
					t.Errorf("%s: %v at its least factor", c.Name, got)
				}
				if got := c.Slides(load, 0.5, 2*load*c.LeastSliding()); math.Abs(got-1) > 1e-12 {
					t.Errorf("%s: %v at its least sliding", c.Name, got)
				}
				if c.Tips(load, load, 10*load) <= c.Tips(load, 0, 10*load) {
					t.Errorf("%s: weight that hangs over does not count", c.Name)
				}
			}
			if c.Tips(1, 0, 0) != check.Never || c.Slides(1, 0.3, -5) != check.Never || c.Tips(0, 0, 0) != 0 || c.Tips(0, 0, -1) != 0 {
				t.Errorf("%s: nothing that holds", c.Name)
			}
		}
	}
}

// A piece with 49 N m to hold it up meets a wind of 40 N m at strength level, by 0.9 x
// 49 = 44.1 against 40; a wind of 50 years may be no more than 0.9 x 49 / 1.5 = 29.4.
func ExampleCombination() {
	fmt.Printf("%.2f %.2f\n", stand.StrengthDesign.Tips(40, 0, 49), stand.Equilibrium.Tips(29.4, 0, 49))
	// Output: 0.91 1.00
}
