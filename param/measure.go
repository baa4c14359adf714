package param

import (
	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// Measure reads a text such as "5 ft 9 in", given for a name outside of any
// design, as a quantity between two others. It is read as a design in the given
// units reads it; what is wrong with it is a *source.Error.
func Measure(text, name string, units quantity.System, from, to quantity.Quantity) (quantity.Quantity, error) {
	x, list := syntax.ParseExpression(source.NewFile(name, text))
	if len(list) > 0 {
		return quantity.Quantity{}, list.Err()
	}
	q, list := eval.Within(x, name, units, from, to)
	return q, list.Err()
}
