package eval

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// readGround takes what a base says of the concrete under it, and checks that the
// plate stands on the footing and that the anchors end in it.
func (b *body) readGround(base *design.Base) bool {
	base.AnchorDepth = b.number("anchor_depth")
	kind := b.wordOf("anchor_kind")
	base.AnchorsDrilled = kind == "drilled" || kind == "" && base.OnWall()
	base.Concrete = b.number("concrete") / 1e3 // kPa to MPa
	base.Ground = b.number("ground")
	if g := b.find("footing"); g != nil {
		base.Footing = blockOf(g)
		return b.fitsOn(g, base, base.Footing, "footing")
	}
	return true
}

// readBlock takes the block that a plate is bolted to.
func (b *body) readBlock(base *design.Base) bool {
	g := b.find("block")
	if g == nil {
		return true
	}
	if f := b.find("footing"); f != nil {
		note(b.report(g.at, "keep one of the two", "%s is bolted to a block or to a footing, not to both", b.what), f.at, "the footing is given here")
		return false
	}
	base.Block = blockOf(g)
	base.Block.Of = design.Concrete
	if m := b.find("block_material"); m != nil {
		base.Block.Of = design.Stone(m.args[0].value.text)
		if c := b.find("concrete"); c != nil && base.Block.Of != design.Concrete {
			note(b.report(c.at, "leave it out, or make the block of concrete", "the anchors of %s are set in %s, which has no strength as concrete", b.what, base.Block.Of), m.at, "the block is of it here")
			return false
		}
	}
	return b.fitsOn(g, base, base.Block, "block")
}

func blockOf(g *given) design.Block {
	return design.Block{Width: g.args[0].value.q.Number, Depth: g.args[1].value.q.Number, Height: g.args[2].value.q.Number}
}

// fitsOn checks that a plate lies within a block in plan and that its anchors end in it.
func (b *body) fitsOn(g *given, base *design.Base, k design.Block, kind string) bool {
	box := base.Outline().Box()
	x, y := max(box.Max.X, -box.Min.X), max(box.Max.Y, -box.Min.Y)
	switch {
	case x > k.Width/2+flush:
		b.report(g.args[0].at, "make it "+b.up(2*x)+" or more", "%s is wider than its %s", b.what, kind)
	case y > k.Depth/2+flush:
		b.report(g.args[1].at, "make it "+b.up(2*y)+" or more", "%s is deeper than its %s", b.what, kind)
	case base.AnchorDepth >= k.Height:
		b.report(b.spanOf("anchor_depth"), "make it less than "+b.down(k.Height), "anchors %s deep go through a %s of %s", b.mm(base.AnchorDepth), kind, b.mm(k.Height))
	default:
		return true
	}
	return false
}

// stones returns the names of what a block may be of.
func stones() []string {
	list := make([]string, len(design.Stones))
	for i, s := range design.Stones {
		list[i] = string(s)
	}
	return list
}

// onGround takes what holds the foot of a post that stands on the ground: a pad of its own, or
// concrete that it is set in. It returns what the foot stands on.
func (b *body) onGround(p *placed, post *design.Post, host *placed) (on *placed, ok bool) {
	pad, sunk := b.find("pad"), b.find("sunk")
	first := pad
	if first == nil || sunk != nil && sunk.at.From < pad.at.From {
		first = sunk
	}
	switch {
	case first == nil:
		return host, true
	case !host.feet:
		note(b.report(first.at, "leave it out, or make the base of feet: base "+host.name+" { feet }", "%s stands on the plate of %s, not on the ground", b.what, host.what),
			host.at, "that is declared here")
		return nil, false
	case pad != nil && sunk != nil:
		note(b.report(sunk.at, "keep one of the two", "%s stands on a pad or is set in concrete, not both", b.what), pad.at, "the pad is given here")
		return nil, false
	case pad != nil:
		x, y, ok := b.spot("at")
		if !ok {
			return nil, false
		}
		return b.onPad(p, pad, host, x, y)
	}
	post.Sunk, post.Pier = b.number("sunk"), b.number("footing")
	return host, true
}

// spanOnPad puts a post between two parts on a pad of its own where it says so, which it may
// from a base of feet: at the point that 'at' gives, or straight under the other part.
func (b *body) spanOnPad(p *placed, h *hold) bool {
	g := b.find("pad")
	if g == nil {
		return true
	}
	host := h.to[0]
	if host.kind() != OnBase || !host.feet {
		b.report(g.word, "leave 'pad' out, or run the post up from a base of feet", "a pad stands on the ground, and %s runs from %s", b.what, host.what)
		return false
	}
	other := b.centre(h, 1)
	x, y := other.X, other.Y
	if b.find("at") != nil {
		var ok bool
		if x, y, ok = b.spot("at"); !ok {
			return false
		}
	}
	on, ok := b.onPad(p, g, host, x, y)
	if ok {
		h.to[0] = on
	}
	return ok
}

// onPad makes the part that the pad of a post is, about a point on the ground.
func (b *body) onPad(p *placed, g *given, host *placed, x, y float64) (on *placed, ok bool) {
	if g.body.failed {
		return nil, false
	}
	in := g.body
	name := p.name + ".pad"
	on = &placed{name: name, what: "the pad of " + b.what, at: g.word}
	in.what = on.what
	part := in.part(on)
	base := &design.Base{Pad: true, At: r2.Vec{X: x, Y: y}, Width: g.args[0].value.q.Number, Depth: g.args[1].value.q.Number}
	base.Top = part.Metal.Thickness
	if !in.readAnchors(base) || !in.readGround(base) {
		return nil, false
	}
	part.Base, part.Span = base, g.at
	on.part = part
	on.ties = []tie{{with: host, kind: design.RestJoint, at: r3.Vec{X: x, Y: y}}}
	e := b.evaluator
	// The pad is made before what stands on it.
	at := slices.Index(e.placed, p)
	e.placed = slices.Insert(e.placed, at, on)
	e.design.Parts = append(e.design.Parts, part)
	return on, true
}

// inItsConcrete checks that the tube of a post that is set in concrete stays within it: the
// round lies about the middle of the length that is set in it.
func (b *body) inItsConcrete(post *design.Post) bool {
	if post.Sunk == 0 || post.Pier == 0 {
		return true
	}
	u := post.Direction
	if u.Z < 0.5 {
		b.report(b.spanOf("lean"), "let it lean less than 60 deg", "%s leans too far to be set in concrete", b.what)
		return false
	}
	outside := post.Ends[design.Foot].Diameter/2 + post.Sunk/u.Z*max(0, -post.Slope())
	shift := post.Sunk / 2 * math.Hypot(u.X, u.Y) / u.Z
	// Concrete on all sides, of 2 in at least: common practice, no source.
	const cover = 50.0
	if least := 2 * (shift + outside/u.Z + cover); post.Pier < least-1e-6 {
		b.report(b.spanOf("footing"), "make it "+b.up(least)+" or more", "%s has less than %s of concrete round it in a footing of %s", b.what, b.mm(cover), b.mm(post.Pier))
		return false
	}
	return true
}
