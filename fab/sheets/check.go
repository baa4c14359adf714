package sheets

import (
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
	list := make([]partChecks, 0, len(m.in.Blanks))
	of := make(map[string]int, len(m.in.Blanks))
	for _, b := range m.in.Blanks {
		n, ok := of[b.Part]
		if !ok {
			n = len(list)
			of[b.Part] = n
			list = append(list, newPartChecks(b.Part))
		}
		if b.Metal != nil {
			list[n].thick(b.Metal, m.cuttable(b.Metal))
		}
	}
	for i := range m.plan.Stacks {
		st := &m.plan.Stacks[i]
		for _, l := range st.Left {
			p := &list[of[m.in.Blanks[l.Blank].Part]]
			if l.Why == layout.TooLong {
				m.long(p, st.Metal, l.Blank)
				continue
			}
			p.stock.Found += float64(l.Count)
			if m.modest(st.Metal) {
				p.scant = shop.NotDescribed{Missing: shop.Missing{Item: shop.Sheets, Metal: st.Metal.Name}}
			}
		}
	}
	var shear finding.Fact
	if m.in.ModestShear {
		shear = shop.NotDescribed{Missing: shop.Missing{Item: shop.Shear}}
	}
	m.plan.Checks = make([]check.Check, 0, 2*len(list))
	for i := range list {
		p := &list[i]
		m.plan.Checks = append(m.plan.Checks, decided(p.stock, p.scant), decided(p.cut, shear))
	}
}

// A partChecks is the checks of a part: that each of its pieces has a place on a
// sheet, and that the shop can cut it, by how long its cuts are or its thickness.
type partChecks struct {
	stock, cut check.Check
	scant      finding.Fact // why a place may be found after all
	used       float64      // the greatest share of what the shop cuts of a metal
	long       bool         // a cut is too long
}

func newPartChecks(part string) partChecks {
	return partChecks{
		stock: check.Check{ID: check.Stock, Part: part, Source: stockSource, Concern: finding.Work},
		cut:   check.Check{ID: check.Shear, Part: part, Unit: check.Millimetre, Source: shearSource, Concern: finding.Work},
	}
}

// thick takes note of a blank's thickness: of several metals the one that comes nearest to
// its limit.
func (p *partChecks) thick(metal *design.Metal, limit float64) {
	if share := metal.Thickness / max(limit, 1e-9); share > p.used {
		p.used, p.cut.Found, p.cut.Limit = share, metal.Thickness, limit
	}
}

// long takes note of a blank that is too long for the shear, or whose sheets are.
func (m *maker) long(p *partChecks, metal *design.Metal, blank int) {
	if !p.long {
		p.long, p.cut.Found, p.cut.Limit = true, 0, m.in.Shop.Shear.Width
	}
	b := m.in.Blanks[blank]
	p.cut.Found = max(p.cut.Found, b.Width, b.Length)
	if m.narrow(blank) {
		p.cut.Found = max(p.cut.Found, m.narrowestSheet(metal))
	}
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
