package stand

import (
	"stabile/fab/check"
	"stabile/param/design"
)

// A Combination is a published set of factors on loads, for tipping and sliding.
type Combination struct {
	Name   string
	Method design.WindMethod // whose wind it goes with; "" goes with either
	Wind   string            // the wind it is meant for
	Source string

	// Holding is on weight that holds the piece down, Against on weight that hangs
	// over the edge, Load on the wind, a push or another load. Friction divides the
	// holding of friction.
	Holding, Against, Load, Friction float64
}

// The combinations.
var (
	// StrengthDesign is 0.9 D + 1.0 W.
	StrengthDesign = Combination{
		Name: "LRFD", Method: design.ASCE7, Wind: "strength level, of the maps since ASCE 7-10", Source: "ASCE 7 2.3.1",
		Holding: 0.9, Against: 1.2, Load: 1, Friction: 1,
	}
	// AllowableStress is 0.6 D + 0.6 W (from memory). It is a tenth less strict than
	// StrengthDesign for the same wind.
	AllowableStress = Combination{
		Name: "ASD", Method: design.ASCE7, Wind: "strength level, of which 0.6 is taken", Source: "ASCE 7 2.4.1 (from memory)",
		Holding: 0.6, Against: 1, Load: 0.6, Friction: 1,
	}
	// Equilibrium is set A, EQU: 0.9 G, 1.1 G and 1.5 Q. Friction is divided by
	// gamma_Rh 1.1 of EN 1997-1.
	Equilibrium = Combination{
		Name: "EQU", Method: design.EN1991, Wind: "characteristic, of 50 years", Source: "EN 1990 A1.2(A)",
		Holding: 0.9, Against: 1.1, Load: 1.5, Friction: 1.1,
	}
	// Practice is the old factor of 1.5, without loads of its own.
	Practice = Combination{
		Name: "factor 1.5", Wind: "service wind", Source: "common practice, no source",
		Holding: 1, Against: 1, Load: DefaultTarget, Friction: 1,
	}
)

// Combinations returns those that go with a wind method, the one to require first: for
// ASCE 7 StrengthDesign, which is the stricter.
func Combinations(m design.WindMethod) []Combination {
	switch m {
	case design.ASCE7:
		return []Combination{StrengthDesign, AllowableStress}
	case design.EN1991:
		return []Combination{Equilibrium}
	}
	return []Combination{Practice}
}

// LeastFactor returns the least factor of plain restoring over plain overturning moment
// that meets the combination: Load / Holding. It is 1.11, 1.00, 1.67 and 1.5 (case K18).
func (c Combination) LeastFactor() float64 { return c.Load / c.Holding }

// LeastSliding returns the least factor of plain friction over plain level force that
// meets the combination: Load Friction / Holding.
func (c Combination) LeastSliding() float64 { return c.Load * c.Friction / c.Holding }

// Tips returns how much of what holds the piece a tipping load takes, 1 the limit:
// (Load x load + Against x overhang) / (Holding x restoring). The moments are about one
// edge, in one unit, without factors: load of the wind or a push, overhang of the
// weight outside the edge, restoring of the weight within. It is 0 where nothing tips,
// and Never where something does and nothing restores.
func (c Combination) Tips(load, overhang, restoring float64) float64 {
	return check.Share(c.Load*load+c.Against*overhang, c.Holding*restoring)
}

// Slides returns how much of the friction a level force takes, 1 the limit: Load x
// force / (Holding x friction x weight / Friction), in one unit of force, without
// factors. It is 0 and Never as Tips is.
func (c Combination) Slides(force, friction, weight float64) float64 {
	return check.Share(c.Load*force, c.Holding*friction*weight/c.Friction)
}
