package flat

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// base develops the plate or disc that the sculpture stands on. Feet have none.
func (d *developer) base() {
	b := d.part.Base
	if b.Shape == design.Feet {
		return
	}
	thick, ok := d.sheet()
	if !ok {
		return
	}
	shape := [...]string{design.Plate: "plate", design.Disc: "disc"}[b.Shape]
	if !d.bounded(shape, b.Width, b.Depth) || !d.bounded("anchor_diameter", b.AnchorDiameter) || !d.bounded("anchor_edge", b.AnchorEdge) {
		return
	}
	if !(b.Width > 0 && b.Depth > 0) {
		d.fail(shape, "", "has no size")
		return
	}
	var blank Blank
	if b.Shape == design.Disc {
		blank = disc(d.part.Name, b.Width, 0)
	} else {
		x, y := b.Width/2, b.Depth/2
		blank = Blank{
			Name: d.part.Name, Shape: Plate, Quantity: 1,
			Outline: []r2.Vec{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}},
			Area:    b.Width * b.Depth,
			Width:   b.Width,
			Length:  b.Depth,
		}
	}
	blank.Forming = Forming{How: "flat"}
	blank.Notes = []string{"Seen from above; the right side faces bearing 0 deg, the upper side away from the viewer"}
	if b.Anchors > 0 {
		if !d.anchorsFit() {
			return
		}
		blank.Holes = anchors(b)
	}
	// Holes take their share from the area and move what is left the other way.
	var shift r2.Vec
	hole := math.Pi / 4 * b.AnchorDiameter * b.AnchorDiameter
	for _, h := range blank.Holes {
		blank.Area -= hole
		shift = r2.Sub(shift, r2.Scale(hole, h.Center))
	}
	shift = r2.Scale(1/blank.Area, shift)
	d.add(blank)
	d.CG = r3.Vec{X: shift.X, Y: shift.Y, Z: thick / 2}
}

// anchorsFit reports anchor holes that cannot be where they are asked for: out
// of the plate, or into each other.
func (d *developer) anchorsFit() bool {
	b := d.part.Base
	least := min(b.Width, b.Depth)
	switch {
	case !(b.AnchorDiameter > 0):
		d.fail("anchors", "give 'anchor_diameter'", "has anchors without a diameter")
	case b.AnchorEdge <= b.AnchorDiameter/2:
		d.fail("anchor_edge", "the edge distance is measured to the middle of the hole",
			"has anchor holes of %s that break through its edge at %s from it", d.length(b.AnchorDiameter), d.length(b.AnchorEdge))
	case b.AnchorEdge >= least/2:
		d.fail("anchor_edge", "", "is too small for anchors %s from its edge", d.length(b.AnchorEdge))
	default:
		d.anchorsApart()
	}
	return len(d.wrong) == 0
}

// mostAnchors is the largest number of anchor holes that is taken for meant.
const mostAnchors = 200

// anchorsApart reports anchor holes that run into each other.
func (d *developer) anchorsApart() {
	b := d.part.Base
	if b.Anchors > mostAnchors {
		d.fail("anchors", "", "has %d anchors, more than %d", b.Anchors, mostAnchors)
		return
	}
	centers := anchorCenters(b)
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
	for i, c := range anchorCenters(b) {
		holes[i] = Hole{Center: c, Diameter: b.AnchorDiameter, Outline: circle(c, b.AnchorDiameter/2, holePoints)}
	}
	return holes
}

// anchorCenters returns where the anchors are. On a disc they are spread evenly
// on a circle, the first at 45 deg. On a plate four are at the corners; other
// numbers are spread evenly along the rectangle of the edge distance, from its
// corner at front left on to the right.
func anchorCenters(b *design.Base) []r2.Vec {
	centers := make([]r2.Vec, b.Anchors)
	x, y := b.Width/2-b.AnchorEdge, b.Depth/2-b.AnchorEdge
	corners := [4]r2.Vec{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}}
	for i := range centers {
		share := float64(i) / float64(b.Anchors)
		switch {
		case b.Shape == design.Disc:
			sin, cos := math.Sincos(math.Pi/4 + 2*math.Pi*share)
			centers[i] = r2.Vec{X: x * cos, Y: x * sin}
		case b.Anchors == 4:
			centers[i] = corners[i]
		default:
			centers[i] = along(corners, share*4*(x+y))
		}
	}
	return centers
}

// along returns the point at a distance along the sides of a rectangle from its
// first corner.
func along(corners [4]r2.Vec, distance float64) r2.Vec {
	for i, c := range corners {
		side := r2.Sub(corners[(i+1)%4], c)
		l := r2.Norm(side)
		if distance <= l {
			return r2.Add(c, r2.Scale(distance/l, side))
		}
		distance -= l
	}
	return corners[0]
}
