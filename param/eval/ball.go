package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/source"
	"stabile/param/syntax"
)

func (e *evaluator) placeBall(p *placed, d *syntax.Declaration, table *Declaration, s *scope) {
	host, built := e.host(d, table, s, OnBase, OnPost)
	if !built {
		return
	}
	b := e.readBody(d, table, p.what, hostKind(host), s)
	defer b.done()
	if host == nil || b.failed {
		return
	}
	if host.load != nil {
		note(b.report(p.at, "rest one of the two on something else", "two balls rest on %s", host.what),
			host.load.at, "the first is declared here")
		return
	}
	if host.kind() == OnPost {
		host.load = p // even if it fails, so that the head is not taken as free
	}
	part := b.part(p)
	ball := &design.Ball{
		Radius: b.number("diameter") / 2,
		Gores:  int(b.number("gores")),
		Caps:   b.number("caps"),
	}
	part.Ball = ball
	switch g := b.find("bend"); {
	case b.has("halves"):
		ball.Build = design.Halves
	case b.has("bought"):
		ball.Build, ball.BoughtMass = design.Bought, b.number("bought")
	case b.has("zones"):
		return // not built yet, and told
	case g != nil && g.args[0].value.text == "domed":
		ball.Build = design.DomedGores
	}
	if !b.shellSound(part) {
		return
	}
	var ok bool
	if host.kind() == OnBase {
		ok = b.restOnBase(p, ball, host)
	} else {
		ok = b.restOnPost(p, ball, host)
	}
	if !ok || !b.setPole(ball) {
		return
	}
	p.host, p.part = host, part
}

// shellSound checks that sheet of the thickness makes a hollow ball, and that
// the caps are smaller than it.
func (b *body) shellSound(p *design.Part) bool {
	d := 2 * p.Ball.Radius
	if p.Metal != nil && p.Ball.Build != design.Bought && 2*p.Metal.Thickness >= d {
		b.report(b.spanOf("diameter"), "make it more than "+b.up(2*p.Metal.Thickness),
			"%s of %s has no inside: metal '%s' is %s thick", b.what, b.mm(d), p.Metal.Name, b.design.Units.Exact(p.Metal.Thickness))
		return false
	}
	if p.Ball.Caps >= d {
		caps, have := b.mms(p.Ball.Caps, d)
		b.report(b.spanOf("caps"), "", "caps of %s do not fit on %s of %s", caps, b.what, have)
		return false
	}
	return true
}

// restOnBase sets the ball down on the base where 'at' says.
func (b *body) restOnBase(p *placed, ball *design.Ball, host *placed) bool {
	x, y, ok := b.spot("at")
	if !ok {
		return false
	}
	base := host.part.Base
	p.contact = r3.Vec{X: x, Y: y, Z: base.Top}
	ball.Center = r3.Vec{X: x, Y: y, Z: base.Top + ball.Radius}
	return base.Shape == design.Feet || b.liesOn(ellipse{x: x, y: y}, host, "rests outside the edge")
}

// restOnPost sets the ball on the inside edge of the tube's end, which it
// touches first. With the tube's inside radius r, the ball's radius R and the
// offset e, the ball touches the edge at its far side from the offset, r + e
// from the ball's centre line; the centre is then sqrt(R2 - (r + e)2) above the
// end.
func (b *body) restOnPost(p *placed, ball *design.Ball, host *placed) bool {
	post := host.part.Post
	e, bearing, ok := b.toward("offset", post.Head, "head", host.what)
	if !ok {
		return false
	}
	outside := post.Diameter[1] / 2
	inside := outside - host.part.Metal.Thickness
	switch {
	case outside >= ball.Radius:
		d, tube := b.mms(2*ball.Radius, 2*outside)
		b.report(b.spanOf("diameter"), "make the ball larger than "+b.up(2*outside)+" across, or the post smaller",
			"%s of %s does not rest on %s of %s", b.what, d, host.what, tube)
		return false
	case outside+e >= ball.Radius:
		reach, end := b.mms(outside+e, ball.Radius)
		b.report(b.spanOf("offset"), "bring 'offset' under "+b.down(ball.Radius-outside)+", or make the ball larger than "+b.up(2*(outside+e))+" across",
			"%s does not cover the end of %s: the far edge of the tube is %s from the ball's centre line, but the ball ends at %s",
			b.what, host.what, reach, end)
		return false
	}
	ball.Offset, ball.OffsetBear = e, bearing
	reach := inside + e
	rise := math.Sqrt((ball.Radius - reach) * (ball.Radius + reach))
	ball.Center = r3.Add(post.Head, r3.Scale(rise, post.Direction))
	if e > 0 {
		ball.Center = r3.Add(ball.Center, r3.Scale(e, design.Toward(post.Direction, bearing)))
	}
	p.contact = post.Head
	return true
}

// setPole turns the ball: its pole leans from upright by an angle toward a
// bearing, or lies level where only the bearing is given. The middle of gore 1
// faces bearing 0, carried over by the tilt.
func (b *body) setPole(ball *design.Ball) bool {
	ball.Pole = design.Upright
	if g := b.find("pole"); g != nil {
		tilt, toward := g.args[0], g.args[1]
		lean, ok := math.Pi/2, toward.isGiven()
		if tilt.isGiven() {
			lean = tilt.value.q.Number
		}
		if !ok && lean != 0 {
			b.report(g.at, "write it as "+g.Example, "'pole' does not say which way")
			return false
		}
		var bearing float64
		if ok {
			if bearing, ok = b.bearing(toward, ball.Center, "centre", b.what); !ok {
				return false
			}
		}
		if lean != 0 {
			ball.Pole = design.Leaning(lean, bearing)
		}
	}
	ball.Prime = design.Toward(ball.Pole, 0)
	return true
}

// join ties the parts to each other once all are known: what each end of a post
// meets, which heads are free, and the joints.
func (e *evaluator) join() {
	for _, p := range e.placed {
		if p.part == nil || p.host == nil || p.host.part == nil {
			continue
		}
		host := p.host.part
		j := design.Joint{A: host, B: p.part, At: p.contact}
		switch post := p.part.Post; {
		case post != nil:
			j.Post, j.Foot = p.part, true
			post.FootEnd = design.End{Meets: design.OnPlate, With: host}
			if host.Ball != nil {
				post.FootEnd.Meets = design.OnBall
			}
		case host.Post != nil:
			j.Post = host
			host.Post.HeadEnd = design.End{Meets: design.OnBall, With: p.part}
		}
		e.design.Joints = append(e.design.Joints, j)
	}
	for _, p := range e.placed {
		if p.load == nil || p.part == nil {
			continue
		}
		p.part.Post.HeadDisc = false
		if p.headDisc != (source.Span{}) {
			note(e.report(p.headDisc, "leave 'head' out", "the head of %s is not free: a ball rests on it", p.what), p.load.at, "the ball is declared here")
		}
	}
}
