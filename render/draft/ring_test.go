package draft_test

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/draft"
	"stabile/render/ink"
)

// TestThinWall holds the black wall of a section, drawn as circles side by side in a
// line 0.5 mm wide, to radii by hand: the outer edge of the outer one lies on the
// outside, the inner edge of the inner one on the inside, the others between at equal
// steps, and no gap is left between two.
func TestThinWall(t *testing.T) {
	const width = 0.5
	if w := ink.Outline.Width(); w != width {
		t.Fatalf("the line is %v mm wide, want %v", w, width)
	}
	for _, tt := range []struct {
		wall float64
		want []float64 // of an outside of 20 mm radius
	}{
		{0.1, []float64{19.75}}, // the line is wider than the wall
		{0.5, []float64{19.75}},
		{0.6, []float64{19.75, 19.65}},
		{0.9, []float64{19.75, 19.35}},
		{0.999, []float64{19.75, 19.251}},
	} {
		d := draft.New(draft.Millimetre(), r2.Box{Max: r2.Vec{X: 100, Y: 100}})
		d.RemovedSection(r2.Vec{X: 50, Y: 50}, 20, tt.wall)
		var got []float64
		for _, item := range d.Items {
			if a, ok := item.(*ink.Arc); ok {
				got = append(got, a.Radius)
			}
		}
		if !slices.EqualFunc(got, tt.want, func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }) {
			t.Errorf("a wall of %v mm: circles of %v, want %v", tt.wall, got, tt.want)
		}
	}
}

// TestThinWallRevolved is the same of a section on its post, whose line is 0.25 mm
// wide, so that up to four circles cover the wall. A mast of 100 mm at a fifth of its
// size is 10 mm in radius, and 4.5 mm of wall are 0.9 on paper.
func TestThinWallRevolved(t *testing.T) {
	for wall, want := range map[float64][]float64{
		1:    {9.875},
		2:    {9.875, 9.725},
		3.5:  {9.875, 9.65, 9.425},
		4.5:  {9.875, 9.875 - 0.65/3, 9.875 - 1.3/3, 9.225},
		4.99: {9.875, 9.875 - 0.748/3, 9.875 - 1.496/3, 9.127},
	} {
		d := draft.New(draft.Millimetre(), r2.Box{Max: r2.Vec{X: 300, Y: 400}})
		s := draft.NewScene(parts(t, `
base pad { plate 600 by 600, metal slab }
post mast on pad { diameter 100, length 1000, metal skin }
`))
		v := draft.View{Projection: draft.Front, Scale: 0.2, Origin: r2.Vec{X: 150, Y: 20}}
		if !d.Section(s, v, 1, wall) {
			t.Fatal("no section")
		}
		var got []float64
		for _, item := range d.Items {
			if a, ok := item.(*ink.Arc); ok {
				got = append(got, a.Radius)
			}
		}
		if !slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }) {
			t.Errorf("a wall of %v mm: circles of %v, want %v", wall, got, want)
		}
	}
}
