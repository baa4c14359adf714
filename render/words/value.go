package words

import (
	"math"
	"strings"

	"stabile/fab/check"
	"stabile/param/design"
	"stabile/param/quantity"
)

// Sides returns what a condition came to, such as "1.62" or "5.51 lb, 1.62".
func (w Writer) Sides(list []design.Side) string {
	var says []string
	for _, s := range list {
		says = append(says, w.Side(s))
	}
	return strings.Join(says, ", ")
}

// Side returns what one side of a comparison came to, a result of the whole as it
// is written everywhere.
func (w Writer) Side(s design.Side) string {
	switch s.Result {
	case "tipping":
		return Factor(s.Quantity.Number)
	case "strength":
		return Use(s.Quantity.Number)
	case "cost":
		return w.Quantity(s.Quantity.Number, check.Money)
	case "height", "width", "depth":
		return w.Long(s.Quantity.Millimetres())
	}
	return w.Value(s.Quantity)
}

// mostShown is the greatest number that is written in digits.
const mostShown = 1e12

// Value returns a quantity of the language in the design's units: lengths in the
// step of flats, plain numbers to a thousandth.
func (w Writer) Value(q quantity.Quantity) string {
	if math.Abs(q.Number) > mostShown {
		return "too large to show"
	}
	in := func(unit string) string {
		u, _ := quantity.LookupUnit(unit)
		return quantity.Decimal(q.Number/u.Scale, 2) + " " + unit
	}
	of := func(inch, metric string) string {
		if w.Units == quantity.Inch {
			return in(inch)
		}
		return in(metric)
	}
	switch q.Dim {
	case quantity.Number:
		return quantity.Decimal(q.Number, 3)
	case quantity.Length:
		return w.Fine(q.Millimetres())
	case quantity.Mass:
		return w.Weight(q.Kilograms())
	case quantity.Angle:
		return w.Degrees(q.Radians())
	case quantity.Force:
		return w.Force(q.Newtons())
	case quantity.Moment:
		return w.Units.Moment(q.Number / 1e6)
	case quantity.Pressure:
		return of("psi", "MPa")
	case quantity.Speed:
		return of("mph", "m/s")
	case quantity.Density:
		return of("lb/ft3", "kg/m3")
	case quantity.Time:
		return in("s")
	case quantity.Rate:
		return in("Hz")
	}
	for _, name := range quantity.UnitNames(&q.Dim) {
		return in(name)
	}
	return quantity.Decimal(q.Number, 3)
}

// Condition returns how a condition came out: "holds", "fails", "not decided".
func Condition(v check.Verdict) string {
	if v == check.Undecided {
		return "not decided"
	}
	return string(v)
}
