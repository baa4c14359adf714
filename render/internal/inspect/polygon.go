package inspect

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
)

// far reports whether two boxes are apart.
func far(a, b r2.Box) bool {
	return a.Max.X < b.Min.X || b.Max.X < a.Min.X || a.Max.Y < b.Min.Y || b.Max.Y < a.Min.Y
}

// within reports whether a box lies in another, but for a slack.
func within(a, b r2.Box, slack float64) bool {
	return a.Min.X >= b.Min.X-slack && a.Min.Y >= b.Min.Y-slack && a.Max.X <= b.Max.X+slack && a.Max.Y <= b.Max.Y+slack
}

// corners returns the corners of a box, one after the other.
func corners(b r2.Box) []r2.Vec {
	return []r2.Vec{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}
}

// gap returns the greatest distance between two convex shapes along the normals
// of their sides: negative where they overlap, by how deep (the theorem of the
// separating axis).
func gap(a, b []r2.Vec) float64 {
	most := math.Inf(-1)
	for _, shape := range [2][]r2.Vec{a, b} {
		for i := range shape {
			d := r2.Sub(shape[(i+1)%len(shape)], shape[i])
			l := math.Sqrt(d.X*d.X + d.Y*d.Y)
			if l < 1e-9 {
				continue
			}
			n := r2.Vec{X: -d.Y / l, Y: d.X / l}
			aLo, aHi := along(a, n)
			bLo, bHi := along(b, n)
			most = max(most, aLo-bHi, bLo-aHi)
		}
	}
	return most
}

// along returns how far a shape reaches in a direction.
func along(shape []r2.Vec, n r2.Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range shape {
		t := r2.Dot(p, n)
		lo, hi = min(lo, t), max(hi, t)
	}
	return lo, hi
}

// cross reports whether two straight lines cross.
func cross(a, b [2]r2.Vec) bool {
	if far(design.Bounds(a[:]), design.Bounds(b[:])) {
		return false
	}
	side := func(p, q, r r2.Vec) float64 { return r2.Cross(r2.Sub(q, p), r2.Sub(r, p)) }
	return side(a[0], a[1], b[0])*side(a[0], a[1], b[1]) < 0 && side(b[0], b[1], a[0])*side(b[0], b[1], a[1]) < 0
}

// grown returns a box that is larger on each side.
func grown(b r2.Box, by float64) r2.Box {
	d := r2.Vec{X: by, Y: by}
	return r2.Box{Min: r2.Sub(b.Min, d), Max: r2.Add(b.Max, d)}
}
