package strength

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/frame"
	"stabile/param/design"
)

// A PadInput is a pad under a single post.
type PadInput struct {
	Part    *design.Part
	Outline []r2.Vec // counter-clockwise
	Anchors []r2.Vec // the middles of its anchor holes; empty for none
}

// A Pad is what is worked out of the pad of a post, as of a base plate, under what that
// post alone brings down.
type Pad struct {
	Part    *design.Part
	Plate   *Plate
	Anchors *Anchors // nil without anchors
}

// plated returns the plate that is checked: a pad, or else the base; nil for none.
func (in Input) plated() *design.Part {
	if in.pad != nil {
		return in.pad
	}
	return in.Design.Base()
}

// alone returns the input for a pad by itself.
func (in Input) alone(p PadInput) Input {
	in.pad, in.Footprint, in.Anchors = p.Part, p.Outline, p.Anchors
	in.AnchorHole, in.Ballast, in.Pads = p.Part.Base.AnchorDiameter, 0, nil
	return in
}

// pads checks each pad as a base plate by itself. What it weighs is left out.
func (s *Strength) pads(f *frame.Frame, c *cases, in Input) error {
	for _, p := range in.Pads {
		own := *c
		one := Strength{Plate: &Plate{}, Frame: s.Frame}
		for i := range f.Posts {
			post := f.Posts[i].Part
			if post.Post.Ends[design.Foot].With != p.Part {
				continue
			}
			own.ground = c.underFoot(&f.Posts[i])
			one.Plate.feet = append(one.Plate.feet, s.onPads[post])
		}
		if len(one.Plate.feet) == 0 {
			continue
		}
		alone := in.alone(p)
		one.base(f, &own, alone)
		one.anchors(&own, alone)
		if err := one.grip(&own, alone); err != nil {
			return fmt.Errorf("pad: %w", err)
		}
		if a := one.Anchors; a != nil && a.ForTarget > 0 && one.Plate == nil {
			s.lack(Prying, Place{Part: p.Part.Name})
		}
		for _, u := range one.Unchecked {
			for _, at := range u.Places {
				s.lack(u.Gap, at)
			}
		}
		s.Pads = append(s.Pads, Pad{p.Part, one.Plate, one.Anchors})
	}
	return nil
}

// padChecks adds the checks of pads: those of a base plate.
func (c *checks) padChecks() {
	for i := range c.s.Pads {
		p := &c.s.Pads[i]
		if b := p.Plate; b != nil {
			c.unless(c.feet(), check.Check{ID: check.Plate, Part: p.Part.Name, With: b.Post.Name, Found: b.Ratio, Limit: 1, Case: b.Case, Source: plateSource})
		}
		own := checks{s: &Strength{Anchors: p.Anchors}, in: c.in}
		own.in.pad = p.Part
		own.anchors()
		c.list = append(c.list, own.list...)
	}
}

// padFindings adds what there is to say of pads.
func (s *Strength) padFindings(in Input, f *found, cure func(check.Check) (Advice, []Cure, error)) error {
	for i := range s.Pads {
		p := &s.Pads[i]
		if err := f.bends(p.Plate, p.Part.Name, cure); err != nil {
			return err
		}
		in.pad = p.Part
		(&Strength{Anchors: p.Anchors}).held(in, f)
	}
	return nil
}

// underFoot returns what the ground exerts on the foot of a post, about the origin, in every
// column.
func (c *cases) underFoot(post *frame.Post) []frame.Wrench {
	b := &c.frame.Beams[post.First]
	list := make([]frame.Wrench, c.width())
	for k, n := range c.solved.SectionForces(post.First, 0, nil) {
		force := r3.Scale(-1, b.Space(n.Axial, n.Shear[0], n.Shear[1]))
		moment := r3.Scale(-1, b.Space(n.Twist, n.Moment[0], n.Moment[1]))
		list[k] = frame.Wrench{Force: force, Moment: r3.Add(moment, r3.Cross(b.From, force))}
	}
	return list
}

// foot returns what the ground exerts on a post, about the middle of its foot, in a case.
func (c *cases) foot(columns []frame.Wrench, n int, at r3.Vec) frame.Wrench {
	w := c.wrench(columns, n)
	w.Moment = r3.Sub(w.Moment, r3.Cross(at, w.Force))
	return w
}
