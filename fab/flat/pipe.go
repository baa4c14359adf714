package flat

import (
	"math"

	"stabile/fab/finding"
	"stabile/fab/solid"
	"stabile/param/design"
)

// Pipe and tube that are bought are not rolled from a flat: what the shop lays out is a
// template of paper, wrapped round the outside, to whose edge a trimmed end is cut. An end
// that meets a plane is sawn along it, through the whole wall at once. Others are coped
// square through the wall, as the edge of a sheet is, where any of it touches first.

// A sawn contour is that of a plane which is cut through the whole wall: the outside
// meets it as the inside does.
type sawn struct {
	solid.Contour
	outer float64 // mm
}

// Touch implements solid.Contour.
func (s sawn) Touch(sin, cos float64) (solid.Contact, bool) {
	c, ok := s.Contour.Touch(sin, cos)
	c.At, c.Slope, c.Radius, c.Face = c.Toe, c.ToeSlope, s.outer, 0
	return c, ok
}

// throughWall puts the integrals of a plane that was traced on the outside of the wall
// right for its whole thickness. The plane rises with the distance from the axis: its
// first power keeps the area, and its square is smaller, as the mean of r2
// over the ring is than that of its outside.
func (e *trim) throughWall() {
	level := e.sum / e.turn
	ring := (e.inner*e.inner + e.outer*e.outer) / 2
	flat := level * level / 2 * e.turn
	e.moment = flat + (e.moment-flat)*ring/(e.outer*e.outer)
	wall := e.outer - e.inner
	k := ring / (e.outer * e.mean * (1 + wall*wall/(12*e.mean*e.mean)))
	e.east *= k
	e.north *= k
}

// saw returns how far from square an end is sawn, and the bearing at which that makes the
// tube longest.
func (e *trim) saw() (angle, long float64) {
	// Of a plane, y is level + rise cos(bearing - way): the integral of y times the cosine
	// is pi times the rise toward bearing 0, but for throughWall's share.
	low, high := e.reach()
	long = math.Atan2(e.north, e.east)
	if !e.head {
		long += math.Pi
	}
	return math.Atan2(high-low, 2*e.outer), bearingOf(long)
}

// pipeNotes returns what the bench must know of the template of a bought tube.
func (d *developer) pipeNotes(foot, head *trim) []finding.Fact {
	p := d.part.Post
	var notes []finding.Fact
	for i, e := range [2]*trim{foot, head} {
		end := p.Ends[i]
		switch {
		case e.square:
			notes = append(notes, SquareEnd{endName(i), false})
		case e.filed():
			notes = append(notes, d.filedEnd(e, i))
		case e.sawn:
			angle, long := e.saw()
			notes = append(notes, SawnEnd{endName(i), targetOf(end), angle, long})
		default:
			notes = append(notes, CopedEnd{endName(i), targetOf(end)})
			if e.scallop >= scallopWorth {
				f := Scallops{endName(i), end.With.Name, e.scallop, end.With.Ball.Bowl}
				notes = append(notes, f)
				d.note(finding.Note, f)
			}
		}
	}
	if foot.laidOut() || head.laidOut() {
		notes = append([]finding.Fact{WrapTemplate{foot.seam}}, notes...)
	}
	if b := p.Ends[design.Foot]; b.Meets == design.OnBall && foot.square {
		notes = append(notes, Dividers{dividersOn(b.With.Ball, foot.outer)})
	}
	return notes
}
