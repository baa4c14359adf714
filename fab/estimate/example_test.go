package estimate_test

import (
	"fmt"
	"slices"

	"stabile/fab/estimate"
	"stabile/fab/finding"
	"stabile/param/design"
)

// 6 m at 100 mm/min is an hour of welding; 12 joints at 10 min are two of fitting.
// Three hours at 40 are 120, two sheets at 90 are 180, and gas was given no price,
// so that there is no total.
func ExampleMake() {
	rates := design.Rates{Labour: 40, Fit: 600, Weld: 0.1 / 60}
	e := estimate.Make(estimate.Input{
		Quantities: estimate.Quantities{
			Fits: 12, Weld: 6000,
			Materials: []estimate.Material{{Item: estimate.SheetsOf{Metal: "skin"}, Quantity: 2, Unit: "sheets", Price: 90}},
		},
		Rates: rates, Own: rates, Currency: "EUR",
	})
	for _, l := range e.Work {
		fmt.Printf("%s: %.2f h (%.2f to %.2f)\n", l.Operation, l.Hours.Likely, l.Hours.Low, l.Hours.High)
	}
	for _, c := range e.Money.Lines {
		fmt.Printf("%T: %g %s at %g, %g %s\n", c.Item, c.Quantity, c.Unit, c.Rate, c.Money.Likely, e.Money.Currency)
	}
	fmt.Printf("an estimate: %g %s; gas has a price: %v\n", e.Money.Total.Likely, e.Money.Currency, !slices.Contains(e.Money.Unpriced, finding.Fact(estimate.Gas)))
	// Output:
	// fitting and tacking: 2.00 h (1.60 to 2.70)
	// welding: 1.00 h (0.87 to 1.20)
	// estimate.SheetsOf: 2 sheets at 90, 180 EUR
	// estimate.Item: 3 h at 40, 120 EUR
	// an estimate: 0 EUR; gas has a price: false
}
