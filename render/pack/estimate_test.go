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
// what each line is rounded by.
func TestChargesAddUp(t *testing.T) {
	j := example(t, "lamp-thorn")
	table := newPack(j, Options{}).chargeTable(j.Plan.Estimate.Money)
	for _, column := range [...]int{3, 4, 5} {
		number := func(s string) float64 {
			x, err := strconv.ParseFloat(s, 64)
			if err != nil {
				t.Fatal(err)
			}
			return x
		}
		sum := 0.0
		for _, r := range table.Rows {
			sum += number(r[column])
		}
		if got := number(table.Foot[0][column]); math.Abs(got-sum) > 0.5*float64(len(table.Rows)+1) {
			t.Errorf("column %d comes to %v, its foot says %v", column, sum, got)
		}
	}
}
