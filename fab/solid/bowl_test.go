package solid

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/written"
)

// TestBowlOutline compares the area of a bowl's outline and the middle of what it encloses
// with lines of sight through it.
func TestBowlOutline(t *testing.T) {
	rng := rand.New(rand.NewPCG(16, 3))
	for range 20 {
		wide := 100 + 300*rng.Float64()
		d := written.Design(t, fmt.Sprintf(`units mm
metal skin { alloy low-carbon-steel, thickness 1 }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { disc 1500, metal slab }
bowl dish on pad { diameter %.3f, depth %.3f, dished, tilt %.4f rad toward %.4f rad, metal skin }
`, wide, wide*(0.2+0.3*rng.Float64()), 0.3*rng.Float64(), 6*rng.Float64()))
		p := d.Part("dish")
		body := New(p, [2][]r3.Vec{})
		w := r3.Unit(r3.Vec{X: 2*rng.Float64() - 1, Y: 2*rng.Float64() - 1, Z: 2*rng.Float64() - 1})
		x, y := design.Tilt(w)
		const lines = 300
		step := 2 * p.Ball.Radius / lines
		var area, volume float64
		var first r3.Vec
		for i := range lines {
			for k := range lines {
				at := r3.Add(p.Ball.Center, r3.Add(r3.Scale((float64(i)+0.5)*step-p.Ball.Radius, x), r3.Scale((float64(k)+0.5)*step-p.Ball.Radius, y)))
				if enter, leave, ok := body.Span(at, w); ok {
					area += step * step
					volume += step * step * (leave - enter)
					first = r3.Add(first, r3.Scale(step*step*(leave-enter), r3.Add(at, r3.Scale((enter+leave)/2, w))))
				}
			}
		}
		side, head := body.Areas(w)
		if math.Abs(side/area-1) > 0.01 || head != 0 {
			t.Errorf("%v deep of %v: an area of %v, by lines of sight %v", p.Ball.Depth(), wide, side, area)
		}
		if off := r3.Norm(r3.Sub(body.Middle(), r3.Scale(1/volume, first))); off > 0.005*p.Ball.Radius {
			t.Errorf("%v deep of %v: the middle is %v off that by lines of sight", p.Ball.Depth(), wide, off)
		}
	}
}
