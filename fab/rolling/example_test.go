package rolling_test

import (
	"fmt"
	"math"

	"stabile/fab/flat"
	"stabile/fab/rolling"
	"stabile/param/design"
	"stabile/param/quantity"
)

// A tube of 5 in outside from 18 gauge: three pieces 22 in long.
func ExampleNewPlan() {
	const in = 25.4
	sheet := &design.Metal{Name: "skin", Alloy: "low-carbon-steel", Gauge: 18, Thickness: 0.0478 * in, Yield: 140, Modulus: 200e3}
	mean := (5*in - sheet.Thickness) / 2
	blank := flat.Blank{
		Name: "mast", Part: "mast", Metal: sheet, Quantity: 3,
		Width: 2 * math.Pi * mean, Length: 22 * in,
		Forming: flat.Forming{How: "roll", Axis: "y", MeanRadius: mean},
	}
	rolls := &design.Rolls{
		Capacity:      design.Capacity{Width: 42 * in, Alloy: "low-carbon-steel", Gauge: 17, Thickness: 0.0538 * in, Yield: 140},
		PinchDiameter: 2 * in, BackDiameter: 2 * in, BackDistance: 2.5 * in, ScrewPitch: in / 8, Least: 3 * in,
	}
	plan := rolling.NewPlan([]flat.Blank{blank}, rolls, rolling.Options{Units: quantity.Inch})
	b := plan.Batches[0]
	fmt.Printf("%.0f %% of the rating, %d settings, %d runs\n", b.Share*100, plan.Settings, plan.Runs)
	for i, pass := range b.Passes {
		e, s := pass.Edges[0], pass.Screws[0]
		fmt.Printf("pass %d: %s turns (%s more), %s in %s\n", i+1, s.Turns, s.Change,
			quantity.Inch.Length(e.Check.Rise, quantity.Fine), quantity.Inch.Length(e.Check.Chord, quantity.Fine))
	}
	// Output:
	// 41 % of the rating, 4 settings, 24 runs
	// pass 1: 3-3/8 turns (3-3/8 more), 1-5/16 in in 10 in
	// pass 2: 5-1/2 turns (2-1/8 more), 1-1/32 in in 6 in
	// pass 3: 7-1/2 turns (2 more), 11/16 in in 4 in
	// pass 4: 9-5/8 turns (2-1/8 more), 1/2 in in 3 in
}

// The radius to hold 18 gauge to for a tube of 100 mm mean radius.
func ExampleStrip_LoadedRadius() {
	s := rolling.PlaneStrain(1.2141, 250, 200e3, 0.3)
	fmt.Printf("%.1f mm\n", s.LoadedRadius(100))
	// Output:
	// 75.7 mm
}

// How far to lift the back roll for it.
func ExampleMachine_Set() {
	m := rolling.Machine{Pinch: 25.4, Back: 25.4, Distance: 63.5}
	set, err := m.Set(rolling.PlaneStrain(1.2141, 250, 200e3, 0.3), 1./100)
	fmt.Printf("%.2f mm, %v\n", set.Lift, err)
	// Output:
	// 20.63 mm, <nil>
}
