package flat

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
)

// base develops the plate, of any convex outline, that the sculpture stands on.
func (d *developer) base() {
	b := d.part.Base
	thick, ok := d.sheet()
	if !ok {
		return
	}
	shape := [...]string{design.Plate: "plate", design.Disc: "disc", design.Polygon: "plate polygon"}[b.Shape]
	if !d.bounded(shape, b.Width, b.Depth) || !d.bounded("anchor_diameter", b.AnchorDiameter) || !d.bounded("anchor_edge", b.AnchorEdge) {
		return
	}
	if !(b.Width > 0 && b.Depth > 0) {
		d.fail(shape, "", "has no size")
		return
	}
	plate := *b // about its own middle
	plate.At = r2.Vec{}
	outline := plate.Outline()
	blank := Blank{
		Name: d.part.Name, Shape: Plate, Quantity: 1,
		Outline: outline.Corners, Area: outline.Area(), Width: b.Width, Length: b.Depth,
	}
	if outline.IsRound() {
		blank = disc(d.part.Name, b.Width, 0)
	}
	blank.Forming = Forming{How: "flat"}
	blank.Notes = []finding.Fact{FromAbove}
	if b.OnWall() {
		blank.Notes[0] = FromFront
	}
	if b.Anchors > 0 {
		if !d.anchorsFit() {
			return
		}
		blank.Holes = anchors(&plate)
	}
	moment := r2.Scale(blank.Area, plate.Middle())
	hole := math.Pi / 4 * b.AnchorDiameter * b.AnchorDiameter
	for _, h := range blank.Holes {
		blank.Area -= hole
		moment = r2.Sub(moment, r2.Scale(hole, h.Center))
	}
	for _, h := range d.part.Holes {
		blank.Holes = append(blank.Holes, d.drillFlat(h, func(q r2.Vec) r2.Vec { return design.Plan(b.Own(spot(h, h.At, q))) }))
		blank.Area -= h.Area()
		moment = r2.Sub(moment, r2.Scale(h.Area(), design.Plan(b.Own(h.At))))
	}
	cg := r2.Scale(1/blank.Area, moment)
	d.add(blank)
	d.CG = b.InSpace(r3.Vec{X: b.At.X + cg.X, Y: b.At.Y + cg.Y, Z: b.Under() + thick/2})
}

// anchorsFit reports anchor holes that cannot be where the design puts them: out
// of the plate, or into each other.
func (d *developer) anchorsFit() bool {
	b := d.part.Base
	_, fits := b.Outline().Inset(b.AnchorEdge)
	switch {
	case !(b.AnchorDiameter > 0):
		d.fail("anchors", "give 'anchor_diameter'", "has anchors without a diameter")
	case b.AnchorEdge <= b.AnchorDiameter/2:
		d.fail("anchor_edge", "the edge distance is measured to the middle of the hole",
			"has anchor holes of %s that break through its edge at %s from it", d.length(b.AnchorDiameter), d.length(b.AnchorEdge))
	case !fits:
		d.fail("anchor_edge", "", "is too small for anchors %s from its edge", d.length(b.AnchorEdge))
	default:
		d.anchorsApart()
	}
	return len(d.wrong) == 0
}

// mostAnchors is the largest number of anchor holes that is accepted as intended.
const mostAnchors = 200

// anchorsApart reports anchor holes that run into each other.
func (d *developer) anchorsApart() {
	b := d.part.Base
	if b.Anchors > mostAnchors {
		d.fail("anchors", "", "has %d anchors, more than %d", b.Anchors, mostAnchors)
		return
	}
	centers := b.AnchorCenters()
	for i, c := range centers {
		for _, other := range centers[:i] {
			if apart := r2.Norm(r2.Sub(other, c)); apart <= b.AnchorDiameter {
				d.fail("anchors", "take fewer or smaller ones", "has no room for %d anchor holes: they are %s apart and %s across",
					b.Anchors, d.length(apart), d.length(b.AnchorDiameter))
				return
			}
		}
	}
}

// anchors returns the anchor holes.
func anchors(b *design.Base) []Hole {
	holes := make([]Hole, b.Anchors)
	for i, c := range b.AnchorCenters() {
		holes[i] = Hole{Center: c, Diameter: b.AnchorDiameter, Outline: circle(c, b.AnchorDiameter/2, holePoints)}
	}
	return holes
}
