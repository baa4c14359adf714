package vibration

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
)

// A Detail is a detail category of EN 1993-1-9: the stress range in MPa that it takes two
// million times.
type Detail float64

// The details of a thin welded tube (from memory). Walls under 4 mm and walls of balls are
// outside the tables: WeldRoot on the tube's bending stress, and HotSpot on a stress by
// finite elements in a ball's wall, are common practice there, without a source.
const (
	WeldToe  Detail = 40 // tube with a fillet weld on a plate, at the toe, Table 8.6
	WeldRoot Detail = 36 // through the throat of a fillet weld, Table 8.5
	HotSpot  Detail = 90
)

// The partial factors gamma_Mf of EN 1993-1-9 Table 3.1, safe life (from memory).
const (
	GravePartial = 1.35 // high consequence of failure
	MildPartial  = 1.15 // low
)

// Cycles at which the curve changes: of the category, of the constant range limit, of the
// cut-off.
const (
	atCategory = 2e6
	atConstant = 5e6
	atCutoff   = 1e8
)

// Constant returns the stress range that can repeat without end where none is above it:
// (2/5)^(1/3) of the category, EN 1993-1-9 7.1.
func (d Detail) Constant() float64 { return float64(d) * math.Pow(atCategory/atConstant, 1./3) }

// Cutoff returns the stress range below which nothing adds to damage: (5/100)^(1/5) of
// Constant, EN 1993-1-9 7.1.
func (d Detail) Cutoff() float64 { return d.Constant() * math.Pow(atConstant/atCutoff, 1./5) }

// Lasts returns how many cycles of a stress range in MPa the detail takes: with the third
// power down to Constant and the fifth down to Cutoff. Below that it is Forever.
func (d Detail) Lasts(stress float64) float64 {
	switch c := d.Constant(); {
	case stress >= c:
		return atCategory * math.Pow(float64(d)/stress, 3)
	case stress > d.Cutoff():
		return atConstant * math.Pow(c/stress, 5)
	}
	return Forever
}

// Forever is the cycles of a stress range that does no damage.
const Forever = 1e30

// A Fatigue is whether the metal tires.
type Fatigue struct {
	Range    float64 // MPa, from one side to the other
	Factored float64 // MPa, times gamma_Mf
	Cutoff   float64 // MPa
	Constant float64 // MPa
	Cycles   float64
	Damage   float64 // Miner's sum: 1 is the limit; 0 below the cut-off
	Forever  bool    // the factored range is not above the cut-off
}

// Harmless reports that nothing breaks: below the cut-off, or Miner's sum not above 1.
func (f Fatigue) Harmless() bool { return f.Forever || f.Damage <= 1 }

// Fatigue returns whether a stress range in MPa, so often, tires a detail.
func (d Detail) Fatigue(stress, cycles, partial float64) (Fatigue, error) {
	if err := domain.Check(domain.Value{Name: "detail category", X: float64(d), Least: 1, Most: 1e3}, domain.Value{Name: "stress range", X: stress, Most: 1e9},
		domain.Value{Name: "cycles", X: cycles, Most: 1e20}, domain.Value{Name: "partial factor", X: partial, Least: 1, Most: 10}); err != nil {
		return Fatigue{}, fmt.Errorf("fatigue: %w", err)
	}
	f := Fatigue{Range: stress, Factored: partial * stress, Cutoff: d.Cutoff(), Constant: d.Constant(), Cycles: cycles}
	f.Forever = f.Factored <= f.Cutoff
	if !f.Forever {
		f.Damage = cycles / d.Lasts(f.Factored)
	}
	return f, nil
}
