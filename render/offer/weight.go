package offer

import (
	"fmt"
	"math"

	"stabile/fab"
	"stabile/param/quantity"
)

// weight returns what the piece weighs as one may promise it: a range by the
// tolerance of the sheet, its ends rounded outward, and the middle no finer than
// the range allows.
func weight(m fab.Mass, units quantity.System) string {
	u, _ := units.UnitOf(quantity.Mass)
	low, total, high := m.Low/u.Scale, m.Total/u.Scale, m.High/u.Scale
	step := roundStep(low, high)
	write := func(x float64) string { return quantity.Decimal(x, decimals(step)) }
	lo, hi := math.Floor(low/step)*step, math.Ceil(high/step)*step
	mid := math.Round(total/step) * step
	if lo == hi {
		return fmt.Sprintf("about %s %s", write(mid), u.Name)
	}
	return fmt.Sprintf("about %s %s (between %s and %s)", write(mid), u.Name, write(lo), write(hi))
}

// roundStep returns the step, of 1, 2 or 5 and tenfold of these, to which a
// weight is reported: about a quarter of the range in which it lies, and no finer
// than a fiftieth of it.
func roundStep(low, high float64) float64 {
	want := max((high-low)/4, high/50)
	if !(want > 0) {
		return 1
	}
	base := math.Pow(10, math.Floor(math.Log10(want)))
	for _, k := range []float64{1, 2, 5} {
		if want <= k*base*(1+1e-9) {
			return k * base
		}
	}
	return 10 * base
}

// decimals returns how many decimals a step has.
func decimals(step float64) int {
	return max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
}
