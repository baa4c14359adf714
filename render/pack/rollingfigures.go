package pack

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"stabile/fab/finding"
	"stabile/fab/rolling"
	"stabile/render/sheet"
	"stabile/render/words"
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

// mostCards is how many cards stand beside each other in a table.
const mostCards = 6

// cardTable lists batches beside each other: which pieces are rolled to what size, and what
// belongs to each beside its passes.
func (r *rollingSheet) cardTable(cards []int) *sheet.Table {
	t := &sheet.Table{Tight: true, Columns: []sheet.Column{{Header: "Card"}}}
	add := func(name string, value func(b *rolling.Batch) string) {
		row := []string{name}
		said := false
		for _, i := range cards {
			text := value(&r.plan.Batches[i])
			row, said = append(row, cmp.Or(text, "–")), said || text != ""
		}
		if said {
			t.Rows = append(t.Rows, row)
		}
	}
	for _, i := range cards {
		t.Columns = append(t.Columns, sheet.Column{Header: strconv.Itoa(i + 1), Wrap: true})
	}
	add("Pieces", func(b *rolling.Batch) string { return namesOf(b.Pieces) })
	add("Metal", func(b *rolling.Batch) string { return b.Metal.Name })
	add("Roll to", r.wanted)
	add("Along the rolls", func(b *rolling.Batch) string { return words.AlongRolls(b.Along) })
	add("Of what they are rated", r.effort)
	add("Flat end", func(b *rolling.Batch) string { return r.unless0(b.Lead.Flat, "") })
	add("Pipe for ends", func(b *rolling.Batch) string { return r.unless0(b.Lead.Former, "Ø") })
	add("Part of a turn, on Ø", func(b *rolling.Batch) string {
		if b.Of == 0 {
			return ""
		}
		return fmt.Sprintf("1/%d: %s", b.Of, r.fineOrExact(b.PerNotch))
	})
	add("Soft to hard", func(b *rolling.Batch) string {
		lo, hi := b.Spread[0], b.Spread[1]
		if lo <= 0 || hi <= 0 {
			return ""
		}
		return fmt.Sprintf("Ø%s to Ø%s", r.rule(2*lo+b.Metal.Thickness), r.rule(2*hi+b.Metal.Thickness))
	})
	closing := func(of func(b *rolling.Batch, c *rolling.Closing) string) func(b *rolling.Batch) string {
		return func(b *rolling.Batch) string {
			if b.Closing == nil {
				return ""
			}
			return of(b, b.Closing)
		}
	}
	add("Edges past", closing(func(_ *rolling.Batch, c *rolling.Closing) string { return r.fineOrExact(c.Over) }))
	add("Gap", closing(func(_ *rolling.Batch, c *rolling.Closing) string {
		if c.Gap <= noGap {
			return "none"
		}
		return r.fineOrExact(c.Gap)
	}))
	add("Part of a turn, on gap", closing(func(b *rolling.Batch, c *rolling.Closing) string {
		if c.PerNotch <= 0 {
			return ""
		}
		return fmt.Sprintf("1/%d: %s", b.Of, r.fineOrExact(c.PerNotch))
	}))
	cone := func(of func(c *rolling.Cone) string) func(b *rolling.Batch) string {
		return func(b *rolling.Batch) string {
			if b.Cone == nil {
				return ""
			}
			return of(b.Cone)
		}
	}
	add("Bites", cone(func(c *rolling.Cone) string { return fmt.Sprintf("%d of %s", c.Bites, r.rule(c.Radial)) }))
	add("Hold back", cone(func(c *rolling.Cone) string { return r.rule(c.Back) }))
	add("Speed", cone(func(c *rolling.Cone) string { return r.say().Percent(c.Speed) }))
	add("Slant", cone(func(c *rolling.Cone) string {
		if c.Tilt == 0 {
			return ""
		}
		return degrees(math.Abs(c.Tilt))
	}))
	return t
}

// unless0 writes a length after a sign, and nothing for none.
func (r *rollingSheet) unless0(mm float64, sign string) string {
	if mm == 0 {
		return ""
	}
	return sign + r.rule(mm)
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
