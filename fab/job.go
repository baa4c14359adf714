package fab

import (
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/fab/solid"
	"stabile/fab/stand"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/param/design"
)

// A Job is a design worked out: everything that reports, drawings and pictures
// say, computed once by Build. It is plain data and does not change; what was
// not wanted is nil. Lengths are in mm, masses in kg, angles in rad.
type Job struct {
	Design  *design.Design
	Parts   []Part // in source order
	Ties    *design.Ties
	Size    Size
	Mass    Mass
	CG      r3.Vec     // centre of gravity of parts and weld metal, without ballast
	Wind    *wind.Wind // nil where the site gives none
	Tipping *stand.Tipping

	Strength *strength.Strength // nil where it was not wanted, or could not be worked out
	Plan     *Plan              // nil where it was not wanted
	Cuts     []Cut              // every different blank once; nil without WithMarks

	Checks  []check.Check
	Verdict check.Verdict // of all checks together
	Reasons []check.Check // on which the verdict rests: those that fail, or that are not decided; what may injure first

	Requirements []Requirement
	Answers      []Answer // to the questions of the design, in their order
	Findings     []finding.Finding
}

// A Part is one part of the design with what it is made from.
type Part struct {
	*design.Part
	Body            *solid.Body
	Mass, Low, High float64 // kg, without weld metal; low and high by the tolerance of the thickness
	CG              r3.Vec
	WeldMetal       WeldMetal   // that is counted with the part
	Seam            float64     // mm, welded within the part: its seams and the edges of its discs
	Seams           []flat.Seam // those, kind by kind, of which Seam is the sum
	Welds           []Weld      // each joint of two parts is reported once, at the post that ends there or the ball that rests there
	Rounds          []float64   // of a post in courses, where along its axis they are welded round, in mm from its foot
	Blanks          []flat.Blank
	Fills           []flat.Blank    // slivers of a ball that are left out of its blanks and filled with weld
	Openings        []flat.Opening  // where the design's holes come through its walls
	Round           *flat.Roundness // how near a ball comes to the true sphere; nil for other parts
}

// WeldMetal is the metal of a part's own seams, and of the joints that are reported
// with it.
type WeldMetal struct {
	Mass float64 // kg
	CG   r3.Vec
}

// A Weld is a joint of a part to another. Where a ball rests on a plate, which it
// touches in a point, it is the ring on which the gap has grown to the
// thickness of the ball's metal.
type Weld struct {
	With   string  // the other part
	At     string  // "foot" or "head" of a post; of a ball "rest" on a base, "seat" on a ball, "thread" on the post that goes through it; of a tube of a ring "lies" on a base
	Length float64 // mm along the outside of the joint
}

// Size is the overall size of the whole, parts and base, in mm.
type Size struct {
	Width, Depth, Height float64
	Below                float64 // how deep posts or a footing reach into the ground, which is not counted
	Min, Max             r3.Vec  // the corners of the box about the whole
}

// Mass is what the whole weighs, in kg. Total is parts and weld metal, without
// ballast and without the block that the plate is bolted to; low and high are by the
// tolerance of the parts' thickness.
type Mass struct {
	Total, Low, High, Weld, Ballast, Block float64
}
