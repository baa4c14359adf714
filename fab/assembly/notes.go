package assembly

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/stand"
	"stabile/param/design"
)

// tilt returns how far a unit vector is from upright, in rad.
func tilt(v r3.Vec) float64 { return math.Acos(min(1, max(-1, v.Z))) }

// placeNotes returns how a unit is held until it is welded, and how the work stands
// then.
func (m *maker) placeNotes(p *placing, s *Step) []finding.Fact {
	var notes []finding.Fact
	if p.closes {
		f := LoopWay{Tight: p.tight}
		if !p.tight {
			f.Toward, f.Slope = design.BearingOf(p.way), math.Asin(min(1, max(-1, p.way.Z)))
		}
		notes = append(notes, f)
	}
	if len(p.links) == 0 {
		return notes
	}
	l := s.Lift
	f := HoldIt{Toward: l.Toward}
	f.Tied = !slices.ContainsFunc(p.links, func(k int) bool { return m.links[k].weld >= 0 })
	held := true
	switch {
	case len(p.links) == 1 && m.links[p.links[0]].Kind == design.RestJoint && m.pad(&m.links[p.links[0]]) == nil:
		f.Hold = Chock
	case l.Prop && l.Over < -edge:
		f.Hold, f.Over = Outside, -l.Over
	case l.Prop && l.Over < edge:
		f.Hold = OverEdge
	case l.Prop && l.Tips > 0:
		f.Hold, f.Tips = Tippy, l.Tips
	case l.Prop:
		f.Hold = JustHold
	default:
		held = false
	}
	if held {
		notes = append(notes, f)
	}
	if g := s.Stage; g.Stands && g.Tips < stand.BarelyStands {
		notes = append(notes, TipsThen{g.Tips})
	}
	return notes
}

// edge is how near, in mm, a centre of gravity counts as being over an edge: the
// fineness of a rule.
const edge = 1.0

// finishAll returns what is done when all is welded.
func (m *maker) finishAll() FinishAll {
	var f FinishAll
	if b := m.plan.Base; b != nil {
		f.Ballast, f.Anchors, f.Wall = max(b.Base.Ballast, 0), b.Base.Anchors > 0, b.Base.Wall
	}
	return f
}

// finishNotes returns what the finish needs.
func (m *maker) finishNotes() []finding.Fact {
	var notes []finding.Fact
	if f := m.in.Design.Finish; f != nil {
		switch f.Kind {
		case design.Galvanize:
			notes = append(notes, ShowGalvanizer)
		case design.Paint:
			notes = append(notes, OpenInOven)
		}
	}
	if len(m.plan.Spaces) > 0 {
		notes = append(notes, CloseCold)
	}
	return notes
}
