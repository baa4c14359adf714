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
	case c.Diameter > 0 && len(c.Holes) > 0 && len(c.Feet) == 0 && c.Holes[0].Name == "":
		return k.holes(c)
	}
	return k.feetTable(c)
}

// column adds a column of lengths to a table, whose title has the unit.
func (k *pack) column(t *sheet.Table, header string) {
	t.Columns = append(t.Columns, sheet.Column{Header: header, Align: ink.End})
}

// cell writes a length of a flat as its rule reads it.
func (k *pack) cell(mm float64) string {
	if k.units == quantity.Inch {
		return k.fine(mm)
	}
	return plainZero(fmt.Sprintf("%.1f", mm))
}

// signedCell is cell for a length with a sign, which stands apart from the hyphen of a
// mixed number.
func (k *pack) signedCell(mm float64) string { return withSign(mm, k.cell(max(mm, -mm))) }

// plainZero returns a number without the sign of a negative zero.
func plainZero(s string) string {
	if s == "-0.0" {
		return "0.0"
	}
	return s
}

// holes returns the table of the holes of a round plate.
func (k *pack) holes(c *flat.Blank) *sheet.Table {
	t := &sheet.Table{Title: "Holes from the centre, " + k.unit(), Tight: true, Columns: []sheet.Column{{Header: "Hole", Align: ink.End}}}
	k.column(t, "Diameter")
	k.column(t, "Right")
	k.column(t, "Up")
	t.Columns = append(t.Columns, sheet.Column{Header: "Bearing", Align: ink.End})
	for i, h := range c.Holes {
		t.Rows = append(t.Rows, []string{fmt.Sprint(i + 1), k.cell(h.Diameter), k.signedCell(h.Center.X), k.signedCell(h.Center.Y), bearing(math.Atan2(h.Center.Y, h.Center.X))})
	}
	return t
}

// ordinates returns the table from which curved edges are laid out. It has no title: what its
// columns are is in their headers, and every line of a panel counts.
func (k *pack) ordinates(c *flat.Blank) *sheet.Table {
	first := &c.Ordinates[0]
	t := &sheet.Table{Tight: true}
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
		row = append(row, k.cell(s.At))
		for _, o := range c.Ordinates {
			if i < len(o.Stations) {
				row = append(row, k.cell(o.Stations[i].Ordinate))
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}
