package flat

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// patternSagitta is how far, in mm, a chord of a hole's outline may lie from the true one,
// looked at along its axis.
const patternSagitta = 0.006

// section returns the outline of a hole as one sees it who looks at it from outside, x to the
// right and y along its Up from its axis: counter-clockwise, with a multiple of so many points
// to its round ends. Corners of arcs stand off by as much as chords cut in, so that the area is
// true; straight sides are parted as a wall of the given radius asks for, 0 for a flat one.
func section(h *design.Hole, multiple int, bend float64) []r2.Vec {
	half, radius := h.Core()
	core := r2.Vec{X: -r3.Dot(half, h.Across()), Y: r3.Dot(half, h.Up)}
	n := int(math.Ceil(math.Pi * math.Sqrt(radius/(2*patternSagitta))))
	n = max(holePoints, n)
	n = (n + multiple - 1) / multiple * multiple
	step := 2 * math.Pi / float64(n)
	out := radius * math.Sqrt(step/math.Sin(step))
	if core == (r2.Vec{}) {
		return circle(r2.Vec{}, out, n)
	}
	// Half of a circle about either end, from where it leaves the straight side.
	parts := 1
	if bend > 0 {
		// A chord of length c cuts c2 / 8r off an arc.
		parts = int(math.Ceil(2 * r2.Norm(core) / math.Sqrt(8*bend*patternSagitta)))
	}
	points := make([]r2.Vec, 0, n+2*parts)
	from := math.Atan2(core.Y, core.X) - math.Pi/2
	for _, end := range [2]r2.Vec{core, r2.Scale(-1, core)} {
		for k := range n/2 + 1 {
			sin, cos := math.Sincos(from + step*float64(k))
			r := out
			if k == 0 || k == n/2 {
				r = radius
			}
			points = append(points, r2.Add(end, r2.Vec{X: r * cos, Y: r * sin}))
		}
		from += math.Pi
		last, along := points[len(points)-1], r2.Scale(-2, end)
		for k := 1; k < parts; k++ {
			points = append(points, r2.Add(last, r2.Scale(float64(k)/float64(parts), along)))
		}
	}
	return points
}

// spot returns where a point of a hole's outline lies beside a point of its axis.
func spot(h *design.Hole, origin r3.Vec, q r2.Vec) r3.Vec {
	return r3.Add(origin, r3.Add(r3.Scale(-q.X, h.Across()), r3.Scale(q.Y, h.Up)))
}

// integral returns the integral of a function over a polygon: over the triangles from a
// point within to its sides, each in so many parts along either side, by the rule of their
// middles, which is exact for squares.
func integral(polygon []r2.Vec, parts int, f func(q r2.Vec) moment) (sum moment) {
	center := design.Centroid(polygon)
	add := func(a, b, c r2.Vec) {
		area := r2.Cross(r2.Sub(b, a), r2.Sub(c, a)) / 6
		for _, m := range [3]r2.Vec{r2.Scale(0.5, r2.Add(a, b)), r2.Scale(0.5, r2.Add(b, c)), r2.Scale(0.5, r2.Add(c, a))} {
			sum = sum.plus(f(m).times(area))
		}
	}
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		before := [2]r2.Vec{center, center}
		for k := range parts {
			share := float64(k+1) / float64(parts)
			next := [2]r2.Vec{r2.Add(center, r2.Scale(share, r2.Sub(a, center))), r2.Add(center, r2.Scale(share, r2.Sub(b, center)))}
			if k > 0 {
				add(before[0], next[0], before[1])
			}
			add(before[1], next[0], next[1])
			before = next
		}
	}
	return sum
}
