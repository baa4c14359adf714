package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

func (b *body) standOnBase(p *placed, post *design.Post, host *placed) bool {
	host, ok := b.onGround(p, post, host)
	if !ok {
		return false
	}
	x, y, ok := b.spot("at")
	post.Ends[design.Foot].At = host.part.Base.Face(x, y)
	p.ties = []tie{{with: host, end: design.Foot, meets: design.OnPlate, at: post.Ends[design.Foot].At}}
	return ok && b.leanFrom(post, host) && b.inItsConcrete(post) &&
		b.standsOnPlate(post.Ends[design.Foot].At, post.Direction, post.Ends[design.Foot].Diameter/2, host)
}

// leanFrom sets the direction of a post on a base: upright, or straight out of a wall, or
// as it leans.
func (b *body) leanFrom(post *design.Post, host *placed) bool {
	if !host.onWall() {
		return b.lean(post)
	}
	out := host.part.Base.Out()
	g := b.find("lean")
	if g == nil {
		aim(post, out)
		post.Ends[design.Head].At = r3.Add(post.Ends[design.Foot].At, r3.Scale(post.Length, out))
		return true
	}
	if !b.lean(post) {
		return false
	}
	if r3.Dot(post.Direction, out) < leastOut {
		b.report(g.at, "lean it out of the wall, such as lean 60 deg toward front", "%s does not come out of the wall: it runs along it or into it", b.what)
		return false
	}
	return true
}

// leastOut is the least that a post comes out of a wall for each mm of its length: at less
// its foot is drawn out too long to be cut.
const leastOut = 0.02

// standOnBall puts the foot on the upper half of the ball, level from its centre
// by the offset.
func (b *body) standOnBall(p *placed, post *design.Post, host *placed) bool {
	ball := host.part.Ball
	e, bearing, ok := b.toward("offset", ball.Center, "centre", host.what)
	if !ok {
		return false
	}
	sin, cos := math.Sincos(bearing)
	across := r3.Vec{X: cos, Y: sin}
	r, ro := ball.Outline(across, design.Upright), post.Ends[design.Foot].Diameter/2
	if e >= r {
		at, end := b.mms(e, r)
		b.report(b.spanOf("offset"), b.room(r, ro, e),
			"%s starts %s from the ball's centre, but %s ends at %s", b.what, at, host.what, end)
		return false
	}
	post.Offset, post.OffsetBear = e, bearing
	at := r3.Add(ball.Center, r3.Scale(e, across))
	rise := math.Sqrt((r - e) * (r + e))
	if ball.IsEgg() {
		rise, _ = ball.Leave(at, design.Upright)
	}
	at.Z += rise
	post.Ends[design.Foot].At = at
	p.ties = []tie{{with: host, end: design.Foot, meets: design.OnBall, at: post.Ends[design.Foot].At}}
	return b.lean(post) && b.coversBall(post, host) && b.double(post, design.Foot, host.part, host.what)
}

// room says how to give an upright tube room on a ball: less offset, or a
// larger ball.
func (b *body) room(r, ro, offset float64) string {
	larger := "make the ball larger than " + b.up(2*(offset+ro)) + " across"
	if r <= ro {
		return larger
	}
	return "make 'offset' less than " + b.down(r-ro) + ", or " + larger
}

// coversBall checks that the whole tube meets the ball: its axis leaves the
// ball at the foot, and passes the centre so near that the outside of the tube
// still cuts the ball all round.
func (b *body) coversBall(post *design.Post, host *placed) bool {
	ball := host.part.Ball
	ro, out := post.Ends[design.Foot].Diameter/2, r3.Sub(post.Ends[design.Foot].At, ball.Center)
	along := r3.Dot(post.Direction, ball.Normal(out))
	if ball.IsEgg() {
		return b.coversEgg(post, host, along)
	}
	past := r3.Norm(r3.Sub(out, r3.Scale(along, post.Direction)))
	word := "lean"
	switch {
	case b.has("offset") && post.Offset > 0:
		word = "offset"
	case post.Lean == 0:
		word = "diameter"
	}
	switch {
	case along <= 0:
		b.report(b.spanOf("lean"), "lean it the other way, or less",
			"%s runs into %s instead of away from it", b.what, host.what)
		return false
	case past+ro < ball.Radius:
		return true
	case word == "diameter":
		return b.fitsBall(ro, host)
	}
	hint := b.room(ball.Radius, ro, past)
	if post.Lean != 0 {
		hint = "lean it more directly away from the ball's centre, or make the ball larger"
	}
	reach, end := b.mms(past+ro, ball.Radius)
	b.report(b.spanOf(word), hint,
		"%s runs past the side of %s: it reaches %s from the ball's centre, but the ball ends at %s", b.what, host.what, reach, end)
	return false
}

// fitsBall checks that a ball is larger than a tube of the given outside radius
// that runs straight at its centre.
func (b *body) fitsBall(ro float64, host *placed) bool {
	ball := host.part.Ball
	if ro < ball.Radius {
		return true
	}
	return b.tooThick(ro, ball.Radius, host)
}

// tooThick reports a post that is as wide as the ball or the egg that it runs at, which is
// seen along it with the given half width.
func (b *body) tooThick(ro, half float64, host *placed) bool {
	d, have := b.mms(2*ro, 2*half)
	b.report(b.spanOf("diameter"), "make the post smaller, or the ball larger than "+b.up(2*ro)+" across",
		"%s of %s does not fit on %s of %s", b.what, d, host.what, have)
	return false
}
