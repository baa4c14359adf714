package flat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/solid"
)

// This file chooses the corners of a trimmed edge. Its chords, rolled up, must
// not run into what the end meets, and stand off it by no more than edgeRoom.
// The traced curve tells, piece by piece, how far a chord would run inside of it
// and outside; what it would run inside, its corners are moved away by.

// edgeRoom is the greatest distance, in mm and along the wall, that a trimmed
// edge may stand off the true curve: a fifth of what a scriber's line is wide.
const edgeRoom = 0.02

// untold is how far, in mm, the true curve may stray from the cubics that stand
// for it: with it no chord of the 10,000 joints of the test runs inside by more than
// a micrometre.
const untold = 0.5e-3

// A stray is how far a chord runs on either side of the curve, in mm along the
// wall: inside of it, where what the end meets begins, and outside.
type stray struct{ in, out float64 }

// beside reports whether two neighbouring chords stand off the curve by no more
// than edgeRoom, when the corner between them is moved so that neither runs
// inside.
func (s stray) beside(other stray) bool {
	return max(s.in, other.in)+max(s.out, other.out) <= edgeRoom
}

// chordAt returns the height of a chord of the flat from a to b, at a share u of
// the angle between. On a cone it bows toward the apex: with r the distance from
// that, 1/r follows a straight line's A cos + B sin of the angle d on the flat,
// here to the second order in d.
func (t *tube) chordAt(a, b point, u float64) float64 {
	if t.flare == 0 {
		return a.y + (b.y-a.y)*u
	}
	apex := t.mean / t.sin
	ra, rb := apex+a.y, apex+b.y
	y := a.y + u*(b.y-a.y)*ra/(rb+(ra-rb)*u)
	d := (b.angle - a.angle) * t.sin
	return y - (apex+y)*d*d*u*(1-u)/2
}

// between returns the height of the curve at a share u of the way between two of
// its points: on a smooth piece by the cubic of their slopes, at a kink on their
// tangents.
func between(a, b point, u float64) float64 {
	step := b.angle - a.angle
	if a.face == b.face && a.face != solid.Rough {
		v := 1 - u
		return v*v*(1+2*u)*a.y + u*u*(1+2*v)*b.y + u*v*step*(v*a.slope-u*b.slope)
	}
	switch k := kink(a, b); {
	case k == 0:
		return a.y + (b.y-a.y)*u
	case u < k:
		return a.y + a.slope*step*u
	default:
		return b.y - b.slope*step*(1-u)
	}
}

// kink returns the share of the way between two points of unlike faces at which
// their tangents cross; 0 where they do not.
func kink(a, b point) float64 {
	step := b.angle - a.angle
	if a.face == solid.Rough || b.face == solid.Rough || a.slope == b.slope {
		return 0
	}
	k := (b.y - a.y - b.slope*step) / (a.slope - b.slope) / step
	if !(k > 0 && k < 1) {
		return 0
	}
	return k
}

// part returns the point of the curve at a share u of the way between two.
func part(a, b point, u float64) point {
	step := b.angle - a.angle
	p := point{angle: a.angle + step*u, y: between(a, b, u), face: a.face}
	switch {
	case a.face == solid.Rough || b.face == solid.Rough:
		p.face = solid.Rough
	case a.face == b.face:
		v := 1 - u
		p.slope = 6*u*v*(b.y-a.y)/step + v*(v-2*u)*a.slope + u*(u-2*v)*b.slope
	case u < kink(a, b):
		p.slope = a.slope
	default:
		p.slope, p.face = b.slope, b.face
	}
	return p
}

// single measures the chord from one point of the curve to the next. At a share u
// of the way the cubic lies u (1-u) ((1-u) p - u q) above it, where p and q are
// what the slopes exceed the chord's by, times the step. Both of one sign make an
// S; else it has one top, (p - q) / 8 in the middle and up to 4/27 (p - q) where
// it leans to one end.
func (e *trim) single(a, b point) (s stray) {
	step := b.angle - a.angle
	var p, q float64
	switch {
	case a.face == solid.Rough || b.face == solid.Rough:
		s = stray{roughness, roughness}
	case a.face == b.face:
		p, q = a.slope*step-(b.y-a.y), b.slope*step-(b.y-a.y)
	default:
		if k := kink(a, b); k > 0 {
			p = 4 * k * (a.slope*step - (b.y - a.y))
			q = -p
		}
	}
	if e.flare != 0 {
		// The chord bows toward the apex: by chordAt, to the second order.
		r := (e.mean + (a.y+b.y)/2*e.sin) / e.sin
		bow := step*step*e.sin*e.sin*r/2 + (b.y-a.y)*(b.y-a.y)/r
		p += bow
		q -= bow
	}
	switch {
	case p*q > 0:
		s.in += 4.0 / 27 * max(p, -q)
		s.out += 4.0 / 27 * max(-p, q)
	case p != q:
		lean := (p + q) / (p - q)
		top := (p - q) / 8 * (1 + 0.2*lean*lean)
		s.in += max(0, top)
		s.out += max(0, -top)
	}
	if e.head {
		s.in, s.out = s.out, s.in
	}
	if s.in > untold {
		s.in += untold
	}
	return s
}

// longer measures the chord from the first to the last of some points, given how
// far the chords between neighbours stray.
func (e *trim) longer(points []point, single []stray) (s stray) {
	last := len(points) - 1
	a, b := points[0], points[last]
	share := 1 / (b.angle - a.angle)
	before := 0.0
	for i := 1; i <= last; i++ {
		off := 0.0
		if i < last {
			off = points[i].y - e.chordAt(a, b, (points[i].angle-a.angle)*share)
			if e.head {
				off = -off
			}
		}
		if piece := single[i-1]; points[i-1].face == points[i].face {
			s.in = max(s.in, crest(before, off, piece.in))
			s.out = max(s.out, crest(-before, -off, piece.out))
		} else { // a kink may be next to either end
			s.in = max(s.in, max(before, off)+piece.in)
			s.out = max(s.out, max(-before, -off)+piece.out)
		}
		before = off
	}
	return s
}

// beyond reports at a glance that the chord from the first to the last of some
// points strays too far: by how far it passes the middle one.
func (e *trim) beyond(points []point) bool {
	a, b, m := points[0], points[len(points)-1], points[len(points)/2]
	return math.Abs(m.y-e.chordAt(a, b, (m.angle-a.angle)/(b.angle-a.angle))) > edgeRoom
}

// crest returns the highest of a line from one height to another with an arch of
// a given rise on it.
func crest(from, to, rise float64) float64 {
	tilt := to - from
	if math.Abs(tilt) >= 4*rise {
		return max(from, to)
	}
	return (from+to)/2 + rise + tilt*tilt/(16*rise)
}

// edge appends the corners of the edge between two angles, from left to right, as
// they lie on the flat; on that of a taper the radial line at the angle middle is
// upright.
func (e *trim) edge(out []r2.Vec, from, to, middle float64) []r2.Vec {
	var room [3 * steps]stray
	points, single := e.fine(from, to, room[:0])
	tip := e.tipOf(points)
	var last stray
	for i := 0; i < len(single); {
		next, chord := i+1, single[i]
		for k := i + 2; k < len(points) && k <= i+joined && k-1 != tip; k++ {
			if e.beyond(points[i : k+1]) {
				break
			}
			long := e.longer(points[i:k+1], single[i:k])
			if !long.beside(long) || !long.beside(last) || k < len(single) && !long.beside(single[k]) {
				break
			}
			next, chord = k, long
		}
		out = append(out, e.corner(points[i], max(last.in, chord.in), middle))
		i, last = next, chord
	}
	return append(out, e.corner(points[len(points)-1], last.in, middle))
}

// corner lays out a corner, moved away from what the end meets.
func (e *trim) corner(p point, away, middle float64) r2.Vec {
	switch {
	case e.free:
	case e.head:
		p.y -= away
	default:
		p.y += away
	}
	return e.lay(p.angle, p.y, middle)
}

// joined is the most pieces of the traced curve that one chord stands for.
const joined = 6

// fine returns the points of the curve between two angles, close enough that any
// two neighbours may be joined by a chord beside those next to it, and how far
// each such chord strays, which it appends to single.
func (e *trim) fine(from, to float64, single []stray) ([]point, []stray) {
	points := e.curve
	if e.flare != 0 {
		points = e.fanned(from, to)
	}
	for i := range len(points) - 1 {
		single = append(single, e.single(points[i], points[i+1]))
	}
	halve := func(i int) {
		points = slices.Insert(points, i+1, part(points[i], points[i+1], 0.5))
		single = slices.Insert(single, i, e.single(points[i], points[i+1]))
		single[i+1] = e.single(points[i+1], points[i+2])
	}
	for i := 0; i < len(single) && len(points) < mostCorners; {
		s := single[i]
		switch {
		case !s.beside(s):
			halve(i)
		case i > 0 && !s.beside(single[i-1]):
			if before := single[i-1]; max(before.in, before.out) >= max(s.in, s.out) {
				i--
			}
			halve(i)
			i = max(0, i-1)
		default:
			i++
		}
	}
	return points, single
}

// fanned returns the points of the curve between two angles, with more between
// them where the arc of a sector needs it.
func (e *trim) fanned(from, to float64) []point {
	points := make([]point, 0, 2*len(e.curve))
	for i := 1; i < len(e.curve); i++ {
		a, b := e.curve[i-1], e.curve[i]
		if b.angle <= from || a.angle >= to {
			continue
		}
		step := b.angle - a.angle
		lo, hi := max(a.angle, from), min(b.angle, to)
		if lo > a.angle || hi < b.angle {
			first, last := part(a, b, (lo-a.angle)/step), part(a, b, (hi-a.angle)/step)
			first.angle, last.angle = lo, hi
			a, b = first, last
		}
		if len(points) == 0 {
			points = append(points, a)
		}
		// Over an angle a chord lies radius angle^2 / 8 from its arc.
		bend := max(e.girth(a.y), e.girth(b.y)) * math.Abs(e.sin)
		n := int(math.Ceil((hi-lo)*math.Sqrt(bend/(8*edgeRoom)) - onEdge))
		for k := 1; k < n; k++ {
			points = append(points, part(a, b, float64(k)/float64(n)))
		}
		points = append(points, b)
	}
	return points
}

// mostCorners ends the halving of a curve that rounding makes ragged.
const mostCorners = 1 << 14

// tipOf returns the index of the edge's farthest point, lowest of a foot and
// highest of a head, on which the size of the blank hangs.
func (e *trim) tipOf(points []point) int {
	tip := 0
	for i := range points {
		if e.head && points[i].y > points[tip].y || !e.head && points[i].y < points[tip].y {
			tip = i
		}
	}
	return tip
}
