// Package ink is the drawing model: sheets of lines, filled areas and texts in
// paper millimetres, the origin at the lower left, y up. It knows nothing of
// sculpture and nothing of files; package vector writes its sheets as SVG and
// PDF.
package ink

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Sheet is one page.
type Sheet struct {
	Name   string // a file name without its ending: "03-mast"
	Title  string // what the sheet shows, for bookmarks and readers
	Width  float64
	Height float64
	Items  []Item
}

// An Item is one thing drawn: a *Stroke, an *Arc, a *Fill, an *Image or a *Text. Items are
// drawn in order, later ones over earlier ones.
type Item interface{ item() }

// A Line is a kind of line by ISO 128: what it is for sets its width and its
// dashes.
type Line int

// The kinds of line, with the ISO 128-20 type in parentheses.
const (
	Outline   Line = iota // visible outline, cut edge (01.2, wide)
	Thin                  // dimensions, extension lines, leaders, hatching (01.1, narrow)
	Hidden                // what lies behind (02.1, dashed narrow)
	Centre                // axes and lines of symmetry (04.1, long-dash dot narrow)
	Phantom               // neighbouring parts, the state before forming (05.1, long-dash double-dot narrow)
	Frame                 // the sheet's frame (01.2, wider)
	Rule                  // lines of tables, lighter than dimensions
	Seam                  // welded seams seen on a surface (01.1, narrow)
	BendLines             // lines that lie along the rolls (01.1, narrow)
	Edge                  // a cut edge at full size, to be followed along its middle (01.2, between wide and narrow)
)

// A Stroke is a line along a path.
type Stroke struct {
	Line   Line
	Path   []r2.Vec
	Closed bool
	Group  string // "" or the name of a group that a reader may tell apart, such as "cut" or "mark"
}

// An Arc is a line along part of a circle, or all round it. It says what a
// polyline cannot: that the curve is round at every size.
type Arc struct {
	Line     Line
	Center   r2.Vec
	Radius   float64
	From, To float64 // rad, counter-clockwise from From to To; a turn or more is the whole circle
	Group    string  // as of a Stroke
}

// Circle returns the arc that goes all round.
func Circle(line Line, center r2.Vec, radius float64) *Arc {
	return &Arc{Line: line, Center: center, Radius: radius, To: 2 * math.Pi}
}

// Whole reports whether the arc goes all round.
func (a *Arc) Whole() bool { return a.To-a.From >= wholeTurn }

// wholeTurn is a turn less what the sum of a few angles in rad loses by
// rounding: some hundred units in the last place of 2 pi.
const wholeTurn = 2*math.Pi - 1e-13

// At returns the point of the arc's circle at an angle in rad.
func (a *Arc) At(angle float64) r2.Vec {
	sin, cos := math.Sincos(angle)
	return r2.Vec{X: a.Center.X + float64(a.Radius*cos), Y: a.Center.Y + float64(a.Radius*sin)}
}

// A Fill is a closed area painted in one shade of grey: 0 is black, 1 white.
type Fill struct {
	Path  []r2.Vec
	Shade float64
}

// An Anchor is the point of a text that is put at its place.
type Anchor int

// The anchors: along the line of the text, on its baseline.
const (
	Start Anchor = iota
	Middle
	End
)

// A Face is one of the typefaces of the drawings.
type Face int

// The faces.
const (
	Regular Face = iota
	Bold
)

// A Text is one line of writing.
type Text struct {
	At     r2.Vec  // of the anchor, on the baseline
	Height float64 // mm, of a capital letter
	Angle  float64 // rad, counter-clockwise
	Anchor Anchor
	Face   Face
	Text   string
	Halo   bool   // the paper is cleared behind it
	Group  string // as of a Stroke, where the file is of lines alone
}

func (*Stroke) item() {}
func (*Arc) item()    {}
func (*Fill) item()   {}
func (*Text) item()   {}

// Add appends items to the sheet.
func (s *Sheet) Add(items ...Item) { s.Items = append(s.Items, items...) }
