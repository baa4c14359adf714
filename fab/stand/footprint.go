package stand

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// discSides is the number of sides of the polygon that stands for a round
// plate. It is inscribed, so that every edge lies within the true rim: its
// lever is short by R(1 - cos(pi/72)), 0.1 % of the radius, on the safe side.
// With 72 sides each edge is square to one of the bearings, 5 deg apart, from
// which a push is tried.
const discSides = 72

// slimmest is the least width, in mm, of a hull that counts as a footprint: the
// fineness of the points that it is made from.
const slimmest = 0.01

// Plate returns the footprint of a plate of any kind, counter-clockwise.
func Plate(b *design.Base) []r2.Vec {
	// Corners of a round one at odd multiples of 2.5 deg put the normals on even ones.
	return b.Outline().Path(discSides)
}

// Ring returns the points, in plan, at which the foot of a post bears on the
// ground. The rim is the trimmed edge on the outside of the tube; where it
// hangs above the ground because the inside edge touches first, the point is
// taken on the inside edge. It is nil for a post that does not reach the
// ground.
func Ring(p *design.Post, thickness float64, rim []r3.Vec) []r2.Vec {
	var ring []r2.Vec
	for _, at := range rim {
		if at.Z > design.Touch {
			rel := r3.Sub(at, p.Ends[design.Foot].At)
			out := r3.Sub(rel, r3.Scale(r3.Dot(rel, p.Direction), p.Direction))
			if r := r3.Norm(out); r > thickness {
				at = r3.Sub(at, r3.Scale(thickness/r, out))
			}
		}
		if at.Z <= design.Touch {
			ring = append(ring, design.Plan(at))
		}
	}
	return ring
}

// Hull returns the convex hull of points, as design.Hull. It is nil where the
// points have no area: none, one, or all along one line.
func Hull(points []r2.Vec) []r2.Vec {
	hull := design.Hull(points)
	if slim(hull) {
		return nil
	}
	return hull
}

// slim reports whether a convex polygon has no area to stand on. Twice the area
// over the girth is not above the least width and not far below it.
func slim(poly []r2.Vec) bool {
	var area, girth float64
	for i := range poly {
		next := r2.Sub(poly[(i+1)%len(poly)], poly[i])
		area += r2.Cross(r2.Sub(poly[i], poly[0]), next) / 2
		girth += r2.Norm(next)
	}
	return len(poly) < 3 || !(2*area > slimmest*girth)
}
