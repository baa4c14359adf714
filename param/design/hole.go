package design

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/source"
)

// A Hole is an opening that is cut straight through the wall of a part: a round one, or a
// slot with round ends. Looked at along its axis it is as wide and as high as it says at the
// middle of the sheet.
type Hole struct {
	Name  string
	Span  source.Span
	Props map[string]source.Span // where each given property stands

	// Width and Height are its size in mm, over all, across Up and along it; those of a round
	// one are alike.
	Width, Height float64

	At  r3.Vec // mm: a point of its axis, on the outside of the part
	Way r3.Vec // unit vector along its axis, out of the part
	Up  r3.Vec // unit vector square to Way

	Through bool  // it goes through the opposite wall as well
	Disc    bool  // it is in the disc that closes the head of a post
	Joint   *Part // in the middle of whose joint with the part it lies; nil for others

	Along   float64 // mm, of a hole in a post's wall: along its axis from the foot
	Bearing float64 // rad, toward which the hole faces: of a post standing upright, of a ball as it is
	Rise    float64 // rad, of a hole in a ball: how far it faces up
}

// Wired reports whether holes in joints let cables through.
func (d *Design) Wired() bool {
	return slices.ContainsFunc(d.Parts, func(p *Part) bool {
		return slices.ContainsFunc(p.Holes, func(h *Hole) bool { return h.Joint != nil })
	})
}

// IsRound reports whether the hole is round.
func (h *Hole) IsRound() bool { return h.Width == h.Height }

// Area returns the area of the hole in mm2, looked at along its axis.
func (h *Hole) Area() float64 {
	d, long := min(h.Width, h.Height), max(h.Width, h.Height)
	return math.Pi/4*d*d + d*(long-d)
}

// Core returns the half of the line between the middles of a slot's round ends, and the radius
// of those, in mm. A round hole is that radius about one point.
func (h *Hole) Core() (half r3.Vec, radius float64) {
	if h.Width > h.Height {
		return r3.Scale((h.Width-h.Height)/2, h.Across()), h.Height / 2
	}
	return r3.Scale((h.Height-h.Width)/2, h.Up), h.Width / 2
}

// Across returns the unit vector square to Way and Up, to the left of one who looks at the
// hole from outside with Up upward.
func (h *Hole) Across() r3.Vec { return r3.Cross(h.Way, h.Up) }

// Extent returns how far, in mm, the hole reaches from its axis along a unit vector that is
// square to it.
func (h *Hole) Extent(way r3.Vec) float64 {
	half, radius := h.Core()
	return math.Abs(r3.Dot(half, way)) + radius
}

// Air returns the diameter in mm of the round hole of the same area.
func (h *Hole) Air() float64 { return math.Sqrt(4 / math.Pi * h.Area()) }

// Place returns where the given property of the hole stands in the text, or the hole's own place
// where the property is not given.
func (h *Hole) Place(property string) source.Span {
	if s, ok := h.Props[property]; ok {
		return s
	}
	return h.Span
}
