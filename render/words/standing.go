package words

import (
	"fmt"

	"stabile/fab/finding"
	"stabile/fab/stand"
	"stabile/param/quantity"
)

// standing returns the sentence of a fact of package stand.
func (w Writer) standing(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case stand.InGround:
		return "it is set in concrete in the ground, and stands as far as its footings do", true
	case stand.OnWall:
		return "it is on a wall, and hangs as far as its anchors hold there", true
	case stand.NoFootprint:
		return "falls over by itself: what touches the ground is a point or a line, so there is no footprint to stand on; give it a base, or three feet or more", true
	case stand.FallsOver:
		hold := "widen the footprint or bring the weight back over it"
		if f.Anchored {
			hold += "; anchors alone do not make it safe, and it falls while it is set up"
		}
		return fmt.Sprintf("falls over by itself: its centre of gravity lies %s outside the footprint toward %s; more than %s at the middle of the footprint is needed to bring it back; %s",
			w.Long(f.Outside), w.Bearing(f.Toward), w.Need(f.Counterweight), hold), true
	case stand.EasilyKnocked:
		by := "falls over when it is tilted by " + w.Degrees(f.TipAngle)
		if f.TipAngle <= 0 {
			by = "falls over by itself"
		}
		if f.Ballast > 0 {
			by = fmt.Sprintf("without its %s of ballast it %s", w.Weight(f.Ballast), by)
		}
		text := fmt.Sprintf("%s: under %s a knock or soft ground does that; widen the footprint, bring the weight down or %s",
			by, w.Degrees(f.Least), anchorIt(f.Feet, f.Block))
		if f.Anchored {
			text = by + " without its anchors: prop it until they hold"
		}
		return text, true
	case stand.TipsEasily:
		return fmt.Sprintf("tips too easily: factor %s, target %s, under %s; %s", Factor(f.Factor), Factor(f.Target), w.Case(f.Case), w.cure(f)), true
	case stand.HeldByAnchors:
		return fmt.Sprintf("stands by its anchors: without them the factor against tipping is %s, target %s, under %s, and %s. The %s must hold it down",
			Factor(f.Factor), Factor(f.Target), w.Case(f.Case), w.ballast(f.Ballast, f.BallastFails), Count(f.Anchors, "anchor")), true
	case stand.WithoutBallast:
		return w.withoutBallast(f), true
	case stand.TargetShort:
		return fmt.Sprintf("the target of %s against tipping is less than the %s that %s comes to (%s)", Factor(f.Target), Use(f.Least), f.Method.Source, f.Method.Name), true
	case stand.PushShort:
		return fmt.Sprintf("the push of %s is less than that of one person leaning, %s by the published loads", w.Force(f.Push), w.Force(f.Least)), true
	case stand.NoLoads:
		return "tipping under loads is not checked: the site gives no push, no slope and no wind; write one, such as " + w.sitePush(), true
	case stand.Slides:
		return w.slides(f), true
	case stand.PushLowered:
		return fmt.Sprintf("the push is given at %s, above the top of the piece; it acts at the top, %s", w.Long(f.Height), w.Long(f.Top)), true
	case stand.AnchorsDecide:
		return "weight alone is not enough; whether the anchors hold is not decided", true
	}
	return "", false
}

// withoutBallast says how a piece stands without its ballast.
func (w Writer) withoutBallast(f stand.WithoutBallast) string {
	figures := fmt.Sprintf("without its %s of ballast: factor %s then, %s with it, under %s", w.Weight(f.Ballast), Factor(f.Factor), Factor(f.With), w.Case(f.Case))
	switch {
	case f.Factor >= stand.LeastFactor:
		return "stands " + figures
	case f.Anchored:
		return "stands by its anchors alone " + figures + "; they are checked with the ballast in place, so fasten it"
	}
	return "tips over " + figures + "; fasten the ballast so that nobody carries it away"
}

// cure returns what helps against tipping.
func (w Writer) cure(f stand.TipsEasily) string {
	if f.Block && !f.BallastFails && f.Ballast > 0 {
		return "a block that is " + w.Need(f.Ballast) + " heavier reaches it, or a wider one"
	}
	ballast := w.ballast(f.Ballast, f.BallastFails)
	switch {
	case f.BallastFails:
		return ballast + ", so widen the footprint, bring the weight down or " + anchorIt(f.Feet, f.Block)
	case f.Feet:
		return ballast + ", which needs a plate: give it one, or spread its feet"
	}
	return ballast
}

// ballast returns what ballast reaches the target.
func (w Writer) ballast(kg float64, fails bool) string {
	switch {
	case fails:
		return "no ballast at the middle of the footprint reaches it"
	case kg == 0:
		return "no ballast is needed for the target"
	}
	return w.Need(kg) + " of ballast at the middle of the footprint reaches it"
}

// anchorIt returns how it is held to the ground.
func anchorIt(feet, block bool) string {
	switch {
	case feet:
		return "anchor it by a plate"
	case block:
		return "set it on a wider block"
	}
	return "anchor it"
}

func (w Writer) slides(f stand.Slides) string {
	what, help := "slides", anchorIt(f.Feet, f.Block)+" or lay more ballast"
	switch {
	case f.Anchored:
		what, help = "slides without its anchors", "the anchors must hold the rest"
	case f.Factor >= stand.LeastFactor:
		what = "may slide"
	}
	if f.Block {
		help = "make the block heavier"
	}
	if f.Feet && !f.Anchored {
		help = "stand it on a plate, anchored or with ballast"
	}
	return fmt.Sprintf("%s under %s: friction, %s of the weight for steel on concrete (common practice, no source), holds %s of %s, factor %s, under the target against tipping, %s; %s",
		what, w.Case(f.Case), quantity.Decimal(stand.Friction, 2), w.Force(f.Holding), w.Force(f.Driving), Factor(f.Factor), Factor(f.Target), help)
}

// sitePush is how a design gives a push, in its own units.
func (w Writer) sitePush() string {
	if w.Units == quantity.Inch {
		return "site { push 50 lbf at 5 ft }"
	}
	return "site { push 250 N at 1.5 m }"
}
