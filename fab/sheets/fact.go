package sheets

import (
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
)

// A ForCutter says that a metal is cut with the cutter, since the shear does not
// take it.
type ForCutter struct {
	Metal *design.Metal
	Shear *design.Capacity // its rating; nil where the shop has none
	Kerf  float64          // mm
}

// Fact marks the type.
func (ForCutter) Fact() {}

// A ForLongCut says that a part is cut with the cutter, since the shear is too
// short.
type ForLongCut struct {
	Shear  float64 // mm, its width
	Sheets bool    // the sheets are too wide for it, not the blank
}

// Fact marks the type.
func (ForLongCut) Fact() {}

// A NoSheet says that there is no sheet to cut a part from.
type NoSheet struct {
	Metal  string
	Cutter bool // no size that there is goes on the cutter
}

// Fact marks the type.
func (NoSheet) Fact() {}

// A NotLaidOut says that sheets could not be laid out, and the error.
type NotLaidOut struct{ Metal, Err string }

// Fact marks the type.
func (NotLaidOut) Fact() {}

// A TooThick says that a part is too thick for the shop to cut.
type TooThick struct {
	Metal  *design.Metal
	Shear  *design.Capacity // its rating; nil where the shop has none
	Cutter float64          // mm, that the cutter goes through; 0 where the shop has none
}

// Fact marks the type.
func (TooThick) Fact() {}

// A TooLarge says that a blank is too large for every sheet.
type TooLarge struct {
	Metal                   string
	Width, Length           float64 // mm, of the blank
	SheetWidth, SheetLength float64 // mm, of the largest, inside its trim
	Shape                   flat.Shape
	Courses                 int // of its post in which it would fit and be taken by the rolls; 0 where none do
}

// Fact marks the type.
func (TooLarge) Fact() {}

// A TooLong says that a blank needs a longer cut than the shear makes.
type TooLong struct {
	Width, Length float64 // mm, of the blank
	Shear         float64 // mm, its width
	Shape         flat.Shape
	Courses       int // of its post in which it would not and be taken by the rolls; 0 where none do
}

// Fact marks the type.
func (TooLong) Fact() {}

// A TooWide says that the sheets that a part is cut from do not go into the shear,
// though its blanks do.
type TooWide struct {
	Shear float64 // mm, its width
}

// Fact marks the type.
func (TooWide) Fact() {}

// A TooFew says that the sheets at hand are not enough.
type TooFew struct {
	Metal         string
	Count         int     // pieces without a place
	Width, Length float64 // mm, of one
}

// Fact marks the type.
func (TooFew) Fact() {}

// A Narrow says that what is cut off is narrower than the shear's hold-downs grip.
type Narrow struct {
	Width, Least float64 // mm, of the narrowest, and what they grip
	Strip        bool    // a strip of several pieces, not a piece of its own
	Cuts         []CutAt
}

// A CutAt is where a cut is: its number on a sheet.
type CutAt struct {
	Sheet  string
	Number int
}

// Fact marks the type.
func (Narrow) Fact() {}

// Join implements finding.Joiner.
func (n Narrow) Join(other finding.Fact) (finding.Fact, bool) {
	o, ok := other.(Narrow)
	if !ok || o.Strip != n.Strip || o.Least != n.Least {
		return nil, false
	}
	n.Width = min(n.Width, o.Width)
	n.Cuts = append(n.Cuts[:len(n.Cuts):len(n.Cuts)], o.Cuts...)
	return n, true
}
