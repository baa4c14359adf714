package pack

import (
	"fmt"
	"math"

	"stabile/fab/flat"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// layoutTable returns the table from which a blank is laid out, or nil where
// the dimensions on the drawing are enough.
func (k *pack) layoutTable(c *flat.Blank) *sheet.Table {
	switch {
	case len(c.Ordinates) > 0:
		return k.ordinates(c)
	case c.Diameter > 0 && len(c.Holes) > 0 && len(c.Feet) == 0:
		return k.holes(c)
	}
	return k.feetTable(c)
}

// column adds a column of lengths to a table: in the shop's fractions and in
// mm, or in mm alone.
func (k *pack) column(t *sheet.Table, header string) {
	if k.units == quantity.Inch {
		t.Columns = append(t.Columns, sheet.Column{Header: header + ", in", Align: ink.End}, sheet.Column{Header: "mm", Align: ink.End})
		return
	}
	t.Columns = append(t.Columns, sheet.Column{Header: header, Align: ink.End})
}

// cells adds the cells of a length to a row.
func (k *pack) cells(row []string, mm float64) []string {
	if k.units == quantity.Inch {
		row = append(row, k.fine(mm))
	}
	return append(row, plainZero(fmt.Sprintf("%.1f", mm)))
}

// plainZero returns a number without the sign of a negative zero.
func plainZero(s string) string {
	if s == "-0.0" {
		return "0.0"
	}
	return s
}

// holes returns the table of the holes of a round plate.
func (k *pack) holes(c *flat.Blank) *sheet.Table {
	t := &sheet.Table{Title: "Holes from the centre", Tight: true, Columns: []sheet.Column{{Header: "Hole", Align: ink.End}}}
	k.column(t, "Diameter")
	k.column(t, "Right")
	k.column(t, "Up")
	t.Columns = append(t.Columns, sheet.Column{Header: "Bearing", Align: ink.End})
	for i, h := range c.Holes {
		row := k.cells([]string{fmt.Sprint(i + 1)}, h.Diameter)
		row = k.cells(k.cells(row, h.Center.X), h.Center.Y)
		t.Rows = append(t.Rows, append(row, bearing(math.Atan2(h.Center.Y, h.Center.X))))
	}
	return t
}

// ordinates returns the table from which curved edges are laid out.
func (k *pack) ordinates(c *flat.Blank) *sheet.Table {
	first := &c.Ordinates[0]
	t := &sheet.Table{Title: "Ordinates", Tight: true}
	t.Columns = append(t.Columns, sheet.Column{Header: "Stn", Align: ink.End})
	tube := c.Shape == flat.Tube || c.Shape == flat.Sector
	if tube {
		t.Columns = append(t.Columns, sheet.Column{Header: "Bearing", Align: ink.End})
	}
	along := "Along"
	if tube {
		along = "Around"
	}
	k.column(t, along)
	for _, o := range c.Ordinates {
		k.column(t, words.Capital(string(o.Edge)))
	}
	for i, s := range first.Stations {
		if !listed(c, s) {
			continue
		}
		row := []string{fmt.Sprint(i)}
		if tube {
			row = append(row, bearing(s.Bearing))
		}
		row = k.cells(row, s.At)
		for _, o := range c.Ordinates {
			if i < len(o.Stations) {
				row = k.cells(row, o.Stations[i].Ordinate)
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
