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

// indexAbreast is how many entries of an index stand beside each other.
const indexAbreast = 3

// indexTable lists what is on which sheet of a book, column by column.
func indexTable(entries []entry) *sheet.Table {
	t := &sheet.Table{Title: "Sheets of this book", Tight: true}
	abreast := min(indexAbreast, len(entries))
	for range abreast {
		t.Columns = append(t.Columns, sheet.Column{Header: "Sheet", Align: ink.End}, sheet.Column{Header: "What is on it", Wrap: true})
	}
	down := (len(entries) + indexAbreast - 1) / indexAbreast
	for i, e := range entries {
		if i < down {
			t.Rows = append(t.Rows, nil)
		}
		t.Rows[i%down] = append(t.Rows[i%down], strconv.Itoa(e.page), e.what)
	}
	return t
}
