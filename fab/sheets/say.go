package sheets

import (
	"slices"
	"strings"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/fab/layout"
	"stabile/fab/rolling"
	"stabile/param/design"
)

// say adds a finding on a part, or on the whole where it is "".
func (m *maker) say(level finding.Level, part string, id check.ID, fact finding.Fact) {
	f := finding.Finding{Level: level, Concern: finding.Work, Check: string(id), Fact: fact}
	if part != "" {
		f.Parts = []string{part}
	}
	m.plan.Findings = append(m.plan.Findings, f)
}

// modest reports whether the sheets of a metal are not the design's own.
func (m *maker) modest(metal *design.Metal) bool { return slices.Contains(m.in.Modest, metal) }

// cannot is the level of what cannot be done with sheets of a metal: a fault
// where they are the design's own, else something that needs attention.
func (m *maker) cannot(metal *design.Metal) finding.Level {
	if m.modest(metal) {
		return finding.Caution
	}
	return finding.Fault
}

// rating returns the rating of the shear for a metal; nil without one.
func (m *maker) rating(metal *design.Metal) *design.Capacity {
	if s := m.in.Shop.Shear; s != nil {
		c := s.For(metal)
		return &c
	}
	return nil
}

func (m *maker) sayCutter(metal *design.Metal) {
	m.say(finding.Note, "", check.Shear, ForCutter{metal, m.rating(metal), m.in.Shop.Cutter.Kerf})
}

func (m *maker) sayLong(kinds []*kind) {
	for _, k := range kinds {
		for _, b := range k.many {
			m.say(finding.Note, m.in.Blanks[b.blank].Part, check.Shear, ForLongCut{m.in.Shop.Shear.Width, m.narrow(b.blank)})
		}
	}
}

func (m *maker) sayNoSheet(metal *design.Metal, way Way, kinds []*kind) {
	st := Stack{Metal: metal, Way: way}
	for _, k := range kinds {
		for _, b := range k.many {
			m.say(m.cannot(metal), m.in.Blanks[b.blank].Part, check.Stock, NoSheet{metal.Name, way == ByCutter})
			st.Left = append(st.Left, Left{b.blank, b.count, layout.NoSheets})
		}
	}
	m.plan.Stacks = append(m.plan.Stacks, st)
}

func (m *maker) sayError(metal *design.Metal, err error) {
	m.say(m.cannot(metal), "", check.Stock, NotLaidOut{metal.Name, strings.ReplaceAll(err.Error(), "\n", "; ")})
}

// tooThick returns why the shop cannot cut a metal.
func (m *maker) tooThick(metal *design.Metal) TooThick {
	f := TooThick{Metal: metal, Shear: m.rating(metal)}
	if c := m.in.Shop.Cutter; c != nil {
		f.Cutter = c.Thickness
	}
	return f
}

func (m *maker) sayLeft(st *Stack, blank, n int, why layout.Reason, u supply) {
	b := m.in.Blanks[blank]
	switch {
	case why == layout.TooLarge:
		m.say(m.cannot(st.Metal), b.Part, check.Stock, TooLarge{st.Metal.Name, b.Width, b.Length, u.largest.Height, u.largest.Width, b.Shape, m.courses(b, m.fitting(st.Metal, u))})
	case why == layout.TooLong && m.narrow(blank):
		m.say(m.cannot(st.Metal), b.Part, check.Shear, TooWide{m.in.Shop.Shear.Width})
	case why == layout.TooLong:
		m.say(m.cannot(st.Metal), b.Part, check.Shear, TooLong{b.Width, b.Length, m.in.Shop.Shear.Width, b.Shape, m.courses(b, m.shorn)})
	default:
		m.say(m.cannot(st.Metal), b.Part, check.Stock, TooFew{st.Metal.Name, n, b.Width, b.Length})
	}
}

// courses returns the fewest courses of its post in which a blank passes, and which the rolls
// take too, where any does.
func (m *maker) courses(b *flat.Blank, pass func(width, length float64) bool) int {
	n := b.CoursesFor(pass)
	if n == 0 {
		return 0
	}
	return max(n, rolling.CoursesOf(m.in.Shop.Rolls, b))
}

// fitting returns whether a piece of some size fits the largest sheet of a metal, and the
// shear where there is no cutter.
func (m *maker) fitting(metal *design.Metal, u supply) func(width, length float64) bool {
	w, l := u.largest.Height, u.largest.Width
	return func(width, length float64) bool {
		fits := width <= w && length <= l || m.mayTurn(metal) && width <= l && length <= w
		return fits && (m.in.Shop.Shear == nil || m.in.Shop.Cutter != nil || m.shorn(width, length))
	}
}

// shorn reports whether the shear's width suffices for a piece.
func (m *maker) shorn(width, length float64) bool {
	return max(width, length) <= m.in.Shop.Shear.Width+fine
}

// narrow reports whether the shear's width suffices for a blank by itself.
func (m *maker) narrow(blank int) bool {
	b := m.in.Blanks[blank]
	return m.shorn(b.Width, b.Length)
}

func (m *maker) sayNarrow(s *Sheet, c *Cut) {
	part := ""
	for _, i := range c.Frees {
		if alikeRects(s.Blocks[i].Rect, c.Keep) {
			part = s.Blocks[i].Pieces[0].Part
		}
	}
	m.say(finding.Caution, part, check.Shear, Narrow{c.Held(), m.in.Shop.Shear.Least, part == "", []CutAt{{s.Name, c.Number}}})
}
