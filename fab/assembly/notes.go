package assembly

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/stand"
	"stabile/param/design"
	"stabile/param/quantity"
)

// tilt returns how far a unit vector is from upright, in rad.
func tilt(v r3.Vec) float64 { return math.Acos(min(1, max(-1, v.Z))) }

// placeNotes says how a unit is held until it is welded, and how the work stands
// then.
func (m *maker) placeNotes(p *placing, s *Step) []string {
	var notes []string
	if p.closes {
		if p.tight {
			notes = append(notes, "It closes a loop and cannot be slid in with all that it meets fixed: leave the last of those only tacked till it is in, and spring it open by what it takes")
		} else {
			notes = append(notes, "It closes a loop: bring it in "+heading(p.way)+", which clears all that it meets")
		}
	}
	if len(p.links) == 0 {
		return notes
	}
	l := s.Lift
	until := "it is welded all round"
	if !slices.ContainsFunc(p.links, func(k int) bool { return m.links[k].weld >= 0 }) {
		until = "it is tied to the rest"
	}
	toward := quantity.Bearing(l.Toward)
	switch mine, host := m.sides(p, p.links[0]); {
	case len(p.links) == 1 && m.links[p.links[0]].kind == design.RestJoint && m.part(mine).Ball != nil && m.part(host).Base != nil:
		notes = append(notes, "Chock it: it rolls until "+until)
	case l.Prop && l.Over < -edge:
		notes = append(notes, fmt.Sprintf("Its centre of gravity lies %s outside of the joint, toward %s: prop it there, or hang it, until %s", m.mm(-l.Over), toward, until))
	case l.Prop && l.Over < edge:
		notes = append(notes, fmt.Sprintf("Its centre of gravity lies over the very edge of the joint, toward %s: prop it there, or hang it, until %s", toward, until))
	case l.Prop && l.Tips > 0:
		notes = append(notes, fmt.Sprintf("Loose it falls when it leans %s, soonest toward %s: hold it until %s", quantity.Degrees(l.Tips), toward, until))
	case l.Prop:
		notes = append(notes, "Hold it until "+until)
	}
	if g := s.Stage; g.Stands && g.Tips < stand.BarelyStands {
		notes = append(notes, "The work then tips when it is leaned by "+quantity.Degrees(g.Tips)+": keep it held")
	}
	return notes
}

// edge is how near, in mm, a centre of gravity counts as being over an edge: the
// fineness of a rule.
const edge = 1.0

// level is the slope in rad under which a way counts as level.
const level = 2.5 * math.Pi / 180

// heading says along which way something is moved.
func heading(w r3.Vec) string {
	slope := math.Asin(min(1, max(-1, w.Z)))
	toward := "toward " + quantity.Bearing(math.Round(design.BearingOf(w)*180/math.Pi)*math.Pi/180)
	steep := quantity.Decimal(math.Abs(slope)*180/math.Pi, 0) + " deg"
	switch {
	case slope < -math.Pi/2+level:
		return "straight down"
	case slope > math.Pi/2-level:
		return "straight up"
	case slope < -level:
		return toward + ", " + steep + " downward"
	case slope > level:
		return toward + ", " + steep + " upward"
	}
	return toward + ", level"
}

// finishText says what is done when all is welded.
func (m *maker) finishText() string {
	text := "Let it cool. Dress the welds and look over every one of them"
	if b := m.plan.Base; b != nil {
		if b.Base.Ballast > 0 {
			text += "; lay the ballast of " + m.system.Weight(b.Base.Ballast)
		}
		if b.Base.Anchors > 0 {
			text += "; where it will stand fix the anchors before the last prop is taken away"
		}
	}
	return text + "."
}

// finishNotes says what the finish asks for.
func (m *maker) finishNotes() []string {
	var notes []string
	if f := m.in.Design.Finish; f != nil {
		switch f.Kind {
		case design.Galvanize:
			notes = append(notes, "Before the bath show the galvanizer every vent and drain: no hollow may be closed, and none may hold water")
		case design.Paint:
			notes = append(notes, "Leave every vent open if the paint is baked; close or cover it only when the piece is cold")
		}
	}
	if len(m.plan.Spaces) > 0 {
		notes = append(notes, "A hole that must go is closed cold, with a screw or a filled plug; out of doors leave one open at the lowest point to drain")
	}
	return notes
}
