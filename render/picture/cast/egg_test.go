package cast

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/written"
)

// TestEgg casts rays at eggs of every build and compares where they come in, and which way the
// outside faces there, with the bodies that the blanks are trimmed to.
func TestEgg(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 65))
	unit := func() r3.Vec {
		return r3.Unit(r3.Vec{X: rnd.NormFloat64(), Y: rnd.NormFloat64(), Z: rnd.NormFloat64()})
	}
	for n := range 60 {
		wide := 100 + 300*rnd.Float64()
		d := written.Design(t, fmt.Sprintf(`units mm
metal skin { alloy low-carbon-steel, thickness %.3f }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { disc 1500, metal slab }
ball egg on pad { diameter %.3f, tall %.3f, pole %.4f rad toward %.4f rad, %s, metal skin }
`, 0.5+rnd.Float64(), wide, wide*(0.55+1.4*rnd.Float64()), 3*rnd.Float64(), 6*rnd.Float64(),
			[]string{"halves", "zones 5", "gores 7", "gores 9, bend domed", "gores 8, caps 30", "gores 8, bend domed, caps 40"}[n%6]))
		p := d.Part("egg")
		body := solid.New(p, [2][]r3.Vec{})
		s := ballSolid(0, body)
		for range 200 {
			r := Ray{From: r3.Add(p.Ball.Center, r3.Scale(3*wide, unit()))}
			r.Along = r3.Unit(r3.Sub(r3.Add(p.Ball.Center, r3.Scale(wide*rnd.Float64(), unit())), r.From))
			enter, leave, hit := body.Span(r.From, r.Along)
			at, face, ok := s.Meet(&r)
			if ok != hit {
				if leave-enter > 1e-3 {
					t.Errorf("%d: meets %v, want %v", n, ok, hit)
				}
				continue
			}
			if !ok {
				continue
			}
			if math.Abs(at-enter) > 1e-6*wide {
				t.Errorf("%d: meets at %v, want %v", n, at, enter)
			}
			x := r.At(at)
			normal := s.Normal(x, face)
			if away := s.Away(r3.Add(x, r3.Scale(0.01, normal))); face != Upper && face != Lower && math.Abs(away-0.01) > 1e-4 { // which leaves flats out
				t.Errorf("%d: 0.01 out along its normal it is %v away", n, away)
			}
			// Beside the point, in its plane, the outside is as near as it bends.
			side := r3.Unit(r3.Cross(normal, unit()))
			if off := math.Abs(body.Distance(r3.Add(x, r3.Scale(0.001, side)))); off > 1e-5 && body.Distance(r3.Add(x, r3.Scale(-0.001, side))) > -1e-5 {
				t.Errorf("%d: %v off beside the point", n, off)
			}
			// What the cone of a ray that misses it by little covers.
			if c := s.Cover(r.From, r.Along, 1e-6); c < 0.99 && leave-enter > 0.05*wide {
				t.Errorf("%d: covers %v of a ray that meets it", n, c)
			}
			if h := s.Hides(r3.Add(x, r3.Scale(-0.5, r.Along)), r3.Scale(-1, normal)); !(h >= 0 && h <= 1+1e-9) {
				t.Errorf("%d: hides %v", n, h)
			}
		}
	}
}
