package offer

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/param/quantity"
)

func TestWeight(t *testing.T) {
	const lb = 0.45359237
	for _, c := range []struct {
		low, total, high float64
		units            quantity.System
		want             string
	}{
		{149.2 * lb, 157.3 * lb, 165.7 * lb, quantity.Inch, "about 155 lb (between 145 and 170)"},
		{8.71, 9.02, 9.33, quantity.Millimetre, "about 9 kg (between 8.6 and 9.4)"},
		{0.412, 0.43, 0.448, quantity.Millimetre, "about 0.43 kg (between 0.41 and 0.45)"},
		{1180, 1240, 1300, quantity.Millimetre, "about 1250 kg (between 1150 and 1300)"},
		{50, 50, 50, quantity.Millimetre, "about 50 kg"},
	} {
		if got := weight(fab.Mass{Low: c.low, Total: c.total, High: c.high}, c.units); got != c.want {
			t.Errorf("weight(%v, %v, %v) = %q, want %q", c.low, c.total, c.high, got, c.want)
		}
	}
}

// TestWeightHolds: the range that is reported always holds the true one, and that of the
// report, and the middle lies in it.
func TestWeightHolds(t *testing.T) {
	for total := 0.2; total < 5000; total *= 1.037 {
		for _, spread := range []float64{0, 0.01, 0.05, 0.2} {
			low, high := total*(1-spread), total*(1+spread)
			words := strings.Fields(strings.NewReplacer("(", "", ")", "").Replace(weight(fab.Mass{Low: low, Total: total, High: high}, quantity.Millimetre)))
			number := func(i int) float64 {
				x, err := strconv.ParseFloat(words[i], 64)
				if err != nil {
					t.Fatal(err)
				}
				return x
			}
			mid := number(1)
			if math.Abs(mid-total) > max(total/40, spread*total) {
				t.Errorf("%v kg is told as %v", total, mid)
			}
			if len(words) < 7 {
				continue
			}
			// The report, to three figures, tells no range that this one does not hold.
			if total > 1 {
				least, _ := strconv.ParseFloat(strings.TrimSuffix(quantity.Millimetre.Weight(low), " kg"), 64)
				most, _ := strconv.ParseFloat(strings.TrimSuffix(quantity.Millimetre.Weight(high), " kg"), 64)
				if number(4) > least+1e-9 || number(6) < most-1e-9 {
					t.Errorf("%v, in the report %v to %v kg", words, least, most)
				}
			}
			if lo, hi := number(4), number(6); lo > low+1e-9 || hi < high-1e-9 || mid < lo || mid > hi {
				t.Errorf("%v kg between %v and %v is told as %v", total, low, high, words)
			}
		}
	}
}
