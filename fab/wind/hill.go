package wind

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
)

// A Shape is a shape of hill that ASCE 7 26.8 knows.
type Shape int

// The shapes.
const (
	Ridge      Shape = iota // long, falling to both sides
	Escarpment              // long, falling to one side
	Hill                    // round in plan
)

// A Rise is a hill under or beside the piece.
type Rise struct {
	Shape    Shape
	Exposure string // "B", "C" or "D"

	// Height is from its foot to its crest in mm, and HalfLength the level distance
	// in mm, on the windward side, from the crest to where it has half its height.
	Height, HalfLength float64

	// Beyond is how far in mm the piece stands from the crest, downwind positive.
	Beyond float64
}

// A Topography is K_zt with its terms.
type Topography struct {
	K1, K2, K3 float64
	Factor     float64 // K_zt, on the velocity pressure

	// Mild means that the rise is under a fifth of its length, H/L_h < 0.2, where
	// ASCE 7 26.8.1 lets K_zt be 1 (from memory). Factor is worked out all the same.
	Mild bool
}

// Topography returns K_zt = (1 + K1 K2 K3)2 of ASCE 7 26.8.2 at a height in mm above
// the ground at the piece:
//
//	K1 = k H/L_h,  K2 = 1 - |x| / (mu L_h), at least 0,  K3 = e^(-gamma z / L_h)
//
// with k by shape and exposure, gamma 3, 2.5 and 4 for a ridge, an escarpment and a
// hill, and mu 1.5, but 4 downwind of an escarpment. Where H/L_h is above 0.5 it is 0.5
// in K1 and L_h is 2 H in K2 and K3.
func (r Rise) Topography(height float64) (Topography, error) {
	fail := func(err error) (Topography, error) { return Topography{}, fmt.Errorf("hill: %w", err) }
	if err := domain.Check(
		domain.Value{Name: "height of the hill", X: r.Height, Least: 0, Most: 1e7},
		domain.Value{Name: "half length of the hill", X: r.HalfLength, Least: 1, Most: 1e8},
		domain.Value{Name: "distance from the crest", X: r.Beyond, Least: -1e8, Most: 1e8},
		domain.Distance("height above the ground", height),
	); err != nil {
		return fail(err)
	}
	column := map[string]int{"B": 0, "C": 1, "D": 2}
	at, ok := column[r.Exposure]
	if !ok {
		return fail(fmt.Errorf("exposure %q is not known; there are B, C and D", r.Exposure))
	}
	shapes := [...]struct {
		k         [3]float64
		gamma     float64
		up, below float64 // mu, upwind and downwind of the crest
	}{
		Ridge:      {[3]float64{1.30, 1.45, 1.55}, 3, 1.5, 1.5},
		Escarpment: {[3]float64{0.75, 0.85, 0.95}, 2.5, 1.5, 4},
		Hill:       {[3]float64{0.95, 1.05, 1.15}, 4, 1.5, 1.5},
	}
	if r.Shape < 0 || int(r.Shape) >= len(shapes) {
		return fail(fmt.Errorf("shape %d is not known", r.Shape))
	}
	s := shapes[r.Shape]
	steep, length := r.Height/r.HalfLength, r.HalfLength
	const mild, steepest = 0.2, 0.5
	t := Topography{Mild: steep < mild}
	if steep > steepest {
		steep, length = steepest, 2*r.Height
	}
	mu := s.up
	if r.Beyond > 0 {
		mu = s.below
	}
	t.K1 = s.k[at] * steep
	t.K2 = max(0, 1-math.Abs(r.Beyond)/(mu*length))
	t.K3 = math.Exp(-s.gamma * height / length)
	t.Factor = 1 + t.K1*t.K2*t.K3
	t.Factor *= t.Factor
	return t, nil
}

// Orography returns c_o of EN 1991-1-4 A.3 (from memory) for the slope of the ground
// upwind, H/L, and the place factor s of its figures, 0 to 1 (1 is the worst, low at
// the crest): 1 below a slope of 0.05, 1 + 2 s slope below 0.3, and 1 + 0.6 s above.
func Orography(slope, s float64) (float64, error) {
	if err := domain.Check(domain.Ratio("slope", slope), domain.Value{Name: "place factor", X: s, Most: 1}); err != nil {
		return 0, fmt.Errorf("hill: %w", err)
	}
	switch {
	case slope < 0.05:
		return 1, nil
	case slope < 0.3:
		return 1 + 2*s*slope, nil
	}
	return 1 + 0.6*s, nil
}
