package stand

import (
	"cmp"
	"slices"

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

// Touch is the greatest height, in mm, at which a point still counts as
// standing on the ground: the fineness to which trimmed edges are drawn.
const Touch = 0.05

// slimmest is the least width, in mm, of a hull that counts as a footprint: the
// fineness of the points that it is made from.
const slimmest = 0.01

// Plate returns the footprint of a plate of any kind, counter-clockwise. It is nil
// for a base of feet.
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
		if at.Z > Touch {
			rel := r3.Sub(at, p.Ends[design.Foot].At)
			out := r3.Sub(rel, r3.Scale(r3.Dot(rel, p.Direction), p.Direction))
			if r := r3.Norm(out); r > thickness {
				at = r3.Sub(at, r3.Scale(thickness/r, out))
			}
		}
		if at.Z <= Touch {
			ring = append(ring, design.Plan(at))
		}
	}
	return ring
}

// Hull returns the convex hull of points, counter-clockwise without points
// that lie along its sides. It is nil where the points have no area: none, one,
// or all along one line.
//
// Andrew's monotone chain (1979).
func Hull(points []r2.Vec) []r2.Vec {
	p := slices.Clone(points)
	slices.SortFunc(p, func(a, b r2.Vec) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	p = slices.Compact(p)
	if len(p) < 3 {
		return nil
	}
	chain := func(points func(yield func(r2.Vec) bool)) []r2.Vec {
		var c []r2.Vec
		for q := range points {
			for len(c) >= 2 && !leftTurn(c[len(c)-2], c[len(c)-1], q) {
				c = c[:len(c)-1]
			}
			c = append(c, q)
		}
		return c[:len(c)-1]
	}
	forward := func(yield func(r2.Vec) bool) {
		for _, q := range p {
			if !yield(q) {
				return
			}
		}
	}
	backward := func(yield func(r2.Vec) bool) {
		for _, q := range slices.Backward(p) {
			if !yield(q) {
				return
			}
		}
	}
	hull := append(chain(forward), chain(backward)...)
	if slim(hull) {
		return nil
	}
	return hull
}

// leftTurn reports whether the way from a by b to c turns left at b, by more
// than what is left of rounding in the product of the two lengths.
func leftTurn(a, b, c r2.Vec) bool {
	ab, ac := r2.Sub(b, a), r2.Sub(c, a)
	return r2.Cross(ab, ac) > 1e-12*r2.Norm(ab)*r2.Norm(ac)
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
