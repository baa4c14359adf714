package sheets

import (
	"fmt"
	"slices"
	"strings"

	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/fab/layout"
	"stabile/param/design"
	"stabile/param/quantity"
)

func (m *maker) say(level finding.Level, part, format string, args ...any) {
	m.plan.Findings = append(m.plan.Findings, finding.Finding{Level: level, Part: part, Text: fmt.Sprintf(format, args...)})
}

func (m *maker) mm(x float64) string   { return m.in.Units.Length(x, quantity.Coarse) }
func (m *maker) rule(x float64) string { return m.in.Units.Rule(x, quantity.Coarse) }

// gauge writes the thickness of a metal.
func (m *maker) gauge(metal *design.Metal) string {
	if metal.Gauge > 0 {
		return fmt.Sprintf("'%s' of %d gauge", metal.Name, metal.Gauge)
	}
	return fmt.Sprintf("'%s' of %s", metal.Name, m.in.Units.Length(metal.Thickness, quantity.Fine))
}

// rating writes the heaviest sheet of a machine.
func (m *maker) rating(c *design.Capacity) string {
	if c.Gauge > 0 {
		return fmt.Sprintf("%d gauge %s", c.Gauge, c.Alloy)
	}
	return fmt.Sprintf("%s %s", m.in.Units.Length(c.Thickness, quantity.Fine), c.Alloy)
}

// cannot is the level of what cannot be done with sheets of a metal: a fault
// where they are the design's own, else something to see to.
func (m *maker) cannot(metal *design.Metal) finding.Level {
	if slices.Contains(m.in.Modest, metal) {
		return finding.Caution
	}
	return finding.Fault
}

func (m *maker) sayCutter(metal *design.Metal) {
	why := "the shop has no shear"
	if s := m.in.Shop.Shear; s != nil {
		why = "the shear takes " + m.rating(&s.Capacity) + " at most"
	}
	m.say(finding.Note, "", "%s is cut with the cutter, since %s; its cuts take %s each", m.gauge(metal), why, m.in.Units.Length(m.in.Shop.Cutter.Kerf, quantity.Fine))
}

func (m *maker) sayLong(kinds []*kind) {
	for _, k := range kinds {
		for _, b := range k.many {
			why := "its blank wants a longer cut than"
			if m.narrow(b.blank) {
				why = "its sheets are wider than"
			}
			m.say(finding.Note, m.in.Blanks[b.blank].Part, "is cut with the cutter, since %s the %s of the shear", why, m.mm(m.in.Shop.Shear.Width))
		}
	}
}

func (m *maker) sayNoSheet(metal *design.Metal, way Way, kinds []*kind) {
	why := "there is none at hand"
	if way == ByCutter {
		why = "no size that can be had goes on the cutter"
	}
	for _, k := range kinds {
		for _, b := range k.many {
			m.say(m.cannot(metal), m.in.Blanks[b.blank].Part, "has no sheet of '%s' to be cut from: %s; give the shop a size, or have the part cut elsewhere", metal.Name, why)
		}
	}
	st := Stack{Metal: metal, Way: way}
	for _, k := range kinds {
		for _, b := range k.many {
			st.Left = append(st.Left, Left{b.blank, b.count, layout.NoSheets})
		}
	}
	m.plan.Stacks = append(m.plan.Stacks, st)
}

func (m *maker) sayError(metal *design.Metal, err error) {
	m.say(m.cannot(metal), "", "sheets of '%s' could not be laid out: %v", metal.Name, strings.ReplaceAll(err.Error(), "\n", "; "))
}

func (m *maker) sayOrder(o *Order) {
	s := &m.in.Shop
	why := "there is no shear and no cutter that goes through it"
	if s.Shear != nil {
		why = "the shear takes " + m.rating(&s.Shear.Capacity) + " at most"
		if s.Cutter != nil {
			why += ", and the cutter " + m.in.Units.Length(s.Cutter.Thickness, quantity.Fine)
		}
	} else if s.Cutter != nil {
		why = "the cutter takes " + m.in.Units.Length(s.Cutter.Thickness, quantity.Fine) + " at most"
	}
	m.say(finding.Caution, o.Part, "is too thick for the shop to cut, %s: %s; buy it cut to size, take a thinner gauge, or use a cutter",
		m.gauge(o.Metal), why)
}

func (m *maker) sayLeft(st *Stack, blank, n int, why layout.Reason, u supply) {
	b := m.in.Blanks[blank]
	size := fmt.Sprintf("%s by %s", m.rule(b.Width), m.mm(b.Length))
	pieces := fmt.Sprintf("%d pieces", n)
	if n == 1 {
		pieces = "a piece"
	}
	switch why {
	case layout.TooLarge:
		m.say(m.cannot(st.Metal), b.Part, "has a blank of %s, too large for every sheet of '%s': the largest is %s by %s inside its trim; %s, find a larger sheet, or buy the part in",
			size, st.Metal.Name, m.rule(u.largest.Height), m.mm(u.largest.Width), split(b))
	case layout.TooLong:
		if m.narrow(blank) {
			m.say(m.cannot(st.Metal), b.Part, "is cut from sheets wider than the %s of the shear; buy narrower ones, have them cut down where they are bought, or use a cutter", m.mm(m.in.Shop.Shear.Width))
			return
		}
		m.say(m.cannot(st.Metal), b.Part, "has a blank of %s that wants a longer cut than the %s of the shear; %s, have the sheet cut where it is bought, or use a cutter",
			size, m.mm(m.in.Shop.Shear.Width), split(b))
	default:
		m.say(m.cannot(st.Metal), b.Part, "has no place for %s of %s: the sheets of '%s' at hand do not suffice; buy more, or give another size", pieces, size, st.Metal.Name)
	}
}

// narrow reports whether the shear's width suffices for a blank by itself.
func (m *maker) narrow(blank int) bool {
	b := m.in.Blanks[blank]
	return max(b.Width, b.Length) <= m.in.Shop.Shear.Width+fine
}

// split says how a blank is made smaller.
func split(b *flat.Blank) string {
	switch b.Shape {
	case flat.Gore:
		return "make the ball of zones or halves"
	case flat.Sector:
		return "make the ball of more zones, or the taper in two lengths"
	case flat.Tube:
		return "make the tube in two lengths, or in two shells with a second seam"
	case flat.Plate:
		return "weld the plate up from two"
	}
	return "weld the blank up from two"
}

func (m *maker) sayNarrow(s *Sheet, c *Cut) {
	part := ""
	name := "a strip"
	for _, i := range c.Frees {
		if alikeRects(s.Blocks[i].Rect, c.Keep) {
			part, name = s.Blocks[i].Pieces[0].Part, "its blank"
		}
	}
	m.say(finding.Caution, part, "%s of %s is narrower than the %s that the shear's hold-downs grip, at cut %d of sheet '%s': cut it by hand along a line, or leave it on a wider strip until last",
		name, m.in.Units.Length(c.Held(), quantity.Fine), m.in.Units.Length(m.in.Shop.Shear.Least, quantity.Fine), c.Number, s.Name)
}
