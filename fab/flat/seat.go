package flat

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/solid"
	"stabile/param/design"
)

// A sunk is a ball that another one sits in, whose metal ends where that begins.
type sunk struct {
	other   *design.Part
	through bool // both are open to each other, and meet by the outer edges of their sheet
}

// seatGrid is how many steps of the grid, from which an opening for a ball is found,
// go across its seat.
const seatGrid = 10

// sink enters which of two balls that are welded to each other is opened.
func (s *setting) sink(j design.Joint) {
	under, upper := design.SeatOpens(j.A, j.B)
	if !under && !upper { // both are bought
		smaller, other := j.B, j.A
		if other.Ball.Radius < smaller.Ball.Radius {
			smaller, other = other, smaller
		}
		if s.byHand == nil {
			s.byHand = make(map[*design.Part][]*design.Part)
		}
		s.byHand[smaller] = append(s.byHand[smaller], other)
		return
	}
	if s.sunk == nil {
		s.sunk = make(map[*design.Part][]sunk)
	}
	if under {
		s.sunk[j.A] = append(s.sunk[j.A], sunk{j.B, j.B.Ball.Through})
	}
	if upper {
		s.sunk[j.B] = append(s.sunk[j.B], sunk{j.A, j.B.Ball.Through})
	}
}

// openByHand says of a bought ball that sits in bought ones where it is to be cut open: it
// has no blank that could have the opening.
func (d *developer) openByHand() {
	for _, other := range d.byHand[d.part] {
		_, radius, _ := SeatCircle(d.part.Ball, other.Ball)
		d.note(finding.Caution, CutByHand{other.Name, 2 * radius})
	}
}

// opensTo reports whether the ball is cut open where another sits in it.
func (d *developer) opensTo(other *design.Part) bool {
	for _, s := range d.sunk[d.part] {
		if s.other == other {
			return true
		}
	}
	return false
}

// unseat takes out of the pieces what lies in the balls that sit in this one. The edge
// is cut square through the sheet where the other's outside first touches it; of two
// that are open to each other by the outer edge alone, since from there their sheets
// part.
func (d *developer) unseat(list []piece, cuts []cutOut) {
	thick := d.part.Metal.Thickness
	for _, s := range d.sunk[d.part] {
		_, radius, _ := SeatCircle(d.part.Ball, s.other.Ball)
		if !(radius > 0) {
			continue
		}
		body := bulk{center: s.other.Ball.Center, outside: d.body(s.other).Outside(), round: round(s.other.Ball), ledged: ledged(s.other)}
		fact := SitsIn{Ball: s.other.Name, Through: s.through}
		for i := range list {
			p := &list[i]
			clear := func(q r2.Vec) float64 {
				if s.through {
					return body.beyond(p.space(q, thick/2)) - holeRoom
				}
				return body.clears(p.space(q, -thick/2), p.space(q, thick/2)) - holeRoom
			}
			for _, edge := range p.lost(2*radius/seatGrid, p.beside(clear)) {
				cuts[i].open(edge, fact)
			}
		}
	}
}

// onRidge is how far, in rad about the chart's origin, a point is looked for on the two
// lobes beside a ridge.
const onRidge = 1e-7

// beside returns a clearance that on a ridge between two lobes is that of both: they face
// two ways there.
func (p *piece) beside(clear func(q r2.Vec) float64) func(q r2.Vec) float64 {
	if p.lobes == 0 {
		return clear
	}
	return func(q r2.Vec) float64 {
		left, right := r2.Rotate(q, onRidge, r2.Vec{}), r2.Rotate(q, -onRidge, r2.Vec{})
		return min(clear(left), clear(right))
	}
}

// A bulk is all that lies within the outside of a ball.
type bulk struct {
	center  r3.Vec
	outside solid.Radial
	round   bool
	ledged  bool // round caps leave hollows beside them, so that it is not convex
}

// beyond returns how far, in mm, a point lies beyond the outside, along the line from
// the centre; negative within.
func (b *bulk) beyond(x r3.Vec) float64 {
	rel := r3.Sub(x, b.center)
	far := r3.Norm(rel)
	if far == 0 {
		return -b.outside.From(design.Upright)
	}
	return far - b.outside.From(r3.Scale(1/far, rel))
}

// ledged reports whether a ball has dished round caps in the corners of whose openings
// there are hollows.
func ledged(p *design.Part) bool {
	b := p.Ball
	return b.IsLobed() && b.Caps > 0 && !b.Straight && !(p.CapIsFlat(design.LowerPole) && p.CapIsFlat(design.UpperPole))
}

// ledgeSteps is the number of steps across a wall in which the nearest place to a body
// with ledges is looked for; between two the wall may stand nearer to a corner by a
// hundredth of a thickness.
const ledgeSteps = 24

// clears returns how far the straight line between two points lies beyond the
// outside at its nearest: of a convex body there is one nearest place.
func (b *bulk) clears(from, to r3.Vec) float64 {
	way := r3.Sub(to, from)
	at := func(v float64) float64 { return b.beyond(r3.Add(from, r3.Scale(v, way))) }
	low, high := at(0), at(1)
	if reach := r3.Norm(way); min(low, high) > reach {
		return min(low, high) - reach/2 // too far to matter
	}
	if b.round {
		rel := r3.Sub(b.center, from)
		if v := r3.Dot(rel, way) / r3.Norm2(way); v > 0 && v < 1 {
			return at(v)
		}
		return min(low, high)
	}
	if b.ledged {
		least := min(low, high)
		for k := 1; k < ledgeSteps; k++ {
			least = min(least, at(float64(k)/ledgeSteps))
		}
		return least
	}
	const h = 1.0 / 64
	if at(h) >= low {
		return low
	}
	if at(1-h) >= high {
		return high
	}
	// Golden section.
	const golden = 0.6180339887498949
	a, c := 0.0, 1.0
	p, q := c-golden*(c-a), a+golden*(c-a)
	fp, fq := at(p), at(q)
	for range 24 {
		if fp < fq {
			c, q, fq = q, p, fp
			p = c - golden*(c-a)
			fp = at(p)
		} else {
			a, p, fp = p, q, fq
			q = a + golden*(c-a)
			fq = at(q)
		}
	}
	return min(fp, fq)
}
