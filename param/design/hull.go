package design

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// Bounds returns the upright box about points; about none it is inside out, from
// infinity to minus infinity.
func Bounds(points []r2.Vec) r2.Box {
	b := r2.Box{Min: r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, Max: r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}}
	for _, p := range points {
		b.Min = r2.Vec{X: min(b.Min.X, p.X), Y: min(b.Min.Y, p.Y)}
		b.Max = r2.Vec{X: max(b.Max.X, p.X), Y: max(b.Max.Y, p.Y)}
	}
	return b
}

// Hull returns the convex hull of points, counter-clockwise without points that
// lie along its sides. Of points all along one line it returns the two ends.
//
// Andrew's monotone chain (1979).
func Hull(points []r2.Vec) []r2.Vec {
	p := slices.Clone(points)
	slices.SortFunc(p, func(a, b r2.Vec) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	p = slices.Compact(p)
	if len(p) < 3 {
		return p
	}
	var hull []r2.Vec
	for range 2 {
		base := len(hull)
		for _, q := range p {
			for len(hull) >= base+2 && !leftTurn(hull[len(hull)-2], hull[len(hull)-1], q) {
				hull = hull[:len(hull)-1]
			}
			hull = append(hull, q)
		}
		hull = hull[:len(hull)-1]
		slices.Reverse(p)
	}
	return hull
}

// leftTurn reports whether the way from a by b to c turns left at b, by more
// than what is left of rounding in the product of the two lengths.
func leftTurn(a, b, c r2.Vec) bool {
	ab, ac := r2.Sub(b, a), r2.Sub(c, a)
	return r2.Cross(ab, ac) > 1e-12*r2.Norm(ab)*r2.Norm(ac)
}
