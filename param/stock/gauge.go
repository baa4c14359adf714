package stock

import (
	"fmt"
	"math"
)

// A Family is the alloys that share a gauge table.
type Family int

// The families.
const (
	Steel Family = iota
	Galvanized
	Stainless
	Aluminium
	Copper
)

const inch = 25.4 // mm, by definition

// sheetOunces is the weight in ounces of a square foot of sheet of gauges 3 to
// 30, as set by the United States Standard Gauge of 1893 and kept by the
// Manufacturers' Standard Gauge.
var sheetOunces = [...]float64{
	160, 150, 140, 130, 120, 110, 100, 90, 80, 70, // 3 to 12
	60, 50, 45, 40, 36, 32, 28, 24, 22, 20, // 13 to 22
	18, 16, 14, 12, 11, 10, 9, 8, // 23 to 30
}

const (
	// firstGauge and lastGauge bound the gauges in which sheet is listed.
	firstGauge = 3
	lastGauge  = 30

	// firstGalvanized is the heaviest gauge listed with a zinc coat.
	firstGalvanized = 8

	// sheetSteel is the weight in ounces of a square foot of steel sheet an
	// inch thick that the Manufacturers' Standard uses, 41.82 lb: more
	// than steel weighs, to allow for the thicker middle of a rolled sheet.
	sheetSteel = 41.82 * 16

	// wroughtIron is the same for the gauge of 1893: iron of 480 lb/ft3.
	wroughtIron = 640.0

	// zincCoat is the weight in ounces per square foot that a zinc coat adds
	// to the listed weight of a galvanized gauge. It gives every value of the
	// published list, which is about 0.0037 in over that of bare sheet.
	zincCoat = 2.5
)

// GaugeTable returns the name of the table in which the family's gauges stand.
func (f Family) GaugeTable() string {
	switch f {
	case Steel:
		return "Manufacturers' Standard"
	case Galvanized:
		return "galvanized sheet"
	case Stainless:
		return "US Standard of 1893"
	}
	return "Brown & Sharpe"
}

// MetricSheets are the thicknesses in mm in which thin sheet is sold where it goes by no
// gauge (common practice, no source).
var MetricSheets = []float64{0.5, 0.6, 0.7, 0.8, 1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6}

// Gauges returns the first and the last gauge of the family's table.
func (f Family) Gauges() (first, last int) {
	if f == Galvanized {
		return firstGalvanized, lastGauge
	}
	return firstGauge, lastGauge
}

// Thickness returns the nominal thickness in mm of sheet of the given gauge. A
// gauge that is not in the family's table is an error that names its
// neighbours.
//
// Steel, bare and galvanized, is the listed weight over that of an inch of
// sheet, to the four decimals of an inch in which the lists are printed and
// sheet is sold. Stainless is the gauge of 1893, in 640ths of an inch for each
// ounce. Aluminium and copper alloys are Brown & Sharpe, which ASTM B258
// defines as 0.005 in at gauge 36, growing 92 times in 39 equal steps.
func (f Family) Thickness(gauge int) (float64, error) {
	first, last := f.Gauges()
	if gauge < first || gauge > last {
		return 0, f.noGauge(gauge, first, last)
	}
	switch ounces := sheetOunces[gauge-firstGauge]; f {
	case Steel:
		return listed(ounces/sheetSteel) * inch, nil
	case Galvanized:
		return listed((ounces+zincCoat)/sheetSteel) * inch, nil
	case Stainless:
		return ounces / wroughtIron * inch, nil
	}
	return 0.005 * math.Pow(92, float64(36-gauge)/39) * inch, nil
}

// The weights, in ounces for each square foot, that OunceThickness takes: wider than
// the range that ASTM B370 lists, in which copper sheet is sold.
const (
	FirstOunces = 4
	LastOunces  = 160
)

// OunceThickness returns the nominal thickness in mm of sheet that is sold by weight,
// with what its table is called: the weight of a square foot over the alloy's density,
// as GNU units defines its ouncecopper. An ounce of 28.349523125 g and a foot of
// 304.8 mm are exact. It reports false for an alloy that is not sold so, or a weight
// out of range.
func (a *Alloy) OunceThickness(ounces int) (mm float64, table string, ok bool) {
	const (
		ounce = 28.349523125e-3 // kg
		foot  = 0.3048          // m
	)
	if !a.Ounces || ounces < FirstOunces || ounces > LastOunces {
		return 0, "", false
	}
	return float64(ounces) * ounce / (foot * foot) / a.Density * 1e3, "ounces to the square foot", true
}

// listed returns inches to the four decimals of a printed gauge list.
func listed(inches float64) float64 { return math.Round(inches*1e4) / 1e4 }

func (f Family) noGauge(gauge, first, last int) error {
	a, b := first, first+1
	if gauge > last {
		a, b = last-1, last
	}
	ta, _ := f.Thickness(a)
	tb, _ := f.Thickness(b)
	return &GaugeError{
		Gauge: gauge, First: first, Last: last, Table: f.GaugeTable(),
		Near: [2]int{a, b}, Thickness: [2]float64{ta, tb},
	}
}

// A GaugeError says that a gauge is not in a table, and what its nearest
// neighbours are.
type GaugeError struct {
	Gauge       int
	First, Last int // the table's range
	Table       string
	Near        [2]int     // the gauges nearest to the one asked for
	Thickness   [2]float64 // mm, of those
}

// Error says which gauge is missing and what its neighbours are in inches and
// mm.
func (e *GaugeError) Error() string {
	return fmt.Sprintf("the %s table has gauges %d to %d, not %d: gauge %d is %.4f in (%.3f mm), gauge %d is %.4f in (%.3f mm)",
		e.Table, e.First, e.Last, e.Gauge,
		e.Near[0], e.Thickness[0]/inch, e.Thickness[0],
		e.Near[1], e.Thickness[1]/inch, e.Thickness[1])
}
