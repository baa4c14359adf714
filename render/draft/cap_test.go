package draft_test

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/design"
	"stabile/render/draft"
	"stabile/render/ink"
)

// A ball of rolled gores with dished caps reaches the sphere's radius at its poles,
// its outline over the cap is the sphere's circle, and from above the cap's edge is
// seen as a circle of its own diameter.
func TestCapOfGores(t *testing.T) {
	const n, radius, across = 8, 100.0, 60.0
	p := fab.Part{Part: &design.Part{Name: "moon", Ball: &design.Ball{
		Center: r3.Vec{Z: 300}, Radius: radius, Build: design.RolledGores, Gores: n, Caps: across, Pole: r3.Vec{Z: 1}, Prime: r3.Vec{X: 1},
	}}}
	s := draft.NewScene([]fab.Part{p})
	edge := math.Sqrt(radius*radius - across*across/4)
	for _, v := range views(1) {
		capEdge := 0
		for _, l := range s.Lines(v) {
			for _, q := range l.Path {
				switch {
				case v.Projection == draft.Plan:
					if l.Kind == ink.Seam && math.Abs(r2.Norm(q)-across/2) < 1e-6 {
						capEdge++
					}
				case l.Kind == ink.Outline && math.Abs(q.Y-300) > edge+0.5:
					if got := r2.Norm(r2.Sub(q, r2.Vec{Y: 300})); math.Abs(got-radius) > 0.1 {
						t.Errorf("%v: the cap's outline is %v from the centre, want %v", v.Projection, got, radius)
					}
				}
			}
			if v.Projection != draft.Plan && l.Kind == ink.Outline {
				top := math.Inf(-1)
				for _, q := range l.Path {
					top = max(top, q.Y)
				}
				if math.Abs(top-300-radius) > 0.1 {
					t.Errorf("%v reaches %v up, want %v", v.Projection, top, 300+radius)
				}
			}
		}
		if v.Projection == draft.Plan && capEdge < 48 {
			t.Errorf("%d points of the cap's edge are seen from above", capEdge)
		}
	}
}
