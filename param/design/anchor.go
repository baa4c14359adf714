package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// AnchorCenters returns where the middles of the anchor holes are, in mm: on the
// outline that lies the edge distance within that of the base. On a round one they
// are spread evenly, the first at 45 deg. On another as many as there are corners
// are at the corners; other numbers are spread evenly along it, from its first
// corner on, which on a rectangle is at front left.
func (b *Base) AnchorCenters() []r2.Vec {
	centers := make([]r2.Vec, b.Anchors)
	in, ok := b.Outline().Inset(b.AnchorEdge)
	if !ok {
		return centers
	}
	for i := range centers {
		share := float64(i) / float64(b.Anchors)
		switch {
		case in.IsRound():
			sin, cos := math.Sincos(math.Pi/4 + 2*math.Pi*share)
			centers[i] = r2.Vec{X: in.Radius * cos, Y: in.Radius * sin}
		case b.Anchors == len(in.Corners):
			centers[i] = in.Corners[i]
		default:
			centers[i] = in.along(share)
		}
	}
	return centers
}
