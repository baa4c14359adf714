package words

import (
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

// Value returns a quantity of the language in the design's units.
func (w Writer) Value(q quantity.Quantity) string {
	if q.Dim == quantity.Angle {
		return w.Degrees(q.Radians())
	}
	return w.Units.Value(q)
}

// Condition returns how a condition came out: "holds", "fails", "not decided".
func Condition(v check.Verdict) string {
	if v == check.Undecided {
		return "not decided"
	}
	return string(v)
}
