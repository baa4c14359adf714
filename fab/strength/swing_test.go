package strength_test

import (
	"fmt"
	"math"
	"testing"

	"stabile/fab"
	"stabile/fab/strength"
	"stabile/param/written"
)

// sheds returns when eddies leave the parts of a design, by their names, and what it
// weighs above its base in kg, welds included.
func sheds(t *testing.T, text string) (all map[string]strength.Shedding, mass float64) {
	t.Helper()
	j, list := fab.Build(written.Design(t, written.Metric+text), fab.Everything)
	if err := list.Err(); err != nil {
		t.Fatal(err)
	}
	all = map[string]strength.Shedding{}
	for _, sh := range j.Strength.Shedding {
		all[sh.Part.Name] = sh
	}
	for _, it := range j.Strength.Frame.Items {
		if it.Part.Base == nil {
			mass += it.Mass
		}
	}
	return all, mass
}

// TestTakesPart holds which mode a part is taken to hum in: the lowest in which it
// moves by a tenth of the most or more. In the first mode of a clamped tube (Blevins,
// Formulas for Natural Frequency and Mode Shape, Table 8-1: 3.51602 for (beta L)2)
// half way up moves 0.3395 of the tip and 0.26 of the way up 0.1047; a fifth of the way
// up it is 0.0639, and a quarter 0.0973, but in the second (22.0345) 0.301 and 0.42.
func TestTakesPart(t *testing.T) {
	const first, second = 3.51602, 22.0345
	for _, tt := range []struct{ share, coefficient float64 }{{0.5, first}, {0.26, first}, {0.25, second}, {0.2, second}} {
		const length = 2000
		// A block so thick that it does not give.
		all, mass := sheds(t, fmt.Sprintf(`
metal block { alloy low-carbon-steel, thickness 200 }
base pad { plate 300 by 300, metal block }
post low on pad { diameter 60, length %v, metal skin }
post high on low { diameter 60, length %v, head open, metal skin }
site { push 10 N at 1 m }
`, length*tt.share, length*(1-tt.share)))
		low := all["low"]
		// sqrt(E I / m) over L2, in m, kg and s, where m is what a metre weighs
		// and I is pi / 64 (60^4 - 57^4) mm4.
		want := tt.coefficient / (2 * math.Pi) * math.Sqrt(200e9*118_010e-12/(mass/2)) / 4
		// Shear and the inertia of turning sections, which the closed form leaves out,
		// take some 0.1 % off the first and 1 % off the second.
		if low.Estimated || !near(low.Frequency, want, 0.015) {
			t.Errorf("%v of the way up: %+v, want %v Hz", tt.share, low, want)
		}
	}
}

// TestTaperSheds holds the width that eddies leave a taper by to its narrow end,
// which hums in the lowest wind: f b / S with b = 60 mm and S = 0.18 (EN 1991-1-4,
// Table E.1), whichever end stands below. A ball of 200 mm has 0.20.
func TestTaperSheds(t *testing.T) {
	all, _ := sheds(t, `
base pad { plate 900 by 900, metal slab }
post thin on pad { at (-200, 0), diameter 100 to 60, length 1500, metal skin }
post thick on pad { at (200, 0), diameter 60 to 100, length 1500, metal skin }
ball moon on thin { diameter 200, halves, metal skin }
site { wind 30 m/s, method asce7, exposure C }
`)
	for name, want := range map[string]struct{ width, strouhal float64 }{"thin": {60, 0.18}, "thick": {60, 0.18}, "moon": {200, 0.2}} {
		sh := all[name]
		critical := sh.Frequency * want.width / 1e3 / want.strouhal
		if sh.Width != want.width || sh.Strouhal != want.strouhal || !(sh.Frequency > 0) ||
			!near(sh.Critical, critical, 1e-12) || !(sh.Design > 0 && sh.Design < 30) || !near(sh.Of, critical/sh.Design, 1e-12) {
			t.Errorf("%s: %+v, want %v wide, %v and %v m/s", name, sh, want.width, want.strouhal, critical)
		}
	}
}
