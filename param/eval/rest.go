package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// rest finds where a ball's centre is and what it is tied to.
func (b *body) rest(p *placed, part *design.Part, h *hold) bool {
	host, ball := h.to[0], part.Ball
	switch h.host {
	case OnBase:
		return b.restOnBase(p, part, host)
	case OnPost:
		return b.restOnPost(p, ball, host)
	case OnBall:
		return b.restOnBall(p, ball, host)
	case Around:
		return b.thread(p, ball, host)
	}
	return b.putOutright(p, ball, h)
}

// restOnBase sets the ball down on the base, its centre over where 'at' says. It
// rests on its lowest point as its pole leans, which may be a ridge to one side.
func (b *body) restOnBase(p *placed, part *design.Part, host *placed) bool {
	if host.onWall() {
		b.report(p.at, "put it on a post that comes out of the wall", "%s has nothing to lie on: %s is on a wall", b.what, host.what)
		return false
	}
	x, y, ok := b.spot("at")
	if !ok {
		return false
	}
	ball, base := part.Ball, host.part.Base
	ball.Center, ball.On = r3.Vec{X: x, Y: y}, host.onto()
	if !ball.Bowl && !b.setPole(ball) {
		return false
	}
	low := part.Farthest(r3.Vec{Z: -1})
	ball.Center.Z = base.Top - low.Z
	at := r3.Vec{X: x + low.X, Y: y + low.Y, Z: base.Top}
	p.ties = []tie{{with: host, kind: design.RestJoint, at: at}}
	return host.feet || b.liesOn(ellipse{x: at.X, y: at.Y}, host, "rests outside the edge")
}

// restOnPost sets the ball on the end of a tube, which the offset moves it
// across.
func (b *body) restOnPost(p *placed, ball *design.Ball, host *placed) bool {
	post := host.part.Post
	e, bearing, ok := b.toward("offset", post.Ends[design.Head].At, "head", host.what)
	if !ok {
		return false
	}
	if ball.IsEgg() {
		return b.restEgg(p, ball, host, e, bearing)
	}
	outside := post.Ends[design.Head].Diameter / 2
	switch {
	case outside >= ball.Radius:
		d, tube := b.mms(2*ball.Radius, 2*outside)
		b.report(b.spanOf("diameter"), "make the ball larger than "+b.up(2*outside)+" across, or the post smaller",
			"%s of %s does not rest on %s of %s", b.what, d, host.what, tube)
		return false
	case outside+e >= ball.Radius:
		reach, end := b.mms(outside+e, ball.Radius)
		b.report(b.spanOf("offset"), "make 'offset' less than "+b.down(ball.Radius-outside)+", or make the ball larger than "+b.up(2*(outside+e))+" across",
			"%s does not cover the end of %s: the far edge of the tube is %s from the ball's centre line, but the ball's radius is %s",
			b.what, host.what, reach, end)
		return false
	}
	ball.Offset, ball.OffsetBear = e, bearing
	rise := riseOver(host.part, ball.Radius, e)
	ball.Center = r3.Add(post.Ends[design.Head].At, r3.Scale(rise, post.Direction))
	if e > 0 {
		ball.Center = r3.Add(ball.Center, r3.Scale(e, design.Toward(post.Direction, bearing)))
	}
	ball.On = host.part
	p.ties = []tie{{with: host, kind: design.EndJoint, end: design.Head, meets: design.OnBall, at: post.Ends[design.Head].At}}
	return true
}

// riseOver returns how high over the end of a post the centre of a ball is that
// rests on it, of the given radius and moved across by an offset.
//
// The ball touches an edge of the end at its far side from the offset. With the
// edge's radius r, the ball's radius R and the offset e, that point is r + e
// from the ball's centre line, and the centre sqrt(R2 - (r + e)2) above the edge.
// The end of a tube is touched at its inside edge first. The end of a taper is
// square through its sheet, so that its inside edge is lower than the outside
// edge, or higher where the taper widens; the edge that holds the ball higher is
// the one that it rests on.
func riseOver(p *design.Part, radius, offset float64) float64 {
	post, t := p.Post, p.Metal.Thickness
	over := func(edge float64) float64 { return math.Sqrt((radius - edge - offset) * (radius + edge + offset)) }
	outside := post.Ends[design.Head].Diameter / 2
	if !post.IsTaper() {
		return over(outside - t)
	}
	narrowing := (post.Ends[design.Foot].Diameter - post.Ends[design.Head].Diameter) / 2
	slant := math.Hypot(narrowing, post.Length)
	inside := outside - t*post.Length/slant
	return max(over(outside), over(inside)-t*narrowing/slant)
}

// restOnBall sets the ball on another, to which it is welded in a circle of
// diameter d: the centres are sqrt(R2 - (d/2)2) of the one and the same of the
// other apart. It is straight above the other, or the offset away from there,
// level.
func (b *body) restOnBall(p *placed, ball *design.Ball, host *placed) bool {
	under := host.part.Ball
	if ball.Center = under.Center; ball.IsEgg() && !b.setPole(ball) {
		return false
	}
	if under.Build == design.Bought && b.has("through") {
		b.report(b.find("through").at, "leave 'through' out", "'through' opens both balls, and %s is bought", host.what)
		return false
	}
	e, bearing, ok := b.toward("offset", under.Center, "centre", host.what)
	if !ok {
		return false
	}
	if !b.seatsEgg(ball, host, e) {
		return false
	}
	least := min(ball.Radius, under.Radius)
	ball.Seat = least / 2
	if b.has("seat") {
		ball.Seat = b.number("seat")
	}
	if most := 2 * least * widestSeat; ball.Seat > most {
		seat, have := b.mms(ball.Seat, 2*least)
		b.report(b.spanOf("seat"), "make it "+b.down(most)+" or less", "a seat of %s sinks the smaller ball, %s across, by more than half of its radius", seat, have)
		return false
	}
	below, above := under.Chord(ball.Seat), ball.Chord(ball.Seat)
	apart := below + above
	if e >= apart {
		far, most := b.mms(e, apart)
		b.report(b.spanOf("offset"), "make 'offset' less than "+b.down(apart),
			"%s would sit %s to the side of %s, but their centres are only %s apart", b.what, far, host.what, most)
		return false
	}
	u := r3.Vec{Z: 1}
	if e > 0 {
		lean := e / apart
		sin, cos := math.Sincos(bearing)
		u = r3.Vec{X: lean * cos, Y: lean * sin, Z: math.Sqrt((1 - lean) * (1 + lean))}
	}
	ball.Offset, ball.OffsetBear, ball.On = e, bearing, host.part
	ball.Center = r3.Add(under.Center, r3.Scale(apart, u))
	at := r3.Add(under.Center, r3.Scale(below, u))
	p.ties = []tie{{with: host, kind: design.SeatJoint, at: at}}
	return true
}

// widestSeat is the greatest diameter of a seat as a share of the smaller ball's:
// at the sine of 60 deg the cut lies at half of its radius.
const widestSeat = 0.8660254037844386

// thread sets the ball around a post.
func (b *body) thread(p *placed, ball *design.Ball, host *placed) bool {
	post := host.part.Post
	along := b.number("height")
	if along >= post.Length {
		have, end := b.mms(along, post.Length)
		b.report(b.spanOf("height"), "make it less than "+b.down(post.Length), "%s is put at %s along %s, but that is %s long", b.what, have, host.what, end)
		return false
	}
	if through := post.DiameterAt(along); through >= 2*ball.Radius {
		have, tube := b.mms(2*ball.Radius, through)
		b.report(b.spanOf("diameter"), "make the ball larger than "+b.up(through)+" across",
			"%s of %s does not go around %s, which is %s there", b.what, have, host.what, tube)
		return false
	}
	ball.Around, ball.Along = host.part, along
	ball.Center = r3.Add(post.Ends[design.Foot].At, r3.Scale(along, post.Direction))
	p.ties = []tie{{with: host, kind: design.ThreadJoint, at: ball.Center}}
	return true
}

// putOutright puts the ball where its clause says.
func (b *body) putOutright(p *placed, ball *design.Ball, h *hold) (ok bool) {
	p.outright = h.at[0]
	ball.Center, ok = b.pointIn(h.place, argument{at: h.at[0]})
	if ok && ball.IsEgg() {
		ok = b.setPole(ball)
	}
	if !ok {
		return false
	}
	if down := ball.Reach(design.Upright); ball.Center.Z < down-flush {
		b.report(h.at[0], "raise z to "+b.up(down), "%s reaches %s below the ground", b.what, b.mm(down-ball.Center.Z))
		return false
	}
	return true
}
