package pack

import (
	"strings"

	"stabile/fab/calculation"
	"stabile/fab/strength"
	"stabile/param/quantity"
	"stabile/render/sheet"
	"stabile/render/words"
)

// value returns the value of a line with its unit: in the design's own, and for
// inch work as the source has it too where its formula needs that.
func (c *workings) value(l calculation.Line) string {
	if l.Varies {
		return "by part"
	}
	u := c.units
	own := ""
	switch l.Unit {
	case "":
		if l.Symbol == "ratio" {
			return words.Use(l.Value)
		}
		return figures(l.Value)
	case "mm":
		if l.Name == strength.TermWall {
			return c.say().Thickness(l.Value)
		}
		return u.Exact(l.Value)
	case "mm2", "mm3":
		power := map[string]float64{"mm2": 2, "mm3": 3}[l.Unit]
		return c.power(l.Value, power)
	case "N":
		return u.Force(l.Value)
	case "N mm":
		return u.Moment(l.Value)
	case "MPa":
		return u.Stress(l.Value)
	case "m/s":
		own = u.Speed(l.Value)
	case "Pa":
		own = squared(u.Pressure(l.Value))
	}
	given := figures(l.Value) + " " + words.Formula(l.Unit)
	if own == "" || u != quantity.Inch {
		return given
	}
	return own + "\n(" + given + ")"
}

// power returns an area or a volume given in mm2 or mm3.
func (c *workings) power(x, power float64) string {
	sign := map[float64]string{2: "²", 3: "³"}[power]
	if c.units == quantity.Inch {
		for range int(power) {
			x /= 25.4
		}
		return figures(x) + " in" + sign
	}
	return figures(x) + " mm" + sign
}

// figures returns a plain number to about four figures.
func figures(x float64) string {
	a := max(x, -x)
	switch {
	case a == 0:
		return "0"
	case a < 0.01:
		return quantity.Decimal(x, 6)
	case a < 1:
		return quantity.Decimal(x, 4)
	case a < 10:
		return quantity.Decimal(x, 3)
	case a < 100:
		return quantity.Decimal(x, 2)
	case a < 1000:
		return quantity.Decimal(x, 1)
	}
	return quantity.Decimal(x, 0)
}

// squared writes the square of a unit.
func squared(s string) string { return strings.Replace(s, "ft2", "ft²", 1) }

// headUnits takes the unit out of columns of figures into their headers: out of each where
// it is the same for all.
func headUnits(t *sheet.Table, columns ...int) {
	for _, n := range columns {
		unit := commonUnit(t.Rows, n)
		if unit == "" {
			continue
		}
		for _, r := range t.Rows {
			r[n], _, _ = strings.Cut(r[n], " ")
		}
		t.Columns[n].Header += ", " + unit
	}
}

// commonUnit returns the unit of all figures of a column; "" where they have none, or not the
// same.
func commonUnit(rows [][]string, column int) (unit string) {
	for _, r := range rows {
		number, u, _ := strings.Cut(r[column], " ")
		switch {
		case number == "–" || number == "none":
			continue
		case u == "" || unit != "" && u != unit:
			return ""
		}
		unit = u
	}
	return unit
}
