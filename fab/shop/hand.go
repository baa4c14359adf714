package shop

import (
	"math"

	"stabile/param/design"
	"stabile/param/stock"
)

const inch = 25.4 // mm, by definition

// The modest shop: common practice, no source. Its machines are the smallest
// that a shop for work of this kind is likely to have, so that what it can do
// most others can too.
const (
	handAlloy = "low-carbon-steel"

	shearWidth = 50 * inch // a foot shear
	shearGauge = 14
	shearLeast = 0.75 * inch

	rollsWidth = 38 * inch // cranked by hand
	rollsGauge = 15
	rollsRoll  = 2 * inch // diameter
	rollsPitch = inch / 8
	// rollsLeast is one and a half times the roll, from which a light sheet
	// still comes off.
	rollsLeast = 1.5

	// rollsClear is how far a back roll stands off the pinch roll beside it.
	rollsClear = 0.25 * inch

	fillerRod = inch / 16
	tackEvery = 1.5 * inch

	sheetWidth, sheetLength = 48 * inch, 96 * inch
)

// capacity returns what a machine of the modest shop takes: mild steel of a
// width and a gauge.
func capacity(width float64, gauge int) design.Capacity {
	a, _ := stock.LookupAlloy(handAlloy)
	t, err := a.Family.Thickness(gauge)
	if err != nil { // the table of mild steel has it
		t = math.NaN()
	}
	return design.Capacity{Width: width, Alloy: a.Name, Gauge: gauge, Thickness: t, Yield: a.Yield}
}

// RatesSource says what the times of the modest shop rest on.
const RatesSource = "common practice, no source"

// Times returns the rates of the modest shop: what work takes by hand, invented
// after common practice. They have no money in them. Keep notes of your own
// work and write those.
func Times() design.Rates {
	return design.Rates{
		Setup: 3 * 60, // of a stop or of two screws, tried on a strip
		Cut:   2 * 60,
		Pass:  1 * 60,
		Fit:   10 * 60,
		Clean: 1.0 / 60,   // a metre a minute with a flap disc
		Weld:  0.075 / 60, // 75 mm a minute, the slow end for thin sheet by hand
		Dress: 0.15 / 60,
	}
}
