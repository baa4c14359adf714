package flat

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
)

// ventClear is the least distance, in mm, of a vent's edge from a seam or a
// joint. Common practice, no source.
const ventClear = 8.0

// ventSpots is the number of steps along the middle of a piece at which a vent
// is tried.
const ventSpots = 12

// vent drills the ball's vent: as low as it can be and away from the viewer, in
// the middle of a piece, clear of every joint.
func (d *developer) vent(list []piece, cuts []cutOut, keepOff []r3.Vec) {
	b := d.part.Ball
	if !(b.Vent > 0) {
		return
	}
	best, score := -1, math.Inf(-1)
	var place r2.Vec
	var where r3.Vec
	for i := range list {
		p := &list[i]
		if len(cuts[i].outlines) != 1 {
			continue
		}
		low, high := bounds(p.outline)
		for k := 1; k < ventSpots; k++ {
			at := r2.Vec{X: p.middle.X, Y: low.Y + (high.Y-low.Y)*float64(k)/ventSpots}
			x := p.space(at, 0)
			s := (x.Y-b.Center.Y)/2 - (x.Z - b.Center.Z)
			if s <= score+square {
				continue
			}
			if p.lay != nil {
				at = p.lay(at)
			}
			room := p.room(&cuts[i], at)
			for _, y := range keepOff {
				room = min(room, r3.Norm(r3.Sub(x, y)))
			}
			if room >= b.Vent/2+ventClear {
				best, score, place, where = i, s, at, x
			}
		}
	}
	if best < 0 {
		d.note(finding.Caution, NoVent{b.Vent})
		return
	}
	cuts[best].vent = &Hole{Center: place, Diameter: b.Vent, Outline: circle(place, b.Vent/2, holePoints)}
	cuts[best].ventAt, cuts[best].changed = where, true
}

// room returns how far a place on a piece's flat lies within its edges.
func (p *piece) room(c *cutOut, at r2.Vec) float64 {
	outline := p.onFlat(c.outlines[0])
	if !within(at, outline) {
		return math.Inf(-1)
	}
	room := fromEdge(at, outline)
	for _, h := range c.holes {
		edge := p.onFlat(h)
		if within(at, edge) {
			return math.Inf(-1)
		}
		room = min(room, fromEdge(at, edge))
	}
	return room
}

// fromEdge returns how far a point is from the sides of a polygon.
func fromEdge(at r2.Vec, outline []r2.Vec) float64 {
	room := math.Inf(1)
	for i, a := range outline {
		side := r2.Sub(outline[(i+1)%len(outline)], a)
		rel := r2.Sub(at, a)
		u := min(max(r2.Dot(rel, side)/r2.Norm2(side), 0), 1)
		room = min(room, r2.Norm(r2.Sub(rel, r2.Scale(u, side))))
	}
	return room
}
