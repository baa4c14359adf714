package flat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
)

// ventClear is the least distance, in mm, of a vent's edge from a seam or a
// joint. Common practice, no source.
const ventClear = 8.0

// ventSpots is the number of steps along the middle of a piece at which a vent
// is tried.
const ventSpots = 12

// A bore is a vent or a drain in the flat.
type bore struct {
	Hole
	at    r3.Vec // its middle, in space
	drain bool
}

// bore drills a vent or a drain: as high or as low as it can be and toward its bearing,
// in the middle of a piece, clear of every joint. It returns what another hole must keep
// off too.
func (d *developer) bore(list []piece, cuts []cutOut, keepOff []r3.Vec, size, toward float64, high, drain bool) []r3.Vec {
	b := d.part.Ball
	if !(size > 0) {
		return keepOff
	}
	way := r3.Vec{X: math.Cos(toward), Y: math.Sin(toward)}
	rise := -1.0
	if high {
		rise = 1
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
			rel := r3.Sub(x, b.Center)
			s := r3.Dot(rel, way)/2 + rise*rel.Z
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
			if room >= size/2+ventClear {
				best, score, place, where = i, s, at, x
			}
		}
	}
	if best < 0 {
		d.note(finding.Caution, NoVent{size, drain})
		return keepOff
	}
	cuts[best].bores = append(cuts[best].bores, bore{drilled(place, size), where, drain})
	cuts[best].changed = true
	return append(keepOff, where)
}

// drilled returns a round hole.
func drilled(at r2.Vec, diameter float64) Hole {
	return Hole{Center: at, Diameter: diameter, Outline: circle(at, diameter/2, holePoints)}
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

// boresOfPost drills the vent and the drain of a post into its flats: near its higher
// and its lower end, clear of both cuts and of seams. One that is alone is near the lower.
func (d *developer) boresOfPost(lowest, highest laid) {
	p := d.part.Post
	lower := 0
	if p.Ends[1].At.Z < p.Ends[0].At.Z {
		lower = 1
	}
	high := lower
	if p.Drain > 0 {
		high = 1 - lower
	}
	courses := [2]laid{lowest, highest}
	d.boreAt(&courses[lower], lower, p.Drain, p.DrainBear, true)
	d.boreAt(&courses[high], high, p.Vent, p.VentBear, false)
}

func (d *developer) boreAt(c *laid, end int, size, bearing float64, drain bool) {
	if !(size > 0) {
		return
	}
	ends, count := c.ends, c.count
	t := ends[0].tube
	// Off the seam, and of a taper in pieces off each of theirs.
	clear := size/2 + ventClear
	turn := t.turn / float64(count)
	angle := bearingOf(bearing - t.seam)
	k := min(int(angle/turn), count-1)
	from := turn * float64(k)
	narrowest, most := min(t.girth(0), t.girth(t.length)), math.Inf(1)
	if d.part.Post.IsPointed() {
		// No nearer to the point than where a third of what is round it is clear of the seam.
		narrowest = clear * float64(count)
		most = (t.mean - narrowest) / -t.sin
	}
	off := clear / narrowest
	if turn <= 2*off {
		d.note(finding.Caution, NoVent{size, drain})
		return
	}
	angle = min(max(angle, from+off), from+turn-off)
	// Off the cut, all across the hole.
	reach := func(e *trim) (low, high float64) {
		low, high = math.Inf(1), math.Inf(-1)
		for i := -4; i <= 4; i++ {
			y, _ := e.level(min(max(angle+off*float64(i)/4, 0), t.turn))
			low, high = min(low, y), max(high, y)
		}
		return low, high
	}
	_, bottom := reach(&ends[0])
	top, _ := reach(&ends[1])
	top = min(top, most+clear)
	y := bottom + clear
	if end == 1 {
		y = top - clear
	}
	if d.part.Post.Ends[end].Meets == design.Free && d.part.Post.Ends[end].Disc {
		y += d.part.Metal.Thickness * float64(1-2*end) // off its disc
	}
	if y < bottom+clear-square || y > top-clear+square {
		d.note(finding.Caution, NoVent{size, drain})
		return
	}
	x := r3.Add(t.foot, t.onMiddle(t.seam+angle, y))
	for i := range d.Openings {
		if clearance([]r3.Vec{x}, d.Openings[i].Edge) < clear {
			d.note(finding.Caution, NoVent{size, drain})
			return
		}
	}
	b := &d.Blanks[c.first+k]
	h := drilled(t.lay(angle, y, from+turn/2), size)
	low, _ := bounds(b.Outline)
	b.Holes = append(slices.Clip(b.Holes), h)
	b.Notes = append(b.Notes, DrillAt{size, drain, bearingOf(t.seam + angle), h.Center.X - low.X, h.Center.Y - low.Y})
	area := math.Pi / 4 * size * size
	gone := d.weigh(area)
	b.Area -= area
	b.Mass -= gone
	d.CG = r3.Scale(1/(d.Mass-gone), r3.Sub(r3.Scale(d.Mass, d.CG), r3.Scale(gone, x)))
	d.Mass -= gone
}
