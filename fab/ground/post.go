package ground

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
)

// deepest is the depth beyond which the ground's lateral pressure no longer grows: 12 ft, IBC
// 1807.3.2.1.
const deepest = 12 * 304.8

// A Set is a post set in the ground, or in concrete poured against undisturbed ground.
type Set struct {
	Width float64 // mm, b: across its face, or the diameter of the concrete round it

	// Held means that something stiff at grade keeps it from moving there, such as a
	// slab.
	Held bool

	// Isolated means that 13 mm of movement at grade, under a wind of short duration, does
	// no harm: the lateral value is then doubled, IBC 1806.3.4.
	Isolated bool
}

// Depth returns how deep in mm the post must be set in a soil against a level force P in N at a
// height h in mm above grade, allowable-stress loads (0.6 W of ASCE 7):
//
//	free:  d = A/2 (1 + sqrt(1 + 4.36 h / A)), A = 2.34 P / (S1 b), S1 the lateral value at d/3
//	held:  d2 = 4.25 P h / (S3 b), S3 the lateral value at d
//
// IBC 1807.3.2.1 and 1807.3.2.2. d is on both sides of either; it is the one d where both
// agree. A soil without a lateral value is an error.
func (s Set) Depth(soil Soil, force, height float64) (float64, error) {
	if err := domain.Check(domain.Length("width", s.Width), domain.Weight("force", force), domain.Distance("height", height),
		domain.Value{Name: "lateral bearing", X: soil.Lateral, Least: 1e-3, Most: 1e6}); err != nil {
		return 0, fmt.Errorf("post in the ground: %w", err)
	}
	if force == 0 {
		return 0, nil
	}
	grow := soil.Lateral * 1e-6 // MPa for each mm
	if s.Isolated {
		grow *= 2
	}
	enough := func(d float64) bool {
		if s.Held {
			return d*d*grow*min(d, deepest)*s.Width >= 4.25*force*height
		}
		a := 2.34 * force / (grow * min(d, deepest) / 3 * s.Width)
		return d >= a/2*(1+math.Sqrt(1+4.36*height/a))
	}
	// What the ground holds grows with d, so that one d parts enough from too little.
	low, high := 0.0, 1.0
	for !enough(high) {
		low, high = high, 2*high
		if high > 1e12 {
			return 0, fmt.Errorf("post in the ground: no depth holds it")
		}
	}
	for high-low > 1e-9*high {
		if d := (low + high) / 2; enough(d) {
			high = d
		} else {
			low = d
		}
	}
	return high, nil
}
