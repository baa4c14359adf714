package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/source"
)

// A side is the outer surface of a post, given in the post's own frame: z runs
// along the axis from the foot, and the radius grows evenly with z.
type side struct {
	foot, axis   r3.Vec
	radius, grow float64 // at the foot, and for each mm along the axis
	length       float64
}

func sideOf(p *design.Post) side {
	return side{
		foot: p.Ends[design.Foot].At, axis: p.Direction, length: p.Length,
		radius: p.Ends[design.Foot].Diameter / 2, grow: p.Slope(),
	}
}

// A crossing is the quadratic p s2 + 2 q s + k = 0 of the places s in which a
// line meets the side.
//
// With r across and z along the axis, the line from + s u meets the cone where
// |r + s r'|2 = (radius + grow (z + s z'))2.
type crossing struct {
	p, q, k float64
	z, dz   float64 // along the axis, and for each mm of s
	radius  float64 // of the side at z
}

func (c side) cross(from, u r3.Vec) crossing {
	d := r3.Sub(from, c.foot)
	x := crossing{z: r3.Dot(d, c.axis), dz: r3.Dot(u, c.axis)}
	across, step := r3.Sub(d, r3.Scale(x.z, c.axis)), r3.Sub(u, r3.Scale(x.dz, c.axis))
	r, dr := c.radius+c.grow*x.z, c.grow*x.dz
	x.radius = r
	x.p = r3.Dot(step, step) - dr*dr
	x.q = r3.Dot(across, step) - r*dr
	x.k = r3.Dot(across, across) - r*r
	return x
}

const (
	// parallel is the share of its run under which a line goes along the side:
	// a slope that no saw cuts.
	parallel = 1e-9

	// graze is how far a line may miss the side and still touch it, as a share of
	// the square of the radius: a thousand times the rounding of such squares.
	graze = 1e-12
)

// miss returns by how much the line misses the side, as a share of the square
// of the radius; below 0 where it meets it.
func (x crossing) miss() float64 {
	return (x.p*x.k - x.q*x.q) / max(x.p*x.radius*x.radius, math.SmallestNonzeroFloat64)
}

// exit returns where the line leaves the side for good: the greater root, and
// the length along the axis of that place. It reports false if the line runs
// along the side, or misses it.
func (x crossing) exit() (s, along float64, ok bool) {
	if x.p <= parallel || x.miss() > graze {
		return 0, 0, false
	}
	s = (math.Sqrt(max(0, x.q*x.q-x.p*x.k)) - x.q) / x.p
	return s, x.z + s*x.dz, true
}

// A saddle is the curve in which the outside of a branch meets the side of a
// post: how far along the post's axis it reaches.
type saddle struct {
	foot   float64 // from the start of the branch's axis to where that leaves the side
	lo, hi float64
}

// saddle returns the curve of a branch of the given outside radius whose axis
// starts at a point on or within the side. The line of the axis must leave the
// side. It reports false where the branch does not meet the side all round.
func (c side) saddle(from, u r3.Vec, outside float64) (saddle, bool) {
	foot, _, ok := c.cross(from, u).exit()
	if !ok {
		return saddle{}, false
	}
	x, y := design.Tilt(u)
	wall := func(t float64) crossing {
		sin, cos := math.Sincos(t)
		return c.cross(r3.Add(from, r3.Scale(outside, r3.Add(r3.Scale(cos, x), r3.Scale(sin, y)))), u)
	}
	if peak(func(t float64) float64 { return wall(t).miss() }) > graze {
		return saddle{}, false
	}
	w := saddle{foot: foot}
	w.hi = peak(func(t float64) float64 {
		_, along, _ := wall(t).exit()
		return along
	})
	w.lo = -peak(func(t float64) float64 {
		_, along, _ := wall(t).exit()
		return -along
	})
	return w, true
}

// meetsSide returns the saddle of the post at hand on the side of another, and
// reports what keeps it from fitting. The end has the given outside radius; at is
// the words that put it there.
func (b *body) meetsSide(host *placed, from, u r3.Vec, outside float64, at source.Span) (saddle, bool) {
	c := sideOf(host.part.Post)
	here := c.radius + c.grow*r3.Dot(r3.Sub(from, c.foot), c.axis)
	if order(outside, here) > 0 {
		d, have := b.mms(2*outside, 2*here)
		b.report(b.spanOf("diameter"), "make it no thicker than "+b.down(2*here),
			"%s of %s is thicker than %s, which is %s where they meet", b.what, d, host.what, have)
		return saddle{}, false
	}
	if _, _, ok := c.cross(from, u).exit(); !ok {
		b.report(at, "turn it away from the axis of "+host.what, "%s runs along %s, and never leaves its side", b.what, host.what)
		return saddle{}, false
	}
	w, ok := c.saddle(from, u, outside)
	switch {
	case !ok:
		b.report(at, "turn it to face the axis of "+host.what+", or make it smaller",
			"%s runs past the side of %s, and does not meet it all the way round", b.what, host.what)
		return w, false
	case w.lo < -flush:
		b.report(at, b.roomOnSide(host, w, c), "%s meets %s partly below its foot, by %s", b.what, host.what, b.mm(-w.lo))
		return w, false
	case w.hi > c.length+flush:
		b.report(at, b.roomOnSide(host, w, c), "%s meets %s partly above its head, by %s", b.what, host.what, b.mm(w.hi-c.length))
		return w, false
	}
	return w, true
}

// roomOnSide says between what lengths a branch has room on a post.
func (b *body) roomOnSide(host *placed, w saddle, c side) string {
	g := b.find("at")
	if g == nil || w.hi-w.lo >= c.length {
		return "make " + host.what + " longer, or " + b.what + " thinner"
	}
	at := g.args[0].value.q.Number
	least, most := at-w.lo, at+c.length-w.hi
	if w.lo < -flush {
		return "make 'at' at least " + b.up(least)
	}
	return "make 'at' at most " + b.down(most)
}
