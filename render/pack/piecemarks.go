package pack

import (
	"slices"
	"strings"

	"stabile/fab/flat"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// mostTold is the number of pieces of which each mark is given by its measures; of more the
// files of the pieces have them.
const mostTold = 12

// marksOfPieces returns where the marks are that single pieces of a gore or a disc have:
// how far they reach across from the centre line, and along from the middle, so that a
// rule finds them; nil for none. Where they are too many for a table, many is true.
func (b *blankPanel) marksOfPieces() (t *sheet.Table, many bool) {
	if b.single == nil {
		b.single = &singles{}
		b.single.table, b.single.many = b.singleMarks()
	}
	return b.single.table, b.single.many
}

// singles are the marks of single pieces of a blank.
type singles struct {
	table *sheet.Table
	many  bool
}

func (b *blankPanel) singleMarks() (t *sheet.Table, many bool) {
	if b.Shape != flat.Gore && b.Shape != flat.Disc {
		return nil, false
	}
	end := func(header string) sheet.Column { return sheet.Column{Header: header, Align: ink.End} }
	t = &sheet.Table{Tight: true, Columns: []sheet.Column{end("Piece"), {Header: "What", Wrap: true}, end("Left"), end("Right"), end("Low"), end("High")}}
	alike := ""
	var pieces [][]int // of each row: those whose mark is the same
	for _, piece := range markedPieces(b.Blank) {
		for i := range b.Marks {
			m := &b.Marks[i]
			if m.Piece != piece || m.Kind != flat.Standing {
				continue
			}
			lo, hi := bounds(markPath(m))
			row := []string{"", m.Part, b.signed(lo.X), b.signed(hi.X), b.signed(lo.Y - b.start()), b.signed(hi.Y - b.start())}
			if n := slices.IndexFunc(t.Rows, func(r []string) bool { return slices.Equal(r, row) }); n >= 0 {
				pieces[n] = append(pieces[n], piece)
				continue
			}
			t.Rows, pieces = append(t.Rows, row), append(pieces, []int{piece})
			if len(t.Rows) > 1 && m.Part != alike {
				alike = "\n" // no name
			} else {
				alike = m.Part
			}
		}
	}
	for n, list := range pieces {
		t.Rows[n][0] = words.Runs(list)
	}
	t.Title = "Marks by piece, " + b.unit()
	if alike != "" && alike != "\n" {
		t.Title = alike + " stands here, " + b.unit()
		t.Columns = slices.Delete(t.Columns, 1, 2)
		for i, r := range t.Rows {
			t.Rows[i] = slices.Delete(r, 1, 2)
		}
	}
	switch {
	case len(t.Rows) == 0:
		return nil, false
	case len(t.Rows) > mostTold:
		return nil, true
	}
	return t, false
}

// signed returns a length of a flat with its sign, which stands apart from the hyphen of a
// mixed number.
func (k *pack) signed(mm float64) string { return withSign(mm, k.fine(max(mm, -mm))) }

// withSign puts the sign of a number before what its size is written as.
func withSign(x float64, size string) string {
	switch {
	case strings.Trim(size, "0.") == "":
		return size
	case x < 0:
		return "−\u00a0" + size
	}
	return "+\u00a0" + size
}
