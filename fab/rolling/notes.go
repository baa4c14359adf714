package rolling

import (
	"fmt"
	"math"
	"slices"

	"stabile/param/quantity"
)

// always returns what holds for every card. All of it is common practice, no
// source.
func (pl *planner) always() []string {
	list := []string{
		"Rolls draw in fingers, gloves, sleeves and hair: hands off the sheet within a hand's width of the pinch, no gloves at the rolls, and one person alone turns the crank and says so",
		"Edges of fresh sheet cut: take the burr off before it is rolled, and carry it in gloves",
		"Pinch just hard enough that the sheet is drawn in without slipping, alike at both ends: two strips of paper must pull out equally hard. More pressure marks the sheet and stretches its edges",
		"Wipe rolls and sheet: scale and chips are pressed in",
	}
	if slices.ContainsFunc(pl.Batches, func(b Batch) bool { return b.Set }) {
		list = append(list, "Zero is where the back roll just touches a flat sheet of the same metal held in the pinch, along its whole length. Take up the play of the screws upward: if one went too far, go back a whole turn and come up again")
	}
	return list
}

// notes returns what the card of a batch must say beside its table.
func (pl *planner) notes(b *Batch) []string {
	list := make([]string, 0, 12)
	say := func(format string, args ...any) { list = append(list, fmt.Sprintf(format, args...)) }
	first := &b.Pieces[0]

	say("Grind the edges that will be welded clean of scale and burr on both faces first: once it is round the inside is hard to reach")
	say("%s: the back roll turns the sheet up, and the inside comes up", b.Face)
	switch {
	case b.Cone != nil:
		pl.coneNotes(b, say)
	case first.Strip:
		say("Feed it tip first, its centre line square to the rolls and its bend lines along them; it is bent this one way only")
		say("Run every piece at a setting from one tip, then from the other, before the rolls are moved")
	default:
		say("The line that will be the tube's axis lies along the rolls: feed it with the seam edge square against the rolls, and check both ends with a rule")
		say("Run every piece at a setting from one end, turn it end for end and run it from the other, before the rolls are moved; both screws always alike")
	}
	if strip := narrowest(b); strip.Across < narrow*strip.Around && b.Cone == nil {
		say("A piece as narrow as %s runs off square: hold it against a fence, in the middle of the rolls", pl.length(strip.Across))
	}
	pl.leadNotes(b, say)
	if b.Of > 0 {
		between := ""
		if b.PerNotch/2 > fine*(2*b.Radius+b.Metal.Thickness) {
			between = "; set the last pass between marks, and go by its check"
		}
		say("Screws are set by marks at every 1/%d of a turn: near the end one of them changes the diameter by %s%s", b.Of, pl.fine(b.PerNotch), between)
	}
	if lo, hi := b.Spread[0], b.Spread[1]; b.Set {
		t := b.Metal.Thickness
		what := "would come out far off"
		if lo > 0 && hi > 0 {
			what = fmt.Sprintf("would come out of the last setting at %s or %s outside", pl.length(2*lo+t), pl.length(2*hi+t))
		}
		say("Roll one piece by itself first and correct the settings by it: sheet softer or harder by %s %s. Come to the size from the large side, since over-rolled sheet is hard to open", percent(Scatter), what)
	} else {
		say("Roll one piece by itself first, raise the back roll a little at a time until each check is met, and write the settings down: the others follow them")
	}
	if c := b.Closing; c != nil {
		gap := "without a gap"
		if c.Gap > settled {
			gap = "for a gap of " + pl.Units.Exact(c.Gap)
		}
		say("Last, close it: the edges should spring past each other by about the thickness, %s, so that they must be drawn apart to tack and the seam does not gape; the blank is cut %s",
			pl.Units.Exact(c.Over), gap)
		if c.PerNotch > 0 {
			say("One part of a turn moves the edges by %s. Slip the tube off over the free end of the upper roll", pl.length(c.PerNotch))
		} else {
			say("Slip the tube off over the free end of the upper roll")
		}
	}
	return list
}

// leadNotes says how the ends come round.
func (pl *planner) leadNotes(b *Batch, say func(string, ...any)) {
	if b.Lead.Flat > 0 {
		say("Each run leaves %s flat at the end that goes in", pl.length(b.Lead.Flat))
	}
	ends := "Running from both ends bends them, all but the last few thicknesses"
	if b.Cone != nil {
		ends = "A cone is not turned end for end, so its ends must be bent otherwise"
	}
	if b.Lead.Former > 0 {
		ends += fmt.Sprintf("; to have them round, bend the ends first by mallet over a pipe up to %s outside", pl.length(b.Lead.Former))
	}
	if b.Lead.Flat > 0 {
		ends += fmt.Sprintf(", or leave %s more on at each end of the blank and cut it off after", pl.length(b.Lead.Flat))
	}
	say("%s", ends)
}

// coneNotes says how a cone is held.
func (pl *planner) coneNotes(b *Batch, say func(string, ...any)) {
	c := b.Cone
	say("Mark lines to the apex on the inside that part the sector in %d equal bites, %s apart along the wide edge: each line must lie along the upper roll as it comes to the pinch", c.Bites, pl.length(c.Radial))
	say("The narrow edge runs against the stop at its end of the rolls, greased, and is held back: it must go only %s as fast as the wide edge, %s less in all. Let go the pinch and straighten the sheet to the next line after every bite",
		percent(c.Speed), pl.length(c.Back))
	if c.Tilt != 0 {
		say("The back roll stands aslant by %s in the last pass, higher where the narrow edge runs; the lifts given at the edges of the sheet hold, those at the screws take them to stand at the ends of the usable width", quantity.Degrees(math.Abs(c.Tilt)))
	}
	if slices.ContainsFunc(b.Passes, func(p Pass) bool { return p.Screws[1].Travel < 0 }) {
		say("Less than nothing is a screw run down, lower than where the back roll touches the flat sheet")
	}
	say("Run it in and back out at each setting; check both edges")
}

// narrow is the width of a piece, as a share of its length through the rolls,
// under which it does not find its way straight by itself; common practice, no
// source.
const narrow = 0.25

func narrowest(b *Batch) *Piece {
	least := &b.Pieces[0]
	for i := range b.Pieces {
		if p := &b.Pieces[i]; p.Across/p.Around < least.Across/least.Around {
			least = p
		}
	}
	return least
}
