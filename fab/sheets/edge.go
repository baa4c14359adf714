package sheets

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A slab is a stretch of the right or left edge of an outline between two
// heights, over which it is straight.
type slab struct {
	y0, y1 float64
	x0, x1 float64 // at y0 and y1
}

// An edge is the right or the left edge of an outline, from its lowest point to its
// highest, and the same with left and right exchanged.
type edge struct{ slabs, mirrored []slab }

// sides are the edges of a piece upright, and of one by half a turn, both with the
// box's corner on the origin.
type sides struct {
	right, left [2]edge
	over, under [2]edge // the upper and lower ones, as right and left ones of the outline with x and y exchanged
}

// sides returns the edges of a kind, which are worked out once.
func (k *kind) sides() *sides {
	if k.edges == nil {
		k.edges = &sides{}
		for i, s := range [2][]r2.Vec{k.laid, pose{math.Pi, r2.Vec{X: k.w, Y: k.h}}.all(k.laid)} {
			t := exchanged(s)
			k.edges.right[i], k.edges.left[i] = rightEdge(s), leftEdge(s)
			k.edges.over[i], k.edges.under[i] = rightEdge(t), leftEdge(t)
		}
	}
	return k.edges
}

// sameHeight is below which two vertices count as of one height: a slab so thin
// would only add to rounding.
const sameHeight = 1e-9

// rightEdge returns the right edge of a closed outline: at each height the greatest
// x. It is exact, with a jump where the outline has one.
func rightEdge(outline []r2.Vec) edge {
	slabs := rightmost(outline)
	return edge{slabs, mirrored(slabs)}
}

func rightmost(outline []r2.Vec) []slab {
	ys := make([]float64, len(outline))
	for i, p := range outline {
		ys[i] = p.Y
	}
	slices.Sort(ys)
	ys = slices.CompactFunc(ys, func(a, b float64) bool { return math.Abs(b-a) <= sameHeight })
	slabs := make([]slab, max(len(ys)-1, 0))
	for i := range slabs {
		slabs[i] = slab{ys[i], ys[i+1], math.Inf(-1), math.Inf(-1)}
	}
	for i, p := range outline {
		q := outline[(i+1)%len(outline)]
		if p.Y > q.Y {
			p, q = q, p
		}
		if q.Y-p.Y <= sameHeight {
			continue
		}
		k, _ := slices.BinarySearch(ys, p.Y-sameHeight)
		slope := (q.X - p.X) / (q.Y - p.Y)
		for ; k < len(slabs) && slabs[k].y0 < q.Y-sameHeight; k++ {
			s := &slabs[k]
			x0 := p.X + float64(slope*(s.y0-p.Y))
			x1 := p.X + float64(slope*(s.y1-p.Y))
			if x0+x1 > s.x0+s.x1 { // edges of an outline do not cross
				s.x0, s.x1 = x0, x1
			}
		}
	}
	return slabs
}

// leftEdge is rightEdge on the other side.
func leftEdge(outline []r2.Vec) edge {
	out := make([]r2.Vec, len(outline))
	for i, p := range outline {
		out[i] = r2.Vec{X: -p.X, Y: p.Y}
	}
	slabs := rightmost(out)
	return edge{mirrored(slabs), slabs}
}

// mirrored returns slabs with left and right exchanged.
func mirrored(e []slab) []slab {
	out := make([]slab, len(e))
	for i, s := range e {
		out[i] = slab{s.y0, s.y1, -s.x0, -s.x1}
	}
	return out
}

// spaced returns how far to the right an outline with the left edge l, raised by
// d, must go to be wholly to the right of the right edge r with a gap between
// all their points: the greatest x at which some corner of the one is just the
// gap from some side of the other. It is exact: of two lines that do not cross
// the nearest points are a corner of one and a point of the other. It is minus
// infinity where they pass above or below each other.
func spaced(r, l *edge, d, gap float64) float64 {
	far := reach(r.slabs, l.slabs, d, gap)
	return max(far, reach(l.mirrored, r.mirrored, -d, gap))
}

// reach is spaced with the corners of l and the sides of r alone.
func reach(r, l []slab, d, gap float64) float64 {
	far := math.Inf(-1)
	first := 0
	corner := func(x, y float64) {
		for first < len(r) && r[first].y1 < y-gap {
			first++
		}
		for i := first; i < len(r) && r[i].y0 <= y+gap; i++ {
			far = max(far, r[i].beside(y, gap)-x)
		}
	}
	for i := range l {
		s := &l[i]
		corner(s.x0, s.y0+d)
		if i+1 == len(l) || l[i+1].x0 != s.x1 {
			corner(s.x1, s.y1+d)
		}
	}
	return far
}

// beside returns the greatest x at the height y that is the gap from the slab's
// side: on the line beside it, or on the circle about one of its ends. It is
// minus infinity where the height is out of reach.
func (s *slab) beside(y, gap float64) float64 {
	w, h := s.x1-s.x0, s.y1-s.y0
	length := math.Sqrt(float64(w*w) + float64(h*h))
	down := gap * w / length // the side's end sinks by this when it is moved out
	switch x, c := s.x0, y-s.y0; {
	case c+down > h:
		x, c = s.x1, y-s.y1
		fallthrough
	case c+down < 0:
		if c < -gap || c > gap {
			return math.Inf(-1)
		}
		return x + math.Sqrt(max(gap*gap-float64(c*c), 0))
	default:
		return x + gap*h/length + float64((c+down)*(w/h))
	}
}

// thinned returns an edge with its corners thinned out to at most a number of slabs,
// near enough to look around with.
func thinned(e edge, most int) edge {
	n := len(e.slabs)
	step := (n + most - 1) / most
	if step <= 1 {
		return e
	}
	out := make([]slab, 0, most)
	for i := 0; i < n; i += step {
		a, b := e.slabs[i], e.slabs[min(i+step, n)-1]
		out = append(out, slab{a.y0, b.y1, a.x0, b.x1})
	}
	return edge{out, mirrored(out)}
}
