// Package strength works out whether a sculpture bears its own weight, the wind
// and a push: stress in its posts with local buckling and slenderness, welds,
// what the posts do to the balls, the base plate, anchors, sway at the top, how
// it swings and at what wind it hums.
//
// It works with allowable stresses by the published rules for round steel tubes,
// AISC 360, chapters E, F, G and H, on the forces of a frame in space (package
// frame). Lengths are in mm, forces in N, moments in N mm, stresses in MPa,
// frequencies in Hz, speeds in m/s, angles in rad.
//
// The clauses were read from secondary texts. What they do not cover is told in
// Strength.Gaps and never passed. These are aids to judgement: a licensed
// engineer and the local code decide.
package strength

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/fab/wind"
	"stabile/param/design"
)

// Input is what is checked.
type Input struct {
	Design    *design.Design
	Items     []frame.Item // every part, with the mass that it brings, weld metal included if wanted
	Wind      *wind.Wind   // nil for none
	Footprint []r2.Vec     // convex, counter-clockwise
	Anchors   []r2.Vec     // the middles of the anchor holes; empty for none

	// AnchorHole is the diameter in mm of the anchor holes, and Target the factor
	// against tipping that the anchors must bring; 0 for unknown and for 1.
	AnchorHole, Target float64

	// Ballast is the mass in kg that is laid at BallastAt, in mm. The frame does
	// not bear it: it holds the base down.
	Ballast   float64
	BallastAt r3.Vec

	// room is how many columns of pushes times beams are kept; 0 for mostKept.
	room int

	// Still leaves out how the whole swings by itself, and with it the wind that
	// makes parts hum.
	Still bool
}

// A Strength is the outcome.
type Strength struct {
	// Worst is the greatest ratio of all members, welds, the base plate and the
	// steel of the anchors, at WorstAt; 1 is the limit.
	Worst   float64
	WorstAt string

	Members  []Member // in source order of posts, from foot to head
	Welds    []Weld   // the ends of posts
	Shells   []Shell  // where posts stand on balls
	Plate    *Plate   // nil without a plate
	Anchors  *Anchors // nil without anchors or loads
	Sway     Sway
	Modes    []Mode // the three lowest
	Complete bool   // the modes are the lowest: none was missed
	Shedding []Shedding

	// Buckling is by how much the greatest pushes in all posts would have to
	// grow, all at once, for the frame to buckle; infinite where nothing is
	// pushed. Amplification is what bending grows by through it.
	Buckling, Amplification float64

	Cases int   // how many load cases were tried
	Gaps  []Gap // what no rule here covers

	// Unpushed are the posts in which no push is felt: none can be laid on them at its
	// height, nor on anything from which it would come to them. They are checked for
	// their own weight, and the wind, alone. Where the height is such that no push can
	// be laid on at all, they are all posts; where no push is asked for, none.
	Unpushed []*design.Part

	Frame *frame.Frame

	spans map[*design.Part]span // where the members and welds of a post are
}

// modes is how many modes are worked out.
const modes = 3

// Check works out the strength of a sculpture. A part tied to nothing is an
// error that names it (frame.MechanismError).
func Check(in Input) (*Strength, error) {
	pushed := pushes(in)
	f, err := frame.New(stationed(in.Items, pushed))
	if err != nil {
		return nil, fmt.Errorf("strength: %w", err)
	}
	s := &Strength{Frame: f}
	c := newCases(f, in, pushed)
	s.Cases = len(c.list)
	axial := c.greatestCompressions()
	if s.Buckling, err = f.Buckling(axial); err != nil {
		return nil, fmt.Errorf("strength: buckling: %w", err)
	}
	s.Amplification = amplification(s.Buckling)
	s.members(f, c, axial)
	s.index()
	s.base(f, c, in)
	s.anchors(c, in)
	s.sway(f, c)
	if !in.Still {
		if err := s.swing(f, c, in); err != nil {
			return nil, fmt.Errorf("strength: %w", err)
		}
	}
	s.worst()
	s.cover(in)
	return s, nil
}

// worst finds the greatest ratio of members, welds, the plate and the anchors.
func (s *Strength) worst() {
	var member *Member
	for i := range s.Members {
		if m := &s.Members[i]; m.Ratio > s.Worst {
			s.Worst, member = m.Ratio, m
		}
	}
	if member != nil {
		s.WorstAt = fmt.Sprintf("%s, %s, in %s", member.Part.Name, member.Where, member.Case)
	}
	var weld *Weld
	for i := range s.Welds {
		if w := &s.Welds[i]; w.Ratio > s.Worst {
			s.Worst, weld = w.Ratio, w
		}
	}
	if weld != nil {
		s.WorstAt = fmt.Sprintf("%s, weld at the %s, in %s", weld.Part.Name, weld.Where, weld.Case)
	}
	if p := s.Plate; p != nil && p.Ratio > s.Worst {
		s.Worst, s.WorstAt = p.Ratio, fmt.Sprintf("the base plate beside %s, in %s", p.Post.Name, p.Case)
	}
	if a := s.Anchors; a != nil && a.Worst() > s.Worst {
		s.Worst, s.WorstAt = a.Worst(), "the anchors, in "+a.WorstCase()
	}
}
