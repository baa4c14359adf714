// Package stand works out whether a sculpture stands: its footprint, and its
// tipping about each edge of it. Lengths are in mm, masses in kg, forces in N,
// moments in N mm, angles in rad.
package stand

import (
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/check"
	"stabile/param/design"
)

// DefaultTarget is the target factor against tipping of a design that sets none.
const DefaultTarget = 1.5

// Tipping is how the whole stands against falling over.
type Tipping struct {
	Footprint []r2.Vec // convex, counter-clockwise, on the ground
	Edges     []Edge   // one for each side of the footprint, in its order
	Target    float64
	TipAngle  float64 // rad, the least over all edges, ballast included
	TipEdge   int     // the edge of the least tip angle
	Bare      Bare    // the same without its ballast

	// Method is the published combination that the target is held against.
	Method Combination

	// WindToTip is the speed in m/s at which the wind turns it over, without anchors;
	// 0 where none does, or it was not wanted.
	WindToTip float64
	WindBy    design.WindMethod // whose speed that is

	// Loaded is true where a load is given (a push, a slope or wind), so that there
	// is a factor. Factor is the least over all edges, at WorstEdge under
	// WorstCase.
	Loaded    bool
	Factor    float64
	WorstEdge int
	WorstCase check.Case

	// Ballast is what must be laid at the middle of the footprint to reach the
	// target, in kg; 0 where it is reached. BallastFails is true where no ballast
	// reaches it.
	Ballast      float64
	BallastFails bool

	// Sliding is nil without loads.
	Sliding *Sliding

	// Sunk is true of a piece that is set in concrete in the ground, so that it does not tip
	// as a whole: the ground about the concrete is another check.
	Sunk bool

	// Hung is true of a piece on a wall, which neither tips nor slides: whether its anchors
	// hold is another check.
	Hung bool

	// Anchors is how many hold the base to the ground or to the wall. No factor counts on them.
	Anchors int
}

// Bare is how the whole stands without its ballast, as if somebody had carried it away.
type Bare struct {
	Factor   float64 // meaningful where the whole is loaded
	Case     check.Case
	TipAngle float64 // rad
	TipEdge  int
}

// An Edge is a line of the footprint about which the whole could tip.
type Edge struct {
	From, To    r2.Vec
	Lever       float64 // mm, from the edge in to the centre of gravity; negative when it lies outside
	TipAngle    float64 // rad
	Restoring   float64 // N mm
	Overturning float64 // N mm, of the worst case; 0 without loads
	Factor      float64 // meaningful where Overturning > 0
	Case        check.Case
}

// loaded reports whether a load tips the whole over the edge.
func (e *Edge) loaded() bool { return e.Case.Kind != check.NoLoad }
