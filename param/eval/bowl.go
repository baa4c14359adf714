package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/source"
	"stabile/param/syntax"
)

// placeBowl places a bowl, which is the part of a ball below its rim.
func (e *evaluator) placeBowl(p *placed, d *syntax.Declaration, table *Declaration, s *scope) {
	h := e.hold(d, table, s)
	b := e.readBody(d, table, p.what, h.host, s)
	defer b.done()
	if !h.sound() || b.failed || h.host == OnPost && !b.takeHead(p, h.to[0]) {
		return
	}
	part := b.part(p)
	ball := b.shell()
	part.Ball, ball.Bowl, ball.RimFlat = ball, true, b.wordOf("rim") == "flat"
	if b.has("dished") {
		ball.Build = design.Halves
	}
	if !b.round(part) || !b.shellSound(part) || !b.bowlSound(part) {
		return
	}
	b.closePoles(part)
	if ball.Caps >= 2*ball.RimRadius() {
		caps, have := b.mms(ball.Caps, 2*ball.RimRadius())
		b.report(b.spanOf("caps"), "make it less than "+have+" across", "a cap of %s does not fit into %s of %s", caps, b.what, have)
		return
	}
	if !b.setMouth(ball, &h) || !b.restBowl(p, part, &h) {
		return
	}
	p.part = part
}

// round gives a bowl the ball that it is of: with half of the rim's diameter a and the
// depth h its radius is (a2 + h2) / 2 h.
func (b *body) round(p *design.Part) bool {
	ball, a, h := p.Ball, b.number("diameter")/2, b.number("depth")
	if h > a*(1+coincidence) {
		deep, most := b.mms(h, a)
		b.report(b.spanOf("depth"), "make it "+b.down(a)+" or less, or build a 'ball'", "%s is %s deep, more than half of a ball of its diameter, %s", b.what, deep, most)
		return false
	}
	h = min(h, a)
	ball.Radius = (a*a + h*h) / (2 * h)
	ball.Rim = -math.Acos(min(1, a/ball.Radius))
	return true
}

// bowlSound checks that a bowl is more than twice as deep as its sheet is thick.
func (b *body) bowlSound(p *design.Part) bool {
	if m := p.Metal; m != nil && p.Ball.Build != design.Bought && p.Ball.Depth() <= 2*m.Thickness {
		b.report(b.spanOf("depth"), "make it more than "+b.up(2*m.Thickness), "%s is hardly deeper than its sheet: metal '%s' is %s thick", b.what, m.Name, b.design.Units.Exact(m.Thickness))
		return false
	}
	return true
}

// start returns where bearings of what is held are taken from: its own place where that is
// given outright, else the middle of what it stands on.
func (b *body) start(h *hold) (from r3.Vec, ok bool) {
	switch {
	case h.host == Outright:
		return b.pointIn(h.place, argument{at: h.at[0]})
	case h.to[0].part != nil:
		from = middle(h.to[0].part)
	}
	return from, true
}

// setMouth turns the bowl: its mouth leans from upright, and the middle of its first gore
// faces bearing 0 unless a seam is given its bearing.
func (b *body) setMouth(ball *design.Ball, h *hold) bool {
	from, ok := b.start(h)
	if !ok {
		return false
	}
	tilt, bearing, ok := b.toward("tilt", from, "middle", b.what)
	if !ok {
		return false
	}
	ball.Pole = design.Upright
	if tilt != 0 {
		ball.Pole = design.Leaning(tilt, bearing)
	}
	if _, ball.DrainBear, ok = b.bore("drain", from, "middle"); !ok {
		return false
	}
	ball.Prime = design.Toward(ball.Pole, 0)
	if g := b.find("seam"); g != nil {
		bearing, ok := b.bearing(g.args[0], from, "middle", b.what)
		if !ok {
			return false
		}
		ball.Prime = design.Toward(ball.Pole, bearing+math.Pi/float64(ball.Gores))
	}
	return true
}

// restBowl finds where a bowl is and what it is tied to, and checks that it rests on
// what is there of its ball.
func (b *body) restBowl(p *placed, part *design.Part, h *hold) bool {
	ball := part.Ball
	switch h.host {
	case OnBase:
		if !b.restOnBase(p, part, h.to[0]) {
			return false
		}
		return b.onBowl(ball, r3.Vec{Z: -1}, 0, b.what, b.spanOf("tilt"))
	case OnPost:
		if !b.restOnPost(p, ball, h.to[0]) {
			return false
		}
		post := h.to[0].part.Post
		return b.onBowl(ball, r3.Sub(post.Ends[design.Head].At, ball.Center), post.Ends[design.Head].Diameter/2, b.what, b.spanOf("tilt"))
	case OnBall:
		if !b.restOnBall(p, ball, h.to[0]) {
			return false
		}
		return b.onBowl(ball, r3.Sub(h.to[0].part.Ball.Center, ball.Center), ball.Seat/2, b.what, b.spanOf("tilt"))
	}
	p.outright = h.at[0]
	mouth, ok := b.pointIn(h.place, argument{at: h.at[0]})
	if !ok {
		return false
	}
	ball.Center = r3.Sub(mouth, r3.Scale(ball.RimHeight(), ball.Pole))
	if low := part.Lowest().Z; low < -flush {
		b.report(h.at[0], "raise z to "+b.up(mouth.Z-low), "%s reaches %s below the ground", b.what, b.mm(-low))
		return false
	}
	return true
}

// onBowl checks that a ring of the given radius about a way out from the middle of a
// bowl's ball lies below its rim.
func (b *body) onBowl(ball *design.Ball, out r3.Vec, ring float64, bowl string, at source.Span) bool {
	clear := ball.RimClear(r3.Unit(out), math.Asin(min(1, ring/ball.Radius)))
	if clear >= -coincidence*ball.Radius {
		return true
	}
	b.report(at, "tilt it less, or make it deeper", "what is joined to %s there runs %s past its rim", bowl, b.mm(-clear))
	return false
}
