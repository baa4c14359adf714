package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/syntax"
)

func (e *evaluator) placeBall(p *placed, d *syntax.Declaration, table *Declaration, s *scope) {
	h := e.hold(d, table, s)
	b := e.readBody(d, table, p.what, h.host, s)
	defer b.done()
	if !h.sound() || b.failed || h.host == OnPost && !b.takeHead(p, h.to[0]) {
		return
	}
	part := b.part(p)
	part.Ball = b.shell()
	if !b.shellSound(part) || !b.eggSound(part) {
		return
	}
	b.closePoles(part)
	if !b.rest(p, part, &h) || !part.Ball.IsEgg() && !b.setPole(part.Ball) {
		return
	}
	if h.host == OnPost && !b.double(h.to[0].part.Post, design.Head, part, b.what) {
		return
	}
	alongPole(part)
	p.part = part
}

// shell returns a ball as it is built.
func (b *body) shell() *design.Ball {
	ball := &design.Ball{
		Radius: b.number("diameter") / 2,
		Gores:  int(b.number("gores")),
		Zones:  int(b.number("zones")),
		Caps:   b.number("caps"),
		Gap:    b.number("gap"),
		Vent:   b.number("vent"),
		Drain:  b.number("drain"),

		Through: b.has("through"),
		EdgeMid: b.wordOf("edge") == "mid",
	}
	if tall := b.number("tall"); order(tall, 2*ball.Radius) != 0 {
		ball.Tall = tall
	}
	switch {
	case b.has("halves"):
		ball.Build = design.Halves
	case b.has("bought"):
		ball.Build, ball.BoughtMass = design.Bought, b.number("bought")
		ball.Price = b.number("price")
	case b.has("zones"):
		ball.Build = design.Zones
	case b.wordOf("bend") == "domed":
		ball.Build = design.DomedGores
	}
	if g := b.find("caps"); g != nil {
		if upper := g.args[1].value.q.Number; upper != ball.Caps {
			ball.UpperCap = upper
		}
		ball.Straight = ball.Build == design.RolledGores && g.args[2].value.text != "round"
	}
	return ball
}

// closePoles gives a ball of gores the discs that close what blunt ends leave open.
func (b *body) closePoles(p *design.Part) {
	ball := p.Ball
	ball.Narrow = b.narrow
	if ball.Caps > 0 || p.Metal == nil || ball.Build != design.RolledGores && ball.Build != design.DomedGores {
		return
	}
	ball.Caps = p.EndsBlunt()
	ball.PoleDiscs = ball.Caps > 0
	ball.Straight = ball.PoleDiscs && ball.Build == design.RolledGores
}

// alongPole keeps gores from ending just beside a post that runs along the pole: where
// a ring of the disc would be left that is too narrow to weld, they run on under it.
func alongPole(p *design.Part) {
	b := p.Ball
	if !b.PoleDiscs || b.Around == nil || r3.Norm(r3.Cross(b.Around.Post.Direction, b.Pole)) > 1e-9 {
		return
	}
	narrow := b.Narrow
	if narrow == 0 {
		narrow = design.Narrowest
	}
	if post := b.Around.Post.DiameterAt(b.Along); post > b.Caps-2*narrow {
		b.Caps = min(b.Caps, post/2)
	}
}

// shellSound checks that sheet of the thickness makes a hollow ball, and that
// the caps and the vent are smaller than it.
func (b *body) shellSound(p *design.Part) bool {
	d := 2 * p.Ball.Radius
	if p.Metal != nil && p.Ball.Build != design.Bought && 2*p.Metal.Thickness >= d {
		b.report(b.spanOf("diameter"), "make it more than "+b.up(2*p.Metal.Thickness),
			"%s of %s has no inside: metal '%s' is %s thick", b.what, b.mm(d), p.Metal.Name, b.design.Units.Exact(p.Metal.Thickness))
		return false
	}
	if g := b.find("caps"); g != nil && p.Ball.Build == design.DomedGores && g.args[2].value.text == "polygon" {
		b.report(g.args[2].at, "leave 'polygon' out", "caps with straight sides are for gores that are rolled, and those of %s are domed", b.what)
		return false
	}
	if most := max(p.Ball.Caps, p.Ball.UpperCap); most >= d {
		caps, have := b.mms(most, d)
		b.report(b.spanOf("caps"), "make them less than "+have+" across", "caps of %s do not fit on %s of %s", caps, b.what, have)
		return false
	}
	for _, word := range [...]string{"vent", "drain"} {
		if size := b.number(word); size >= d {
			hole, have := b.mms(size, d)
			b.report(b.spanOf(word), "make it smaller, such as 1/4 in", "a %s of %s does not fit on %s of %s", word, hole, b.what, have)
			return false
		}
	}
	return true
}

// setPole turns the ball: its pole leans from upright by an angle toward a
// bearing, or lies level where only the bearing is given. The middle of gore 1
// faces bearing 0, carried over by the tilt, unless a seam is given its bearing: that
// before gore 1, or that of the lowest ring.
func (b *body) setPole(ball *design.Ball) bool {
	ball.Pole = design.Upright
	if g := b.find("pole"); g != nil {
		tilt, toward := g.args[0], g.args[1]
		lean, ok := math.Pi/2, toward.isGiven()
		if tilt.isGiven() {
			lean = tilt.value.q.Number
		}
		if !ok && lean != 0 {
			b.report(g.at, "write it as "+g.at.Text()+" toward 90 deg", "'pole' does not say which way")
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
	var ok bool
	if _, ball.VentBear, ok = b.bore("vent", ball.Center, "centre"); !ok {
		return false
	}
	if _, ball.DrainBear, ok = b.bore("drain", ball.Center, "centre"); !ok {
		return false
	}
	ball.Prime = design.Toward(ball.Pole, 0)
	if g := b.find("seam"); g != nil {
		bearing, ok := b.bearing(g.args[0], ball.Center, "centre", b.what)
		if !ok {
			return false
		}
		if ball.Build == design.Zones {
			ball.Prime = design.Toward(ball.Pole, bearing-design.RingSeam)
		} else {
			ball.Prime = design.Toward(ball.Pole, bearing+math.Pi/float64(ball.Gores))
		}
	}
	return true
}
