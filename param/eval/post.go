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
	host, built := e.host(d, table, s, OnBase, OnBall)
	if !built {
		return
	}
	b := e.readBody(d, table, p.what, hostKind(host), s)
	defer b.done()
	if host == nil || b.failed {
		return
	}
	part := b.part(p)
	post := &design.Post{
		Length:    b.number("length"),
		Diameter:  [2]float64{b.number("diameter"), b.number("diameter")},
		Direction: design.Upright,
		Seam:      seamBearing,
		Gap:       b.number("gap"),
		HeadDisc:  true,
	}
	part.Post = post
	if !b.tubeSound(part) {
		return
	}
	var ok bool
	if host.kind() == OnBase {
		ok = b.footOnBase(post, host)
	} else {
		ok = b.footOnBall(post, host)
	}
	if !ok {
		return
	}
	post.Lean, post.LeanBearing, ok = b.toward("lean", post.Foot, "foot", b.what)
	if !ok {
		return
	}
	if post.Lean != 0 {
		post.Direction = design.Leaning(post.Lean, post.LeanBearing)
	}
	post.Head = r3.Add(post.Foot, r3.Scale(post.Length, post.Direction))
	if g := b.find("seam"); g != nil {
		if post.Seam, ok = b.bearing(g.args[0], post.Foot, "foot", b.what); !ok {
			return
		}
	}
	if g := b.find("head"); g != nil {
		post.HeadDisc = g.args[0].value.text == "disc"
		if post.HeadDisc {
			p.headDisc = g.at
		}
	}
	if host.kind() == OnBase {
		ok = b.standsOnBase(post, host)
	} else {
		ok = b.standsOnBall(post, host)
	}
	if !ok {
		return
	}
	p.host, p.contact, p.part = host, post.Foot, part
}

func hostKind(host *placed) Host {
	if host == nil {
		return ""
	}
	return host.kind()
}

// tubeSound checks that sheet of the thickness makes a tube of the diameter.
func (b *body) tubeSound(p *design.Part) bool {
	t, d := p.Metal.Thickness, p.Post.Diameter[0]
	switch {
	case 2*t >= d:
		b.report(b.spanOf("diameter"), "make it more than "+b.up(2*t),
			"%s of %s has no inside: metal '%s' is %s thick", b.what, b.mm(d), p.Metal.Name, b.design.Units.Exact(t))
		return false
	case p.Post.Gap >= math.Pi*(d-t):
		b.report(b.spanOf("gap"), "", "the gap of %s is wider than the sheet that it is rolled from", b.what)
		return false
	}
	return true
}

func (b *body) footOnBase(post *design.Post, host *placed) bool {
	x, y, ok := b.spot("at")
	post.Foot = r3.Vec{X: x, Y: y, Z: host.part.Base.Top}
	return ok
}

// footOnBall finds the foot: on the upper half of the ball, level from its
// centre by the offset.
func (b *body) footOnBall(post *design.Post, host *placed) bool {
	ball := host.part.Ball
	e, bearing, ok := b.toward("offset", ball.Center, "centre", host.what)
	if !ok {
		return false
	}
	r, ro := ball.Radius, post.Diameter[0]/2
	if e >= r {
		at, end := b.mms(e, r)
		b.report(b.spanOf("offset"), b.room(r, ro, e),
			"%s starts %s from the ball's centre, but %s ends at %s", b.what, at, host.what, end)
		return false
	}
	post.Offset, post.OffsetBear = e, bearing
	sin, cos := math.Sincos(bearing)
	post.Foot = r3.Add(ball.Center, r3.Vec{X: e * cos, Y: e * sin, Z: math.Sqrt((r - e) * (r + e))})
	return true
}

// room says how to give an upright tube room on a ball: less offset, or a
// larger ball.
func (b *body) room(r, ro, offset float64) string {
	larger := "make the ball larger than " + b.up(2*(offset+ro)) + " across"
	if r <= ro {
		return larger
	}
	return "bring 'offset' under " + b.down(r-ro) + ", or " + larger
}

// standsOnBall checks that the whole tube meets the ball: its axis leaves the
// ball at the foot, and passes the centre so near that the outside of the tube
// still cuts the ball all round.
func (b *body) standsOnBall(post *design.Post, host *placed) bool {
	ball := host.part.Ball
	ro, out := post.Diameter[0]/2, r3.Sub(post.Foot, ball.Center)
	along := r3.Dot(post.Direction, out)
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
		d, have := b.mms(2*ro, 2*ball.Radius)
		b.report(b.spanOf("diameter"), "make the post smaller, or the ball larger than "+b.up(2*ro)+" across",
			"%s of %s does not fit on %s of %s", b.what, d, host.what, have)
		return false
	}
	hint := b.room(ball.Radius, ro, past)
	if post.Lean != 0 {
		hint = "lean it more nearly away from the ball's centre, or make the ball larger"
	}
	reach, end := b.mms(past+ro, ball.Radius)
	b.report(b.spanOf(word), hint,
		"%s runs past the side of %s: it reaches %s from the ball's centre, but the ball ends at %s", b.what, host.what, reach, end)
	return false
}
