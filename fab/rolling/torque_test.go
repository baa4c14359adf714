package rolling

import (
	"testing"

	"stabile/fab/flat"
)

// TestTorque holds the torque of a batch against the work that each pass puts into
// the sheet. Bent once to the curvature k and let go, a strip that yields at the
// curvature k0 = 2 Y / (E t) and at the most carries the moment m = Y t2 / 4 has taken,
// by the area between the moment and its springing back,
//
//	m (k - k0 + k0^2 / 3k) - 3/4 m k0 (1 - (k0/k)^2 / 3)^2
//
// for each mm2; the first pass takes this from flat, the others what is more than the
// pass before. The pinch rolls, of 25.4 mm radius, feed 25.4 mm of the widest piece
// for each radian, so that their torque is the work x 25.4 x its width.
func TestTorque(t *testing.T) {
	m := metal("low-carbon-steel", 18, 0)
	for _, tt := range []struct {
		name   string
		blanks []flat.Blank
		width  float64
	}{
		{"two tubes", []flat.Blank{tube("spur", m, 150, 300), tube("mast", m, 150, 500)}, 500},
		{"tight tube", []flat.Blank{tube("reed", m, 90, 400)}, 400},
		// The passes are moved to notches of the screws: here the third asks for most.
		{"full width", []flat.Blank{tube("trunk", m, 120, 1200)}, 1200},
		{"taper", []flat.Blank{taper("horn", m, 75, 60, 400)}, 400},
	} {
		p := NewPlan(tt.blanks, &design2in, Options{})
		if len(p.Batches) != 1 || !p.Batches[0].Set || len(p.Batches[0].Passes) < 3 {
			t.Fatalf("%s: %+v, %v", tt.name, p.Batches, p.Findings)
		}
		b := &p.Batches[0]
		s := stripOf(&b.Pieces[0])
		k0, moment := 2*s.Yield/(s.Modulus*s.Thickness), s.Yield*s.Thickness*s.Thickness/4
		most, before, at := 0.0, 0.0, 0
		for i, pass := range b.Passes {
			k := max(1/pass.Edges[0].Loaded, 1/pass.Edges[1].Loaded)
			x := k0 / k
			work := moment * (k - k0 + k0*x/3 - 0.75*k0*(1-x*x/3)*(1-x*x/3))
			if work-before > most {
				most, at = work-before, i
			}
			before = work
		}
		if want := most * 25.4 * tt.width; !near(b.Torque, want, 1e-9) {
			t.Errorf("%s: %v N mm, want %v", tt.name, b.Torque, want)
		}
		if early := tt.width == 1200; early != (at < len(b.Passes)-1) {
			t.Errorf("%s: pass %d of %d asks for most", tt.name, at+1, len(b.Passes))
		}
	}
}
