// Package strength works out whether a sculpture carries its own weight, the wind
// and a push: stress in its posts with local buckling and slenderness, welds,
// what the posts do to the balls, the base plate, anchors, sway at the top, natural
// frequencies, and the steady wind that makes parts vibrate.
//
// It works with allowable stresses by the published rules for round steel tubes,
// AISC 360, chapters E, F, G and H, on the forces of a frame in space (package
// frame). Lengths are in mm, forces in N, moments in N mm, stresses in MPa,
// frequencies in Hz, speeds in m/s, angles in rad.
//
// The clauses were read from secondary texts. What they do not cover is in
// Strength.Unchecked, and never passes. These are aids to judgement: a licensed
// engineer and the local code decide.
package strength

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/frame"
	"stabile/fab/people"
	"stabile/fab/plate"
	"stabile/fab/wind"
	"stabile/param/design"
)

// Input is what is checked.
type Input struct {
	Design    *design.Design
	Ties      *design.Ties // the design's; nil to have them made
	Items     []frame.Item // every part in the design's order, with the mass that it brings, weld metal included if wanted
	Wind      *wind.Wind   // nil for none
	Footprint []r2.Vec     // convex, counter-clockwise
	Anchors   []r2.Vec     // the middles of the anchor holes; empty for none

	// AnchorHole is the diameter in mm of the anchor holes, 0 for unknown. Target is
	// the factor against tipping that the anchors must reach, 0 for 1.
	AnchorHole, Target float64

	// Ballast is the mass in kg that is laid at BallastAt, in mm. The frame does
	// not carry it: it holds the base down.
	Ballast   float64
	BallastAt r3.Vec

	Pads []PadInput // of posts that have one of their own

	pad    *design.Part  // the pad that is checked by itself; nil for the base
	people []people.Load // instead of wind and push; nil for none
	shake  float64       // what brings the slope's weight, an earthquake, to strength level; 0 for none

	// Tips is the share of the moment that would tip the whole over that the loads come
	// to: the inverse of the factor against tipping, 0 for unknown.
	Tips float64

	// PlateGives has the give of the plate under the posts in the frame, which counts
	// for sway and frequencies; else their feet are held as by a stiff plate.
	PlateGives bool

	// Before is the strength of the same posts on the same plate, whose give is taken from
	// it, and its frame and modes too where the frame is the same; nil for none.
	Before *Strength

	// room is how many columns of pushes times beams are kept; 0 for mostKept.
	room int

	// Still leaves out the natural frequencies, and with them the wind that makes
	// parts vibrate.
	Still bool
}

// A Strength is the outcome.
type Strength struct {
	// Worst is the greatest ratio of all members, welds, ball walls, the base plate and the
	// steel of the anchors, at WorstAt; 1 is the limit.
	Worst   float64
	WorstAt Spot

	Members  []Member // in source order of posts, from foot to head
	Welds    []Weld   // the ends of posts
	Shells   []Shell  // the walls of balls, at every joint on them
	Plate    *Plate   // nil without a plate
	Anchors  *Anchors // nil without anchors or loads
	Pads     []Pad    // under single posts
	Sunk     []Sunk   // posts in concrete in the ground
	Sway     Sway
	Modes    []Mode // the three lowest
	Complete bool   // the modes are the lowest: none was missed
	Shedding []Shedding

	// Buckling is by how much the greatest pushes in all posts would have to
	// grow, all at once, for the frame to buckle; infinite where nothing is
	// pushed. Amplification is what bending grows by through it.
	Buckling, Amplification float64

	Cases     int         // how many load cases were tried
	Unchecked []Unchecked // what no rule here covers, a value for each kind

	// Unpushed are the posts that no push reaches: none can be laid on them at its
	// height, nor on anything that would bring it to them. They are checked for their
	// own weight, and the wind, alone. Where the height is such that no push can be
	// laid on at all, they are all posts; where the site gives no push, none.
	Unpushed []*design.Part

	Frame *frame.Frame

	onPads map[*design.Part]footing // of each post with a pad, its end on that
	spans  map[*design.Part]span    // where the members and welds of a post are
	plate  []plate.Spring           // how the plate gives under each post on it; nil where it was not worked out
	modes  []frame.Mode             // behind Modes
	swung  bool                     // the modes were worked out
}

// modes is how many modes are worked out.
const modes = 3

// Swing works out the frame of a sculpture and its modes alone, which no wind or push
// changes. Check goes on from there with Input.Before.
func Swing(in Input) (*Strength, error) {
	s, err := framed(in, pushes(in))
	if err != nil {
		return nil, err
	}
	return s, s.swing()
}

// framed begins a strength with its frame: that of the strength before where that is the
// same, with its modes.
func framed(in Input, pushed []push) (*Strength, error) {
	items, plate := given(stationed(in.Items, pushed), in)
	if s := in.Before; s != nil && slices.EqualFunc(s.Frame.Items, items, frame.Item.Equal) {
		return &Strength{Frame: s.Frame, plate: plate, Modes: s.Modes, modes: s.modes, Complete: s.Complete, swung: s.swung}, nil
	}
	f, err := frame.New(items)
	if err != nil {
		return nil, fmt.Errorf("strength: %w", err)
	}
	return &Strength{Frame: f, plate: plate}, nil
}

// Check works out the strength of a sculpture. A part tied to nothing is an
// error that names it (frame.MechanismError).
func Check(in Input) (*Strength, error) {
	if in.Ties == nil {
		in.Ties = in.Design.Ties()
	}
	pushed := pushes(in)
	s, err := framed(in, pushed)
	if err != nil {
		return nil, err
	}
	f := s.Frame
	c := newCases(f, in, pushed)
	s.Cases = len(c.list)
	axial := c.greatestCompressions()
	if s.Buckling, err = f.Buckling(axial); err != nil {
		return nil, fmt.Errorf("strength: buckling: %w", err)
	}
	s.Amplification = amplification(s.Buckling)
	s.members(f, c, in, axial)
	s.index()
	s.base(f, c, in)
	s.anchors(c, in)
	if err := s.grip(c, in); err != nil {
		return nil, fmt.Errorf("strength: %w", err)
	}
	if err := s.pads(f, c, in); err != nil {
		return nil, fmt.Errorf("strength: %w", err)
	}
	if err := s.sunk(c, in); err != nil {
		return nil, fmt.Errorf("strength: %w", err)
	}
	s.sway(f, c)
	if !in.Still {
		if err := s.swing(); err != nil {
			return nil, err
		}
		s.shed(f, c, in)
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
	if m := member; m != nil {
		s.WorstAt = Spot{Check: check.Post, Part: m.Part.Name, Where: m.Where, Joint: m.Joint, Case: m.Case}
	}
	var weld *Weld
	for i := range s.Welds {
		if w := &s.Welds[i]; w.Ratio > s.Worst {
			s.Worst, weld = w.Ratio, w
		}
	}
	if w := weld; w != nil {
		s.WorstAt = Spot{Check: check.Weld, Part: w.Part.Name, Where: w.Where, Case: w.Case}
	}
	for i := range s.Shells {
		if sh := &s.Shells[i]; sh.Gap.fails() && sh.Ratio > s.Worst {
			s.Worst, s.WorstAt = sh.Ratio, Spot{Check: sh.id(), Part: sh.Ball.Name, Where: sh.Where, Joint: sh.With.Name, Case: sh.Case}
		}
	}
	s.worstOn(s.Plate, s.Anchors)
	for i := range s.Pads {
		s.worstOn(s.Pads[i].Plate, s.Pads[i].Anchors)
	}
}

// worstOn is worst of a plate and its anchors, either of them nil for none.
func (s *Strength) worstOn(p *Plate, a *Anchors) {
	if p != nil && p.Ratio > s.Worst {
		s.Worst, s.WorstAt = p.Ratio, Spot{Check: check.Plate, Part: p.Post.Name, Case: p.Case}
	}
	if a != nil && a.Worst() > s.Worst {
		s.Worst, s.WorstAt = a.Worst(), Spot{Check: check.AnchorSteel, Case: a.WorstCase()}
	}
}

// A Spot is where the greatest ratio is: a post or the weld at its end, the wall of a
// ball at a joint, the plate beside a post, or the anchors.
type Spot struct {
	Check check.ID // Post, Weld, BallWall, Plate or AnchorSteel; "" for nowhere
	Part  string   // the post, or the ball
	Where check.Where
	Joint string // the part that is fastened there, where it is a joint
	Case  check.Case
}

// Fact marks the spot.
func (Spot) Fact() {}
