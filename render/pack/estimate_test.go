package pack

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"stabile/fab/estimate"
	"stabile/param/quantity"
)

// TestCharged: what is charged stands in the units of the job, and as much at so
// much each is still the money.
func TestCharged(t *testing.T) {
	for _, tt := range []struct {
		units  quantity.System
		charge estimate.Charge
		amount string
		each   float64
	}{
		{quantity.Inch, estimate.Charge{Quantity: 1, Unit: "sheets", Rate: 58}, "1 sheet", 58},
		{quantity.Inch, estimate.Charge{Quantity: 3, Unit: "sheets", Rate: 58}, "3 sheets", 58},
		// 1 lb is 0.45359237 kg and 1 ft is 304.8 mm by definition (1959).
		{quantity.Inch, estimate.Charge{Quantity: 0.90718474, Unit: "kg", Rate: 9 / 0.45359237}, "2 lb", 9},
		{quantity.Inch, estimate.Charge{Quantity: 0.09290304, Unit: "m2", Rate: 100}, "1 ft²", 9.290304},
		{quantity.Millimetre, estimate.Charge{Quantity: 0.5, Unit: "kg", Rate: 20}, "0.5 kg", 20},
		{quantity.Millimetre, estimate.Charge{Quantity: 3.14, Unit: "m2", Rate: 38}, "3.14 m²", 38},
		{quantity.Inch, estimate.Charge{Quantity: 5.95, Unit: "h", Rate: 14}, "5.95 h", 14},
		{quantity.Inch, estimate.Charge{Quantity: 3082, Unit: ofTheSum, Rate: 0.15}, "3082", 0.15},
	} {
		k := &pack{units: tt.units}
		amount, each := k.charged(&tt.charge)
		if amount != tt.amount || math.Abs(each-tt.each) > 1e-9 {
			t.Errorf("charged(%v, %q) = %q, %v, want %q, %v", tt.charge.Quantity, tt.charge.Unit, amount, each, tt.amount, tt.each)
		}
	}
}

// TestSums: the sums of a column have as many decimals.
func TestSums(t *testing.T) {
	for _, tt := range []struct {
		column sums
		want   string
	}{
		{sums{4, 10, 260}, "4 10 260"},
		{sums{4, 4.61, 10.4}, "4.00 4.61 10.40"},
		{sums{8.853, 83.34, 3544.2}, "9 83 3544"},
		{sums{0.4, 83.34, 3544.2}, "0.40 83.34 3544.20"},
	} {
		var got []string
		for _, m := range tt.column {
			got = append(got, tt.column.write(m))
		}
		if s := strings.Join(got, " "); s != tt.want {
			t.Errorf("%v is written %q, want %q", tt.column, s, tt.want)
		}
	}
}

// TestChargesAddUp: the column of money of an example comes to its foot, but for
// what each line is rounded by; the low and the high, which combine as independent errors
// (package estimate holds how), reach further from it than those of any line, and less
// far than all together.
func TestChargesAddUp(t *testing.T) {
	j := example(t, "lamp-thorn")
	table := newPack(j, Options{}).chargeTable(j.Plan.Estimate.Money)
	number := func(s string) float64 {
		x, err := strconv.ParseFloat(s, 64)
		if err != nil {
			t.Fatal(err)
		}
		return x
	}
	var sum, widest [3]float64 // likely; low and high as distances from it
	for _, r := range table.Rows {
		likely := number(r[3])
		for i, d := range [3]float64{likely, likely - number(r[4]), number(r[5]) - likely} {
			sum[i] += d
			widest[i] = max(widest[i], d)
		}
	}
	foot := table.Foot[0]
	slack := 0.5 * float64(len(table.Rows)+1)
	if got := number(foot[3]); math.Abs(got-sum[0]) > slack {
		t.Errorf("the likely column comes to %v, its foot says %v", sum[0], got)
	}
	for i, d := range [3]float64{0, number(foot[3]) - number(foot[4]), number(foot[5]) - number(foot[3])} {
		if i > 0 && (d < widest[i]-slack || d > sum[i]+slack) {
			t.Errorf("the foot reaches %v from the likely one; the widest line reaches %v, all together %v", d, widest[i], sum[i])
		}
	}
}
