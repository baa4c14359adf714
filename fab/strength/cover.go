package strength

import (
	"fmt"
	"strings"

	"stabile/param/design"
)

// A Gap is a kind of thing that no rule here covers.
type Gap struct {
	What   string
	Places []string // where, in words with the part's name
	Help   string   // what helps, or ""
}

// say tells a gap with at most so many of its places.
func (g *Gap) say(most int) string {
	places, more := g.Places, ""
	if n := len(places) - most; n > 0 {
		places, more = places[:most], fmt.Sprintf(" and %d more", n)
	}
	text := g.What + ": " + strings.Join(places, ", ") + more
	if g.Help != "" {
		text += "; " + g.Help
	}
	return text
}

// lack takes note of a place that no rule covers.
func (s *Strength) lack(what, help, format string, args ...any) {
	place := fmt.Sprintf(format, args...)
	for i := range s.Gaps {
		if s.Gaps[i].What == what {
			s.Gaps[i].Places = append(s.Gaps[i].Places, place)
			return
		}
	}
	s.Gaps = append(s.Gaps, Gap{What: what, Places: []string{place}, Help: help})
}

// cover tells what no rule here covers.
func (s *Strength) cover(in Input) {
	told := map[*design.Part]bool{}
	for _, m := range s.Members {
		if m.Class == Outside && !told[m.Part] {
			told[m.Part] = true
			_, _, most := Walls(m.Yield, m.Part.Metal.Modulus)
			s.lack("a wall thinner than the rule for round tubes covers", "thicker sheet or a narrower post brings it under the rule",
				"%s (D/t %.0f, the rule ends at %.0f)", m.Part.Name, m.Section.Slenderness(), most)
		}
	}
	for _, sh := range s.Shells {
		s.lack("the wall of a ball under a post that is welded to it", "an inner stub, a doubling disc or a post that goes through takes the load",
			"%s (%s of %s)", sh.Ball.Name, sh.Where, sh.Post.Name)
	}
	for _, j := range in.Design.Joints {
		switch {
		case j.A == nil || j.B == nil:
		case j.Kind == design.SeatJoint:
			s.lack("the weld of one ball on the other", "", "%s and %s", j.A.Name, j.B.Name)
		case j.Kind == design.ThreadJoint:
			s.lack("the welds of a ball round a post", "", "%s and %s", j.A.Name, j.B.Name)
		case j.Kind == design.RestJoint:
			s.lack("the weld of a ball on the base", "", "%s and %s", j.A.Name, j.B.Name)
		}
	}
	for _, it := range in.Items {
		if p := it.Part.Post; p != nil {
			for _, end := range []design.End{p.FootEnd, p.HeadEnd} {
				if end.Meets == design.OnSide && end.With != nil {
					s.lack("the wall of a post beside the joint of another", "", "%s (%s)", end.With.Name, it.Part.Name)
				}
			}
		}
	}
	for i := range s.Gaps {
		s.NotCovered = append(s.NotCovered, s.Gaps[i].say(len(s.Gaps[i].Places)))
	}
}
