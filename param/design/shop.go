package design

import (
	"cmp"

	"stabile/param/stock"
)

// A Shop is what the workshop has and can do. Money is in the shop's own
// currency. What the text does not say is zero or nil.
type Shop struct {
	Name     string // as the papers name it
	Currency string // such as "EUR"
	Sheets   []Sheet
	Offcuts  []Offcut
	Shear    *Shear   // nil for none
	Cutter   *Cutter  // nil for none
	Saw      *Saw     // nil for none
	Rolls    *Rolls   // nil for none
	Brake    *Brake   // nil for none
	Welding  *Welding // nil for none
	Paper    string   // the papers' size, such as "A3" or "tabloid"
	Printer  *Printer // of full-size patterns; nil for none
	Rates    Rates
}

// A Sheet is a size in which the shop buys a metal.
type Sheet struct {
	Metal         *Metal
	Width, Length float64 // mm; the rolling direction runs along Length
	Price         float64 // money a sheet
	Trim          float64 // mm, cut off all round before it is used
	Turn          bool    // a flat may be laid across the rolling direction
	Stock         int     // sheets at hand
	Stocked       bool    // Stock is given; else as many as needed can be had
}

// An Offcut is a piece of sheet at hand, already paid for and used before any
// sheet is bought.
type Offcut struct {
	Metal         *Metal
	Width, Length float64 // mm; the rolling direction runs along Length
	Number        int     // pieces of this size, at least 1
}

// A Capacity is the heaviest sheet that a machine takes over its whole width.
type Capacity struct {
	Width     float64 // mm, usable
	Alloy     string  // the alloy's name in package stock
	Gauge     int     // 0 where a thickness is given instead
	Thickness float64 // mm
	Yield     float64 // MPa, of the alloy

	Stock *stock.Alloy // as that of a Metal

	Second *Capacity // what it is rated for in another alloy, over the same width; nil for none
}

// For returns the rating by which a metal is judged: the second one where that is of
// the metal's own alloy, or of its group of alloys and the first is not.
func (c Capacity) For(m *Metal) Capacity {
	if c.Second == nil || m.Alloy == c.Alloy {
		return c
	}
	if group := m.Is().Group; m.Alloy == c.Second.Alloy || group == c.Second.Is().Group && group != c.Is().Group {
		return *c.Second
	}
	return c
}

// Is returns the alloy that the machine is rated in.
func (c *Capacity) Is() stock.Alloy { return alloyOf(c.Stock, c.Alloy) }

// A Shear cuts sheet from edge to edge.
type Shear struct {
	Capacity
	Least float64 // mm, the narrowest strip that its hold-downs grip
	Reach float64 // mm, how far its back gauge goes; 0 where not said
}

// A Cutter is a saw, a disc or a plasma table: it cuts what the shear cannot, or
// stands in for it.
type Cutter struct {
	Kerf          float64 // mm, the metal that a cut takes away
	Width, Length float64 // mm, of the largest sheet that it takes; 0 where not said
	Thickness     float64 // mm, of the thickest sheet that it cuts; 0 where not said
}

// A Saw cuts pipe and tube that is bought.
type Saw struct {
	Kerf float64 // mm, of length that a cut takes away
}

// Rolls are slip rolls: two that pinch the sheet and one behind that bends it.
type Rolls struct {
	Capacity
	PinchDiameter float64 // mm
	BackDiameter  float64 // mm
	BackDistance  float64 // mm, level, from the centre line of the pinch to the back roll's centre
	ScrewPitch    float64 // mm of the back roll's lift a turn
	Slant         float64 // rad from upright of the way in which the back roll lifts; 0 straight
	Least         float64 // mm, the smallest outside diameter that comes off them
}

// A Brake folds sheet.
type Brake struct{ Capacity }

// ShearSetting returns the time in s for each setting of the shear.
func (r *Rates) ShearSetting() float64 { return cmp.Or(r.ShearSetup, r.Setup) }

// RollSetting returns the time in s for each setting of the rolls.
func (r *Rates) RollSetting() float64 { return cmp.Or(r.RollSetup, r.Setup) }

// A WeldProcess is a way to weld.
type WeldProcess string

// The weld processes.
const (
	TIG   WeldProcess = "tig"
	MIG   WeldProcess = "mig"
	Stick WeldProcess = "stick"
	Gas   WeldProcess = "gas"
)

// Welding is how the shop joins.
type Welding struct {
	Process WeldProcess
	Filler  float64 // mm, diameter of the filler rod or wire
	Tack    float64 // mm, from tack to tack
	Narrow  float64 // mm, the narrowest point of sheet that it can weld
	Shrink  float64 // mm, that a seam draws its edges together as it is welded
}

// What a printer leaves white and how far its pages lap, in mm, where the text does
// not say. Most printers print to within 1/4 in of the edge (common practice, no
// source).
const (
	PrinterMargin  = 6.35
	PrinterOverlap = 10.0
)

// A Printer is what full-size patterns are printed on.
type Printer struct {
	Paper   string  // such as "letter"
	Margin  float64 // mm, that it cannot print on
	Overlap float64 // mm, of one page over the next
	Roll    float64 // mm, width of a paper roll; 0 for single pages
}

// Rates are how long work takes and what it costs.
type Rates struct {
	Labour float64 // money an hour
	Setup  float64 // s, for each setting of a machine that has no time of its own
	Cut    float64 // s, for each cut of the shear
	Pass   float64 // s, for each pass through the rolls
	Fit    float64 // s, for each joint that is fitted and tacked
	Clean  float64 // m/s, along an edge, for each face
	Weld   float64 // m/s
	Dress  float64 // m/s
	Filler float64 // money a kg
	Pipe   float64 // money a kg of standard pipe
	Gas    float64 // money an hour of welding
	Markup float64 // share that is added to the whole, such as 0.15

	ShearSetup, RollSetup float64 // s, for each setting of the shear and of the rolls; 0 for Setup
}
