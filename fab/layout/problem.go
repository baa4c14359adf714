package layout

import (
	"errors"
	"fmt"
	"math"

	"stabile/param/quantity"
)

// A Problem is a set of rectangles to be cut from sheets of one metal and one
// thickness. All lengths are in mm.
type Problem struct {
	Pieces []Piece
	Sheets []Sheet

	// Kerf is the width of metal that each cut turns to waste: 0 for a shear,
	// the width of the slot for a saw or a cutting disc.
	Kerf float64
	// Shear is the longest cut that the shear takes; 0 for no limit.
	Shear float64
	// Grip is the narrowest part that the shear's hold-downs keep hold of while
	// the rest of it drops; 0 for no limit. It holds for a shear, which has no
	// kerf. Cuts are put in such an order that as few as can be hold less: see
	// Cut.Held.
	Grip float64
	// Aim says what is made least.
	Aim Aim
}

// A Piece is a rectangle that is needed Count times.
type Piece struct {
	Width, Height float64 // along x and along y as drawn
	Count         int
	Turn          bool // it may be laid a quarter turn round
}

// A Sheet is a size of sheet that can be had. Its width lies along x.
type Sheet struct {
	Width, Height float64
	Trim          Trim
	Price         float64
	Count         int  // number on hand; 0 for as many as are needed, which an offcut cannot be
	Offcut        bool // already paid for: used first, and not counted as a sheet
}

// A Trim is what is cut off a sheet's edges before anything else is measured
// from them. A kerf falls within it, and beyond the sheet's edge where it is the
// wider.
type Trim struct {
	Left, Right, Bottom, Top float64
}

// An Aim is what a layout makes least.
type Aim int

// The aims. In both an offcut that is on hand costs nothing.
const (
	FewestSheets Aim = iota // sheets other than offcuts, each counting alike
	LeastMoney              // the sum of the prices of sheets other than offcuts
)

// unit is how many whole steps of length a millimetre has inside the search.
// Work in whole micrometres makes sums exact, so that pieces that fill a sheet
// to the last bit fit, and equal input gives equal layouts on every machine.
const unit = 1000

// slip, in micrometres, is what a length in floating point may be beside a
// whole number and still be taken as that number: far above the rounding of
// values such as 1219.2 (2e-10 of a micrometre), far below any tool.
const slip = 1e-3

// longest, in mm, is the greatest length taken: whole micrometres then fit in
// 31 bits and areas times the weights of the search in 63.
const longest = 100_000

// most is the greatest number of pieces taken.
const most = 10_000

func up(mm float64) int32   { return int32(math.Ceil(mm*unit - slip)) }
func down(mm float64) int32 { return int32(math.Floor(mm*unit + slip)) }

// plain writes a length in full: rounded to a micrometre, and never as a power.
func plain(mm float64) string { return quantity.Decimal(mm, 3) }

func good(mm float64) bool { return mm >= 0 && mm <= longest }

// Err returns what is wrong with the problem's numbers, all of it, or nil. A
// piece that is too large for every sheet is not wrong: Solve tells it apart.
func (p *Problem) Err() error {
	var errs []error
	bad := func(format string, args ...any) { errs = append(errs, fmt.Errorf(format, args...)) }
	total := 0
	for i, c := range p.Pieces {
		if !good(c.Width) || !good(c.Height) || up(c.Width) <= 0 || up(c.Height) <= 0 {
			bad("piece %d: %s x %s mm is not a size between 0 and %d mm", i, plain(c.Width), plain(c.Height), longest)
		}
		if c.Count < 0 || c.Count > most {
			bad("piece %d: cannot cut %d of it", i, c.Count)
			continue
		}
		total += c.Count
	}
	if total > most {
		bad("%d pieces are more than the %d that are laid out at once", total, most)
	}
	for i, s := range p.Sheets {
		t := s.Trim
		switch {
		case !good(s.Width) || !good(s.Height) || !good(t.Left) || !good(t.Right) || !good(t.Bottom) || !good(t.Top):
			bad("sheet %d: %s x %s mm is not a size between 0 and %d mm", i, plain(s.Width), plain(s.Height), longest)
		case inside(&s).empty():
			bad("sheet %d: nothing is left of %s x %s mm inside its trim", i, plain(s.Width), plain(s.Height))
		}
		if !(s.Price >= 0) || math.IsInf(s.Price, 0) {
			bad("sheet %d: the price %s is not a price", i, plain(s.Price))
		}
		if s.Count < 0 || s.Offcut && s.Count == 0 {
			bad("sheet %d: cannot have %d on hand", i, s.Count)
		}
	}
	if len(p.Sheets) == 0 {
		bad("there is no sheet to cut from")
	}
	if !good(p.Kerf) {
		bad("the kerf %s mm is not a width", plain(p.Kerf))
	}
	if !good(p.Shear) {
		bad("the shear's width %s mm is not a width", plain(p.Shear))
	}
	if !good(p.Grip) {
		bad("the grip %s mm is not a width", plain(p.Grip))
	}
	return errors.Join(errs...)
}
