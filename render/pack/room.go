package pack

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// A room is an area in which writing looks for places clear of lines and of
// other writing.
type room struct {
	lines [][2]r2.Vec
	taken []taken
}

// A taken is a convex shape on which nothing may be written, with the box about it.
type taken struct {
	shape  []r2.Vec
	lo, hi r2.Vec
}

func (r *room) take(shape []r2.Vec) {
	lo, hi := bounds(shape)
	r.taken = append(r.taken, taken{shape, lo, hi})
}

// aroundText is kept free about writing, in mm.
const aroundText = 0.7

// darkShade is below what an area counts as a mark, such as an arrowhead, on which
// nothing can be read; lighter ones are grounds that are written on.
const darkShade = 0.5

// add makes an item count. Dark areas are to be convex.
func (r *room) add(item ink.Item) {
	path := []r2.Vec(nil)
	switch it := item.(type) {
	case *ink.Stroke:
		path = it.Path
		if it.Closed {
			path = append(path[:len(path):len(path)], path[0])
		}
	case *ink.Arc:
		const pieces = 64
		for i := range pieces + 1 {
			path = append(path, it.At(it.From+(it.To-it.From)*float64(i)/pieces))
		}
	case *ink.Fill:
		if it.Shade < darkShade {
			r.take(it.Path)
		}
	case *ink.Text:
		r.take(it.Box())
	}
	for i := 1; i < len(path); i++ {
		r.lines = append(r.lines, [2]r2.Vec{path[i-1], path[i]})
	}
}

// clear reports whether a convex shape keeps a distance from all there is.
func (r *room) clear(shape []r2.Vec, distance float64) bool {
	lo, hi := bounds(shape)
	lo, hi = r2.Sub(lo, r2.Vec{X: distance, Y: distance}), r2.Add(hi, r2.Vec{X: distance, Y: distance})
	for i := range r.lines {
		p, q := r.lines[i][0], r.lines[i][1]
		if max(p.X, q.X) < lo.X || min(p.X, q.X) > hi.X || max(p.Y, q.Y) < lo.Y || min(p.Y, q.Y) > hi.Y {
			continue
		}
		if gap(shape, r.lines[i][:]) < distance {
			return false
		}
	}
	return r.clearOfTaken(shape, distance)
}

// clearOfTaken is clear for what may run across lines.
func (r *room) clearOfTaken(shape []r2.Vec, distance float64) bool {
	lo, hi := bounds(shape)
	for i := range r.taken {
		o := &r.taken[i]
		if o.hi.X < lo.X-distance || o.lo.X > hi.X+distance || o.hi.Y < lo.Y-distance || o.lo.Y > hi.Y+distance {
			continue
		}
		if gap(shape, o.shape) < distance {
			return false
		}
	}
	return true
}

// gap returns the greatest distance between two convex shapes along the normals
// of their sides; less than 0 where they overlap (the theorem of the separating
// axis). Shapes that are corner to corner may be farther apart.
func gap(a, b []r2.Vec) float64 {
	most := math.Inf(-1)
	for _, shape := range [2][]r2.Vec{a, b} {
		for i := range shape {
			d := r2.Sub(shape[(i+1)%len(shape)], shape[i])
			l := r2.Norm(d)
			if l == 0 {
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

func along(shape []r2.Vec, n r2.Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, q := range shape {
		t := r2.Dot(q, n)
		lo, hi = min(lo, t), max(hi, t)
	}
	return lo, hi
}

// write puts a text at the first of the places that is clear and in the box,
// and reports whether there is one.
func (r *room) write(s *ink.Sheet, box r2.Box, places func(yield func(*ink.Text) bool)) bool {
	for t := range places {
		shape := t.Box()
		lo, hi := bounds(shape)
		if within(lo, box) && within(hi, box) && r.clear(shape, aroundText) {
			s.Add(t)
			r.add(t)
			return true
		}
	}
	return false
}

// inPolygon reports whether a point is within a closed path, by the count of
// its crossings to the right.
func inPolygon(q r2.Vec, path []r2.Vec) bool {
	in := false
	for i, a := range path {
		b := path[(i+1)%len(path)]
		if (a.Y > q.Y) != (b.Y > q.Y) && q.X < a.X+(q.Y-a.Y)/(b.Y-a.Y)*(b.X-a.X) {
			in = !in
		}
	}
	return in
}
