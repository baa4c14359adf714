package stand

import "stabile/fab/calculation"

// The terms of the calculation of tipping and sliding.
const (
	TermLever         calculation.Term       = "stand-lever"
	TermRestoring     calculation.Term       = "stand-restoring"
	TermSlopeMoment   calculation.Term       = "stand-slope-moment"
	TermWindMoment    calculation.Term       = "stand-wind-moment"
	TermTippingFactor calculation.Term       = "stand-tipping-factor"
	TermFriction      calculation.Term       = "stand-friction"
	TermSlidingFactor calculation.Term       = "stand-sliding-factor"
	RigidOnFirmGround calculation.Assumption = "stand-rigid"
)

// PushTerm is the overturning moment of a push from a number of bearings.
type PushTerm struct{ Bearings int }

// Fact marks the term.
func (PushTerm) Fact() {}

// Lines returns how tipping is calculated about each edge, case by case; the
// figures are those of the edges.
func (t *Tipping) Lines() []calculation.Line {
	return []calculation.Line{
		{Symbol: "d", Name: TermLever, Unit: "mm", Source: "geometry", Varies: true},
		{Symbol: "M_r", Name: TermRestoring, Formula: "W d cos(slope)", Unit: "N mm", Source: statics, Varies: true},
		{Symbol: "M_o", Name: PushTerm{bearings}, Formula: "F h cos(angle to the edge's normal)", Unit: "N mm", Source: statics, Varies: true},
		{Symbol: "M_o", Name: TermSlopeMoment, Formula: "W z sin(slope)", Unit: "N mm", Source: statics, Varies: true},
		{Symbol: "M_o", Name: TermWindMoment, Formula: "sum of r_i x F_i about the edge, + W z sin(slope)", Unit: "N mm", Source: statics, Varies: true},
		{Symbol: "factor", Name: TermTippingFactor, Formula: "M_r / M_o", Source: statics, Varies: true},
		{Symbol: "mu", Name: TermFriction, Value: Friction, Source: "common practice, no source"},
		{Symbol: "factor", Name: TermSlidingFactor, Formula: "mu (W cos(slope) - lift) / (F + W sin(slope))", Source: statics, Varies: true},
	}
}
