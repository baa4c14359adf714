package sheets

import (
	"slices"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/layout"
	"stabile/fab/shop"
	"stabile/param/design"
)

const (
	stockSource = "a blank lies on a sheet of the shop within its trim"
	shearSource = "a shear takes a sheet by its thickness squared times its tensile strength; common practice, no source"
)

// checks works out, part by part in the order of the blanks, whether there are
// sheets for it and whether the shop can cut it. What the modest shop cannot do is
// not decided.
func (m *maker) checks() {
	var parts []string
	for _, b := range m.in.Blanks {
		if !slices.Contains(parts, b.Part) {
			parts = append(parts, b.Part)
		}
	}
	for _, part := range parts {
		m.plan.Checks = append(m.plan.Checks, m.stock(part), m.cut(part))
	}
}

// stock checks that each piece of a part has a place on a sheet.
func (m *maker) stock(part string) check.Check {
	c := check.Check{ID: check.Stock, Part: part, Source: stockSource, Concern: finding.Work}
	var why finding.Fact
	for i := range m.plan.Stacks {
		st := &m.plan.Stacks[i]
		for _, l := range st.Left {
			if m.in.Blanks[l.Blank].Part != part || l.Why == layout.TooLong {
				continue
			}
			c.Found += float64(l.Count)
			if m.modest(st.Metal) {
				why = shop.NotDescribed{Missing: shop.Missing{Item: shop.Sheets, Metal: st.Metal.Name}}
			}
		}
	}
	return decided(c, why)
}

// cut checks that the shop can cut a part: its thickness, and how long its cuts are.
func (m *maker) cut(part string) check.Check {
	c := check.Check{ID: check.Shear, Part: part, Unit: check.Millimetre, Source: shearSource, Concern: finding.Work}
	var why finding.Fact
	if m.in.ModestShear {
		why = shop.NotDescribed{Missing: shop.Missing{Item: shop.Shear}}
	}
	for i := range m.plan.Stacks {
		for _, l := range m.plan.Stacks[i].Left {
			if b := m.in.Blanks[l.Blank]; b.Part == part && l.Why == layout.TooLong {
				c.Limit = m.in.Shop.Shear.Width
				c.Found = max(c.Found, b.Width, b.Length)
				if m.narrow(l.Blank) {
					c.Found = max(c.Found, m.narrowestSheet(m.plan.Stacks[i].Metal))
				}
			}
		}
	}
	if c.Found > 0 {
		return decided(c, why)
	}
	used := 0.0
	for _, b := range m.in.Blanks {
		if b.Part != part || b.Metal == nil {
			continue
		}
		// Of several metals the one that comes nearest to its limit.
		limit := m.cuttable(b.Metal)
		if share := b.Metal.Thickness / max(limit, 1e-9); share > used {
			used, c.Found, c.Limit = share, b.Metal.Thickness, limit
		}
	}
	return decided(c, why)
}

// decided gives the verdict by the figures: one that fails is not decided where
// there is a reason why it may yet hold.
func decided(c check.Check, why finding.Fact) check.Check {
	c = c.Judge()
	if c.Verdict == check.Fails && why != nil {
		c.Verdict, c.Why, c.Found, c.Limit = check.Undecided, why, 0, 0
	}
	return c
}

// cuttable returns the greatest thickness in mm that the shop cuts of a metal: its
// own where a cutter has no limit.
func (m *maker) cuttable(metal *design.Metal) float64 {
	most := 0.0
	if s := m.in.Shop.Shear; s != nil {
		most = shop.Shearable(s, metal)
		if shop.Shears(s, metal) {
			most = max(most, metal.Thickness) // but for rounding
		}
	}
	if c := m.in.Shop.Cutter; c != nil {
		if shop.Cuts(c, metal.Thickness) {
			most = max(most, metal.Thickness)
		}
		most = max(most, c.Thickness)
	}
	return most
}

// narrowestSheet returns the least width in mm of the sheets of a metal.
func (m *maker) narrowestSheet(metal *design.Metal) float64 {
	least := 0.0
	for _, s := range m.in.Shop.Sheets {
		if w := min(s.Width, s.Length); s.Metal == metal && (least == 0 || w < least) {
			least = w
		}
	}
	return least
}
