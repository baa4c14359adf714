package stand_test

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/stand"
	"stabile/param/design"
)

// A piece of 20 kg, its centre of gravity 400 mm up over the middle of a plate
// 500 mm square, is pushed with 30 N at 800 mm: 20 x 9.80665 x 0.25 = 49 N m
// against 24 N m.
func ExampleTip() {
	base := &design.Base{Shape: design.Plate, Width: 500, Depth: 500, Top: 10}
	weight := stand.Weight{Mass: 20, CG: r3.Vec{Z: 400}, Top: 900}
	t := stand.Tip(stand.Plate(base), weight, &design.Site{Push: 30, PushHeight: 800}, 0)
	fmt.Printf("%.1f N m against %.1f N m: factor %.2f of %.2f, a %s\n",
		t.Edges[0].Restoring/1e3, t.Edges[0].Overturning/1e3, t.Factor, t.Target, t.WorstCase.Kind)
	// Output: 49.0 N m against 24.0 N m: factor 2.04 of 1.50, a push
}
