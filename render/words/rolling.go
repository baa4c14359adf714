package words

import (
	"fmt"
	"strings"

	"stabile/fab/finding"
	"stabile/fab/rolling"
)

// rolling says facts of package rolling.
func (w Writer) rolling(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case rolling.NoRolls:
		return fmt.Sprintf("the shop has no rolls: have %s rolled elsewhere", Count(f.Pieces, "piece")), true
	case rolling.RollsClash:
		return fmt.Sprintf("the measurements of the rolls contradict each other: at %s from the pinch the back roll would run into the lower pinch roll, which needs %s or more; measure again, level, with the back roll just touching a flat sheet. Settings of the back roll are left out", w.Long(f.Distance), w.AtLeast(f.Least)), true
	case rolling.NoSettings:
		return "settings of the back roll are left out: they need the rolls' diameters and the distance of the back roll from the pinch, with a slant up to " + w.Degrees(f.Slant), true
	case rolling.NoTurns:
		return "turns of the screws are left out: they need the lift of the back roll for one turn", true
	case rolling.NoRating:
		return "whether the rolls are strong enough was not checked: they have no rating", true
	case rolling.Refused:
		return w.refused(f), true
	case rolling.Care:
		return care(f), true
	}
	for _, say := range [...]func(finding.Fact) (string, bool){w.whyRefused, w.wayRound, w.rollingCare, w.rollingNote, w.handwork} {
		if text, ok := say(f); ok {
			return text, true
		}
	}
	return "", false
}

// refused says why the rolls do not take a piece, and what else can be done.
func (w Writer) refused(f rolling.Refused) string {
	why, ways := w.and(f.Why), w.or(f.Ways)
	if why == "" {
		why = "not for these rolls"
	}
	if ways != "" {
		ways = ": " + ways
	}
	return subject(f.Piece) + why + ways
}

// subject leads a sentence on a piece of a part; nothing where the part is the piece.
func subject(piece string) string {
	if piece == "" {
		return ""
	}
	return piece + ": "
}

// and strings facts together.
func (w Writer) and(facts []finding.Fact) string { return w.joined(facts, ", and ") }

// or strings facts together of which one will do.
func (w Writer) or(facts []finding.Fact) string { return w.joined(facts, "; or ") }

func (w Writer) joined(facts []finding.Fact, between string) string {
	var list []string
	for _, f := range facts {
		if f != nil {
			list = append(list, w.Fact(f))
		}
	}
	return strings.Join(list, between)
}

// whyRefused says why the rolls do not take a piece.
func (w Writer) whyRefused(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case rolling.NotSound:
		return "cannot be rolled as given, since a size or a property of its metal is not a number", true
	case rolling.TooTight:
		where := "outside"
		if f.Cone {
			where = "outside at the narrow edge"
		}
		least := "your rolls cannot roll this metal"
		if f.Least > 0 {
			least = "your rolls go no smaller in this metal than " + w.Fine(f.Least)
		}
		return fmt.Sprintf("%s %s, and %s", w.Fine(f.Outside), where, least), true
	case rolling.BeyondReach:
		why := "the back roll cannot reach so far round"
		if f.Wraps {
			why = "the sheet would lie tighter than the roll that it is bent around"
		}
		reach := "set as far as they go they leave this sheet flat"
		if f.Tightest > 0 {
			reach = "the tightest that they can be set to is " + w.Fine(f.Tightest)
		}
		return fmt.Sprintf("too tight for the rolls with a radius of %s to the middle of the sheet, since %s; %s", w.Fine(f.Radius), why, reach), true
	case rolling.TooShort:
		return fmt.Sprintf("%s long the way it is rolled, less than the %s from the pinch to the back roll, so that the rolls do not bend it", w.Fine(f.Around), w.Long(f.Lead)), true
	case rolling.TooSteep:
		return fmt.Sprintf("too steep a cone for its slant of %s, since the radii of its edges differ by %s and the slant of the back roll allows %s", w.Fine(f.Slant), w.Long(f.Differ), w.Long(f.Settable)), true
	case rolling.TooLong:
		return fmt.Sprintf("%s along the rolls, which are %s wide", w.Fine(f.Across), w.Long(f.Width)), true
	case rolling.TooThick:
		return fmt.Sprintf("%s thick: the rolls take no sheet over %s, however narrow", w.Thickness(f.Thickness), w.Thickness(f.Most)), true
	case rolling.Overload:
		return "needs " + w.UsedUp(f.Share) + " of what the rolls are rated for", true
	}
	return "", false
}

// wayRound says what can be done where the rolls do not take a piece.
func (w Writer) wayRound(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case rolling.Split:
		if f.OfPost > 0 {
			return fmt.Sprintf("roll it in courses of %s, %s of the rating each (write courses %d)", w.Fine(f.Each), w.UsedUp(f.Share), f.OfPost), true
		}
		return fmt.Sprintf("split it into %d courses of %s along the rolls, %s of the rating each", f.Courses, w.Fine(f.Each), w.UsedUp(f.Share)), true
	case rolling.Thinner:
		if f.Gauge > 0 {
			return fmt.Sprintf("use %d gauge (%s) or thinner", f.Gauge, w.Thickness(f.Thickness)), true
		}
		return "use sheet of " + w.Thickness(f.Thickness) + " or thinner", true
	case rolling.OverStake:
		return "shape it by hand over a stake", true
	case rolling.OverPipe:
		return "bend it by mallet over a pipe or bar of " + w.Long(f.Outside) + " outside, from which it springs back", true
	case rolling.OverCone:
		return "bend it over a cone or two pipes, line by line, the lines being those to the apex", true
	case rolling.Folds:
		return fmt.Sprintf("make %s on the brake, one every %s", Count(f.Count, "small fold"), w.Long(f.Apart)), true
	case rolling.BuyPipe:
		return fmt.Sprintf("buy standard pipe NPS %s, %s outside (bought pipe %s schedule 40 in the post)", f.NPS, w.Units.Exact(f.Outside), f.NPS), true
	case rolling.BuyRolled:
		return fmt.Sprintf("have it rolled where sheet of %s is rolled up to %s wide, to %s outside", w.Thickness(f.Thickness), w.Fine(f.Across), w.Fine(f.Outside)), true
	}
	return "", false
}

// rollingCare says what to take care of in a batch.
func (w Writer) rollingCare(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case rolling.Bows:
		narrower := ""
		switch {
		case f.OfPost > 0:
			narrower = fmt.Sprintf(", or roll it in courses of %s (write courses %d)", w.Fine(f.Each), f.OfPost)
		case f.Courses > 0:
			narrower = fmt.Sprintf(", or roll it in %d courses of %s", f.Courses, w.Fine(f.Each))
		}
		return fmt.Sprintf("%sbows the back roll by %s if that is a solid bar on two bearings, and comes out about %s larger in diameter in the middle than at its ends; pack the middle with strips of card or thin sheet between back roll and sheet%s",
			subject(f.Piece), w.Units.Exact(f.Sag), w.Long(f.Barrel), narrower), true
	case rolling.Tight:
		return fmt.Sprintf("%sdown to %s outside, tight for rolls of %s: under %s work is hard to close and to slip off", subject(f.Piece), w.Fine(f.Outside), w.Long(f.Roll), w.Long(f.Easy)), true
	case rolling.ShortRun:
		return fmt.Sprintf("%sonly %s long the way it is rolled, and each run leaves %s of it flat at the end that goes in: bend the ends first over a pipe of %s outside", subject(f.Piece), w.Fine(f.Around), w.Long(f.Flat), w.Long(f.Former)), true
	}
	return "", false
}

// care says a rule for work at the rolls.
func care(c rolling.Care) string {
	switch c {
	case rolling.HandsOff:
		return "Rolls draw in fingers, gloves, sleeves and hair: hands off the sheet within a hand's width of the pinch, no gloves at the rolls, and one person controls the crank"
	case rolling.BurrsOff:
		return "Edges of fresh sheet cut: take the burr off before you roll it, and carry it in gloves"
	case rolling.PinchAlike:
		return "Pinch just hard enough to draw the sheet in without slipping, the same at both ends: two strips of paper must pull out equally hard. More pressure marks the sheet and stretches its edges"
	case rolling.WipeRolls:
		return "Wipe rolls and sheet: scale and chips are pressed in"
	case rolling.ZeroIs:
		return "Zero is where the back roll just touches a flat sheet of the same metal held in the pinch, along its whole length. Take up the play of the screws upward: if one went too far, go back a whole turn and come up again"
	case rolling.GrindFirst:
		return "Grind the edges that will be welded clean of scale and burr on both faces first: once it is round the inside is hard to reach"
	case rolling.FaceDown:
		return "Outside face down: the back roll turns the sheet up, and the inside comes up"
	case rolling.TipFirst:
		return "Feed it tip first, its centre line square to the rolls and its bend lines along them; it is bent this one way only"
	case rolling.TurnTips:
		return "Run every piece at a setting from one tip, then from the other, before you move the rolls"
	case rolling.SeamSquare:
		return "The line that will be the tube's axis lies along the rolls: feed it with the seam edge square against the rolls, and check both ends with a rule"
	case rolling.TurnEnds:
		return "Run every piece at a setting from one end, turn it end for end and run it from the other, before you move the rolls; set both screws the same"
	case rolling.TryByCheck:
		return "Roll one piece by itself first, raise the back roll a little at a time until each check is met, and write the settings down: the others follow them"
	case rolling.RunDown:
		return "Less than zero is a screw run down, lower than where the back roll touches the flat sheet"
	case rolling.InAndOut:
		return "Run it in and back out at each setting; check both edges"
	}
	return ""
}

// rollingNote says a note on a card that has figures.
func (w Writer) rollingNote(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case rolling.RunsOff:
		return "A piece as narrow as " + w.Fine(f.Across) + " runs off square: hold it against a fence, in the middle of the rolls", true
	case rolling.FlatEnds:
		return w.flatEnds(f), true
	case rolling.Notches:
		between := ""
		if f.Between {
			between = "; set the last pass between marks, and go by its check"
		}
		return fmt.Sprintf("Screws are set by marks at every 1/%d of a turn: near the end one of them changes the diameter by %s%s", f.Of, w.Fine(f.PerNotch), between), true
	case rolling.TryFirst:
		what := "would come out far off"
		if f.Soft > 0 && f.Hard > 0 {
			what = fmt.Sprintf("would come out of the last setting at %s or %s outside", w.Long(f.Soft), w.Long(f.Hard))
		}
		return fmt.Sprintf("Roll one piece by itself first and correct the settings by it: sheet softer or harder by %s %s. Come to the size from the large side, since over-rolled sheet is hard to open", w.Percent(f.Scatter), what), true
	case rolling.CloseIt:
		gap := "without a gap"
		if f.Gap > 0 {
			gap = "for a gap of " + w.Units.Exact(f.Gap)
		}
		text := fmt.Sprintf("Last, close it: the edges should spring past each other by about the thickness, %s, so that you must draw them apart to tack and the seam does not gape; the blank is cut %s. ", w.Thickness(f.Over), gap)
		if f.PerNotch > 0 {
			text += "One part of a turn moves the edges by " + w.Long(f.PerNotch) + ". "
		}
		return text + "Slip the tube off over the free end of the upper roll", true
	case rolling.BitesOf:
		return fmt.Sprintf("Mark lines to the apex on the inside that divide the sector into %s, %s apart along the wide edge: each line must lie along the upper roll as it comes to the pinch", Count(f.Count, "equal bite"), w.Long(f.Radial)), true
	case rolling.HoldBack:
		return fmt.Sprintf("The narrow edge runs against the stop at its end of the rolls, greased, and is held back: it must go only %s as fast as the wide edge, %s less in all. Release the pinch and straighten the sheet to the next line after every bite", w.Percent(f.Speed), w.Long(f.Back)), true
	case rolling.Slant:
		return fmt.Sprintf("The back roll is set at a slant of %s in the last pass, higher where the narrow edge runs; lifts are given at the edges of the sheet, those at the screws assume that these stand at the ends of the usable width", w.Degrees(f.Tilt)), true
	}
	return "", false
}

// flatEnds says how the ends of a piece come round.
func (w Writer) flatEnds(f rolling.FlatEnds) string {
	text := ""
	if f.Flat > 0 {
		text = "Each run leaves " + w.Long(f.Flat) + " flat at the end that goes in. "
	}
	ends := "Running from both ends bends them, all but the last few thicknesses"
	if f.Cone {
		ends = "A cone is not turned end for end, so bend its ends in another way"
	}
	if f.Former > 0 {
		ends += "; to have them round, bend the ends first by mallet over a pipe up to " + w.Long(f.Former) + " outside"
	}
	if f.Flat > 0 {
		ends += ", or leave " + w.Long(f.Flat) + " more on at each end of the blank and cut it off after"
	}
	return text + ends
}

// handwork says what is done by hand.
func (w Writer) handwork(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case rolling.DomeIt:
		return fmt.Sprintf("Not for the rolls, since it curves both ways: over a stake, in a hollow or on a wheel raise %s across its widest place, to nothing at the tips, and %s from tip to tip, to a template of radius %s for the hollow side, both ways",
			w.Fine(f.Crown), w.Fine(f.Along), w.Fine(f.Inside)), true
	case rolling.EggIt:
		return w.eggIt(f), true
	case rolling.DishIt:
		trim := ""
		if f.Trim > 0 {
			trim = "; then trim off the " + w.Long(f.Trim) + " left on all round"
		}
		return fmt.Sprintf("Not for the rolls, since it curves both ways: dish it %s deep within its finished edge, to a template of radius %s for the hollow side%s",
			w.Fine(f.Crown), w.Fine(f.Inside), trim), true
	}
	return "", false
}

// eggIt says how a blank of an egg is worked. A template cut to the ellipse fits its outside
// along the middle, from end to end.
func (w Writer) eggIt(f rolling.EggIt) string {
	work := ""
	switch f.How {
	case "bend":
		work = fmt.Sprintf("bend it one way only, lengthwise, a little at a time, until it stands %s high from tip to tip", w.Fine(f.Along))
	case "dome":
		work = fmt.Sprintf("over a stake, in a hollow or on a wheel raise %s across its widest place, to nothing at the tips, and %s from tip to tip", w.Fine(f.Crown), w.Fine(f.Along))
	default:
		work = fmt.Sprintf("dish it %s deep within its finished edge", w.Fine(f.Crown))
	}
	trim := ""
	if f.Trim > 0 {
		trim = "; then trim off the " + w.Long(f.Trim) + " left on all round"
	}
	return fmt.Sprintf("Not for the rolls, since it bends to another radius at each place, %s at the equator and %s at its end: %s, to a template cut out to the ellipse of %s by %s for the outside along its middle%s",
		w.Fine(f.Equator), w.Fine(f.End), work, w.Fine(f.Across), w.Fine(f.Tall), trim)
}

// AlongRolls says what of a piece lies along the rolls.
func AlongRolls(a rolling.Along) string {
	switch a {
	case rolling.AlongBends:
		return "the bend lines"
	case rolling.AlongApex:
		return "the lines to the apex"
	}
	return "the axis"
}
