package eval

import (
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// Within works out an expression outside of any design, as the value of a name
// that goes from one quantity to another. It is read as a design in the given
// units reads it. The quantity is of use when the list is empty.
func Within(x syntax.Expression, name string, units quantity.System, from, to quantity.Quantity) (quantity.Quantity, source.List) {
	f := x.Span().File
	e := newEvaluator(&syntax.File{Source: f}, Options{})
	e.top = &scope{}
	e.units[f], e.design.Units = units, units
	b := &binding{
		name:   syntax.Name{Text: name, At: source.Span{File: f}},
		ranged: &ranged{Adjustable: design.Adjustable{Name: name, From: from, To: to}, sound: true},
	}
	v, _ := e.newValue(b, syntax.Assignment{Value: x})
	e.list.Sort()
	return v.q, e.list
}
