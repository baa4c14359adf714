package eval

import "stabile/param/design"

// readWall takes the size and the place of a plate on a wall, and checks that anchors hold it
// and that it has nothing that lies on the ground.
func (b *body) readWall(base *design.Base) bool {
	g := b.find("wall")
	base.Width, base.Depth, base.Wall = g.args[0].value.q.Number, g.args[1].value.q.Number, g.args[2].value.q.Number
	for _, word := range [...]string{"footing", "block"} {
		if o := b.find(word); o != nil {
			note(b.report(o.at, "leave it out; the anchors hold in the wall", "'%s' lies under a plate on the ground, and %s is on a wall", word, b.what), g.word, "the wall is given here")
			return false
		}
	}
	if low := base.Depth/2 - base.Wall; low > flush {
		b.report(g.args[2].at, "make it "+b.up(base.Depth/2)+" or more", "%s reaches %s below the floor: its middle is %s over it", b.what, b.mm(low), b.mm(base.Wall))
		return false
	}
	if b.number("anchors") < 1 {
		if !b.lost {
			b.missing(b.spanOf("anchors"), "add a line such as "+b.example(b.table.property("anchors", b.host).Example), "nothing holds %s to the wall: it has no anchors", b.what)
		}
		return false
	}
	return true
}

// levelSite checks that a piece on a wall has no slope of the ground.
func (e *evaluator) levelSite() {
	if !e.slopeAt.IsZero() && e.design.Wall() != nil {
		note(e.report(e.slopeAt, "leave it out", "a piece on a wall does not stand on the slope of the ground"), e.base.at, "it is on a wall here")
	}
}
