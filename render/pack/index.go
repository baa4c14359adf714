package pack

import (
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
// that moves things.
func (k *pack) indexed(draw func(index *sheet.Table) []entry) {
	const most = 4 // drawings: the index keeps its height, so that the second is right
	entries := draw(nil)
	for range most {
		k.pages = nil
		again := draw(indexTable(entries))
		if slices.Equal(entries, again) {
			return
		}
		entries = again
	}
}

// indexTable lists what is on which sheet of a book.
func indexTable(entries []entry) *sheet.Table {
	t := &sheet.Table{Title: "Sheets of this book", Tight: true, Columns: []sheet.Column{{Header: "Sheet", Align: ink.End}, {Header: "What is on it"}}}
	for _, e := range entries {
		t.Rows = append(t.Rows, []string{strconv.Itoa(e.page), e.what})
	}
	return t
}
