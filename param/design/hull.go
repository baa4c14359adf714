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
	p := outer(points)
	slices.SortFunc(p, func(a, b r2.Vec) int {
		if a.X != b.X {
			return cmp.Compare(a.X, b.X)
		}
		return cmp.Compare(a.Y, b.Y)
	})
	p = slices.Compact(p)
	if len(p) < 3 {
		return p
	}
	hull := make([]r2.Vec, 0, len(p)+1)
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

// few is up to how many points it is not worth leaving any out beforehand.
const few = 32

// outer returns the points but for those well inside the octagon of the farthest eight,
// none of which is on the hull: Akl and Toussaint, "A fast convex hull algorithm",
// Information Processing Letters 7 (1978).
func outer(points []r2.Vec) []r2.Vec {
	if len(points) <= few {
		return slices.Clone(points)
	}
	ways := [...]r2.Vec{{X: 1}, {X: 1, Y: 1}, {Y: 1}, {X: -1, Y: 1}, {X: -1}, {X: -1, Y: -1}, {Y: -1}, {X: 1, Y: -1}}
	var far [len(ways)]r2.Vec
	for k, way := range ways {
		most := math.Inf(-1)
		for _, q := range points {
			if d := r2.Dot(q, way); d > most {
				most, far[k] = d, q
			}
		}
	}
	// What rounding may move a side by: far under what is well inside.
	slack := 1e-9 * (far[0].X - far[4].X + far[2].Y - far[6].Y)
	var sides [len(ways)]r2.Vec
	var room [len(ways)]float64
	for k, a := range far {
		sides[k] = r2.Sub(far[(k+1)%len(far)], a)
		room[k] = slack * (math.Abs(sides[k].X) + math.Abs(sides[k].Y))
	}
	out := make([]r2.Vec, 0, len(points))
	for _, q := range points {
		for k, a := range far {
			if side := sides[k]; side != (r2.Vec{}) && !(r2.Cross(side, r2.Sub(q, a)) > room[k]) {
				out = append(out, q)
				break
			}
		}
	}
	return out
}

// leftTurn reports whether the way from a by b to c turns left at b, by more
// than what is left of rounding in the product of the two lengths.
func leftTurn(a, b, c r2.Vec) bool {
	ab, ac := r2.Sub(b, a), r2.Sub(c, a)
	turn := r2.Cross(ab, ac)
	return turn > 0 && turn*turn > 1e-24*r2.Norm2(ab)*r2.Norm2(ac)
}
