package design_test

import (
	"math"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
)

// bases has one of each kind, the polygon off the origin.
func bases() []design.Base {
	return []design.Base{
		{Shape: design.Plate, Width: 600, Depth: 400},
		{Shape: design.Disc, Width: 500, Depth: 500},
		{Shape: design.Polygon, Corners: []r2.Vec{{X: 100, Y: -50}, {X: 420, Y: 10}, {X: 380, Y: 200}, {X: 60, Y: 260}, {X: 20, Y: 90}}},
	}
}

// TestOutline measures outlines by brute force: the area and its middle by a grid of
// points, the distance against points all along the edge, the reach as the
// farthest of them.
func TestOutline(t *testing.T) {
	rng := rand.New(rand.NewPCG(5, 13))
	for _, b := range bases() {
		o := b.Outline()
		box := o.Box()
		edge := o.Path(20000)
		var fine []r2.Vec
		for i, p := range edge {
			q := edge[(i+1)%len(edge)]
			steps := max(1, 20000/len(edge))
			for k := range steps {
				fine = append(fine, r2.Add(p, r2.Scale(float64(k)/float64(steps), r2.Sub(q, p))))
			}
		}
		const n = 1000
		dx, dy := (box.Max.X-box.Min.X)/n, (box.Max.Y-box.Min.Y)/n
		area, middle := 0.0, r2.Vec{}
		for i := range n * n {
			p := r2.Vec{X: box.Min.X + (float64(i%n)+0.5)*dx, Y: box.Min.Y + (float64(i/n)+0.5)*dy}
			if o.Distance(p) < 0 {
				area += dx * dy
				middle = r2.Add(middle, r2.Scale(dx*dy, p))
			}
		}
		require.InEpsilon(t, area, o.Area(), 1e-3, b.Shape)
		require.InDelta(t, 0, r2.Norm(r2.Sub(r2.Scale(1/area, middle), b.Middle())), 0.2, b.Shape)
		for range 50 {
			p := r2.Vec{X: box.Min.X + 2*(rng.Float64()-0.25)*(box.Max.X-box.Min.X), Y: box.Min.Y + 2*(rng.Float64()-0.25)*(box.Max.Y-box.Min.Y)}
			way := r2.Unit(r2.Sub(p, b.Middle()))
			near, far := math.Inf(1), math.Inf(-1)
			for _, q := range fine {
				near, far = min(near, r2.Norm(r2.Sub(p, q))), max(far, r2.Dot(q, way))
			}
			require.InDelta(t, near, math.Abs(o.Distance(p)), 0.05, "%v at %v", b.Shape, p)
			require.InDelta(t, far, o.Reach(way), 0.05, "%v along %v", b.Shape, way)
		}
	}
}

// TestInset sees that the corners of an inset lie the distance within, from two
// sides each, and that an outline too narrow for it has none.
func TestInset(t *testing.T) {
	for _, b := range bases() {
		in, ok := b.Outline().Inset(40)
		require.True(t, ok, b.Shape)
		for _, p := range in.Path(72) {
			require.InDelta(t, -40, b.Outline().Distance(p), 1e-9, b.Shape)
		}
		_, ok = b.Outline().Inset(300)
		require.False(t, ok, b.Shape)
	}
}

// TestAnchorCenters sees that each anchor is the edge distance within the outline,
// and that they are apart evenly where they are not at corners.
func TestAnchorCenters(t *testing.T) {
	for _, b := range bases() {
		for n := 1; n <= 12; n++ {
			b.Anchors, b.AnchorEdge, b.AnchorDiameter = n, 35, 12
			for _, c := range b.AnchorCenters() {
				require.InDelta(t, -35, b.Outline().Distance(c), 1e-9, "%v with %d", b.Shape, n)
			}
		}
	}
	five := bases()[2]
	five.Anchors, five.AnchorEdge = 5, 35
	in, _ := five.Outline().Inset(35)
	require.Equal(t, in.Corners, five.AnchorCenters())
}
