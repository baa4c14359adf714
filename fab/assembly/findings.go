package assembly

import (
	"stabile/fab/check"
	"stabile/fab/corrosion"
	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/stock"
)

// find gathers what there is to say of the plan as a whole: what does not stand
// while it is built, loops that cannot be closed, metals that do not weld to
// each other, and what a bath or an oven needs.
func (m *maker) find() {
	m.plan.Rules = m.rules()
	m.standing()
	for _, p := range m.order {
		if p.tight {
			first := m.part(m.units[p.unit].items[0])
			m.say(finding.Caution, finding.Work, check.Making, first.Name, ClosesLoop{m.hosts(&p)})
		}
	}
	m.metals()
	m.heated()
}

// say adds a finding on a part, or on the whole where it is "".
func (m *maker) say(level finding.Level, concern finding.Concern, id check.ID, part string, fact finding.Fact) {
	f := finding.Finding{Level: level, Concern: concern, Check: string(id), Fact: fact}
	if part != "" {
		f.Parts = []string{part}
	}
	m.plan.Findings = append(m.plan.Findings, f)
}

// standing finds from which step on the work must be held down, and until when.
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
	m.say(finding.Caution, finding.Life, "", "", Topples{from, until, m.plan.Base != nil})
}

// metals finds joints between metals that are welded otherwise than to
// themselves, or not at all.
func (m *maker) metals() {
	for k := range m.links {
		l := &m.links[k]
		a, b := m.part(l.A), m.part(l.B)
		if l.weld < 0 || a.Metal == nil || b.Metal == nil {
			continue
		}
		x, y := a.Metal.Is(), b.Metal.Is()
		pair := corrosion.Pair(corrosion.Of(x), corrosion.Of(y))
		if x.Group == y.Group {
			if x.Coat != y.Coat {
				f := UnlikeMetals{Alloy: b.Metal.Alloy, Host: named(a), HostAlloy: a.Metal.Alloy, Zinc: true, Contact: pair.Contact}
				m.say(finding.Fault, finding.Work, check.Metal, b.Name, f)
				m.unlike(f, b.Name)
			}
			continue
		}
		f := UnlikeMetals{Alloy: b.Metal.Alloy, Host: named(a), HostAlloy: a.Metal.Alloy, Joint: x.Joint, Apart: x.Group, Contact: pair.Contact}
		if y.Joint > x.Joint {
			f.Joint, f.Apart = y.Joint, y.Group
		}
		level := finding.Caution
		if f.Joint == stock.Apart {
			level = finding.Fault
		}
		m.say(level, finding.Work, check.Metal, b.Name, f)
		m.unlike(f, b.Name)
	}
}

// thinDip is the thickness, in mm, under which sheet buckles in a zinc bath.
// Common practice, no source.
const thinDip = 1.6

// heated says what a hot finish needs of the closed spaces.
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
			if s.vented() {
				continue
			}
			m.say(finding.Danger, finding.Life, check.Hollow, s.Parts[0], s.lacks())
		}
		m.thin()
	case design.Paint:
		m.say(finding.Caution, finding.Life, check.Hollow, "", Baked{Oven, SealedPressure(Oven)})
	}
}

// vented reports whether a space that is hot dipped has the vent and the drain that
// it needs.
func (s *Space) vented() bool { return s.Holes >= 2 && s.Vent >= s.Dip }

// lacks returns what a space that is hot dipped lacks.
func (s *Space) lacks() NoVents {
	n := NoVents{s.Holes, s.Vent, s.Dip, nil, ZincBath, SealedPressure(ZincBath)}
	if len(s.Parts) > 1 {
		n.With = s.Parts[1:]
	}
	return n
}

// undippable finds metals that a zinc bath spoils. Molten zinc dissolves
// aluminium and copper, and is spoiled by them; into stainless steel under stress it
// goes along the grains, which cracks it, and it need not take on its skin. Trade
// knowledge, from memory. Steel that has a coat of zinc can be dipped again.
func (m *maker) undippable() {
	for i := range m.in.Items {
		p := m.part(i)
		if p.Metal == nil || p.Ball != nil && p.Ball.Build == design.Bought {
			continue
		}
		switch f := (NoDip{p.Metal.Alloy, p.Metal.Is().Dip}); f.Dip {
		case stock.Dissolves, stock.Spoils:
			m.say(finding.Fault, finding.Work, check.Metal, p.Name, f)
			m.spoiled(p.Name)
		case stock.Cracks:
			m.say(finding.Caution, finding.Life, check.Metal, p.Name, f)
		}
	}
}

// thin finds sheet that buckles in the bath.
func (m *maker) thin() {
	for i := range m.in.Items {
		p := m.part(i)
		if p.Ball == nil || p.Metal == nil || p.Metal.Thickness >= thinDip {
			continue
		}
		if p.Metal.Is().Dip == stock.Coats {
			m.say(finding.Caution, finding.Work, check.Making, p.Name, ThinDip{thinDip})
		}
	}
}
