package pack

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// A gore whose edges are arcs, opened at the top along a circle and cut straight
// across at the bottom: the upper end is the arc of that circle from edge to edge,
// and the lower one is no opening.
func TestEndsOfGore(t *testing.T) {
	half := func(y float64) float64 { return 50 * math.Cos(y/100) }
	const radius = 60.0 // of the opening, about (10, 160)
	opening := func(x float64) float64 { return 160 - math.Sqrt(radius*radius-(x-10)*(x-10)) }
	edge := func(side float64) float64 {
		lo, hi := 50.0, 159.0
		for range 60 {
			if m := (lo + hi) / 2; opening(side*half(m)) > m {
				lo = m
			} else {
				hi = m
			}
		}
		return lo
	}
	left, right := edge(-1), edge(1)
	var outline []r2.Vec
	for i := range 100 { // up the right edge
		y := -120 + (right+120)*float64(i)/100
		outline = append(outline, r2.Vec{X: half(y), Y: y})
	}
	from, to := half(right), -half(left)
	for i := range 100 { // along the opening to the left
		x := from + (to-from)*float64(i)/100
		outline = append(outline, r2.Vec{X: x, Y: opening(x)})
	}
	for i := range 101 { // down the left edge
		y := left + (-120-left)*float64(i)/100
		outline = append(outline, r2.Vec{X: -half(y), Y: y})
	}
	got := ends(outline)
	if got[1] != nil {
		t.Errorf("the straight end is an opening of %d points", len(got[1]))
	}
	if len(got[0]) != 101 {
		t.Fatalf("the opening has %d points, want 101", len(got[0]))
	}
	first, last := got[0][0], got[0][100]
	if math.Abs(first.X-to) > 1e-9 || math.Abs(last.X-from) > 1e-9 {
		t.Errorf("the opening goes from %v to %v, want from %v to %v across", first.X, last.X, to, from)
	}
	for _, q := range got[0] {
		if d := math.Hypot(q.X-10, q.Y-160); math.Abs(d-radius) > 1e-6 {
			t.Errorf("%v is %v from the middle of the opening, want %v", q, d, radius)
		}
	}
}
