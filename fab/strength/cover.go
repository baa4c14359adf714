package strength

import (
	"fmt"
	"strings"

	"stabile/param/design"
)

// A Gap is a kind of thing that no rule here covers.
type Gap struct {
	What   string
	Places []Place // where
	Help   string  // what helps, or ""
}

// A Place is where a gap is: a part, and what is beside it.
type Place struct {
	Part *design.Part
	As   string       // how the other stands to it, such as "foot of"; "" for two alike
	With *design.Part // nil for none

	// Slender is D/t of a wall that is thinner than Ends, where the rule ends; 0
	// where it is not that.
	Slender, Ends float64
}

func (p Place) String() string {
	switch {
	case p.Slender > 0:
		return fmt.Sprintf("%s (D/t %.0f, the rule ends at %.0f)", p.Part.Name, p.Slender, p.Ends)
	case p.With == nil:
		return p.Part.Name
	case p.As == "":
		return p.Part.Name + " and " + p.With.Name
	}
	return p.Part.Name + " (" + p.As + " " + p.With.Name + ")"
}

// say tells a gap with at most so many of its places.
func (g *Gap) say(most int) string {
	more := ""
	if n := len(g.Places) - most; n > 0 {
		more = fmt.Sprintf(" and %d more", n)
	}
	var places []string
	for _, p := range g.Places[:min(len(g.Places), most)] {
		places = append(places, p.String())
	}
	text := g.What + ": " + strings.Join(places, ", ") + more
	if g.Help != "" {
		text += "; " + g.Help
	}
	return text
}

// NotCovered returns what no rule here covers, a line for each kind.
func (s *Strength) NotCovered() []string {
	var list []string
	for i := range s.Gaps {
		list = append(list, s.Gaps[i].say(len(s.Gaps[i].Places)))
	}
	return list
}

// lack takes note of a place that no rule covers.
func (s *Strength) lack(what, help string, at Place) {
	for i := range s.Gaps {
		if s.Gaps[i].What == what {
			s.Gaps[i].Places = append(s.Gaps[i].Places, at)
			return
		}
	}
	s.Gaps = append(s.Gaps, Gap{What: what, Places: []Place{at}, Help: help})
}

// cover tells what no rule here covers.
func (s *Strength) cover(in Input) {
	var told *design.Part // members of a part follow each other
	for i := range s.Members {
		if m := &s.Members[i]; m.Class == Outside && m.Part != told {
			told = m.Part
			_, _, most := Walls(m.Yield, m.Part.Metal.Modulus)
			s.lack("a wall thinner than the rule for round tubes covers", "thicker sheet or a narrower post brings it under the rule",
				Place{Part: m.Part, Slender: m.Section.Slenderness(), Ends: most})
		}
	}
	if p := in.Design.Base(); p != nil && p.Base.Shape == design.Feet {
		s.lack("feet that only stand on the ground: strength, sway and frequency are of feet held fast in it", "a plate that they are welded to holds them", Place{Part: p})
	}
	for i := range s.Shells {
		sh := &s.Shells[i]
		s.lack("the wall of a ball under a post that is welded to it", "an inner stub, a doubling disc or a post that goes through takes the load",
			Place{Part: sh.Ball, As: sh.Where + " of", With: sh.Post})
	}
	for _, j := range in.Design.Joints {
		switch {
		case j.A == nil || j.B == nil:
		case j.Kind == design.SeatJoint:
			s.lack("the weld of one ball on the other", "", Place{Part: j.A, With: j.B})
		case j.Kind == design.ThreadJoint:
			s.lack("the welds of a ball round a post", "", Place{Part: j.A, With: j.B})
		case j.Kind == design.RestJoint:
			s.lack("the weld of a ball on the base", "", Place{Part: j.A, With: j.B})
		}
	}
	for _, it := range in.Items {
		if p := it.Part.Post; p != nil {
			for _, end := range p.Ends {
				if end.Meets == design.OnSide && end.With != nil {
					s.lack("the wall of a post beside the joint of another", "", Place{Part: end.With, As: "joint of", With: it.Part})
				}
			}
		}
	}
}
