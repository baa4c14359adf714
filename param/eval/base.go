package eval

import (
	"stabile/param/design"
	"stabile/param/syntax"
)

func (e *evaluator) placeBase(p *placed, d *syntax.Declaration, table *Declaration, s *scope) {
	e.noClauses(d)
	b := e.readBody(d, table, p.what, "", s)
	defer b.done()
	if e.base != nil {
		note(e.report(p.at, "keep one of the two", "a design has one base"), e.base.at, "the first is declared here")
		return
	}
	e.base = p
	if b.failed {
		return
	}
	part := b.part(p)
	base := &design.Base{Ballast: b.number("ballast")}
	switch {
	case b.has("plate"):
		base.Width, base.Depth = b.number("plate"), b.find("plate").args[1].value.q.Number
	case b.has("disc"):
		base.Shape = design.Disc
		base.Width = b.number("disc")
		base.Depth = base.Width
	default:
		base.Shape = design.Feet
	}
	if base.Shape != design.Feet {
		base.Top = part.Metal.Thickness
		if !b.readAnchors(base) {
			return
		}
	}
	part.Base = base
	p.part = part
}

// readAnchors takes the holes of the plate, and checks that they are told in
// full and lie within it.
func (b *body) readAnchors(base *design.Base) bool {
	base.Anchors = int(b.number("anchors"))
	if base.Anchors == 0 {
		return true
	}
	var words []string
	for _, w := range []string{"anchor_diameter", "anchor_edge"} {
		if !b.has(w) {
			words = append(words, w)
		}
	}
	if len(words) > 0 {
		if !b.lost {
			b.missing(b.spanOf("anchors"), "add a line such as "+b.example(b.table.property(words[0], b.host).Example),
				"'anchors' wants %s beside it", quoted(words, "and"))
		}
		return false
	}
	base.AnchorDiameter, base.AnchorEdge = b.number("anchor_diameter"), b.number("anchor_edge")
	least := min(base.Width, base.Depth)
	switch {
	case base.AnchorEdge <= base.AnchorDiameter/2:
		b.report(b.spanOf("anchor_edge"), "make it more than "+b.up(base.AnchorDiameter/2),
			"holes of %s break through the edge of %s", b.mm(base.AnchorDiameter), b.what)
	case 2*base.AnchorEdge >= least:
		b.report(b.spanOf("anchor_edge"), "make it less than "+b.down(least/2),
			"holes %s from the edge lie past the middle of %s", b.mm(base.AnchorEdge), b.what)
	default:
		return true
	}
	return false
}
