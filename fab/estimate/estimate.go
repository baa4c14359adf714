// Package estimate works out what a sculpture takes of time and money, line by
// line with the quantity and the rate of each, and how much lighter its rolled
// tubes are than standard pipe.
//
// All of it is an estimate. Times are in hours, lengths in mm, areas in mm2,
// masses in kg, speeds in m/s; money is in the shop's own currency, and what has
// no price is named and never taken as nothing.
package estimate

import (
	"math"

	"stabile/fab/finding"
	"stabile/param/design"
)

// Quantities are how much there is to do. What is 0 has no line.
type Quantities struct {
	Templates     int     // of different pieces that have curved edges
	LaidOut       int     // pieces that are laid out one by one, and cuts of the shear to a scribed line
	ShearSettings int     // of the stop, from the plan of the sheets
	ShearCuts     int     // from edge to edge
	HandCut       float64 // mm, of curved edges, with snips, nibbler or saw
	CutterCut     float64 // mm, by the cutter that the shop has
	SawCuts       int     // of the saw through pipe and tube
	Coped         float64 // mm, of the ends of pipe and tube that are cut to a template
	Holes         int     // drilled
	Clean         float64 // mm, of bands cleaned on one face: assembly.Totals.Faces
	RollSettings  int     // of the back roll, one for each pass of a batch
	Passes        int     // of single pieces through the rolls
	Raised        float64 // mm2, of sheet that is domed or dished
	Formed        int     // pieces that the rolls do not take: by mallet over a pipe, or on the brake
	Fits          int     // seams and joints, fitted and tacked one by one: assembly.Totals.Fits without its Plugs
	Weld          float64 // mm: assembly.Totals.Weld
	Dress         float64 // mm: assembly.Totals.Dress
	Lifts         int     // of what is set in place: assembly.Totals.Lifts
	Load          float64 // kg, of the finished piece
	Surface       float64 // mm2, that the finish covers; see Surface
	Filler        float64 // kg: assembly.Totals.Filler

	// Materials are what is bought by the piece or by weight: sheets from the plan
	// of the sheets, each size in one line; bought balls.
	Materials []Material

	// Unplaced reports that some blanks do not fit on the shop's sheets: what
	// they are cut from has no price.
	Unplaced bool
}

// A Material is something that is bought.
type Material struct {
	Item     finding.Fact // SheetsOf, CutToSize or BoughtBall
	Quantity float64
	Unit     string  // "sheets", "kg", "pieces"
	Price    float64 // money for each unit; 0 where none is given
}

// An Input is what an estimate is made from.
type Input struct {
	Quantities Quantities
	Rates      design.Rates // times filled up where the shop gives none, money as given
	Own        design.Rates // what the shop itself gives, which sets its own rates apart from filled ones
	Currency   string
	Finish     *design.Finish     // nil for none
	Process    design.WeldProcess // stick takes no gas; "" counts as one that does
}

// A Range is a number with the low and the high that it may well come to.
type Range struct{ Low, Likely, High float64 }

func (r Range) times(x float64) Range { return Range{x * r.Low, x * r.Likely, x * r.High} }

// sum adds up ranges whose errors have nothing to do with each other: the likely
// ones add up, and what each may fall short or overrun by adds up as the sides of a
// right angle do, so that the sum is better known than its lines. Lows only add up
// where all goes well together. The rule is that of the combined standard
// uncertainty of independent quantities, JCGM 100:2008 5.1.2.
func sum(list []Range) Range {
	var likely, down, up float64
	for _, r := range list {
		likely += r.Likely
		down = math.Hypot(down, r.Likely-r.Low)
		up = math.Hypot(up, r.High-r.Likely)
	}
	return Range{max(0, likely-down), likely, likely + up}
}

// An Estimate is what it takes.
type Estimate struct {
	Work  []Line // in the order of the work
	Hours Range  // their sum, as of independent errors
	Money *Money // nil where nothing has a price
	// Left is what has no line because no rate is known for it.
	Left  []finding.Fact
	Rules []finding.Fact // by which the lines were worked out
}

// Money is what it costs.
type Money struct {
	Currency string
	Lines    []Charge
	Total    Range // nought unless all is priced
	// Unpriced is what the design needs and has no price here: there is no total
	// until it is empty.
	Unpriced []finding.Fact
	// Outside is what no plan of this program knows of.
	Outside []Outside
}

// Make makes an estimate. Quantities and rates that are no positive finite
// numbers count as not given.
func Make(in Input) *Estimate {
	e := &Estimate{}
	e.work(&in)
	e.charge(&in)
	e.Rules = []finding.Fact{
		HoursRule{},
		RangeRule{steady.spread(), loose.spread(), usual.spread(), bought.spread(), fed.spread(), sent.spread(), ownShare},
	}
	if !(in.Own.Dress > 0) && good(in.Quantities.Dress) {
		e.Rules = append(e.Rules, DressRule{})
	}
	return e
}
