// Package flat develops parts into the flat blanks that they are made from:
// rolled tubes with their trimmed ends, gores, discs and plates. Blanks are
// drawn on the mid-surface, outside face up. Lengths are in mm, angles in rad.
package flat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/finding"
	"stabile/param/design"
)

// Chord is the greatest distance, in mm, between an outline and the true curve
// that it stands for.
const Chord = 0.05

// A Shape is the family of a blank, which decides how it is laid out by hand.
type Shape int

// The shapes of blank.
const (
	Tube   Shape = iota // a rectangle with trimmed ends: x around from the seam, y along the axis toward the head
	Gore                // y along the meridian, x across; the origin is the middle of the gore
	Disc                // round, the origin at its centre
	Plate               // a flat plate seen from above, the origin at its centre
	Sector              // an annular sector, rolled to a cone: y along its middle line toward the head, x across toward growing bearing
)

// A Blank is one flat piece to cut, and how many like it the part needs.
type Blank struct {
	Name     string // what to write on the piece: "mast", "moon gore"
	Part     string // the part that it is for
	Shape    Shape
	Metal    *design.Metal
	Quantity int

	Outline []r2.Vec // closed without repeating its first point, counter-clockwise
	Holes   []Hole
	Area    float64 // mm2, of the finished piece's mid-surface, holes and trim allowance left out
	Width   float64 // mm, of the bounding rectangle, along x
	Length  float64 // mm, of the bounding rectangle, along y
	Mass    float64 // kg, of one finished piece at nominal thickness

	Diameter  float64 // mm, of a disc or a round plate; else 0
	Allowance float64 // mm, left on all round to be trimmed after forming; 0 for none
	Fan       *Fan    // of a sector; else nil

	// Numbers are what the pieces are numbered with among those of their part and
	// kind, in order; empty where there is one piece alone. A number is written once
	// in a part, whatever the pieces are cut like.
	Numbers []string
	Label   string // what stands before the numbers; "" for the Name
	Feet    []Foot // of a base plate, what stands on it
	Courses int    // of the wall of a post, in how many courses that is rolled, 1 for one length; 0 for other blanks

	// Bought is the pipe or tube that the piece is cut from. Its outline is then that of a
	// template about its outside; it is nil for what is cut from sheet.
	Bought *design.BoughtTube

	Forming   Forming
	Marks     []Mark
	Ordinates []Ordinates
	Notes     []finding.Fact // what the bench must know of this piece
}

// Written is what is written on the pieces: one name with their numbers, such as "moon
// gore 1 to 3, 5 to 12".
func (b *Blank) Written() string {
	if len(b.Numbers) == 0 {
		return b.Name
	}
	return b.label() + " " + listed(b.Numbers)
}

// Around is the radius in mm of what the flat goes round, x being that times an angle: of
// sheet that is rolled, at the middle of its thickness, of a template the outside of the
// tube; 0 for others.
func (b *Blank) Around() float64 {
	if b.Bought != nil {
		return b.Width / (2 * math.Pi)
	}
	return b.Forming.MeanRadius
}

// Templated reports whether a piece that is sawn from what is bought has anything to lay
// out: else its length says all.
func (b *Blank) Templated() bool {
	return b.Bought != nil && (len(b.Holes)+len(b.Ordinates) > 0 || slices.ContainsFunc(b.Marks, func(m Mark) bool { return m.Kind == Standing }))
}

// Filed reports whether an end is cut square, and filed to fit.
func (b *Blank) Filed() bool {
	return slices.ContainsFunc(b.Notes, func(n finding.Fact) bool { _, ok := n.(FiledEnd); return ok })
}

func (b *Blank) label() string {
	if b.Label != "" {
		return b.Label
	}
	return b.Name
}

// A Fan is how an annular sector is laid out: two arcs about one point and the
// two straight edges between them, which point to it. The trimmed ends of a
// taper lie between the arcs and touch them.
type Fan struct {
	Apex         r2.Vec    // the point, in the flat's own frame
	Small, Large float64   // mm, radii of the arcs
	Angle        float64   // rad, included
	Chord        float64   // mm, from corner to corner of the large arc; its diameter where the sector is more than half a turn
	Gap          float64   // mm, then taken off along the straight edge at the right, parallel to it, for the gap of the seam
	Long         *LongArcs // how the arcs are laid out that are too long to be struck; else nil
}

// A Hole is an opening cut through a blank. A round one has its Diameter; the
// outline is given for all.
type Hole struct {
	Name     string // of the design's holes that it is one of, without an index; "" for others
	Center   r2.Vec
	Diameter float64 // mm; 0 where the hole is not round
	Outline  []r2.Vec
}

// A Forming is what is done to a blank after it is cut.
type Forming struct {
	How        string     // "roll", "cone", "dome", "dish", "bend" by hand one way, "flat" or, of what is bought, "saw"
	Axis       string     // the axis of the flat about whose direction it is bent: "x", "y" or ""
	Egg        [2]float64 // mm, of an egg's, how wide and how tall that is outside; else 0
	Bends      [2]float64 // mm, of an egg's, to the middle of the thickness along the meridian: at the equator, and where it ends toward a pole; else 0
	MeanRadius float64    // mm, to the middle of the thickness, of a cone half way between its ends, of an egg's that of the equator; 0 for flat
	Radii      [2]float64 // mm, of a cone, to the middle of the thickness: at its foot, or a ring's lower edge, and at its other end; else 0
	Crown      float64    // mm, the height to raise across a domed gore's widest place
	Bow        float64    // mm, of an egg's gore, how far its middle stands out at the equator from the chord from tip to tip; else 0
	Depth      float64    // mm, of what is dished, from its edge to its middle
	Stretch    float64    // mean stretch of a domed gore's fibres, as a share of length
}

// A MarkKind is what a line drawn on a blank is for.
type MarkKind int

// The kinds of mark.
const (
	Witness    MarkKind = iota // a line at a known bearing, to turn the piece to its place
	CentreLine                 // a line of symmetry
	BendLine                   // a line that lies along the rolls
	Standing                   // where the outside of another part meets this one: the toe of their weld
)

// A Mark is a line to be drawn on a blank, not cut.
type Mark struct {
	Kind     MarkKind
	From, To r2.Vec   // its ends; equal where it is closed
	Path     []r2.Vec // all of its points where it is not straight, else nil
	Part     string   // of a standing, the name of the other part; else and where pieces alike differ in it ""
	Bearing  float64  // rad, of a witness mark; of a standing on a post, that of its middle
	Equator  bool     // it is the equator of a ball
	FromSeam float64  // rad, of the centre line of a ring's piece, from its seam; else 0

	// Piece is, of several pieces of a ball that are cut alike, the one that
	// has the mark; 0 for all of them. Gores are counted from 1 at the ball's
	// prime direction on in the sense of growing bearing, rings from the lower
	// pole on, and of two discs the upper is 1.
	Piece int
}

// Ordinates is a table from which a curved edge is laid out by hand: at each
// station a distance measured square to the line that the stations stand on.
type Ordinates struct {
	Edge     Edge
	From     Line // what Station.Ordinate is measured from
	Pitch    float64
	Start    float64 // mm, of a gore the height on the flat from which its stations are measured: 0 of its middle, or that of a rim
	Stations []Station
}

// An Edge is what a table of ordinates lays out.
type Edge string

// The edges.
const (
	FootEdge  Edge = "foot"
	HeadEdge  Edge = "head"
	HalfWidth Edge = "half width"
)

// A Line is what ordinates are measured from; stations lie along a line that goes
// with it.
type Line int

// The lines.
const (
	FromBottom   Line = iota // up from the bottom edge of the rectangle; stations across it from the left edge, the seam
	FromTop                  // down from the top edge of the rectangle; stations as before
	FromRim                  // both ways from the centre line; stations along it from the rim down
	FromCentre               // both ways from the centre line; stations along it from the middle, both ways alike
	FromSmallArc             // out from the small arc along the radial line; stations along the arc from the left edge, by even angles
	FromLargeArc             // in from the large arc; stations as before
)

// A Station is one line of a table of ordinates.
type Station struct {
	At       float64 // mm along
	Bearing  float64 // rad, of a tube's station; 0 for other shapes
	Ordinate float64 // mm
}
