package pack

import (
	"fmt"
	"strconv"

	"stabile/fab/layout"
	"stabile/fab/sheets"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// A cutRow is one line of the table of cuts: a cut, or several one after the
// other at one setting that drop the like.
type cutRow struct {
	take        string // what to take up, or how to turn what is in hand; "" to go on
	edge        string // that goes against the stop
	first, last int    // numbers of the cuts
	stop        string
	drops       string
	stays       string // what is left in hand at the end; "" to go on
}

// cutRows puts the cuts of a layout in words.
func (l *cutSheet) cutRows() []cutRow {
	var rows []cutRow
	for i := range l.Cuts {
		c := &l.Cuts[i]
		r := cutRow{
			take: l.take(i), edge: edgeOf(c), first: c.Number, last: c.Number,
			stop: l.setting(c), drops: l.outcome(c.Drop, c.Trim), stays: l.stays(i),
		}
		if n := len(rows) - 1; n >= 0 && r.take == "" && rows[n].stays == "" &&
			rows[n].edge == r.edge && rows[n].stop == r.stop && rows[n].drops == r.drops && l.content(c.Drop) != "" {
			rows[n].last, rows[n].stays = r.last, r.stays
			continue
		}
		rows = append(rows, r)
	}
	return rows
}

// setting writes what a cut is set to: the stop, or a line to scribe where the stop
// does not go so far.
func (l *cutSheet) setting(c *sheets.Cut) string {
	if c.Scribed {
		return "scribe " + l.stop(c.Stop)
	}
	return l.stop(c.Stop)
}

// stop writes the setting of a stop: as a rule reads it, and a hair that no rule
// shows as a decimal, so that none reads as nothing.
func (l *cutSheet) stop(mm float64) string {
	text := l.fine(mm)
	if text != "0" {
		return text
	}
	if l.units == quantity.Inch {
		mm /= 25.4
	}
	return quantity.Decimal(mm, 3)
}

// edgeOf names the edge of the part in hand that goes against the stop.
func edgeOf(c *sheets.Cut) string {
	switch {
	case c.Upright && c.High:
		return "right"
	case c.Upright:
		return "left"
	case c.High:
		return "top"
	}
	return "bottom"
}

// goesOn reports whether a cut is of what the one before it left in hand.
func (l *cutSheet) goesOn(i int) bool {
	return i > 0 && i < len(l.Cuts) && sameRect(l.Cuts[i-1].Keep, l.Cuts[i].Hand)
}

// take says what to take up for a cut, or how to turn what is in hand.
func (l *cutSheet) take(i int) string {
	c := &l.Cuts[i]
	if l.goesOn(i) {
		before := &l.Cuts[i-1]
		switch {
		case before.Upright != c.Upright:
			return "turn a quarter"
		case before.High != c.High:
			return "turn end for end"
		}
		return ""
	}
	for k := i - 1; k >= 0; k-- {
		switch {
		case sameRect(l.Cuts[k].Drop, c.Hand):
			return fmt.Sprintf("strip of %d", l.Cuts[k].Number)
		case sameRect(l.Cuts[k].Keep, c.Hand):
			return fmt.Sprintf("rest of %d", l.Cuts[k].Number)
		}
	}
	return "the sheet"
}

// outcome says what a rectangle is that comes free.
func (l *cutSheet) outcome(r layout.Rect, trim bool) string {
	if s := l.content(r); s != "" {
		return s
	}
	for i := range l.Cuts {
		if sameRect(l.Cuts[i].Hand, r) {
			return fmt.Sprintf("strip → %d", l.Cuts[i].Number)
		}
	}
	// An offcut may still have its untrimmed edges.
	for _, left := range l.Left {
		if inRect(left, r) && l.useful(left) {
			return "offcut"
		}
	}
	if trim {
		return "trim"
	}
	return "scrap"
}

// stays says what is left in hand after a cut; nothing where the next goes on
// with it.
func (l *cutSheet) stays(i int) string {
	keep := l.Cuts[i].Keep
	if l.goesOn(i+1) || !(keep.Width > 0 && keep.Height > 0) {
		return ""
	}
	return l.outcome(keep, false)
}

// cutTable lists the cuts in order.
func (l *cutSheet) cutTable() *sheet.Table {
	if len(l.Cuts) == 0 {
		return nil
	}
	t := &sheet.Table{
		Title: "Cuts, in order", Tight: true,
		Columns: []sheet.Column{
			{Header: "Take"}, {Header: "To stop"}, {Header: "Cut", Align: ink.End}, {Header: "Stop, " + l.unit(), Align: ink.End},
			{Header: "Drops", Wrap: true}, {Header: "Stays", Wrap: true},
		},
	}
	if l.stack.Way == sheets.ByCutter {
		t.Columns[1].Header, t.Columns[3].Header = "From edge", "Distance, "+l.unit()
	}
	for _, r := range l.cutRows() {
		number := strconv.Itoa(r.first)
		if r.last > r.first {
			number += "–" + strconv.Itoa(r.last)
		}
		t.Rows = append(t.Rows, []string{r.take, r.edge, number, r.stop, r.drops, r.stays})
	}
	return t
}
