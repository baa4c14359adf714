// Package estimate works out what a sculpture takes of time and money, line by
// line with the quantity and the rate of each, and how much lighter its rolled
// tubes are than standard pipe.
//
// All of it is an estimate. Times are in hours, lengths in mm, areas in mm2,
// masses in kg, speeds in m/s; money is in the shop's own currency, and what has
// no price is named and never taken as nothing.
package estimate

import (
	"stabile/fab/finding"
	"stabile/param/design"
)

// Quantities are how much there is to do. What is 0 has no line.
type Quantities struct {
	ShearSettings int     // of the stop, from the plan of the sheets
	ShearCuts     int     // from edge to edge
	HandCut       float64 // mm, of curved edges, with snips, nibbler or saw
	CutterCut     float64 // mm, by the cutter that the shop has
	Clean         float64 // mm, of bands cleaned on one face: assembly.Totals.Faces
	RollSettings  int     // of the back roll, one for each pass of a batch
	Passes        int     // of single pieces through the rolls
	Raised        float64 // mm2, of sheet that is domed or dished
	Fits          int     // seams and joints, fitted and tacked one by one: assembly.Totals.Fits
	Weld          float64 // mm: assembly.Totals.Weld
	Dress         float64 // mm: assembly.Totals.Dress
	Lifts         int     // of what is set in place: assembly.Totals.Lifts
	Surface       float64 // mm2, that the finish covers; see Surface
	Filler        float64 // kg: assembly.Totals.Filler

	// Materials are what is bought by the piece or by weight: sheets from the plan
	// of the sheets, each size in one line; bought balls.
	Materials []Material
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

func (r Range) plus(o Range) Range { return Range{r.Low + o.Low, r.Likely + o.Likely, r.High + o.High} }

func (r Range) times(x float64) Range { return Range{x * r.Low, x * r.Likely, x * r.High} }

// An Estimate is what it takes.
type Estimate struct {
	Work  []Line // in the order of the work
	Hours Range  // their sum, lows with lows and highs with highs
	Money *Money // nil where nothing has a price
	// Left is what has no line because no rate is known for it.
	Left  []finding.Fact
	Rules []finding.Fact // by which the lines were worked out
}

// Money is what it costs.
type Money struct {
	Currency string
	Lines    []Charge
	Total    Range
	// Unpriced is what the design needs and has no price here: the total leaves it
	// out, and is no price for the whole until it is empty.
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
		RangeRule{steady.spread(), loose.spread(), usual.spread(), bought.spread(), fed.spread(), sent.spread()},
	}
	return e
}
