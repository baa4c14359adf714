package fab

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"stabile/param/quantity"
)

// TestBallast lays the ballast that is advised on random designs: the target is then reached,
// and the step before it falls short.
func TestBallast(t *testing.T) {
	rnd := rand.New(rand.NewPCG(14, 12))
	advised := 0
	for range 150 {
		units, mass := "mm", "kg"
		if rnd.IntN(2) == 0 {
			units, mass = "inch", "lb"
		}
		text := func(ballast float64) string {
			return fmt.Sprintf(`units %s
metal skin { alloy low-carbon-steel, thickness 2 mm }
metal slab { alloy low-carbon-steel, thickness 10 mm }
base pad { plate 500 mm by 400 mm, metal slab, ballast %.9g %s }
post mast on pad { diameter 80 mm, length 1200 mm, lean 4 deg toward right, metal skin }
`, units, ballast, mass)
		}
		site := fmt.Sprintf("site { push %.1f N at 1 m, slope %.1f deg, wind 20 m/s, terrain II }\n", math.Exp(4+4*rnd.Float64()), 3*rnd.Float64())
		of := func(ballast float64) *Job { return buildWith(t, text(ballast)+site, 0) }
		j := of(0)
		if !(j.Tipping.Ballast > 0) {
			continue
		}
		advised++
		u, _ := j.Design.Units.UnitOf(quantity.Mass)
		more := j.Tipping.Ballast / u.Scale
		if math.Abs(more-math.Round(more)) > 1e-6 {
			t.Errorf("%v %s is no whole number", more, mass)
		}
		if k := of(more); !k.Tipping.Reached() {
			t.Errorf("with %v %s the factor is %v of %v\n%s", more, mass, k.Tipping.Factor, k.Tipping.Target, site)
		}
		step := 1.0
		for more > 1000*step {
			step *= 10
		}
		if k := of(more - 1.0001*step); k.Tipping.Reached() {
			t.Errorf("%v %s less than %v would do", step, mass, more)
		}
	}
	if advised < 60 {
		t.Errorf("ballast was advised for only %d", advised)
	}
}
