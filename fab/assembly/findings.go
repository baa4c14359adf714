package assembly

import (
	"fmt"

	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/stock"
)

// find gathers what there is to say of the plan as a whole: what does not stand
// while it is built, loops that cannot be closed, metals that do not weld to
// each other, and what a bath or an oven asks for.
func (m *maker) find() {
	m.plan.Rules = m.rules()
	m.standing()
	for _, p := range m.order {
		if p.tight {
			first := m.part(m.units[p.unit].items[0])
			m.say(finding.Caution, first.Name, "closes a loop, and cannot be brought in with all that it meets fixed: leave one of %s only tacked till it is in", quotedList(m.hosts(&p)))
		}
	}
	m.metals()
	m.heated()
}

func (m *maker) say(level finding.Level, part, format string, args ...any) {
	m.plan.Findings = append(m.plan.Findings, finding.Finding{Level: level, Part: part, Text: fmt.Sprintf(format, args...)})
}

// standing tells from which step on the work must be held down, and until when.
func (m *maker) standing() {
	from, until := 0, 0
	for i := range m.plan.Steps {
		s := &m.plan.Steps[i]
		switch {
		case s.Stage == nil:
		case !s.Stage.Stands && from == 0:
			from = s.Number
		case s.Stage.Stands && from > 0 && until == 0:
			until = s.Number
		case !s.Stage.Stands:
			until = 0
		}
	}
	if from == 0 {
		return
	}
	m.plan.HoldFrom, m.plan.HoldUntil = from, until
	end := "to the end: it does not stand by itself without ballast or anchors"
	if until > 0 {
		end = fmt.Sprintf("until step %d is welded", until)
	}
	how := "clamp or anchor the base down before"
	if b := m.plan.Base; b == nil || b.Base.Shape == design.Feet {
		how = "hold or prop the work from"
	}
	m.say(finding.Caution, "", "half built its centre of gravity does not lie over its footprint: %s step %d, and keep it so %s", how, from, end)
}

// metals tells of joints between metals that are welded otherwise than to
// themselves, or not at all.
func (m *maker) metals() {
	for k := range m.links {
		l := &m.links[k]
		a, b := m.part(l.a), m.part(l.b)
		if l.weld < 0 || a.Metal == nil || b.Metal == nil {
			continue
		}
		x, y := a.Metal.Is(), b.Metal.Is()
		switch joint := max(x.Joint, y.Joint); {
		case x.Group == y.Group:
		case joint == stock.Apart:
			apart := x
			if y.Joint > x.Joint {
				apart = y
			}
			m.say(finding.Caution, b.Name, "is %s on %s of %s: %s does not fuse with it; bolt or bond that joint, or change one metal", b.Metal.Alloy, call(a), a.Metal.Alloy, apart.Group)
		case joint == stock.Brazed:
			m.say(finding.Caution, b.Name, "is %s on %s of %s: braze that joint with a silicon bronze filler, and allow for the weaker seam", b.Metal.Alloy, call(a), a.Metal.Alloy)
		default:
			m.say(finding.Caution, b.Name, "is %s on %s of %s: ask the filler's maker for one that suits both, such as the 309L type, and keep water out of that joint, where the plainer metal rusts first", b.Metal.Alloy, call(a), a.Metal.Alloy)
		}
	}
}

// thinDip is the thickness, in mm, under which sheet buckles in a zinc bath.
// Common practice, no source.
const thinDip = 1.6

// heated tells what a hot finish asks of the closed spaces.
func (m *maker) heated() {
	f := m.in.Design.Finish
	if f != nil && f.Kind == design.Galvanize {
		m.undippable()
	}
	if f == nil || len(m.plan.Spaces) == 0 {
		return
	}
	switch f.Kind {
	case design.Galvanize:
		for i := range m.plan.Spaces {
			s := &m.plan.Spaces[i]
			first := s.Parts[0]
			if s.Holes >= 2 && s.Vent >= s.Dip {
				continue
			}
			has := "is closed and will be hot dipped"
			switch {
			case s.Holes >= 2:
				has = fmt.Sprintf("will be hot dipped and has vents of up to %s", m.fine(s.Vent))
			case s.Holes == 1:
				has = fmt.Sprintf("will be hot dipped and has one hole, of %s", m.fine(s.Vent))
			}
			if len(s.Parts) > 1 {
				has += " (one space with " + quotedList(s.Parts[1:]) + ")"
			}
			m.say(finding.Caution, first, "%s: it needs a vent at its highest and a drain at its lowest point as it hangs, each %s or more; at %.0f °C the air shut in presses %s, water in it bursts it, and zinc must run in and out. The galvanizer has the last word",
				has, m.atLeast(s.Dip), ZincBath, m.kiloPascals(SealedPressure(ZincBath)))
		}
		m.thin()
	case design.Paint:
		m.say(finding.Caution, "", "if the paint is baked, leave every vent open in the oven: at %.0f °C the air shut in presses %s, and water or oil in it far more", Oven, m.kiloPascals(SealedPressure(Oven)))
	}
}

// undippable tells of metals that a zinc bath spoils. Molten zinc dissolves
// aluminium and copper, and is spoiled by them; into stainless steel under stress it
// goes along the grains, which cracks it, and it need not take on its skin. Trade
// knowledge, from memory. Steel that has a coat of zinc can be dipped again.
func (m *maker) undippable() {
	const apart = ", or finish the whole otherwise than by 'galvanize'; what is of carbon steel can be galvanized alone, before this is bolted to it with something between that keeps wet from joining the two metals"
	for i := range m.in.Items {
		p := m.part(i)
		if p.Metal == nil || p.Ball != nil && p.Ball.Build == design.Bought {
			continue
		}
		switch p.Metal.Is().Dip {
		case stock.Dissolves:
			m.say(finding.Fault, p.Name, "is of %s and may not be hot dipped: molten zinc eats it away. Paint it or leave it bare%s", p.Metal.Alloy, apart)
		case stock.Spoils:
			m.say(finding.Fault, p.Name, "is of %s and may not be hot dipped: it dissolves in molten zinc and spoils the bath. Leave it bare or paint it%s", p.Metal.Alloy, apart)
		case stock.Cracks:
			m.say(finding.Caution, p.Name, "is of %s: do not hot dip it, since molten zinc can crack it where it is welded or bent, through the wall and without a sign, and it needs no zinc. Leave it bare%s", p.Metal.Alloy, apart)
		}
	}
}

// thin tells of sheet that buckles in the bath.
func (m *maker) thin() {
	for i := range m.in.Items {
		p := m.part(i)
		if p.Ball == nil || p.Metal == nil || p.Metal.Thickness >= thinDip {
			continue
		}
		if p.Metal.Is().Dip == stock.Coats {
			m.say(finding.Caution, p.Name, "is thinner than %s and may buckle in the zinc bath: ask for sprayed zinc or zinc paint instead", m.fine(thinDip))
		}
	}
}

// quotedList names parts.
func quotedList(names []string) string {
	list := make([]string, len(names))
	for i, n := range names {
		list[i] = "'" + n + "'"
	}
	return and(list)
}
