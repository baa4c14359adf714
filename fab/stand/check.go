package stand

import (
	"stabile/fab/check"
	"stabile/fab/finding"
)

// LeastFactor is the factor against tipping or sliding under which a piece that is
// not held down fails, whatever target the design sets: it tips or slides.
const LeastFactor = 1.0

// statics is the source of factors, and friction that of sliding.
const (
	statics  = "statics"
	friction = "statics; friction is common practice, no source"
	inGround = "set in concrete in the ground: as the footing"
	tilt     = "tilt of IEC 62368-1 for floor-standing equipment"
)

// least returns the factor against tipping that is needed: the target, and never
// under LeastFactor.
func (t *Tipping) least() float64 { return max(t.Target, LeastFactor) }

// Checks returns the checks of standing: by own weight, without ballast, against tipping and against
// sliding. Where there are anchors and weight alone falls short, the verdict is that
// of the anchors together, which is given; of what is set in concrete it is that of the
// ground. There are none of what hangs on a wall, which only its anchors hold. What
// falls over by itself fails all the same.
func (t *Tipping) Checks(anchors check.Verdict) []check.Check {
	balance := check.Check{
		ID: check.Balance, Found: max(0, t.Bare.TipAngle), Limit: BarelyStands, Unit: check.Radian, AtLeast: true,
		Case: check.Case{Kind: check.OwnWeight}, Source: tilt, Concern: finding.Life,
	}
	tipping := check.Check{ID: check.Tipping, Source: statics, Concern: finding.Life}
	sliding := check.Check{ID: check.Sliding, Source: friction, Concern: finding.Life}
	if t.Hung {
		return nil
	}
	if t.Sunk {
		list := []check.Check{balance, tipping, sliding}
		for i := range list {
			list[i] = check.Check{ID: list[i].ID, Verdict: anchors, Source: inGround, Concern: finding.Life}
			if anchors == check.Undecided {
				list[i].Why = InGround{}
			}
		}
		return list
	}
	if len(t.Edges) == 0 {
		balance.Verdict = check.Fails
		for _, c := range []*check.Check{&tipping, &sliding} {
			c.Verdict, c.Why = check.Undecided, NoFootprint{}
		}
		return []check.Check{balance, tipping, sliding}
	}
	balance = t.decide(balance, anchors)
	if t.Loaded {
		tipping.Found, tipping.Limit, tipping.AtLeast, tipping.Case = t.Factor, t.least(), true, t.WorstCase
		tipping = t.decide(tipping, anchors)
	} else {
		tipping.Verdict, tipping.Why = check.Undecided, NoLoads{}
	}
	if s := t.Sliding; s != nil {
		sliding.Found, sliding.Limit, sliding.AtLeast, sliding.Case = s.Factor, LeastFactor, true, s.Case
		sliding = t.decide(sliding, anchors)
	} else {
		sliding.Verdict, sliding.Why = check.Undecided, NoLoads{}
	}
	return []check.Check{balance, tipping, sliding}
}

// decide sets the verdict of a check of what weight does, or leaves it to the
// anchors.
func (t *Tipping) decide(c check.Check, anchors check.Verdict) check.Check {
	if c = c.Judge(); c.ID == check.Balance && !t.Stable() {
		c.Verdict = check.Fails
	}
	if c.Verdict == check.Fails && t.Anchors > 0 && t.Stable() {
		c.Verdict, c.Held = anchors, anchors == check.Holds
		if anchors == check.Undecided {
			c.Why = AnchorsDecide{}
		}
	}
	return c
}
