package draft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/design"
)

// hair is how much smaller than the true part its solid is taken, in mm, so
// that a line on the surface of a part, or on the joint of two, is not hidden
// by the surface that it lies on. It is more than the chord error of a trimmed
// edge (0.05 mm) and less than a line is wide on a full-size drawing.
const hair = 0.2

// slack is the least length of a line of sight, in mm, that a solid must cover
// to hide what is behind. Where it covers less the line grazes the solid, and
// the part's own outline is there.
const slack = 0.5

// A solid is a convex body.
type solid interface {
	// span returns between which distances along the unit vector d from the
	// point p the line is inside the body.
	span(p, d r3.Vec) (enter, leave float64, ok bool)
}

// A body is a solid with the ball that surrounds it.
type body struct {
	solid
	center r3.Vec
	reach  float64
}

// bodyOf returns the body of a part, and false for one that is not a body: a
// base of feet.
func bodyOf(p *fab.Part) (body, bool) {
	switch {
	case p.Base != nil:
		return baseBody(p.Base)
	case p.Post != nil:
		return postBody(p), true
	}
	s, reach := ballSolid(p.Ball, hair)
	return body{s, p.Ball.Center, reach}, true
}

// postBody returns the frustum from the lowest to the highest point of the
// trimmed edges. What it has beyond them is inside what the ends meet.
func postBody(p *fab.Part) body {
	post := p.Post
	slope := (post.Ends[design.Head].Diameter - post.Ends[design.Foot].Diameter) / 2 / post.Length
	from, to := 0.0, post.Length
	for _, rim := range p.Rims {
		for _, q := range rim {
			s := r3.Dot(r3.Sub(q, post.Ends[design.Foot].At), post.Direction)
			from, to = min(from, s), max(to, s)
		}
	}
	if rim := p.Rims[1]; len(rim) > 0 {
		to = math.Inf(-1)
		for _, q := range rim {
			to = max(to, r3.Dot(r3.Sub(q, post.Ends[design.Foot].At), post.Direction))
		}
	}
	foot := r3.Add(post.Ends[design.Foot].At, r3.Scale(from, post.Direction))
	f := frustum{
		foot: r3.Add(foot, r3.Scale(hair, post.Direction)), along: post.Direction,
		length: max(to-from-2*hair, 0), r0: post.Ends[design.Foot].Diameter/2 + slope*from - hair, slope: slope,
	}
	center := r3.Add(foot, r3.Scale((to-from)/2, post.Direction))
	return body{f, center, math.Hypot((to-from)/2, max(post.Ends[design.Foot].Diameter, post.Ends[design.Head].Diameter)/2)}
}

type sphere struct {
	center r3.Vec
	radius float64
}

func (s sphere) span(p, d r3.Vec) (enter, leave float64, ok bool) {
	q := r3.Sub(p, s.center)
	b := r3.Dot(q, d)
	disc := b*b - r3.Dot(q, q) + s.radius*s.radius
	if disc <= 0 {
		return 0, 0, false
	}
	root := math.Sqrt(disc)
	return -b - root, -b + root, true
}

// slab returns between which t the value x + t*dx lies in [lo, hi].
func slab(x, dx, lo, hi float64) (enter, leave float64, ok bool) {
	if dx == 0 {
		return math.Inf(-1), math.Inf(1), lo <= x && x <= hi
	}
	a, b := (lo-x)/dx, (hi-x)/dx
	return min(a, b), max(a, b), true
}

// A frustum is a tube or taper, taken as solid, between two square ends. Its
// radius is r0 at the foot and grows by slope for each mm along.
type frustum struct {
	foot, along       r3.Vec
	length, r0, slope float64
}

func (f frustum) span(p, d r3.Vec) (enter, leave float64, ok bool) {
	q := r3.Sub(p, f.foot)
	s, ds := r3.Dot(q, f.along), r3.Dot(d, f.along)
	enter, leave, ok = slab(s, ds, 0, f.length)
	if !ok {
		return 0, 0, false
	}
	// |q + t d|² less its part along the axis is at most the radius squared.
	radius, dr := f.r0+f.slope*s, f.slope*ds
	a := 1 - ds*ds - dr*dr
	b := r3.Dot(q, d) - s*ds - radius*dr
	c := r3.Dot(q, q) - s*s - radius*radius
	switch disc := b*b - a*c; {
	case math.Abs(a) < 1e-12: // along the axis of a tube, or along a taper's wall
		switch t := -c / (2 * b); {
		case b > 1e-12:
			leave = min(leave, t)
		case b < -1e-12:
			enter = max(enter, t)
		case c > 0:
			return 0, 0, false
		}
	case a > 0:
		if disc <= 0 {
			return 0, 0, false
		}
		root := math.Sqrt(disc)
		enter, leave = max(enter, (-b-root)/a), min(leave, (-b+root)/a)
	default: // steeper than the taper: inside the nap whose radius is positive
		if disc <= 0 {
			break
		}
		root := math.Sqrt(disc)
		if dr > 0 {
			enter = max(enter, (-b-root)/a)
		} else {
			leave = min(leave, (-b+root)/a)
		}
	}
	return enter, leave, enter < leave
}

// lobes is a ball of gores bent one way: the part of space inside every gore's
// cylinder. Each gore is a cylinder about the line through the centre square
// to the pole and to the gore's middle; behind the centre it bounds only the
// height.
type lobes struct {
	center  r3.Vec
	radius  float64
	pole    r3.Vec
	middles []r3.Vec // unit vectors to the middle of each gore
}

func newLobes(b *design.Ball, radius float64) lobes {
	l := lobes{b.Center, radius, b.Pole, make([]r3.Vec, b.Gores)}
	for k := range l.middles {
		l.middles[k] = meridian(b, 2*math.Pi*float64(k)/float64(b.Gores))
	}
	return l
}

func (l lobes) span(p, d r3.Vec) (enter, leave float64, ok bool) {
	q := r3.Sub(p, l.center)
	z, dz := r3.Dot(q, l.pole), r3.Dot(d, l.pole)
	enter, leave, ok = slab(z, dz, -l.radius, l.radius)
	if !ok {
		return 0, 0, false
	}
	flatEnter, flatLeave := enter, leave
	for _, m := range l.middles {
		x, dx := r3.Dot(q, m), r3.Dot(d, m)
		// Inside is the cylinder, or the slab behind the centre.
		lo, hi := math.Inf(1), math.Inf(-1)
		if e, u, in := slab(x, dx, math.Inf(-1), 0); in {
			if e, u = max(e, flatEnter), min(u, flatLeave); e < u {
				lo, hi = e, u
			}
		}
		a, b, c := x2(dx)+x2(dz), x*dx+z*dz, x2(x)+x2(z)-x2(l.radius)
		if a < 1e-12 {
			if c <= 0 {
				lo, hi = math.Inf(-1), math.Inf(1)
			}
		} else if disc := b*b - a*c; disc > 0 {
			root := math.Sqrt(disc)
			if e, u, in := slab(x, dx, 0, math.Inf(1)); in {
				if e, u = max(e, (-b-root)/a), min(u, (-b+root)/a); e < u {
					lo, hi = min(lo, e), max(hi, u)
				}
			}
		}
		if enter, leave = max(enter, lo), min(leave, hi); enter >= leave {
			return 0, 0, false
		}
	}
	return enter, leave, true
}

func x2(x float64) float64 { return x * x }

// meridian returns the unit vector square to a ball's pole at the given
// longitude from the middle of its first gore.
func meridian(b *design.Ball, longitude float64) r3.Vec {
	sin, cos := math.Sincos(longitude)
	return r3.Add(r3.Scale(cos, b.Prime), r3.Scale(sin, r3.Cross(b.Pole, b.Prime)))
}
