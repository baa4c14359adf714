package eval

import (
	"fmt"
	"math"

	"stabile/param/quantity"
	"stabile/param/stock"
)

// Bounds on what a design may ask for, in coherent units. They are far outside
// of any shop's work; they keep every later product of sizes finite and every
// quotient sane.
const (
	leastSize   = 0.01  // mm: thinner than any foil that is welded
	mostLength  = 1e6   // mm: a kilometre
	mostMass    = 1e6   // kg
	mostForce   = 1e10  // 1e7 N
	mostStress  = 1e10  // 1e7 MPa
	mostDensity = 30e3  // kg/m3: above osmium, 22,600
	perCubicMm  = 1e-9  // kg/m3 in kg/mm3
	mostSpeed   = 200e3 // mm/s: twice the strongest wind on record
	mostTime    = 3.6e6 // s: 1000 hr
	mostMoney   = 1e9
	degree      = math.Pi / 180
)

var (
	size        = Range{From: leastSize, To: mostLength, Words: "between 0.01 mm and 1 km"}
	notBelow    = Range{From: 0, To: mostLength, Words: "between 0 and 1 km"}
	mass        = Range{From: 0, To: mostMass, Words: "between 0 and 1000 t"}
	force       = Range{From: 0, To: mostForce, Words: "between 0 and 10,000 kN"}
	stress      = Range{From: 0, To: mostStress, Above: true, Words: "more than 0, at most 10,000,000 MPa"}
	heaviness   = Range{From: 0, To: mostDensity * perCubicMm, Above: true, Words: "more than 0, at most 30,000 kg/m3"}
	leaning     = Range{From: 0, To: 90 * degree, Under: true, Words: "at least 0 deg and under 90 deg"}
	poleTilt    = Range{From: 0, To: 180 * degree, Words: "from 0 deg to 180 deg"}
	drooping    = Range{From: 0, To: 180 * degree, Words: "from 0 deg to 180 deg"}
	rootGap     = Range{From: 0, To: 10, Words: "from 0 to 10 mm"}
	shrinking   = Range{From: 0, To: 10, Words: "from 0 to 10 mm"}
	courseCount = Range{From: 1, To: mostCourses, Words: fmt.Sprintf("from 1 to %d, or a length", mostCourses)}
	staggering  = Range{From: 0, To: 180 * degree, Words: "from 0 deg to 180 deg"}
	upOrDown    = Range{From: -90 * degree, To: 90 * degree, Words: "from -90 deg to 90 deg"}
	sloping     = Range{From: 0, To: 45 * degree, Words: "from 0 deg to 45 deg"}
	goreCount   = Range{From: 4, To: 48, Words: "from 4 to 48"}
	zoneCount   = Range{From: 2, To: 48, Words: "from 2 to 48"}
	crowd       = Range{From: 1, To: 100, Words: "from 1 to 100"}
	riskRange   = Range{From: 1, To: 4, Words: "from 1 to 4"}
	hillFactor  = Range{From: 1, To: 10, Words: "from 1 to 10"}
	shaking     = Range{From: 0, To: 5, Words: "from 0 to 5"}
	iceDepth    = Range{From: 0, To: 200, Words: "between 0 and 200 mm"}
	concretes   = Range{From: 5e3, To: 150e3, Words: "between 5 and 150 MPa"}
	bearable    = Range{From: 1, To: 10e3, Words: "between 1 and 10,000 kPa"}
	holeCount   = Range{From: 0, To: 64, Words: "from 0 to 64"}
	sheetCount  = Range{From: 0, To: 1e6, Words: "from 0 to 1,000,000"}
	pieceCount  = Range{From: 1, To: 10e3, Words: "from 1 to 10,000"}
	kerfWidth   = Range{From: 0, To: 50, Words: "from 0 to 50 mm"}
	whiteEdge   = Range{From: 0, To: 50, Words: "from 0 to 50 mm"}
	lapping     = Range{From: 5, To: 100, Words: "from 5 to 100 mm"} // an arm of a registration mark is 4
	spell       = Range{From: 0, To: mostTime, Words: "between 0 and 1000 hr"}
	workSpeed   = Range{From: 0, To: mostSpeed, Above: true, Words: "more than 0, at most 200 m/s"}
	windSpeed   = Range{From: 0, To: mostSpeed, Words: "from 0 to 200 m/s"}
	price       = Range{From: 0, To: mostMoney, Words: "from 0 to 1,000,000,000"}
	validity    = Range{From: 86400, To: 3650 * 86400, Words: "from 1 day to 3650 days"}
	portion     = Range{From: 0, To: 1, Words: "from 0 to 1"}
	hourly      = Range{From: 0, To: mostMoney / 3600, Words: "from 0 to 1,000,000,000 an hour"}
	share       = Range{From: 0, To: 10, Words: "from 0 to 10"}
	ounceRange  = Range{From: stock.FirstOunces, To: stock.LastOunces, Words: fmt.Sprintf("from %d to %d", stock.FirstOunces, stock.LastOunces)}
	gaugeRange  = Range{From: -1e6, To: 1e6, Words: "a gauge number"}
)

// The shorthands of arguments by dimension.

func length(r Range) Argument {
	return Argument{Kind: Measure, Dim: quantity.Length, Range: r}
}

func measure(d quantity.Dimension, r Range) Argument {
	return Argument{Kind: Measure, Dim: d, Range: r}
}

func optional(a Argument) Argument {
	a.Optional = true
	return a
}

// counted is a value that may be left out before a word that goes with it.
func counted(a Argument) Argument {
	a.Counts = true
	return optional(a)
}

func choice(words ...string) Argument { return Argument{Kind: Choice, Choices: words} }

// Money is a plain number in the shop's currency; a price by weight, area or
// time is money divided by one.

func money() Argument { return Argument{Kind: Measure, Range: price, Noun: "an amount of money"} }

func byWeight() Argument {
	return Argument{Kind: Measure, Dim: quantity.Dimension{Mass: -1}, Range: price, Noun: "a price by weight"}
}

// byWhatever is a price by weight, or by length off a roll of sheet, or of a whole
// sheet.
func byWhatever() Argument {
	a := byWeight()
	a.Or = []quantity.Dimension{{Length: -1}, quantity.Number}
	a.Noun = "a price by weight, by length or of a sheet"
	return a
}

func byLength() Argument {
	return Argument{Kind: Measure, Dim: quantity.Dimension{Length: -1}, Range: price, Noun: "a price by length"}
}

func byArea() Argument {
	return Argument{Kind: Measure, Dim: quantity.Dimension{Length: -2}, Range: price, Noun: "a price by area"}
}

func byTime() Argument {
	return Argument{Kind: Measure, Dim: quantity.Rate, Range: hourly, Noun: "a price by the hour"}
}

func bearing() Argument { return Argument{Link: "toward", Kind: Bearing, Optional: true} }

// freeBearing is a bearing that may be left out beside a size that is not 0.
func freeBearing() Argument {
	a := bearing()
	a.Free = true
	return a
}

func shown(example string, a Argument) Argument {
	a.Example = example
	return a
}

func after(link string, a Argument) Argument {
	a.Link = link
	return a
}
