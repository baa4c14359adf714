// Package people works out what people do to a piece that they can reach: the loads of
// leaning and climbing, gaps that trap a head or a finger; and what one person may lift.
//
// Lengths are in mm, forces in N, masses in kg, angles in rad.
package people

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
	"stabile/param/design"
)

// Reach is the height in mm below which parts are taken to be within people's reach:
// common practice, no source. Foothold is how high a child steps up, from the ground or
// from another foothold: common practice, no source.
const (
	Reach    = 2500
	Foothold = 600
)

const poundForce = 4.4482216152605 // N

// A Kind is what somebody does.
type Kind string

// The kinds.
const (
	Leaning  Kind = "leaning"  // against a part, level
	Climbing Kind = "climbing" // an adult's weight on a part
	Child    Kind = "child"    // a child's weight on a part, and 10 % of it level
)

// A Load is a published load. It acts on any part that is within reach, where it is
// worst; the level force from any bearing.
type Load struct {
	Kind        Kind
	Vertical    float64 // N, down
	Level       float64 // N
	Height      float64 // mm, at which Level acts where nothing else is known; 0: where it is worst
	Line        float64 // N/m, level, along a rail, not together with Level; 0: none
	Source      string
	FromMemory  bool
	CodeMethods []design.WindMethod // the methods whose family of codes it is of; nil: any
}

// guardHeight is the 42 in of a guard's top, IBC 1015.3 (from memory).
const guardHeight = 42 * 25.4

// LeaningASCE is 200 lbf in any direction at the top of a guard, or 50 lbf/ft along it, ASCE
// 7 4.5.1.
var LeaningASCE = Load{
	Kind: Leaning, Level: 200 * poundForce, Height: guardHeight, Line: 50 * poundForce / 0.3048, Source: "ASCE 7 4.5.1",
	CodeMethods: []design.WindMethod{design.ASCE7},
}

// ClimbingASCE is 300 lbf on a rung of a ladder, ASCE 7 4.5.4.
var ClimbingASCE = Load{Kind: Climbing, Vertical: 300 * poundForce, Source: "ASCE 7 4.5.4", CodeMethods: []design.WindMethod{design.ASCE7}}

// A Crowd is a use of the place, which decides how hard people press on a barrier.
type Crowd string

// The crowds, in the categories of EN 1991-1-1 Table 6.1.
const (
	FewPeople  Crowd = "A, B, C1" // at home, at work, seated at tables
	ManyPeople Crowd = "C2-C4, D" // halls, museums, shops, squares
	DenseCrowd Crowd = "C5"       // events
)

// LeaningEN returns the level line load of EN 1991-1-1 Table 6.12, on a barrier at most 1.2 m
// up, and as Level what comes on one metre: 0.5, 1.0 and 5.0 kN/m (from memory; C5 is 3 to
// 5, the highest is taken). An unknown crowd is the densest.
func LeaningEN(c Crowd) Load {
	line := map[Crowd]float64{FewPeople: 500, ManyPeople: 1000}[c]
	if line == 0 {
		line = 5000
	}
	const barrier = 1200
	return Load{
		Kind: Leaning, Level: line, Height: barrier, Line: line, Source: "EN 1991-1-1 Table 6.12", FromMemory: true,
		CodeMethods: []design.WindMethod{design.EN1991},
	}
}

// Children returns the load of n children on a part, EN 1176-1 Annex A (from memory, but for
// the 1391 N of one child, which is quoted often):
//
//	m = 53.8 n + 1.64 x 9.6 sqrt(n),  F = 10 m (1 + 1/n)
//
// and a level force of 10 % of F at the same height.
func Children(n int) (load Load, mass float64, err error) {
	if err := domain.Check(domain.Value{Name: "number of children", X: float64(n), Least: 1, Most: 1e4}); err != nil {
		return Load{}, 0, fmt.Errorf("people: %w", err)
	}
	x := float64(n)
	mass = 53.8*x + 1.64*9.6*math.Sqrt(x)
	down := 10 * mass * (1 + 1/x)
	return Load{Kind: Child, Vertical: down, Level: 0.1 * down, Source: "EN 1176-1 Annex A", FromMemory: true}, mass, nil
}

// Loads returns what a piece that the public can reach is checked for: leaning and climbing
// by the family of codes that the wind method belongs to, and one child. Where that family
// has no figure for climbing, that of ASCE 7 stands in.
func Loads(m design.WindMethod, c Crowd) []Load {
	lean := LeaningASCE
	if m == design.EN1991 {
		lean = LeaningEN(c)
	}
	child, _, err := Children(1)
	if err != nil {
		panic(err) // one child is within bounds
	}
	return []Load{lean, ClimbingASCE, child}
}

// LeastPush returns the published level force in N of one person who leans, below which
// a push required by a design is too little: 200 lbf (ASCE 7), or 0.5 kN/m on one metre
// (EN 1991-1-1, from memory).
func LeastPush(m design.WindMethod) float64 {
	if m == design.EN1991 {
		return LeaningEN(FewPeople).Level
	}
	return LeaningASCE.Level
}

// Within reports whether a part that spans these heights above the ground, in mm, comes
// within Reach, and how high on it the load acts at most.
func Within(bottom, top float64) (height float64, within bool) {
	if !(bottom < Reach) || !(top >= bottom) {
		return 0, false
	}
	return min(top, Reach), true
}
