package flat

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A crossing is where a side of one polygon crosses a side of another.
type crossing struct {
	at    r2.Vec
	side  [2]int     // of either polygon
	share [2]float64 // along it
	next  [2]int     // the crossing that comes next on either polygon
	out   bool       // the first polygon comes out of the second here
	done  bool
}

// nudge moves a polygon by a ten-millionth of a mm, so that no corner of it
// falls on a line of another by being made of the same numbers.
func nudge(p []r2.Vec) []r2.Vec {
	q := make([]r2.Vec, len(p))
	for i, v := range p {
		q[i] = nudged(v)
	}
	return q
}

func nudged(v r2.Vec) r2.Vec { return r2.Vec{X: v.X + 0.83e-7, Y: v.Y + 0.57e-7} }

// subtract takes polygon b out of polygon a; both are simple and
// counter-clockwise. Where b lies within a there is one piece, with a hole.
//
// From each place where a comes out of b the outline of what is left follows a
// to the next crossing and then b backward to the next, and so on (Weiler and
// Atherton, 1977).
func subtract(a, b []r2.Vec) (left [][]r2.Vec, hole bool) {
	b = nudge(b)
	list := crossings(a, b)
	if len(list) == 0 {
		switch {
		case within(b[0], a):
			return [][]r2.Vec{a}, true
		case within(a[0], b):
			return nil, false
		}
		return [][]r2.Vec{a}, false
	}
	for i := range list {
		if list[i].done || !list[i].out {
			continue
		}
		var piece []r2.Vec
		for at := i; !list[at].done; {
			list[at].done = true
			to := list[at].next[0]
			piece = stretch(piece, a, &list[at], &list[to], 0)
			// Backward along b: to the crossing of which this is the next.
			before := slices.IndexFunc(list, func(c crossing) bool { return c.next[1] == to })
			reversed := stretch(nil, b, &list[before], &list[to], 1)
			piece = append(piece, list[to].at)
			for _, v := range slices.Backward(reversed[1:]) {
				piece = append(piece, v)
			}
			list[to].done = true
			at = before
		}
		left = append(left, piece)
	}
	return left, false
}

// crossings returns where the sides of two polygons cross, in the order of the
// first.
func crossings(a, b []r2.Vec) []crossing {
	low, high := bounds(b)
	var list []crossing
	for i, p := range a {
		q := a[(i+1)%len(a)]
		if max(p.X, q.X) < low.X || min(p.X, q.X) > high.X || max(p.Y, q.Y) < low.Y || min(p.Y, q.Y) > high.Y {
			continue
		}
		along := r2.Sub(q, p)
		for j, r := range b {
			other := r2.Sub(b[(j+1)%len(b)], r)
			turn := r2.Cross(along, other)
			if turn == 0 {
				continue
			}
			s, t := r2.Cross(r2.Sub(r, p), other)/turn, r2.Cross(r2.Sub(r, p), along)/turn
			if s >= 0 && s < 1 && t >= 0 && t < 1 {
				// The inside of b is on the left of its side.
				list = append(list, crossing{
					at: r2.Add(p, r2.Scale(s, along)), side: [2]int{i, j}, share: [2]float64{s, t}, out: turn > 0,
				})
			}
		}
	}
	order := make([]int, len(list))
	for which := range 2 {
		for i := range order {
			order[i] = i
		}
		slices.SortFunc(order, func(x, y int) int {
			return cmp.Or(cmp.Compare(list[x].side[which], list[y].side[which]), cmp.Compare(list[x].share[which], list[y].share[which]))
		})
		for i, c := range order {
			list[c].next[which] = order[(i+1)%len(order)]
		}
	}
	return list
}

// stretch appends the stretch of a polygon from one crossing to another, the
// first but not the last of them included.
func stretch(out, polygon []r2.Vec, from, to *crossing, which int) []r2.Vec {
	out = append(out, from.at)
	n := len(polygon)
	i, last := from.side[which], to.side[which]
	if i == last && from.share[which] < to.share[which] {
		return out
	}
	for {
		i = (i + 1) % n
		out = append(out, polygon[i])
		if i == last {
			return out
		}
	}
}

// within reports whether a point lies in a polygon.
func within(p r2.Vec, polygon []r2.Vec) bool {
	in := false
	for i, a := range polygon {
		b := polygon[(i+1)%len(polygon)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

// enclosed returns the area of a polygon, positive when it is counter-clockwise.
func enclosed(polygon []r2.Vec) float64 {
	area := 0.0
	for i, p := range polygon {
		area += r2.Cross(p, polygon[(i+1)%len(polygon)]) / 2
	}
	return area
}

// clip returns the parts of a line of points that lie in a polygon.
func clip(line, polygon []r2.Vec) [][]r2.Vec {
	low, high := bounds(polygon)
	near := sidesNear(line, polygon, low, high)
	if near == nil {
		return nil
	}
	var parts [][]r2.Vec
	var part []r2.Vec
	// The polygon nudged one way is the point nudged the other.
	if within(r2.Sub(line[0], nudged(r2.Vec{})), polygon) {
		part = append(part, line[0])
	}
	var shares []float64
	for i := 1; i < len(line); i++ {
		p, q := line[i-1], line[i]
		if max(p.X, q.X) < low.X || min(p.X, q.X) > high.X || max(p.Y, q.Y) < low.Y || min(p.Y, q.Y) > high.Y {
			continue
		}
		along := r2.Sub(q, p)
		shares = shares[:0]
		for _, side := range near {
			if max(p.Y, q.Y) < side.low || min(p.Y, q.Y) > side.high {
				continue
			}
			turn := r2.Cross(along, side.along)
			if turn == 0 {
				continue
			}
			s, t := r2.Cross(r2.Sub(side.from, p), side.along)/turn, r2.Cross(r2.Sub(side.from, p), along)/turn
			if s > 0 && s < 1 && t >= 0 && t < 1 {
				shares = append(shares, s)
			}
		}
		slices.Sort(shares)
		for _, s := range shares {
			at := r2.Add(p, r2.Scale(s, along))
			if part != nil {
				parts = append(parts, append(part, at))
				part = nil
			} else {
				part = append(make([]r2.Vec, 0, len(line)-i+2), at)
			}
		}
		if part != nil {
			part = append(part, q)
		}
	}
	if len(part) > 1 {
		parts = append(parts, part)
	}
	// A closed line that starts within comes back to where it started.
	if n := len(parts); n > 1 && line[0] == line[len(line)-1] && parts[0][0] == line[0] {
		parts[0] = append(parts[n-1], parts[0][1:]...)
		parts = parts[:n-1]
	}
	return parts
}

// A reach is one side of a polygon, from its start along it, with the heights
// that it spans.
type reach struct {
	from, along r2.Vec
	low, high   float64
}

// sidesNear returns the sides of a polygon, nudged, that a line of points could
// cross: those that its bounds touch. They are nil where the line lies outside
// of the polygon's bounds, low and high, altogether. Most marks touch a few
// sides of many.
func sidesNear(line, polygon []r2.Vec, low, high r2.Vec) []reach {
	from, to := bounds(line)
	if to.X < low.X || from.X > high.X || to.Y < low.Y || from.Y > high.Y {
		return nil
	}
	const slack = 1e-6 // more than a nudge
	near := make([]reach, 0, 16)
	for i, p := range polygon {
		q := polygon[(i+1)%len(polygon)]
		if max(p.X, q.X) < from.X-slack || min(p.X, q.X) > to.X+slack || max(p.Y, q.Y) < from.Y-slack || min(p.Y, q.Y) > to.Y+slack {
			continue
		}
		near = append(near, reach{
			from: nudged(p), along: r2.Sub(q, p),
			low: min(p.Y, q.Y) - slack, high: max(p.Y, q.Y) + slack,
		})
	}
	return near
}

// nearTo brings an angle within half a period of another.
func nearTo(u, about, period float64) float64 {
	if period == 0 {
		return u
	}
	return u - period*math.Round((u-about)/period)
}

// wound returns the parts within a polygon of a closed line on a surface that is
// wound about an axis, where the first coordinate comes back after a period. The
// line is unwound; it may go round the axis.
func wound(line []r2.Vec, period float64, polygon []r2.Vec) [][]r2.Vec {
	n := len(line)
	if period == 0 {
		return clip(append(line[:n:n], line[0]), polygon)
	}
	round := line[n-1].X - line[0].X
	if math.Abs(round) > period/2 {
		step := math.Copysign(period, round)
		several := make([]r2.Vec, 0, 5*n)
		for k := -2.0; k <= 2; k++ {
			for _, q := range line {
				several = append(several, r2.Vec{X: q.X + k*step, Y: q.Y})
			}
		}
		return clip(several, polygon)
	}
	var parts [][]r2.Vec
	for k := -1.0; k <= 1; k++ {
		moved := make([]r2.Vec, n, n+1)
		for i, q := range line {
			moved[i] = r2.Vec{X: q.X + k*period, Y: q.Y}
		}
		parts = append(parts, clip(append(moved, moved[0]), polygon)...)
	}
	return parts
}
