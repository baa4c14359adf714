package flat

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/quantity"
)

// TestArcsByChords lays fans out by the chords and heights that are given, and measures how
// far each point is from the apex: the radius of its arc. A fan that a beam compass
// strikes is not laid out so.
func TestArcsByChords(t *testing.T) {
	for _, units := range []quantity.System{quantity.Inch, quantity.Millimetre} {
		for _, large := range []float64{1500, 1600, 4846, 25000, 3e5} {
			for _, width := range []float64{200, 435, 1180} {
				f := Fan{Large: large, Small: 0.8 * large, Angle: width / large}
				l := f.ByChords(units)
				if large <= BeamCompass {
					if l != nil {
						t.Errorf("an arc of %v is laid out by its chord", large)
					}
					continue
				}
				// The chord of the large arc is at the height 0, the apex far below its middle.
				apex := r2.Vec{Y: -large * math.Cos(f.Angle/2)}
				n := 0
				for _, arc := range []struct {
					by     ByChord
					radius float64
					at     float64 // height of its chord
				}{{l.Large, f.Large, 0}, {l.Small, f.Small, -l.Apart}} {
					if arc.by.Heights[0] != arc.by.Rise {
						t.Errorf("rise %v, and %v at the middle", arc.by.Rise, arc.by.Heights[0])
					}
					points := []r2.Vec{{X: arc.by.Chord / 2, Y: arc.at}}
					for i, h := range arc.by.Heights {
						points = append(points, r2.Vec{X: float64(i) * l.Step, Y: arc.at + h})
					}
					for _, q := range points {
						n++
						if got := r2.Norm(r2.Sub(q, apex)); math.Abs(got-arc.radius) > 1e-8*large/1e3 {
							t.Errorf("radius %v over %v: the point %v is %v from the apex", arc.radius, width, q, got)
						}
					}
				}
				if n < 8 {
					t.Errorf("radius %v over %v: %d points", large, width, n)
				}
			}
		}
	}
}
