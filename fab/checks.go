package fab

import (
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/wind"
)

// check gathers what was decided of standing, wind, strength and making.
func (b *builder) check() {
	j := b.Job
	var strong []check.Check
	anchors := check.Undecided
	switch {
	case j.Strength != nil:
		in := b.strengthInput()
		in.Still = !b.modes
		strong = j.Strength.Checks(in)
		anchors = together(strong)
	case b.checked:
		c := check.Check{ID: check.Post, Verdict: check.Fails, Concern: finding.Life}
		if len(b.strong) > 0 {
			c.Why = b.strong[0].Fact
			if len(b.strong[0].Parts) > 0 {
				c.Part = b.strong[0].Parts[0]
			}
		}
		strong = []check.Check{c}
	default:
		strong = []check.Check{{ID: check.Post, Verdict: check.Undecided, Why: StrengthNotChecked{}, Concern: finding.Life}}
	}
	const few = 16 // of the whole, and requirements
	j.Checks = make([]check.Check, 0, len(strong)+len(b.making)+len(b.shop.Checks)+few)
	j.Checks = append(append(j.Checks, j.Tipping.Checks(anchors)...), wind.Check(j.Wind))
	j.Checks = append(j.Checks, strong...)
	b.surroundings()
	b.entrapment()
	j.Checks = append(append(j.Checks, b.making...), b.shop.Checks...)
}

// together returns the verdict of the anchors, their bolts, their footing and the ground;
// undecided where they were not checked.
func together(list []check.Check) check.Verdict {
	var anchors []check.Check
	for _, c := range list {
		if c.ID == check.AnchorSteel || c.ID == check.AnchorGround || c.ID == check.Footing {
			anchors = append(anchors, c)
		}
	}
	if anchors == nil {
		return check.Undecided
	}
	return check.Worst(anchors)
}
