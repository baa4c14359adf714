package sheet

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// A Flow writes headings, paragraphs, lists and tables under each other, and
// goes on in the next box when one is full: a column on the same sheet, or a
// new sheet.
type Flow struct {
	next  func() (*ink.Sheet, r2.Box)
	sheet *ink.Sheet
	box   r2.Box
	y     float64 // what is above is written on
	fresh bool    // nothing is written in the box yet
	gap   float64 // that is left free before what is written next
	err   error
}

// NewFlow returns a flow that asks next for its first box and for each after.
func NewFlow(next func() (*ink.Sheet, r2.Box)) *Flow {
	f := &Flow{next: next}
	f.Break()
	return f
}

// Break goes on in the next box.
func (f *Flow) Break() {
	f.sheet, f.box = f.next()
	f.y = f.box.Max.Y
	f.fresh, f.gap = true, 0
}

// Err returns the first thing that found no room even in a box of its own.
func (f *Flow) Err() error { return f.err }

// Rest returns the sheet and what is left free of the box.
func (f *Flow) Rest() (*ink.Sheet, r2.Box) {
	f.space()
	return f.sheet, Box(f.box.Min.X, f.box.Min.Y, f.box.Max.X, max(f.y, f.box.Min.Y))
}

// Gap leaves a distance free, in mm, but not at the top of a box. Of gaps that follow each
// other the greatest counts.
func (f *Flow) Gap(distance float64) {
	if !f.fresh {
		f.gap = max(f.gap, distance)
	}
}

// space leaves the gap free that is due.
func (f *Flow) space() {
	f.y -= f.gap
	f.gap = 0
}

// Need goes on in the next box where less than a height, in mm, is left.
func (f *Flow) Need(height float64) {
	if !f.fresh && f.y-f.gap-height < f.box.Min.Y {
		f.Break()
	}
}

// Take takes a height, in mm, at the top of what Rest returned, for what was
// drawn there.
func (f *Flow) Take(height float64) {
	f.y -= height
	f.fresh = false
}

// Keep keeps the box in hand above a height on its sheet, in mm.
func (f *Flow) Keep(bottom float64) { f.box.Min.Y = max(f.box.Min.Y, bottom) }

// keep is how many lines a heading must have under it in its box.
const keep = 3

// Heading writes a heading. It stays with what follows.
func (f *Flow) Heading(text string) {
	f.Gap(Small)
	lines := Wrap(text, f.width(), Medium, ink.Bold)
	f.Need(blockHeight(len(lines), Medium) + 2 + float64(keep)*LineHeight(Small))
	f.write(text, 0, Medium, ink.Bold)
	f.Gap(1)
}

// Paragraph writes a text in the full width.
func (f *Flow) Paragraph(text string) {
	f.write(text, 0, Small, ink.Regular)
	f.Gap(2)
}

// markWidth is the room for the mark of an item, in mm: enough for "12.".
const markWidth = 8

// Item writes one item of a list, its mark, such as "1." or "–", hanging at the
// left. The mark may be bold to catch the eye.
func (f *Flow) Item(mark string, face ink.Face, text string) {
	indent := max(markWidth, ink.Width(mark, Small, face)+2)
	lines := Wrap(text, f.width()-indent, Small, ink.Regular)
	f.Need(blockHeight(min(len(lines), 2), Small) + descent*Small)
	f.space()
	writeLines(f.sheet, []string{mark}, f.box.Min.X, f.y, Small, face, ink.Start)
	f.write(text, indent, Small, ink.Regular)
	f.Gap(1)
}

func (f *Flow) width() float64 { return f.box.Max.X - f.box.Min.X }

// write writes a text in lines, the top of the first's capitals at y, and leaves y a
// descender under the last. Where it goes on in a box of another width, so do its
// lines.
func (f *Flow) write(text string, indent, height float64, face ink.Face) {
	width := f.width()
	lines := Wrap(text, width-indent, height, face)
	for len(lines) > 0 {
		f.Need(height * (1 + descent))
		f.space()
		if w := f.width(); w != width {
			width = w
			lines = Wrap(strings.Join(lines, " "), width-indent, height, face)
		}
		if f.y-height*(1+descent) < f.box.Min.Y {
			f.fail(fmt.Sprintf("%q", lines[0]))
			return
		}
		writeLines(f.sheet, lines[:1], f.box.Min.X+indent, f.y, height, face, ink.Start)
		f.y -= LineHeight(height)
		f.fresh = false
		lines = lines[1:]
	}
}

// tableGap is left free under a table, in mm.
const tableGap = Small

// Table draws a table, on as many boxes as it needs.
func (f *Flow) Table(t *Table) {
	for t != nil {
		sheet, box := f.Rest()
		if !f.fresh && !t.begins(box) {
			f.Break()
			continue
		}
		used, rest := t.Draw(sheet, box)
		if rest == t {
			if f.fresh {
				f.fail(fmt.Sprintf("table %q", t.Title))
				return
			}
			f.Break()
			continue
		}
		f.y, f.fresh = used.Min.Y, false
		if rest != nil {
			f.Break()
		}
		t = rest
	}
	f.Gap(tableGap)
}

func (f *Flow) fail(what string) {
	if f.err == nil {
		f.err = fmt.Errorf("sheet %s: no room for %s", f.sheet.Name, what)
	}
}

// besideGap is the distance between two tables that stand side by side, in mm.
const besideGap = 8

// Beside draws tables beside each other where they go on what is left of the box and take
// less of it so, the first as narrow as that needs, else one under the other.
func (f *Flow) Beside(tables ...*Table) {
	_, box := f.Rest()
	room, height := f.width(), box.Max.Y-box.Min.Y
	widths := make([]float64, len(tables))
	wide, high, all := -float64(besideGap), 0.0, 0.0
	for i, t := range tables {
		w, h := t.Size(room)
		widths[i] = w
		wide += w + besideGap
		high = max(high, h)
		all += h
	}
	if over := wide - room; over > 0 && len(tables) > 1 && tables[0].Whole(widths[0]-over) {
		widths[0] -= over
		wide = room
		_, h := tables[0].Size(widths[0])
		high = max(high, h)
	}
	if len(tables) < 2 || wide > room+wrapSlack || high > height || high > all {
		for _, t := range tables {
			f.Table(t)
		}
		return
	}
	sheet, box := f.Rest()
	for i, t := range tables {
		column := box
		column.Max.X = min(box.Min.X+widths[i]+wrapSlack, box.Max.X)
		used, _ := t.Draw(sheet, column)
		box.Min.X = used.Max.X + besideGap
	}
	f.Take(high)
	f.Gap(tableGap)
}
