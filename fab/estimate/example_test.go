package estimate_test

import (
	"fmt"

	"stabile/fab/estimate"
	"stabile/param/design"
	"stabile/param/quantity"
)

// 6 m at 100 mm/min is an hour of welding; 12 joints at 10 min are two of fitting.
// Three hours at 40 are 120, two sheets at 90 are 180, and gas was given no price.
func ExampleMake() {
	rates := design.Rates{Labour: 40, Fit: 600, Weld: 0.1 / 60}
	e := estimate.Make(estimate.Input{
		Quantities: estimate.Quantities{
			Fits: 12, Weld: 6000,
			Materials: []estimate.Material{{Name: "sheets of 'skin'", Quantity: 2, Unit: "sheets", Price: 90}},
		},
		Rates: rates, Own: rates, Currency: "EUR",
	})
	for _, l := range e.Work {
		fmt.Printf("%s: %s at %s, %.2f h (%.2f to %.2f)\n", l.Operation,
			l.Amount(quantity.Millimetre), l.Rate(quantity.Millimetre), l.Hours.Likely, l.Hours.Low, l.Hours.High)
	}
	for _, c := range e.Money.Lines {
		fmt.Printf("%s: %g %s at %g, %s\n", c.Name, c.Quantity, c.Unit, c.Rate, estimate.Amount(c.Money.Likely, "EUR"))
	}
	fmt.Printf("%s: %s; not counted: %v\n", estimate.Word, estimate.Amount(e.Money.Total.Likely, "EUR"), e.Money.Unpriced)
	// Output:
	// fitting and tacking: 12 at 10 min each, 2.00 h (1.20 to 3.40)
	// welding: 6 m at 100 mm/min, 1.00 h (0.75 to 1.40)
	// sheets of 'skin': 2 sheets at 90, 180 EUR
	// labour: 3 h at 40, 120 EUR
	// estimate: 300 EUR; not counted: [gas, by the hour of welding]
}
