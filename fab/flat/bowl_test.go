package flat

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/written"
)

// TestBowlsRollUp bends the pieces of random bowls back and measures: the outer edge of the
// rim lies on a circle of the diameter, in one plane, the depth above the bottom; chords of
// outlines lie on the curve within the chord that is allowed; and the pieces are as many as
// they are numbered.
func TestBowlsRollUp(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 2))
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	for n := range 200 {
		wide := between(100, 900)
		deep, thick := wide*between(0.15, 0.5), between(0.6, 2.5)
		built := []string{"gores %d", "gores %d, bend domed", "gores %d, caps 60", "gores %d, bend domed, caps 50", "gores %d, caps 50 round", "gores %d, edge mid"}[rnd.IntN(6)]
		d := written.Design(t, fmt.Sprintf(`units mm
metal skin { alloy low-carbon-steel, thickness %.4f }
base pad { plate 2000 by 2000, metal skin }
bowl dish on pad { diameter %.5f, depth %.5f, %s, tilt %.3f deg toward %.3f deg, metal skin }
`, thick, wide, deep, fmt.Sprintf(built, 5+rnd.IntN(16)), max(0, between(-10, 10)), between(0, 360)))
		made, wrong := All(d)
		if err := wrong.Err(); err != nil {
			t.Fatal(err)
		}
		p := d.Part("dish")
		b := p.Ball
		mean := b.Radius - p.Metal.Thickness/2
		gore := made[1].Blanks[0]
		_, top := bounds(gore.Outline)
		domed := b.Build == design.DomedGores
		// at returns a point of gore k, at a distance out from the middle of the sheet.
		at := func(k int, q r2.Vec, out float64) r3.Vec {
			sin, cos := math.Sincos(q.Y / mean)
			middle := 2 * math.Pi * float64(k) / float64(b.Gores)
			turn, level := middle+math.Atan2(q.X, (mean+out)*cos), math.Hypot((mean+out)*cos, q.X)
			if domed {
				turn, level = middle+q.X/(mean*cos), (mean+out)*cos
			}
			return r3.Vec{X: level * math.Cos(turn), Y: level * math.Sin(turn), Z: (mean + out) * sin}
		}
		half := p.Metal.Thickness / 2
		for k := range b.Gores {
			x := at(k, r2.Vec{Y: top.Y}, half)
			if off := math.Abs(math.Hypot(x.X, x.Y) - wide/2); off > 1e-3 {
				t.Errorf("%d: the rim is %v off a circle of %v", n, off, wide)
			}
			if off := math.Abs(x.Z + b.Radius - deep); off > 1e-3 {
				t.Errorf("%d: the rim is %v off %v above the bottom", n, off, deep)
			}
			// Its corners and those of the next touch by the edges that meet.
			out := -half
			if b.EdgeMid || domed {
				out = 0
			}
			for _, q := range gore.Outline {
				if q.X <= 0 {
					continue
				}
				if gap := r3.Norm(r3.Sub(at(k, q, out), at(k+1, r2.Vec{X: -q.X, Y: q.Y}, out))); gap > 1e-6 {
					t.Errorf("%d: at %v gores are %v apart", n, q, gap)
				}
			}
		}
		s, _ := segment(p)
		for i, q := range gore.Outline {
			m := r2.Scale(0.5, r2.Add(q, gore.Outline[(i+1)%len(gore.Outline)]))
			if math.Abs(q.X-m.X) > 1e-9 && math.Abs(q.Y-m.Y) < 1e-9 {
				continue // an end
			}
			if off := math.Abs(math.Abs(m.X) - s.width(m.Y)); off > Chord/2 {
				t.Errorf("%d: a chord lies %v off the edge", n, off)
			}
		}
		if len(made[1].Blanks) > 1 {
			if c := &made[1].Blanks[1]; c.Quantity != 1 || len(c.Numbers) != 1 {
				t.Errorf("%d: %d caps, numbered %v", n, c.Quantity, c.Numbers)
			}
		}
	}
}
