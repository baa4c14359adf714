package pack

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// A family is gores of one ball that differ only in how their ends are opened: the
// first is drawn with the table of half widths, which is that of all; the others share
// a panel, each with its outline, its marks and its measures.

// ofFamily reports whether a blank differs from another only in how it is opened.
func (b *blankPanel) ofFamily(first *blankPanel) bool {
	if b.Shape != flat.Gore || first.Shape != flat.Gore || b.Part != first.Part || len(b.Ordinates) == 0 || len(first.Ordinates) == 0 {
		return false
	}
	a, c := first.Ordinates[0].Stations, b.Ordinates[0].Stations
	n := min(len(a), len(c)) - 1 // the last is where the metal ends
	return n > 0 && slices.Equal(a[:n], c[:n])
}

// gathered returns panels with those of a family behind its first in one.
func gathered(list []*blankPanel, free r2.Box) []*blankPanel {
	var out []*blankPanel
	done := map[*blankPanel]bool{}
	for i := 0; i < len(list); {
		first := list[i]
		if done[first] {
			i++
			continue
		}
		if tubes := first.tubesLike(list[i:], free); len(tubes) > 1 {
			out = append(out, first.familyOf(tubes))
			for _, v := range tubes {
				done[v] = true
			}
			continue
		}
		n := i + 1
		for n < len(list) && list[n].ofFamily(first) {
			n++
		}
		out = append(out, first)
		if others := list[i+1 : n]; len(others) == 1 {
			out = append(out, others[0])
		} else if len(others) > 1 {
			f := *others[0]
			f.family = others
			f.table = f.openingTable()
			out = append(out, &f)
		}
		i = n
	}
	return out
}

// Measures of the outlines of a family, in mm.
const (
	familyTall = 58.0 // of the longest
	familySide = 3.5  // between two
	familyFoot = 15.0 // under each, for its name and its size
)

// familyScale is the scale of the outlines of a family.
func (b *blankPanel) familyScale() sheet.Scale {
	w, h := 0.0, 0.0
	for _, v := range b.family {
		w, h = max(w, v.width), max(h, v.length)
	}
	return sheet.ChooseScale(w, h, 60, familyTall, b.units)
}

// cells returns how wide and high the cell of each outline is, and how many stand in a
// row.
func (b *blankPanel) cells(width float64) (size r2.Vec, columns int) {
	s := b.familyScale().Factor
	for _, v := range b.family {
		size.X = max(size.X, v.width*s, ink.Width(v.Blank.Name, sheet.Small, ink.Bold), ink.Width(v.sizeOf(), sheet.Small, ink.Regular))
		size.Y = max(size.Y, v.length*s)
	}
	size = r2.Vec{X: size.X + familySide, Y: size.Y + familyFoot + 2}
	return size, max(1, int((width+familySide)/size.X))
}

func (b *blankPanel) sizeOf() string { return b.fine(b.Width) + " × " + b.fine(b.Length) }

// familyHeight is the height that the panel of a family needs under its head.
func (b *blankPanel) familyHeight(width float64) float64 {
	if b.Shape == flat.Tube {
		return b.tubesHeight(width)
	}
	size, columns := b.cells(width)
	rows := (len(b.family) + columns - 1) / columns
	height := float64(rows)*size.Y + wordsHeight(width, b.familyWords) + columnGap
	if b.table != nil {
		t := *b.table
		used, _ := t.Draw(&ink.Sheet{}, sheet.Box(0, -1e4, width, 0))
		height += -used.Min.Y + columnGap
	}
	return height
}

// drawFamily draws the outlines of a family in rows, and under them how their ends are
// laid out.
func (b *blankPanel) drawFamily(s *ink.Sheet, box r2.Box) {
	if b.Shape == flat.Tube {
		b.drawTubes(s, box)
		return
	}
	size, columns := b.cells(box.Max.X - box.Min.X)
	scale := b.familyScale().Factor
	bottom := box.Max.Y
	for i, v := range b.family {
		x := box.Min.X + float64(i%columns)*size.X
		top := box.Max.Y - float64(i/columns)*size.Y
		cell := sheet.Box(x, top-size.Y, x+size.X-familySide/2, top)
		bottom = cell.Min.Y
		f := flatDrawing{pack: b.pack, blank: v.Blank, draw: draft.New(b.style, cell), scale: scale, lo: v.lo, hi: v.hi, place: cell}
		middle := (cell.Min.X + cell.Max.X) / 2
		corner := r2.Vec{X: middle - v.width*scale/2, Y: cell.Max.Y - 2 - v.length*scale}
		f.origin = r2.Sub(corner, r2.Scale(scale, v.lo))
		f.box = sheet.Box(corner.X, corner.Y, corner.X+v.width*scale, corner.Y+v.length*scale)
		f.outline()
		f.cutHoles()
		f.standings()
		f.marks()
		s.Add(f.draw.Items...)
		y := cell.Min.Y + familyFoot - 8
		for k, text := range [2]string{v.Blank.Name, v.sizeOf()} {
			face := ink.Bold
			if k > 0 {
				face = ink.Regular
			}
			s.Add(&ink.Text{At: r2.Vec{X: middle, Y: y}, Height: sheet.Small, Anchor: ink.Middle, Face: face, Text: text})
			y -= sheet.LineHeight(sheet.Small)
		}
	}
	rest := sheet.Box(box.Min.X, box.Min.Y, box.Max.X, bottom)
	f := sheet.NewFlow(func() (*ink.Sheet, r2.Box) { return s, rest })
	if b.table != nil {
		f.Table(b.table)
	}
	b.familyWords(f)
}

// familyWords says what holds for the pieces of a family.
func (b *blankPanel) familyWords(f *sheet.Flow) {
	f.Item("–", ink.Regular, "Lay out by the half widths of "+b.Part+" before; then cut the ends as shown. The sizes are over all, across and along.")
	said := map[string]bool{}
	for _, v := range b.family {
		v.holePlaces(func(text string) {
			if !said[text] {
				said[text] = true
				f.Item("–", ink.Regular, text)
			}
		})
		v.notes(true, func(text string) {
			if !said[text] {
				said[text] = true
				f.Item("–", ink.Regular, text)
			}
		})
	}
}

// openingTable lists the points of the opened ends of a family; nil where none is laid
// out by points.
func (b *blankPanel) openingTable() *sheet.Table {
	t := &sheet.Table{Title: "Ends: right of the centre line / along from the middle, " + b.unit(), Tight: true, Columns: []sheet.Column{{Header: "Piece"}, {Header: "End"}}}
	for i := range openingPoints + 1 {
		t.Columns = append(t.Columns, sheet.Column{Header: string(rune('a' + i)), Align: ink.End})
	}
	for _, v := range b.family {
		for _, e := range v.openedEnds() {
			t.Rows = append(t.Rows, append([]string{v.Blank.Name, e.end}, e.points...))
		}
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return t
}
