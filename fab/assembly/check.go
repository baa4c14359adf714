package assembly

import (
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/stock"
)

// The rules of the checks.
const (
	metalSource  = "which metals fuse, and which a zinc bath spoils: trade knowledge, from memory"
	dipSource    = "galvanisers' guides after ASTM A385 and ISO 14713-2"
	hollowSource = "least hole that lets out the air that welding heats: common practice, no source"
	liftSource   = "load constant of the revised NIOSH lifting equation (1991)"
)

// unlike adds the check of a joint of unlike metals: one that cannot be welded
// fails, for a brazed one the strength is not known, and two steels hold with the
// filler that suits both.
func (m *maker) unlike(f UnlikeMetals, part string) {
	c := check.Check{ID: check.Metal, Part: part, With: f.Host.Name, Source: metalSource, Concern: finding.Work}
	switch {
	case f.Joint == stock.Apart, f.Zinc:
		c.Found = 1 // joint that cannot be welded
	case f.Joint == stock.Brazed:
		c.Verdict, c.Why = check.Undecided, f
		m.plan.Checks = append(m.plan.Checks, c)
		return
	}
	m.plan.Checks = append(m.plan.Checks, c.Judge())
}

// spoiled adds the check of a part that a zinc bath spoils.
func (m *maker) spoiled(part string) {
	c := check.Check{ID: check.Metal, Part: part, Found: 1, Source: metalSource, Concern: finding.Work}
	m.plan.Checks = append(m.plan.Checks, c.Judge())
}

// check works out what the plan decides: metals, hollows and lifts.
func (m *maker) check() {
	if len(m.plan.Checks) == 0 {
		// All metals can be joined and finished.
		m.plan.Checks = append(m.plan.Checks, check.Check{ID: check.Metal, Source: metalSource, Concern: finding.Work}.Judge())
	}
	for i := range m.plan.Spaces {
		m.plan.Checks = append(m.plan.Checks, m.hollowCheck(&m.plan.Spaces[i]))
	}
	for i := range m.in.Items {
		if it := &m.in.Items[i]; it.High > 0 {
			m.plan.Checks = append(m.plan.Checks, liftCheck(it.Part.Name, it.High))
		}
	}
	if n := len(m.plan.Steps); n > 0 && len(m.in.Items) > 1 && m.plan.Steps[n-1].Lift != nil {
		m.plan.Checks = append(m.plan.Checks, liftCheck("", m.plan.Steps[n-1].Lift.High))
	}
}

// hollowCheck checks the vents of a space: as large as the bath needs where it is
// hot dipped, else as the air needs that welding heats. Without a bath a hole that
// the plan has drilled before it closes the space counts; for a bath the galvaniser
// decides on holes that are not drawn.
func (m *maker) hollowCheck(s *Space) check.Check {
	c := check.Check{ID: check.Hollow, Part: s.Parts[0], Unit: check.Millimetre, AtLeast: true, Source: hollowSource, Concern: finding.Life}
	switch {
	case s.Dip > 0 && !s.vented():
		c.Source, c.Verdict, c.Why = dipSource, check.Undecided, s.lacks()
		return c
	case s.Dip > 0:
		c.Source, c.Found, c.Limit = dipSource, s.Vent, s.Dip
	case s.Holes > 0:
		c.Found, c.Limit = s.Vent, WeldVent
	case s.Step > 0 || m.isBought(s.Parts[0]):
		c.Found, c.Limit = WeldVent, WeldVent // that a note on the step requires
	default:
		c.Verdict, c.Why = check.Undecided, NotClosed{}
		return c
	}
	return c.Judge()
}

func (m *maker) isBought(name string) bool {
	for i := range m.in.Items {
		if p := m.part(i); p.Name == name {
			return p.Ball != nil && p.Ball.Build == design.Bought
		}
	}
	return false
}

// liftCheck checks whether one person can lift a mass in kg. For more there are
// other people and hoists, of which the design does not say.
func liftCheck(part string, mass float64) check.Check {
	c := check.Check{ID: check.Lift, Part: part, Found: mass, Limit: OneLift, Unit: check.Kilogram, Source: liftSource, Concern: finding.Work}.Judge()
	if c.Verdict == check.Fails {
		c.Verdict, c.Found, c.Limit, c.Why = check.Undecided, 0, 0, HeavyPart{mass, OneLift}
	}
	return c
}
