package draft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/solid"
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

// A convex is a convex body.
type convex interface {
	// span returns between which distances along the unit vector d from the
	// point p the line is inside the body.
	span(p, d r3.Vec) (enter, leave float64, ok bool)
}

// A body is a convex one with the ball that surrounds it.
type body struct {
	convex
	center r3.Vec
	reach  float64
}

// bodyOf returns the body of a part.
func bodyOf(p *fab.Part) body {
	switch {
	case p.Base != nil:
		return baseBody(p.Base)
	case p.Post != nil:
		return postBody(p)
	}
	return body{ballBody(p.Part, hair), p.Ball.Center, p.Ball.Hull()}
}

// postBody returns the frustum from the lowest to the highest point of the
// trimmed edges. What it has beyond them is inside what the ends meet.
func postBody(p *fab.Part) body {
	post := p.Post
	slope := post.Slope()
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
	e, l, ok := solid.ConeSpan(r3.Dot(q, q)-s*s, r3.Dot(q, d)-s*ds, 1-ds*ds, s, ds, f.r0, f.slope)
	enter, leave = max(enter, e), min(leave, l)
	return enter, leave, ok && enter < leave
}
