package clash

import (
	"container/heap"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

// Tolerance is the least overlap, in mm, that counts: two parts that touch, or
// whose overlap is finer than their outlines are drawn, do not clash.
const Tolerance = 0.05

const (
	// fineness is how nearly the depth is found, as a share of it.
	fineness = 1e-4
	// searchCells bounds the search for one pair. A pair that is not decided
	// by then overlaps by less than the cells that are left could hide.
	searchCells = 40_000
	// afterCells bounds the search for a deeper place once an overlap is found
	// and nothing better turns up.
	afterCells = 4_000
	// descents is the number of cells from whose middle a descent is made. The
	// search is sound without: they find most overlaps at once.
	descents = 3
	// descentSteps bounds a descent: it halves its step some 20 times and
	// seldom goes on at one step for long.
	descentSteps = 60
)

// deepest returns the overlap of two solids, as the diameter of the largest
// sphere that lies within both, and where that is. It is 0 where they overlap
// by no more than Tolerance.
//
// The greater of two distance functions is the distance function of what the
// solids share; its least value is the radius sought. Being never steeper than
// 1, it is nowhere in a cell below its value at the centre less half of the
// cell's diagonal: cells are halved, the most promising first, until no cell
// left can hold a better point (branch and bound). The result does not hang on
// where the search starts, and a narrow overlap is not missed.
func deepest(a, b *solid.Body) (depth float64, at r3.Vec) {
	if clear(a, b) {
		return 0, at
	}
	if s, ok := a.Outside().(solid.Sphere); ok {
		if t, ok := b.Outside().(solid.Sphere); ok {
			return lens(s, t)
		}
	}
	frame := frameOf(a)
	if f := frameOf(b); f.volume() < frame.volume() {
		frame = f
	}
	shared := func(p r3.Vec) float64 { return max(a.Distance(p), b.Distance(p)) }

	found, slack, last := -Tolerance/2, 0.0, searchCells
	n := 0
	take := func(p r3.Vec, v float64) {
		if v < found-slack {
			last = min(searchCells, n+afterCells)
		}
		if v < found {
			found, at, slack = v, p, -v*fineness
		}
	}
	take(frame.descend(shared, between(a, b)))
	var queue cells
	push := func(c cell) {
		p := frame.point(c.center)
		v := shared(p)
		take(p, v)
		if n < descents {
			take(frame.descend(shared, p))
		}
		c.bound = v - r3.Norm(c.half)
		if c.bound < found-slack {
			heap.Push(&queue, c)
		}
	}
	push(cell{half: frame.half})
	for ; len(queue) > 0 && n < last; n++ {
		c := heap.Pop(&queue).(cell)
		if c.bound >= found-slack {
			break
		}
		lower, upper := c.halves()
		push(lower)
		push(upper)
	}
	if slack == 0 {
		return 0, r3.Vec{}
	}
	take(frame.descend(shared, at))
	return -2 * found, at
}

// between returns the middle of what two rounds about the spines of a and b
// share where the spines are nearest: for plain rods the very place where they
// overlap most.
func between(a, b *solid.Body) r3.Vec {
	a0, a1, ra := a.Spine()
	b0, b1, rb := b.Spine()
	p, q := closest(a0, a1, b0, b1)
	line := r3.Sub(q, p)
	d := r3.Norm(line)
	if d == 0 {
		return p
	}
	from, to := max(-ra, d-rb), min(ra, d+rb)
	return r3.Add(p, r3.Scale((from+to)/2/d, line))
}

// descend goes from p to lower values of f, in steps along the axes and
// diagonals of the frame, until a step of a hundredth of Tolerance finds none or
// the way grows long.
func (f frame) descend(value func(r3.Vec) float64, p r3.Vec) (r3.Vec, float64) {
	v := value(p)
	step := max(f.half.X, f.half.Y, f.half.Z) / 2
	for range descentSteps {
		if step < Tolerance/100 {
			break
		}
		better, moved := p, false
		for i := range 27 {
			way := r3.Vec{X: float64(i%3 - 1), Y: float64(i/3%3 - 1), Z: float64(i/9 - 1)}
			q := r3.Add(p, r3.Scale(step, r3.Sub(f.point(way), f.center)))
			if w := value(q); w < v {
				v, better, moved = w, q, true
			}
		}
		if !moved {
			step /= 2
		}
		p = better
	}
	return p, v
}

// lens returns the overlap of two true spheres.
func lens(s, t solid.Sphere) (depth float64, at r3.Vec) {
	between := r3.Sub(t.Center, s.Center)
	d := r3.Norm(between)
	depth = min(s.Radius+t.Radius-d, 2*s.Radius, 2*t.Radius)
	if depth <= Tolerance {
		return 0, at
	}
	if d == 0 {
		return depth, s.Center
	}
	// The middle of the shared piece of the line of centres.
	from, to := max(-s.Radius, d-t.Radius), min(s.Radius, d+t.Radius)
	return depth, r3.Add(s.Center, r3.Scale((from+to)/2/d, between))
}

// overlap returns the box that two boxes share, and whether there is one.
func overlap(a, b r3.Box) (r3.Box, bool) {
	c := r3.Box{
		Min: r3.Vec{X: max(a.Min.X, b.Min.X), Y: max(a.Min.Y, b.Min.Y), Z: max(a.Min.Z, b.Min.Z)},
		Max: r3.Vec{X: min(a.Max.X, b.Max.X), Y: min(a.Max.Y, b.Max.Y), Z: min(a.Max.Z, b.Max.Z)},
	}
	return c, c.Min.X < c.Max.X && c.Min.Y < c.Max.Y && c.Min.Z < c.Max.Z
}

// clear reports whether two solids are seen to be clear of each other from
// their boxes and spines alone.
func clear(a, b *solid.Body) bool {
	if c, ok := overlap(a.Bounds(), b.Bounds()); !ok || min(c.Max.X-c.Min.X, c.Max.Y-c.Min.Y, c.Max.Z-c.Min.Z) <= Tolerance {
		return true
	}
	a0, a1, ra := a.Spine()
	b0, b1, rb := b.Spine()
	p, q := closest(a0, a1, b0, b1)
	return r3.Norm(r3.Sub(p, q)) >= ra+rb-Tolerance
}

// closest returns the points of two segments that are nearest to each other.
//
// The squared distance is convex over both; its least point is found by
// clamping each parameter in turn, as in Ericson, Real-Time Collision Detection
// (2005), 5.1.9.
func closest(p1, q1, p2, q2 r3.Vec) (on1, on2 r3.Vec) {
	d1, d2, r := r3.Sub(q1, p1), r3.Sub(q2, p2), r3.Sub(p1, p2)
	a, e, f := r3.Norm2(d1), r3.Norm2(d2), r3.Dot(d2, r)
	c, b := r3.Dot(d1, r), r3.Dot(d1, d2)
	var s, t float64
	switch {
	case a == 0 && e == 0:
	case a == 0:
		t = clamp(f / e)
	case e == 0:
		s = clamp(-c / a)
	default:
		if denom := a*e - b*b; denom > 1e-12*a*e {
			s = clamp((b*f - c*e) / denom)
		}
		t = (b*s + f) / e
		if t < 0 {
			t, s = 0, clamp(-c/a)
		} else if t > 1 {
			t, s = 1, clamp((b-c)/a)
		}
	}
	return r3.Add(p1, r3.Scale(s, d1)), r3.Add(p2, r3.Scale(t, d2))
}

func clamp(x float64) float64 { return max(0, min(1, x)) }

// A frame is a box in space that need not lie along the axes.
type frame struct {
	center  r3.Vec
	x, y, z r3.Vec
	half    r3.Vec
}

// frameOf returns a box about a solid that fits it well: along the axis of a
// tube.
func frameOf(s *solid.Body) frame {
	if p := s.Part.Post; p != nil {
		from, to, r := s.Spine()
		x, y := design.Tilt(p.Direction)
		return frame{
			center: r3.Scale(0.5, r3.Add(from, to)), x: x, y: y, z: p.Direction,
			half: r3.Vec{X: r, Y: r, Z: r3.Norm(r3.Sub(to, from)) / 2},
		}
	}
	b := s.Bounds()
	return frame{
		center: r3.Scale(0.5, r3.Add(b.Min, b.Max)), x: r3.Vec{X: 1}, y: r3.Vec{Y: 1}, z: r3.Vec{Z: 1},
		half: r3.Scale(0.5, r3.Sub(b.Max, b.Min)),
	}
}

func (f frame) volume() float64 { return f.half.X * f.half.Y * f.half.Z }

func (f frame) point(p r3.Vec) r3.Vec {
	return r3.Add(r3.Add(f.center, r3.Scale(p.X, f.x)), r3.Add(r3.Scale(p.Y, f.y), r3.Scale(p.Z, f.z)))
}

// A cell is a part of a frame, in its coordinates.
type cell struct {
	center, half r3.Vec
	bound        float64
}

// halves returns the cell cut in two across its longest side.
func (c cell) halves() (lower, upper cell) {
	lower, upper = c, c
	switch {
	case c.half.X >= c.half.Y && c.half.X >= c.half.Z:
		h := c.half.X / 2
		lower.half.X, upper.half.X = h, h
		lower.center.X -= h
		upper.center.X += h
	case c.half.Y >= c.half.Z:
		h := c.half.Y / 2
		lower.half.Y, upper.half.Y = h, h
		lower.center.Y -= h
		upper.center.Y += h
	default:
		h := c.half.Z / 2
		lower.half.Z, upper.half.Z = h, h
		lower.center.Z -= h
		upper.center.Z += h
	}
	return lower, upper
}

// cells is a heap of cells, the least bound first.
type cells []cell

func (c cells) Len() int           { return len(c) }
func (c cells) Less(i, j int) bool { return c[i].bound < c[j].bound }
func (c cells) Swap(i, j int)      { c[i], c[j] = c[j], c[i] }
func (c *cells) Push(x any)        { *c = append(*c, x.(cell)) }
func (c *cells) Pop() any {
	last := len(*c) - 1
	x := (*c)[last]
	*c = (*c)[:last]
	return x
}
