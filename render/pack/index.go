package pack

import (
	"math"
	"slices"
	"strconv"

	"stabile/render/ink"
	"stabile/render/sheet"
)

// An entry is a line of a book's index.
type entry struct {
	what string
	page int
}

// indexed draws a book that flows from sheet to sheet with its index on the first:
// once to learn where all of it comes to stand, then with the index, and again where
// that moves things. A book of one sheet has no index.
func (k *pack) indexed(draw func(index *sheet.Table) []entry) {
	const most = 4 // drawings: the index keeps its height, so that the second is right
	entries := draw(nil)
	if len(k.pages) == 1 {
		return
	}
	for range most {
		k.pages = nil
		again := draw(indexTable(entries, k.benchWidth()))
		if slices.Equal(entries, again) {
			return
		}
		entries = again
	}
}

// indexAbreast is how many entries of an index stand beside each other at most.
const indexAbreast = 4

// indexTable lists what is on which sheet of a book, column by column: in as many as make
// it lowest in a width.
func indexTable(entries []entry, width float64) *sheet.Table {
	best, low := indexIn(entries, 1), math.Inf(1)
	for n := 1; n <= min(indexAbreast, len(entries)); n++ {
		t := indexIn(entries, n)
		if _, high := t.Size(width); high < low && t.Whole(width) {
			best, low = t, high
		}
	}
	return best
}

// indexIn lists the entries in a number of columns.
func indexIn(entries []entry, columns int) *sheet.Table {
	t := &sheet.Table{Title: "Sheets of this book", Tight: true}
	for range columns {
		t.Columns = append(t.Columns, sheet.Column{Header: "Sheet", Align: ink.End}, sheet.Column{Header: "What is on it", Wrap: true})
	}
	down := (len(entries) + columns - 1) / columns
	for i, e := range entries {
		if i < down {
			t.Rows = append(t.Rows, nil)
		}
		t.Rows[i%down] = append(t.Rows[i%down], strconv.Itoa(e.page), e.what)
	}
	return t
}
