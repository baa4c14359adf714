package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// AnchorCenters returns where the middles of the anchor holes are, in mm. On a disc
// they are spread evenly on a circle, the first at 45 deg. On a plate four are at
// the corners; other numbers are spread evenly along the rectangle of the edge
// distance, from its corner at front left on to the right.
func (b *Base) AnchorCenters() []r2.Vec {
	centers := make([]r2.Vec, b.Anchors)
	x, y := b.Width/2-b.AnchorEdge, b.Depth/2-b.AnchorEdge
	corners := [4]r2.Vec{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}}
	for i := range centers {
		share := float64(i) / float64(b.Anchors)
		switch {
		case b.Shape == Disc:
			sin, cos := math.Sincos(math.Pi/4 + 2*math.Pi*share)
			centers[i] = r2.Vec{X: x * cos, Y: x * sin}
		case b.Anchors == 4:
			centers[i] = corners[i]
		default:
			centers[i] = along(corners, share*4*(x+y))
		}
	}
	return centers
}

// along returns the point at a distance along the sides of a rectangle from its
// first corner.
func along(corners [4]r2.Vec, distance float64) r2.Vec {
	for i, c := range corners {
		side := r2.Sub(corners[(i+1)%4], c)
		l := r2.Norm(side)
		if distance <= l {
			return r2.Add(c, r2.Scale(distance/l, side))
		}
		distance -= l
	}
	return corners[0]
}
