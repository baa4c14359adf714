package stand

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/wind"
	"stabile/param/design"
	"stabile/param/quantity"
)

// TestSlideInLift works one case out by hand: 50 kg, a wind of 100 N along the
// ground, and a ball of 400 mm that it lifts with 0.6 of a pressure of 1000 N/m2, as
// EN 1991-1-4, 7.11 has it near the ground: 0.6 x 1000 x pi x 0.2^2 = 75.4 N. Friction
// holds 0.3 (50 g - 75.4) = 124.5 N.
func TestSlideInLift(t *testing.T) {
	base, w := assembly()
	w.Mass = 50
	ball := &design.Part{Ball: &design.Ball{Radius: 200}}
	// No text gives a level wind and a lift of these round figures.
	blowing := &wind.Wind{
		Items:    []wind.Item{{Part: ball, Uplift: 600 * math.Pi * 0.2 * 0.2}},
		Bearings: []wind.Bearing{{Direction: r3.Vec{X: -1}, Side: []float64{100}, Cap: []float64{0}, Force: r3.Vec{X: -100}, Scale: 1}},
	}
	got := TipInWind(Plate(base), w, nil, blowing, 0).Sliding
	want := 0.3 * (50*quantity.Gravity - 600*math.Pi*0.2*0.2)
	if got == nil || math.Abs(got.Holding-want) > 1e-9 || math.Abs(got.Driving-100) > 1e-9 || math.Abs(got.Factor-want/100) > 1e-9 {
		t.Errorf("sliding in lift: %+v, want %v N held against 100 N", got, want)
	}
}
