package fab

import (
	"fmt"
	"math"
	"testing"

	"stabile/fab/rolling"
)

// TestSpikeSways compares the lowest frequency of a thin cone that stands on its foot with
// that of a wedge, whose sections grow in the same way, area with the distance from the
// point and second moment with its cube: 5.315 / L2 sqrt(E I / rho A), with the figures of
// the foot (Kirchhoff 1879; from memory).
func TestSpikeSways(t *testing.T) {
	const thick, wide, long = 0.5, 100.0, 3000.0
	j := buildWith(t, fmt.Sprintf(`units mm
metal skin { alloy low-carbon-steel, thickness %v }
metal slab { alloy low-carbon-steel, thickness 200 }
base pad { plate 2000 by 2000, metal slab }
post spike on pad { diameter %v to 0, length %v, metal skin }
site { wind 1 m/s, exposure C, method asce7 }
`, thick, wide, long), Everything)
	m := j.Parts[indexOf(j, "spike")].Metal
	r := (wide - thick) / 2
	inertia, area := math.Pi*r*r*r*thick, 2*math.Pi*r*thick
	want := 5.315 / (long * long) * math.Sqrt(m.Modulus*inertia/(m.Density*1e-12*area)) / (2 * math.Pi)
	// The sheet ends before the point, and the beams of a taper are few.
	if got := j.Strength.Modes[0].Frequency; math.Abs(got/want-1) > 0.005 {
		t.Errorf("%.3f Hz, a wedge has %.3f Hz", got, want)
	} else {
		t.Logf("%.3f Hz, a wedge has %.3f Hz", got, want)
	}
}

// TestSpikeRolls refuses the narrow edge of a cone with a point as tighter than the rolls,
// not as a size that is no number: its inside closes there.
func TestSpikeRolls(t *testing.T) {
	for _, end := range []string{"100 to 0", "60 to 0"} {
		j := buildWith(t, `units mm
metal skin { alloy low-carbon-steel, thickness 2 }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { plate 600 by 600, metal slab }
post mast on pad { diameter 40, length 300, metal skin }
ball moon on mast { diameter 200, halves, metal skin }
post spike on moon { diameter `+end+`, length 400, metal skin }
`, Everything)
		seen := 0
		for _, f := range j.Plan.Rolling.Findings {
			refused, ok := f.Fact.(rolling.Refused)
			if !ok || f.Parts[0] != "spike" {
				continue
			}
			seen++
			if tight, ok := refused.Why[0].(rolling.TooTight); !ok || !tight.Cone || tight.Outside > 5 {
				t.Errorf("%s: refused for %#v, want an edge of less than 5 mm", end, refused.Why)
			}
		}
		if seen != 1 {
			t.Errorf("%s: refused %d times", end, seen)
		}
	}
}
