package inspect

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
)

func TestGap(t *testing.T) {
	square := []r2.Vec{{}, {X: 2}, {X: 2, Y: 2}, {Y: 2}}
	for _, tt := range []struct {
		other []r2.Vec
		want  float64
	}{
		{[]r2.Vec{{X: 3}, {X: 5}, {X: 5, Y: 1}}, 1},
		{[]r2.Vec{{X: 1, Y: -1}, {X: 1, Y: 3}}, -1},
		{[]r2.Vec{{X: 3, Y: 0}, {X: 0, Y: 3}}, -math.Sqrt2 / 2},
		{[]r2.Vec{{X: 4, Y: 1}, {X: 1, Y: 4}}, math.Sqrt2 / 2},
	} {
		if got := gap(square, tt.other); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("gap(square, %v) = %v, want %v", tt.other, got, tt.want)
		}
	}
}

// TestHull: no point lies outside the hull, and its corners are of the points.
func TestHull(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 2))
	for range 300 {
		points := make([]r2.Vec, 1+rng.IntN(60))
		for i := range points {
			points[i] = r2.Vec{X: float64(rng.IntN(12)), Y: float64(rng.IntN(12))}
		}
		h := design.Hull(points)
		for i, a := range h {
			if !slices.Contains(points, a) {
				t.Fatalf("%v is no point of %v", a, points)
			}
			for _, p := range points {
				if len(h) > 2 && r2.Cross(r2.Sub(h[(i+1)%len(h)], a), r2.Sub(p, a)) < 0 {
					t.Fatalf("%v lies outside the hull %v", p, h)
				}
			}
		}
	}
}

// TestGrid: the grid finds all boxes that meet another, each once.
func TestGrid(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 2))
	box := func() r2.Box {
		from := r2.Vec{X: 260*rng.Float64() - 30, Y: 200*rng.Float64() - 30}
		return r2.Box{Min: from, Max: r2.Add(from, r2.Vec{X: 40 * rng.Float64(), Y: 20 * rng.Float64()})}
	}
	g := newGrid(200, 140)
	var boxes []r2.Box
	for range 300 {
		b := box()
		boxes = append(boxes, b)
		g.add(b)
	}
	for range 300 {
		b := box()
		times := map[int]int{}
		g.near(b, func(n int) { times[n]++ })
		for i, o := range boxes {
			if times[i] > 1 || times[i] == 0 && !far(b, o) {
				t.Fatalf("%v finds %v %d times", b, o, times[i])
			}
		}
	}
}
