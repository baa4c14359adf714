package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// standsOnPlate checks that the whole ring of a tube's end lies on the plate.
// The ring is the ellipse in which a tube along u, out of the plate or into it, cuts
// its face at a point of its axis: its outer radius across, and longer along the
// lean by 1 over the cosine of the lean.
func (b *body) standsOnPlate(at, u r3.Vec, outside float64, host *placed) bool {
	if host.feet {
		return true
	}
	at, u = host.part.Base.Own(at), host.part.Base.OwnWay(u)
	ring := ellipse{x: at.X, y: at.Y, across: outside, along: outside / math.Abs(u.Z), bearing: design.BearingOf(u)}
	return b.liesOn(ring, host, "hangs over the edge")
}

// liesOnPad checks that an ellipse lies on the pad that it is in the middle of.
func (b *body) liesOnPad(o ellipse, host *placed) bool {
	base := host.part.Base
	rx, ry := o.reach()
	g := b.find("pad")
	switch {
	case rx > base.Width/2+flush:
		b.report(g.args[0].at, "make it "+b.up(2*rx)+" or more", "%s hangs over the edge of its pad by %s", b.what, b.mm(rx-base.Width/2))
	case ry > base.Depth/2+flush:
		b.report(g.args[1].at, "make it "+b.up(2*ry)+" or more", "%s hangs over the edge of its pad by %s", b.what, b.mm(ry-base.Depth/2))
	default:
		return true
	}
	return false
}

// liesWithin checks that an ellipse lies on a plate with straight sides.
func (b *body) liesWithin(o ellipse, host *placed, does string) bool {
	over := math.Inf(-1)
	for from, out := range host.part.Base.Outline().Sides {
		over = max(over, o.support(out)-r2.Dot(from, out))
	}
	if over <= flush {
		return true
	}
	b.report(b.spanOf("at"), "bring it in by "+b.up(over)+" or more, or make the plate larger there",
		"%s %s of %s by %s", b.what, does, host.what, b.mm(over))
	return false
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

// support returns how far the ellipse reaches from the origin along a unit vector.
func (o ellipse) support(way r2.Vec) float64 {
	sin, cos := math.Sincos(o.bearing)
	return o.x*way.X + o.y*way.Y + math.Hypot(o.along*(way.X*cos+way.Y*sin), o.across*(way.Y*cos-way.X*sin))
}

// farthest returns the greatest distance of the ellipse from the origin.
func (o ellipse) farthest() float64 {
	if o.along == o.across {
		return math.Hypot(o.x, o.y) + o.across
	}
	sin, cos := math.Sincos(o.bearing)
	return peak(func(t float64) float64 {
		s, c := math.Sincos(t)
		u, v := o.along*c, o.across*s
		return math.Hypot(o.x+u*cos-v*sin, o.y+u*sin+v*cos)
	})
}

// peak returns the greatest value of a smooth function of an angle that has few
// maxima around the turn. The best of a coarse round is refined by golden
// section.
func peak(at func(angle float64) float64) float64 {
	const (
		stations = 64
		golden   = 0.6180339887498949
		steps    = 60 // narrow the bracket to under a rounding
	)
	step := 2 * math.Pi / stations
	best, most := 0.0, math.Inf(-1)
	for i := range stations {
		t := step * float64(i)
		if x := at(t); x > most {
			best, most = t, x
		}
	}
	from, to := best-step, best+step
	for range steps {
		p, q := to-golden*(to-from), from+golden*(to-from)
		if at(p) > at(q) {
			to = q
		} else {
			from = p
		}
	}
	return max(most, at((from+to)/2))
}

// flush is how far in mm a foot may stand over the edge and still count as
// flush with it: a thousand times the rounding of sums of metres.
const flush = 1e-9

// liesOn checks that an ellipse lies on the plate of a base, and reports how far
// it does not and what would mend it.
func (b *body) liesOn(o ellipse, host *placed, does string) bool {
	base := host.part.Base
	if base.Pad {
		return b.liesOnPad(o, host)
	}
	if base.Shape == design.Disc {
		far, edge := o.farthest(), base.Width/2
		if far <= edge+flush {
			return true
		}
		b.report(b.spanOf("at"), "move it in, or make the disc "+b.up(2*far)+" across or more",
			"%s %s of %s by %s", b.what, does, host.what, b.mm(far-edge))
		return false
	}
	if base.Shape == design.Polygon {
		return b.liesWithin(o, host, does)
	}
	rx, ry := o.reach()
	side, at, reach, edge, name := "width", o.x, rx, base.Width/2, "x"
	if math.Abs(o.y)+ry-base.Depth/2 > math.Abs(o.x)+rx-base.Width/2 {
		side, at, reach, edge, name = "depth", o.y, ry, base.Depth/2, "y"
		if base.OnWall() {
			side = "height"
		}
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
