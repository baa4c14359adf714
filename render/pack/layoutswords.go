package pack

import (
	"fmt"
	"strconv"
	"strings"

	"stabile/fab/sheets"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// words writes what is to be known before the tables.
func (d *cutDrawing) words(f *sheet.Flow) {
	alike := ""
	if d.Copies > 1 {
		alike = " alike"
	}
	from := words.Count(d.Copies, "sheet")
	if d.Offcut {
		from = words.Count(d.Copies, "offcut") + " at hand"
	}
	f.Heading(fmt.Sprintf("%s: cut %s%s", d.Name, from, alike))
	f.Paragraph(d.facts())
	for _, note := range d.notes() {
		f.Paragraph(note)
	}
	if note := d.slivers(); note != "" {
		f.Paragraph(note)
	}
}

// notes tell what the drawing has no room for, and where else it is found.
func (d *cutDrawing) notes() []string {
	var list []string
	missing, marks := d.nowhere()
	if len(d.details) > 0 {
		var apart, below []string
		for i := range d.details {
			if n := strconv.Itoa(d.details[i].first); d.details[i].below {
				below = append(below, n)
			} else {
				apart = append(apart, n)
			}
		}
		if len(below) > 0 {
			list = append(list, "Drawn larger below, since numbers or marks have no room: what is in hand at "+cutsInWords(below)+".")
		}
		if len(apart) > 0 {
			list = append(list, "Drawn larger on sheets of their own, since numbers or marks have no room here: what is in hand at "+cutsInWords(apart)+".")
		}
	}
	if len(marks) > 0 {
		list = append(list, "Not every piece "+inWords(marks, "or")+" has room for its mark: find it by its size, and by what drops at its cut.")
	}
	if len(missing) > 0 {
		var numbers []string
		for _, n := range missing {
			numbers = append(numbers, strconv.Itoa(n))
		}
		list = append(list, "No room for the number at "+cutsInWords(numbers)+": the table gives the setting and what drops.")
	}
	return list
}

// slivers names the cuts that drop less than a shear parts; "" for none.
func (l *cutSheet) slivers() string {
	var numbers []string
	for i := range l.Cuts {
		if l.Cuts[i].Sliver {
			numbers = append(numbers, strconv.Itoa(l.Cuts[i].Number))
		}
	}
	switch len(numbers) {
	case 0:
		return ""
	case 1:
		return words.Capital(cutsInWords(numbers)) + " drops a sliver that no shear parts cleanly: scribe its line, and file or grind back to it."
	}
	return words.Capital(cutsInWords(numbers)) + " drop slivers that no shear parts cleanly: scribe their lines, and file or grind back to them."
}

// cutsInWords names cuts by their numbers.
func cutsInWords(numbers []string) string {
	if len(numbers) == 1 {
		return "cut " + numbers[0]
	}
	return "cuts " + inWords(numbers, "and")
}

// inWords writes a list as a sentence has it: "A", "A or B", "A, B or C".
func inWords(list []string, last string) string {
	n := len(list)
	if n < 2 {
		return strings.Join(list, "")
	}
	return strings.Join(list[:n-1], ", ") + " " + last + " " + list[n-1]
}

func (l *cutSheet) facts() string {
	s := []string{fmt.Sprintf("%s %s, outside face up", l.sheetSize(l.Sheet), l.unit())}
	if l.Trim > 0 {
		s = append(s, l.length(l.Trim)+" trimmed all round")
	}
	s = append(s, l.say().Percent(l.Used)+" used")
	if l.stack.Way == sheets.ByCutter {
		s = append(s, "by the cutter, of which a cut takes "+l.units.Length(l.stack.Kerf, quantity.Fine))
	}
	if mm := l.byHand(); mm > 0 {
		s = append(s, l.say().Run(mm)+" to cut by hand along curves")
	}
	if l.stack.Count > 0 && l.stack.Bound > 0 {
		s = append(s, "of this metal "+proven(words.Count(l.stack.Count, "sheet"), l.stack))
	}
	return strings.Join(s, "; ") + "."
}

// proven says how many sheets are taken, and how few are proven not to do.
func proven(count string, st *sheets.Stack) string {
	if st.Count == st.Bound {
		return count + " in all, the fewest possible"
	}
	return fmt.Sprintf("%s in all; at least %d are needed", count, st.Bound)
}

// byHand returns the length of edge to be cut by hand on one sheet, in mm.
func (l *cutSheet) byHand() (mm float64) {
	for i := range l.Blocks {
		mm += l.Blocks[i].Curved
	}
	return mm
}

// pieceTable reports what the letters on the drawing mean.
func (l *cutSheet) pieceTable() *sheet.Table {
	t := &sheet.Table{Tight: true, Columns: []sheet.Column{
		{Header: "Mark"}, {Header: "Piece", Wrap: true}, {Header: "Size, " + l.unit()}, {Header: "Edges"}, {Header: "No.", Align: ink.End},
	}}
	for _, c := range l.kinds {
		edges := "straight"
		if c.curved {
			edges = "curved"
		}
		t.Rows = append(t.Rows, []string{c.mark, c.name, l.fine(c.width) + " × " + l.fine(c.length), edges, strconv.Itoa(c.count)})
	}
	return t
}
