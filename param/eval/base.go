package eval

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

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
	p.hangs = b.has("wall")
	if b.failed {
		return
	}
	part := b.part(p)
	base := &design.Base{Ballast: b.number("ballast")}
	switch {
	case b.has("plate"):
		base.Width, base.Depth = b.number("plate"), b.find("plate").args[1].value.q.Number
	case b.has("plate polygon"):
		if !b.readCorners(base) {
			return
		}
	case b.has("disc"):
		base.Shape = design.Disc
		base.Width = b.number("disc")
		base.Depth = base.Width
	case b.has("wall"):
		if !b.readWall(base) {
			return
		}
	default:
		p.feet = true
	}
	if !p.feet {
		if !b.readAnchors(base) || !b.readGround(base) || !b.readBlock(base) {
			return
		}
		base.Top = base.Under() + part.Metal.Thickness
	}
	part.Base = base
	p.part = part
}

// readAnchors takes the holes of the plate, and checks that they are given in
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
				"'anchors' also needs %s", quoted(words, "and"))
		}
		return false
	}
	base.AnchorDiameter, base.AnchorEdge = b.number("anchor_diameter"), b.number("anchor_edge")
	switch most := widest(base); {
	case base.AnchorEdge <= base.AnchorDiameter/2:
		b.report(b.spanOf("anchor_edge"), "make it more than "+b.up(base.AnchorDiameter/2),
			"holes of %s break through the edge of %s", b.mm(base.AnchorDiameter), b.what)
	case base.AnchorEdge >= most:
		b.report(b.spanOf("anchor_edge"), "make it less than "+b.down(most),
			"holes %s from the edge lie past the middle of %s", b.mm(base.AnchorEdge), b.what)
	default:
		return true
	}
	return false
}

// widest returns the greatest distance in mm that anchors may have from the edge
// of a base: at more, there is no plate left between them.
func widest(base *design.Base) float64 {
	if base.Shape != design.Polygon {
		return min(base.Width, base.Depth) / 2
	}
	lo, hi := 0.0, min(base.Width, base.Depth)/2
	for range 60 {
		mid := (lo + hi) / 2
		if _, ok := base.Outline().Inset(mid); ok {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo
}

// closeCorners is the least distance in mm between two corners of a plate that
// follow each other, and of a corner from the line through its neighbours: less
// is not cut.
const closeCorners = 0.5

// readCorners takes the corners of a plate with straight sides, either way round,
// and checks that they make a convex outline.
func (b *body) readCorners(base *design.Base) bool {
	g := b.find("plate polygon")
	corners := make([]r2.Vec, len(g.list))
	for i, a := range g.list {
		p, ok := b.pointIn(a.value, a)
		if !ok {
			return false
		}
		corners[i] = design.Plan(p)
	}
	n := len(corners)
	if n < 3 {
		b.report(g.at, "write it as "+g.Example, "%s needs three corners or more, and this has %d", b.what, n)
		return false
	}
	ring := design.Outline{Corners: corners}
	if ring.Area() < 0 {
		slices.Reverse(corners[1:])
		slices.Reverse(g.list[1:])
	}
	for i, c := range corners {
		if r2.Norm(r2.Sub(c, corners[(i+n-1)%n])) < closeCorners {
			b.report(g.list[i].at, "leave one of the two out", "this corner of %s lies on the one before it", b.what)
			return false
		}
	}
	if i, j, ok := crossedSides(corners); ok {
		b.report(g.list[j].at, "give the corners in order round the plate", "the outline of %s crosses itself: the side from corner %s runs over that from corner %s",
			b.what, g.list[j].at.Text(), g.list[i].at.Text())
		return false
	}
	for i, c := range corners {
		before, after := corners[(i+n-1)%n], corners[(i+1)%n]
		in, out := r2.Sub(c, before), r2.Sub(after, c)
		switch turn := r2.Cross(in, out); {
		case math.Abs(turn) < closeCorners*r2.Norm(r2.Sub(after, before)):
			b.report(g.list[i].at, "leave it out", "this corner of %s lies on the line between its neighbours", b.what)
			return false
		case turn < 0:
			b.report(g.list[i].at, "leave it out, or move it outward", "this corner makes the outline of %s hollow: a plate has no corner that points inward", b.what)
			return false
		}
	}
	base.Shape, base.Corners = design.Polygon, corners
	box := ring.Box()
	base.Width, base.Depth = box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	return true
}

// crossedSides returns two sides of a polygon, by the corners that they start from,
// that cross each other.
func crossedSides(corners []r2.Vec) (i, j int, ok bool) {
	n := len(corners)
	beside := func(a, b, p r2.Vec) bool { return r2.Cross(r2.Sub(b, a), r2.Sub(p, a)) > 0 }
	for j := range n {
		for i := range j {
			a, b, c, d := corners[i], corners[(i+1)%n], corners[j], corners[(j+1)%n]
			if b != c && d != a && beside(a, b, c) != beside(a, b, d) && beside(c, d, a) != beside(c, d, b) {
				return i, j, true
			}
		}
	}
	return 0, 0, false
}
