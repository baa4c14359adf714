package rolling

import (
	"math"

	"stabile/fab/flat"
	"stabile/param/design"
)

// A Piece is a flat blank as the rolls see it, and how many there are alike.
type Piece struct {
	Name     string // as the blank has it
	Part     string
	Metal    *design.Metal
	Quantity int

	Across float64    // mm, along the rolls; of a cone its slant
	Around float64    // mm, through the rolls, at the widest; of a cone half way between its edges
	Radius float64    // mm, wanted, to the middle of the sheet; of a cone half way between its edges
	Edges  [2]float64 // mm, of a cone the radii at its narrow and its wide edge; else 0
	Fan    *flat.Fan  // of a cone; else nil
	Closed bool       // goes all the way round, so that it must come off over the end of the roll
	Strip  bool       // is narrow at its ends, as a gore is

	Courses int // of a post, as its blank has it
}

// closes is the share of a turn from which a piece must come off over the end of
// the roll. The gap of a quarter turn is 1.4 radii wide, which just lets a roll
// pass that goes 1.4 times into the piece, about as large as there is room for.
const closes = 0.75

// PieceOf returns what is to be rolled of a blank, and reports whether it is
// rolled at all: the rest stays flat or is worked by hand.
func PieceOf(b *flat.Blank) (Piece, bool) {
	p := Piece{Name: b.Name, Part: b.Part, Metal: b.Metal, Quantity: b.Quantity, Radius: b.Forming.MeanRadius, Courses: b.Courses}
	switch f := &b.Forming; f.How {
	case "roll":
		p.Across, p.Around = b.Length, b.Width
		if f.Axis == "x" {
			p.Across, p.Around = b.Width, b.Length
		}
		p.Strip = b.Shape == flat.Gore
	case "cone":
		p.Fan = b.Fan
		if p.Fan == nil {
			return p, true // not sound, which the plan says
		}
		// A point of the flat at the distance l from the apex lies l sin from
		// the axis. The foot is at the origin.
		sin := f.Radii[0] / math.Abs(p.Fan.Apex.Y)
		p.Edges = [2]float64{p.Fan.Small * sin, p.Fan.Large * sin}
		p.Across = p.Fan.Large - p.Fan.Small
		p.Around = p.Fan.Angle*(p.Fan.Large+p.Fan.Small)/2 - p.Fan.Gap
		p.Radius = (p.Edges[0] + p.Edges[1]) / 2
	default:
		return Piece{}, false
	}
	p.Closed = p.turn() >= closes*2*math.Pi
	return p, true
}

// IsCone reports whether the piece is rolled to a cone.
func (p *Piece) IsCone() bool { return p.Edges[0] > 0 }

// sound reports whether the piece can be worked with.
func (p *Piece) sound() bool {
	if p.Metal == nil || !positive(p.Across, p.Around, p.Radius, p.Metal.Thickness) || !stripOf(p).sound() {
		return false
	}
	if p.Fan != nil && (!positive(p.Edges[0], p.Edges[1]) || p.Edges[0] >= p.Edges[1]) {
		return false
	}
	return p.edges()[0] >= p.closed()*(1-closing) && p.Radius < most && p.Across < most && p.Around < most
}

// closing is the share by which the inside of a cone that just closes may miss its axis.
const closing = 1e-6

// closed returns the radius in mm to the middle of the sheet at which its inside just closes
// on the axis, square to the slant of a cone, as at the narrow edge of one with a point.
func (p *Piece) closed() float64 {
	sin := 0.0
	if p.IsCone() {
		sin = (p.Edges[1] - p.Edges[0]) / p.Across
	}
	return p.Metal.Thickness / 2 * math.Sqrt(max(0, 1-sin*sin))
}

// most is a size in mm that no piece has: the sums keep their figures below it.
const most = 1e7

// turn returns the angle about the axis, in rad, that the piece takes up.
func (p *Piece) turn() float64 { return p.Around / p.Radius }

// edges returns the radii at both edges, which are alike for a cylinder.
func (p *Piece) edges() [2]float64 {
	if p.IsCone() {
		return p.Edges
	}
	return [2]float64{p.Radius, p.Radius}
}
