package stand

import "stabile/fab/check"

// NoFootprint: what touches the ground is a point or a line.
type NoFootprint struct{}

// FallsOver: the centre of gravity lies outside the footprint.
type FallsOver struct {
	Outside       float64 // mm beyond the edge
	Toward        float64 // rad, the bearing that the edge faces
	Counterweight float64 // kg, at the middle of the footprint, that just brings it back
	Anchored      bool
}

// EasilyKnocked: the tip angle by own weight is under the least.
type EasilyKnocked struct {
	TipAngle, Least float64 // rad; not above 0 where it falls by itself
	Ballast         float64 // kg, that is left out: it may be carried away
	Anchored, Feet  bool
	Block           bool
}

// WithoutBallast is how it stands without its ballast under its loads.
type WithoutBallast struct {
	Ballast      float64 // kg
	Factor, With float64 // against tipping, without it and with it
	TipAngle     float64 // rad, without it
	Case         check.Case
	Anchored     bool // anchors hold it besides
}

// TargetShort: the design's target is under the least that the method has.
type TargetShort struct {
	Target, Least float64
	Method        Combination
}

// PushShort: the push is less than one person leaning.
type PushShort struct{ Push, Least float64 } // N

// TipsEasily: the factor against tipping falls short, and nothing holds the base
// down.
type TipsEasily struct {
	Factor, Target float64
	Case           check.Case
	Ballast        float64 // kg, at the middle of the footprint, that reaches the target
	BallastFails   bool    // none does
	Feet, Block    bool
}

// HeldByAnchors: the weight falls short of the target, so the anchors must hold the
// rest.
type HeldByAnchors struct {
	Factor, Target float64
	Case           check.Case
	Ballast        float64 // kg, as of TipsEasily
	BallastFails   bool
	Anchors        int
}

// NoLoads: the site gives no push, no slope and no wind.
type NoLoads struct{}

// Slides: the factor against sliding by friction alone is under the target.
type Slides struct {
	Factor, Target   float64
	Holding, Driving float64 // N
	Case             check.Case
	Anchored, Feet   bool
	Block            bool
}

// PushLowered: the push is given above the top of the piece, and acts at the top.
type PushLowered struct{ Height, Top float64 } // mm

// InGround: the piece is set in concrete in the ground, and stands as far as that does.
type InGround struct{}

// OnWall: the piece is on a wall, and hangs as far as its anchors hold there.
type OnWall struct{}

// AnchorsDecide: weight alone falls short, so the check is decided by the anchors.
type AnchorsDecide struct{}

// Fact marks the facts.
func (NoFootprint) Fact()    {}
func (FallsOver) Fact()      {}
func (EasilyKnocked) Fact()  {}
func (TipsEasily) Fact()     {}
func (HeldByAnchors) Fact()  {}
func (NoLoads) Fact()        {}
func (Slides) Fact()         {}
func (PushLowered) Fact()    {}
func (WithoutBallast) Fact() {}
func (TargetShort) Fact()    {}
func (PushShort) Fact()      {}
func (InGround) Fact()       {}
func (OnWall) Fact()         {}
func (AnchorsDecide) Fact()  {}
