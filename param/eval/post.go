package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/syntax"
)

// seamBearing is where a seam faces that says nothing else: away from the
// viewer.
const seamBearing = math.Pi / 2

func (e *evaluator) placePost(p *placed, d *syntax.Declaration, table *Declaration, s *scope) {
	h := e.hold(d, table, s)
	host := h.host
	if host == OnBase && e.base != nil && e.base.hangs {
		host = OnWall
	}
	b := e.readBody(d, table, p.what, host, s)
	defer b.done()
	pipe, ok := b.pipe()
	if !h.sound() || b.failed || !ok {
		return
	}
	part := b.part(p)
	post := &design.Post{
		Length:    b.number("length"),
		Direction: design.Upright,
		Seam:      seamBearing,
		Gap:       b.number("gap"),
	}
	post.Ends[design.Head].Disc = true
	post.Ends[design.Foot].Diameter = b.number("diameter")
	post.Ends[design.Head].Diameter = post.Ends[design.Foot].Diameter
	if g := b.find("diameter"); g != nil && g.args[1].isGiven() {
		post.Ends[design.Head].Diameter = g.args[1].value.q.Number
	}
	if post.IsPointed() {
		post.Ends[design.Head].Disc = false
	}
	part.Post = post
	if !b.buy(part, pipe) {
		return
	}
	if !b.tubeSound(part) || !b.stand(p, post, &h) || !b.finishPost(p, post) || h.host == Between && !b.doubleBetween(post, &h) {
		return
	}
	p.part = part
}

// stand finds where a post's axis runs and what it is tied to.
func (b *body) stand(p *placed, post *design.Post, h *hold) bool {
	host := h.to[0]
	switch {
	case h.host == Between:
		return b.span(p, post, h)
	case h.host == OnBase:
		return b.standOnBase(p, post, host)
	case h.host == OnBall:
		return b.standOnBall(p, post, host)
	case b.has("at"):
		return b.branch(p, post, host)
	}
	return b.standOnHead(p, post, host)
}

// finishPost turns the seam and settles the head.
func (b *body) finishPost(p *placed, post *design.Post) (ok bool) {
	if g := b.find("seam"); g != nil {
		if post.Seam, ok = b.bearing(g.args[0], post.Ends[design.Foot].At, "foot", b.what); !ok {
			return false
		}
	}
	if !b.inCourses(post) {
		return false
	}
	if post.Vent, post.VentBear, ok = b.bore("vent", post.Ends[design.Foot].At, "foot"); !ok {
		return false
	}
	if post.Drain, post.DrainBear, ok = b.bore("drain", post.Ends[design.Foot].At, "foot"); !ok {
		return false
	}
	for _, word := range [...]string{"vent", "drain"} {
		if most := post.Narrowest() / 2; b.number(word) > most {
			hole, have := b.mms(b.number(word), 2*most)
			b.report(b.spanOf(word), "make it smaller, such as 1/4 in", "a %s of %s is more than half of %s, %s across", word, hole, b.what, have)
			return false
		}
	}
	if g := b.find("head"); g != nil {
		if post.IsPointed() {
			b.report(g.word, "leave 'head' out", "%s ends in a point, which 'head' does not open or close", b.what)
			return false
		}
		if post.Ends[design.Head].Disc = g.args[0].value.text == "disc"; post.Ends[design.Head].Disc {
			p.headDisc = g.at
		} else {
			p.headOpen = g.at
		}
	}
	return true
}

// lean takes how far the post leans from upright and which way, and finds its
// head.
func (b *body) lean(post *design.Post) (ok bool) {
	post.Lean, post.LeanBearing, ok = b.toward("lean", post.Ends[design.Foot].At, "foot", b.what)
	if ok {
		post.Direction = design.Upright
		if post.Lean != 0 {
			post.Direction = design.Leaning(post.Lean, post.LeanBearing)
		}
		post.Ends[design.Head].At = r3.Add(post.Ends[design.Foot].At, r3.Scale(post.Length, post.Direction))
	}
	return ok
}

// aim sets the direction of a post, and how far that leans.
func aim(post *design.Post, u r3.Vec) {
	post.Direction = u
	post.Lean, post.LeanBearing = math.Atan2(math.Hypot(u.X, u.Y), u.Z), design.BearingOf(u)
	if post.Lean < rounding {
		post.Lean, post.LeanBearing = 0, 0
	}
}

// rounding is the lean, in rad, that rounding may leave of a post that is upright: less than
// a micrometre in a kilometre.
const rounding = 1e-9

// tubeSound checks that sheet of the thickness makes a tube of the diameter, or
// of both diameters of a taper.
func (b *body) tubeSound(p *design.Part) bool {
	t, d := p.Metal.Thickness, p.Post.Narrowest()
	switch {
	case 2*t >= d:
		at := b.spanOf("diameter")
		if p.Post.IsTaper() {
			g := b.find("diameter")
			if at = g.args[0].at; p.Post.Ends[design.Head].Diameter == d {
				at = g.args[1].at
			}
		}
		b.report(at, "make it more than "+b.up(2*t),
			"%s of %s has no inside: metal '%s' is %s thick", b.what, b.mm(d), p.Metal.Name, b.design.Units.Exact(t))
		return false
	case p.Post.Gap >= math.Pi*(d-t):
		b.report(b.spanOf("gap"), "", "the gap of %s is wider than the sheet", b.what)
		return false
	}
	return true
}
