package pack

import (
	"fmt"
	"math"
	"slices"

	"stabile/fab/finding"
	"stabile/fab/rolling"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// inFigures reports whether a note of a batch says in words what the figures of
// its card say with the legend of the first sheet.
func inFigures(note finding.Fact) bool {
	switch n := note.(type) {
	case rolling.Notches:
		return !n.Between
	case rolling.FlatEnds, rolling.TryFirst, rolling.CloseIt, rolling.BitesOf, rolling.HoldBack, rolling.Slant:
		return true
	case rolling.Care:
		return n == rolling.RunDown || n == rolling.FaceDown
	}
	return false
}

// figures lists what belongs to a batch beside its passes, on one line.
func (r *rollingSheet) figures(b *rolling.Batch) *sheet.Table {
	t := &sheet.Table{Tight: true, Rows: [][]string{nil}}
	add := func(header, value string) {
		t.Columns = append(t.Columns, sheet.Column{Header: header, Align: ink.End, Wrap: true})
		t.Rows[0] = append(t.Rows[0], value)
	}
	long := r.rule
	if b.Lead.Flat > 0 {
		add("Flat end", long(b.Lead.Flat))
	}
	if b.Lead.Former > 0 {
		add("Pipe for ends", "Ø"+long(b.Lead.Former))
	}
	if b.Of > 0 {
		add(fmt.Sprintf("1/%d turn, on Ø", b.Of), r.fineOrExact(b.PerNotch))
	}
	if lo, hi := b.Spread[0], b.Spread[1]; lo > 0 && hi > 0 {
		add("Soft to hard", fmt.Sprintf("Ø%s to Ø%s", r.rule(2*lo+b.Metal.Thickness), long(2*hi+b.Metal.Thickness)))
	}
	if c := b.Closing; c != nil {
		add("Edges past", r.units.Exact(c.Over))
		gap := "none"
		if c.Gap > noGap {
			gap = r.units.Exact(c.Gap)
		}
		add("Gap", gap)
		if c.PerNotch > 0 {
			add(fmt.Sprintf("1/%d turn, on gap", b.Of), r.fineOrExact(c.PerNotch))
		}
	}
	if c := b.Cone; c != nil {
		add("Bites", fmt.Sprintf("%d of %s", c.Bites, long(c.Radial)))
		add("Hold back", long(c.Back))
		add("Speed", r.say().Percent(c.Speed))
		if c.Tilt != 0 {
			add("Slant", degrees(math.Abs(c.Tilt)))
		}
	}
	if len(t.Columns) == 0 {
		return nil
	}
	return t
}

// noGap is a gap of a seam, in mm, that no blank is cut to.
const noGap = 1e-3

// fineOrExact returns a length as the rule reads it, or as a decimal where it
// reads nothing.
func (k *pack) fineOrExact(mm float64) string {
	if k.fine(mm) == "0" {
		return k.units.Exact(mm)
	}
	return k.fine(mm)
}

// legend says what the figures of the cards mean.
func (r *rollingSheet) legend(f *sheet.Flow) {
	has := func(ok func(b *rolling.Batch) bool) bool {
		return slices.ContainsFunc(r.plan.Batches, func(b rolling.Batch) bool { return ok(&b) })
	}
	t := &sheet.Table{Tight: true, Title: "What the figures of a card mean", Columns: []sheet.Column{{Header: "Figure"}, {Header: "Meaning", Wrap: true}}}
	add := func(name, meaning string) { t.Rows = append(t.Rows, []string{name, meaning}) }
	if has(func(b *rolling.Batch) bool { return b.Of > 0 }) {
		add("Turns", "Of the screws from zero. “More by” is from the pass before. “Down” is lower than zero.")
	}
	if has(func(b *rolling.Batch) bool { return b.Set }) {
		add("Lift", "Of the back roll, upright, from zero.")
	}
	add("Chord, rise", "A straight-edge of that length laid in the hollow, and the height from its middle to the sheet. Inside R is a radius gauge for the hollow.")
	if has(func(b *rolling.Batch) bool { return b.Lead.Flat > 0 }) {
		add("Flat end", "What each run leaves flat at the end that goes in. Running from both ends bends them, all but the last few thicknesses.")
	}
	if has(func(b *rolling.Batch) bool { return b.Lead.Former > 0 }) {
		add("Pipe for ends", "To have the ends round, bend them first by mallet over a pipe up to that size; or leave the flat end more on at each end of the blank and cut it off after. A cone is not turned end for end: its ends must be bent so.")
	}
	if has(func(b *rolling.Batch) bool { return b.Of > 0 }) {
		add("Part of a turn", "What one mark of the screws changes near the end.")
	}
	if has(func(b *rolling.Batch) bool { return b.Spread[0] > 0 && b.Spread[1] > 0 }) {
		add("Soft to hard", "The outside diameter at which sheet "+r.say().Percent(rolling.Scatter)+" softer or harder comes out of the last setting. Roll one piece by itself first and correct the settings by it. Come to the size from the large side: over-rolled sheet is hard to open.")
	}
	if has(func(b *rolling.Batch) bool { return b.Closing != nil }) {
		add("Edges past, gap", "Last, close it: the edges should spring past each other by so much, so that they must be drawn apart to tack, to the gap, and the seam does not gape. Slip the tube off over the free end of the upper roll.")
	}
	if has(func(b *rolling.Batch) bool { return b.Cone != nil }) {
		add("Bites", "Mark lines to the apex on the inside that part the sector in so many bites, that far apart along the wide edge. Each line must lie along the upper roll as it comes to the pinch. After every bite release the pinch and straighten the sheet to the next line.")
		add("Hold back, speed", "The narrow edge runs against the stop at its end of the rolls, greased. It goes only so fast as a share of the wide edge, and is held back by so much in all.")
		add("Slant", "How far the back roll is set at a slant in the last pass, higher where the narrow edge runs. The lifts hold at the edges of the sheet; the turns take the screws to stand at the ends of the usable width.")
	}
	f.Table(t)
	f.Paragraph("How to work at the rolls, and the figures of flat ends, soft to hard and edges past: common practice, no source.")
}
