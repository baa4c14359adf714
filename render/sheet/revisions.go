package sheet

import (
	"strings"

	"stabile/param/design"
	"stabile/render/ink"
)

// mostRevisions is how many revisions have a line of their own over a title block.
const mostRevisions = 6

// Widths in mm of the columns of the revisions. What changed takes the rest.
const (
	letterColumn = 20.0
	dateColumn   = 30.0
)

// revisionRows returns the rows of the revisions, the last on top. The captions stand
// in the first. Those that have no room are named together in the last.
func revisionRows(list []design.Revision, width float64) []row {
	var rows []row
	add := func(letter, date, text string) {
		wide := width - letterColumn - dateColumn
		note := Wrap(text, wide-2*cellPadding, Small, ink.Regular)
		cells := []cell{
			fitted(letterColumn, "Revision", letter, Small, ink.Bold),
			fitted(dateColumn, "Date", date, Small, ink.Regular),
			{width: wide, caption: "Change", lines: note, height: Small},
		}
		height := rowOf(len(note), Small)
		if len(rows) > 0 {
			for i := range cells {
				cells[i].close = true
			}
			height = 2*cellPadding + Small + float64(max(len(note), 1)-1)*LineHeight(Small)
		}
		rows = append(rows, row{height, cells})
	}
	last := len(list) - 1
	for i := last; i >= 0 && i > last-mostRevisions; i-- {
		add(list[i].Letter, list[i].Date, list[i].Note)
	}
	if earlier := list[:max(0, len(list)-mostRevisions)]; len(earlier) > 0 {
		letters := make([]string, len(earlier))
		for i, r := range earlier {
			letters[i] = r.Letter
		}
		add("", "", "Earlier: "+strings.Join(letters, ", "))
	}
	return rows
}
