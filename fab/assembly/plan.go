// Package assembly plans how the parts of a sculpture are welded up and put
// together: every seam and joint with its tacks, filler and cleaning; the order
// in which each can be reached, with its lifts and props; and the closed spaces
// that need vents.
//
// Lengths are in mm, masses in kg, angles in rad, times in none: how long it
// takes is for package estimate.
package assembly

import (
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
)

// An Input is a design worked out, as far as its assembly needs it.
type Input struct {
	Design  *design.Design
	Ties    *design.Ties    // the design's
	Items   []Item          // in the order of the design's parts, one for each
	Welding *design.Welding // the shop's; nil for TIG with everything by the rules of this package
}

// An Item is one part as it was worked out.
type Item struct {
	Part            *design.Part
	Mass, Low, High float64 // kg, without weld metal; low and high by the tolerance of the thickness
	CG              r3.Vec
	Seams           []flat.Seam // welded within the part
	Joints          []Joint     // each joint once, at the post that ends there or the ball that rests there
	Blanks          []flat.Blank
	Rims            [2][]r3.Vec // a post's trimmed edges at foot and head, in space, on the outside; empty for other parts
}

// A Joint is the length of the joint of a part to another.
type Joint struct {
	With   string  // the other part
	At     string  // "foot" or "head" of a post; of a ball "rest", "seat" or "thread"; of a tube of a ring "lies"
	Length float64 // mm
}

// A Plan is how a sculpture is welded up and put together.
type Plan struct {
	Welds    []Weld // the seams of the parts in their order, each followed by the joints that go with it
	Steps    []Step // numbered from 1 in the order of the work
	Spaces   []Space
	Checks   []check.Check // of metals, hollows and lifts
	Findings []finding.Finding
	Rules    []finding.Fact // by which the welds were planned
	Totals   Totals
	Base     *design.Part // nil without one
	// HoldFrom and HoldUntil are the numbers of the first step after which the
	// work does not stand by itself without ballast, and of the one after which it
	// does for good; HoldFrom is 0 where it always stands, HoldUntil where it never
	// does again.
	HoldFrom, HoldUntil int
}

// Totals are the sums over all welds.
type Totals struct {
	Fits   int     // seams and joints that are fitted and tacked, one by one
	Plugs  int     // of these, points that are built up and round the smallest discs at poles, which take no tacks: see Weld.Plug
	Tacks  int     // in all
	Weld   float64 // mm, welded
	Edge   float64 // mm, of edges to clean
	Faces  float64 // mm, of bands to clean: the edges times the faces that are cleaned along each
	Dress  float64 // mm, dressed
	Filler float64 // kg, of weld metal
	Lifts  int     // of what is set in place, on the bench and on the base
}

// Make plans the assembly of a design. The items must stand for its parts one by
// one; what an item leaves out is left out of the plan.
func Make(in Input) *Plan {
	m := maker{in: in, plan: &Plan{Base: in.Design.Base()}}
	m.lay()
	m.link()
	m.weld()
	m.enclose()
	m.loops()
	m.unite()
	m.arrange()
	m.write()
	m.find()
	m.check()
	return m.plan
}

// A maker gathers a plan.
type maker struct {
	in   Input
	plan *Plan

	at      map[*design.Part]int // of a part in the items
	links   []link               // the joints between parts, in the order of the design's
	touches [][]int              // of each item, and of the ground, its links
	seams   [][]int              // of each item, the welds within it
	depth   []int                // of each item, and of the ground, joints away from the base or the ground
	bridge  []bool               // of each link: it is in no loop
	units   []unit
	unitOf  []int // of each item, and of the ground
	order   []placing
	space   []int // of each item, the index of its space, or -1
	first   []int // of each space, its first item

	wall *design.Base   // the plate that it is hung by when it is done; nil for none
	hung []*design.Part // of each item, the part as it then is
}
