package fab

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// A net is the sides of a polygon in bands of equal height, so that few of them are looked
// at for a point.
type net struct {
	low, step float64
	bands     [][]side
}

// A side runs from a point to another.
type side struct {
	from, to, way r2.Vec
	square        float64 // of its length
}

// netOf sorts the sides of a polygon, as many bands as it has sides.
func netOf(polygon []r2.Vec) *net {
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range polygon {
		low, high = min(low, q.Y), max(high, q.Y)
	}
	n := &net{low: low, step: max(high-low, 1e-6) / float64(len(polygon)), bands: make([][]side, len(polygon))}
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		way := r2.Sub(b, a)
		for k := n.band(min(a.Y, b.Y)); k <= n.band(max(a.Y, b.Y)); k++ {
			n.bands[k] = append(n.bands[k], side{a, b, way, r2.Norm2(way)})
		}
	}
	return n
}

// band returns the band of a height, the lowest or highest of what lies below or above all.
func (n *net) band(y float64) int {
	return int(max(0, min(float64(len(n.bands)-1), math.Floor((y-n.low)/n.step))))
}

// odd reports whether a point lies in the polygon.
func (n *net) odd(q r2.Vec) (in bool) {
	for _, s := range n.bands[n.band(q.Y)] {
		if (s.from.Y > q.Y) != (s.to.Y > q.Y) && q.X < s.from.X+(q.Y-s.from.Y)/s.way.Y*s.way.X {
			in = !in
		}
	}
	return in
}

// nearest returns how far a point is from the polygon's sides.
func (n *net) nearest(q r2.Vec) float64 {
	least := math.Inf(1)
	look := func(k int) {
		for _, s := range n.bands[k] {
			u := 0.0
			if s.square > 0 {
				u = max(0, min(1, r2.Dot(r2.Sub(q, s.from), s.way)/s.square))
			}
			least = min(least, r2.Norm2(r2.Sub(q, r2.Add(s.from, r2.Scale(u, s.way)))))
		}
	}
	at := n.band(q.Y)
	look(at)
	for k := at - 1; k >= 0; k-- {
		if off := q.Y - n.low - float64(k+1)*n.step; off > 0 && off*off > least {
			break
		}
		look(k)
	}
	for k := at + 1; k < len(n.bands); k++ {
		if off := n.low + float64(k)*n.step - q.Y; off > 0 && off*off > least {
			break
		}
		look(k)
	}
	return math.Sqrt(least)
}

// TestNet compares nets with all sides of random polygons.
func TestNet(t *testing.T) {
	rnd := rand.New(rand.NewPCG(15, 20))
	at := func(wide float64) r2.Vec {
		return r2.Vec{X: wide * (rnd.Float64() - 0.5), Y: wide * (rnd.Float64() - 0.5)}
	}
	inside := 0
	for range 200 {
		polygon := make([]r2.Vec, 3+rnd.IntN(40))
		for i := range polygon {
			if polygon[i] = at(100); i > 0 && rnd.IntN(4) == 0 {
				polygon[i].Y = polygon[i-1].Y // level
			}
		}
		n := netOf(polygon)
		for range 100 {
			q := at(160)
			if rnd.IntN(4) == 0 {
				q.Y = polygon[rnd.IntN(len(polygon))].Y
			}
			if n.odd(q) {
				inside++
			}
			if n.odd(q) != odd(q, polygon) || math.Abs(n.nearest(q)-nearest(q, polygon)) > 1e-9 {
				t.Fatalf("%v: %v and %v, of all sides %v and %v: %v", q, n.odd(q), n.nearest(q), odd(q, polygon), nearest(q, polygon), polygon)
			}
		}
	}
	if inside < 1000 {
		t.Errorf("%d points within", inside)
	}
}
