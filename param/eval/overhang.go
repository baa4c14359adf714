package eval

import (
	"math"

	"stabile/param/design"
)

// standsOnBase checks that the whole ring of a post's foot lies on the plate.
// The ring is the ellipse in which a leaning tube cuts a level plane: its outer
// radius across, and longer by 1/cos(lean) along the lean.
func (b *body) standsOnBase(post *design.Post, host *placed) bool {
	base := host.part.Base
	if base.Shape == design.Feet {
		return true
	}
	ring := ellipse{
		x: post.Foot.X, y: post.Foot.Y,
		across: post.Diameter[0] / 2, bearing: post.LeanBearing,
	}
	ring.along = ring.across / math.Cos(post.Lean)
	return b.liesOn(ring, host, "hangs over the edge")
}

// An ellipse lies in plan about (x, y), with half axes along and across a
// bearing.
type ellipse struct{ x, y, along, across, bearing float64 }

// reach returns how far the ellipse reaches from its middle along the x and
// the y axis.
func (o ellipse) reach() (x, y float64) {
	sin, cos := math.Sincos(o.bearing)
	return math.Hypot(o.along*cos, o.across*sin), math.Hypot(o.along*sin, o.across*cos)
}

// farthest returns the greatest distance of the ellipse from the origin. The
// distance has at most two maxima around the ellipse; the best of a coarse
// round is refined by golden section.
func (o ellipse) farthest() float64 {
	sin, cos := math.Sincos(o.bearing)
	at := func(t float64) float64 {
		s, c := math.Sincos(t)
		u, v := o.along*c, o.across*s
		return math.Hypot(o.x+u*cos-v*sin, o.y+u*sin+v*cos)
	}
	if o.along == o.across {
		return math.Hypot(o.x, o.y) + o.across
	}
	const (
		stations = 64
		golden   = 0.6180339887498949
		halvings = 60 // narrow the bracket to under a rounding
	)
	step := 2 * math.Pi / stations
	best := 0.0
	for i := range stations {
		if t := step * float64(i); at(t) > at(best) {
			best = t
		}
	}
	from, to := best-step, best+step
	for range halvings {
		p, q := to-golden*(to-from), from+golden*(to-from)
		if at(p) > at(q) {
			to = q
		} else {
			from = p
		}
	}
	return at((from + to) / 2)
}

// flush is how far in mm a foot may stand over the edge and still count as
// flush with it: a thousand times the rounding of sums of metres.
const flush = 1e-9

// liesOn checks that an ellipse lies on the plate of a base, and tells how far
// it does not and what would mend it.
func (b *body) liesOn(o ellipse, host *placed, does string) bool {
	base := host.part.Base
	if base.Shape == design.Disc {
		far, edge := o.farthest(), base.Width/2
		if far <= edge+flush {
			return true
		}
		b.report(b.spanOf("at"), "bring it in, or make the disc "+b.up(2*far)+" across or more",
			"%s %s of %s by %s", b.what, does, host.what, b.mm(far-edge))
		return false
	}
	rx, ry := o.reach()
	side, at, reach, edge, name := "width", o.x, rx, base.Width/2, "x"
	if math.Abs(o.y)+ry-base.Depth/2 > math.Abs(o.x)+rx-base.Width/2 {
		side, at, reach, edge, name = "depth", o.y, ry, base.Depth/2, "y"
	}
	over := math.Abs(at) + reach - edge
	if over <= flush {
		return true
	}
	hint := "make the " + side + " of the plate " + b.up(2*(math.Abs(at)+reach)) + " or more"
	if room := edge - reach; room > 0 && at > 0 {
		hint = "bring " + name + " down to " + b.down(room) + ", or " + hint
	} else if room > 0 && at < 0 {
		hint = "bring " + name + " up to -" + b.down(room) + ", or " + hint
	}
	b.report(b.spanOf("at"), hint, "%s %s of %s by %s", b.what, does, host.what, b.mm(over))
	return false
}
