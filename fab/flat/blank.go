// Package flat develops parts into the flat blanks that they are made from:
// rolled tubes with their trimmed ends, gores, discs and plates. Blanks are
// drawn on the mid-surface, outside face up. Lengths are in mm, angles in rad.
package flat

import (
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
)

// Chord is the greatest distance, in mm, between an outline and the true curve
// that it stands for.
const Chord = 0.05

// A Shape is the family of a blank, which tells how it is laid out by hand.
type Shape int

// The shapes of blank.
const (
	Tube  Shape = iota // a rectangle with trimmed ends: x around from the seam, y along the axis toward the head
	Gore               // y along the meridian, x across; the origin is the middle of the gore
	Disc               // round, the origin at its centre
	Plate              // a flat plate seen from above, the origin at its centre
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

	Forming   Forming
	Marks     []Mark
	Ordinates []Ordinates
	Notes     []string // what the bench must know of this piece, one sentence each
}

// A Hole is an opening cut through a blank. A round one has its Diameter; the
// outline is given for all.
type Hole struct {
	Center   r2.Vec
	Diameter float64 // mm; 0 where the hole is not round
	Outline  []r2.Vec
}

// A Forming is what is done to a blank after it is cut.
type Forming struct {
	How        string  // "roll", "dome", "dish" or "flat"
	Axis       string  // the axis of the flat about whose direction it is bent: "x", "y" or ""
	MeanRadius float64 // mm, to the middle of the thickness; 0 for flat
	Crown      float64 // mm, the height to raise across a domed gore's widest place
	Stretch    float64 // mean stretch of a domed gore's fibres, as a share of length
}

// A MarkKind tells what a line drawn on a blank is for.
type MarkKind int

// The kinds of mark.
const (
	Witness    MarkKind = iota // a line at a known bearing, to turn the piece to its place
	CentreLine                 // a line of symmetry
	BendLine                   // a line that lies along the rolls
)

// A Mark is a line to be drawn on a blank, not cut.
type Mark struct {
	Kind     MarkKind
	From, To r2.Vec
	Label    string  // written beside it, such as "90 deg"; may be empty
	Bearing  float64 // rad, of a witness mark
}

// Ordinates is a table from which a curved edge is laid out by hand: at each
// station a distance measured square to the line that the stations stand on.
type Ordinates struct {
	Edge     string // "foot", "head" or "half width"
	Along    string // what Station.At is measured along, and from where
	Measured string // what Station.Ordinate is measured from
	Pitch    float64
	Stations []Station
}

// A Station is one line of a table of ordinates.
type Station struct {
	At       float64 // mm along
	Bearing  float64 // rad, of a tube's station; 0 for other shapes
	Ordinate float64 // mm
}
