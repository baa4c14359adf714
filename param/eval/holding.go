package eval

import "stabile/param/design"

// readGround takes what a base says of the concrete under it, and checks that the
// plate stands on the footing and that the anchors end in it.
func (b *body) readGround(base *design.Base) bool {
	base.AnchorDepth = b.number("anchor_depth")
	base.AnchorsDrilled = b.wordOf("anchor_kind") == "drilled"
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
