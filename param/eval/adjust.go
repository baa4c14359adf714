package eval

import (
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// A ranged is an adjustable value worked out.
type ranged struct {
	design.Adjustable
	sound bool // its own value and range are
}

// workOutAdjust returns the value that an adjustable name has: that of the
// command line, of the variation, or of the text, in this order.
func (e *evaluator) workOutAdjust(b *binding) value {
	a := b.adjust
	given := [...]struct {
		x syntax.Expression
		v value
	}{{x: a.Value}, {x: a.From}, {x: a.To}, {x: a.Step}}
	var dim quantity.Dimension
	for i, g := range given {
		if g.x == nil {
			continue
		}
		v := e.eval(g.x, b.scope)
		if v.kind != failed && v.kind != number {
			e.report(g.x.Span(), "write it as adjust rise = 36 in from 24 in to 60 in", "an adjustable value is a number, and this is %s", v)
			v = value{}
		}
		if v.kind == failed {
			return value{}
		}
		given[i].v = v
		if dim == quantity.Number {
			dim = v.q.Dim
		}
	}
	for i, g := range given {
		if g.x == nil {
			continue
		}
		v, ok := e.fit(b, dim, g.v, g.x.Span())
		if !ok {
			return value{}
		}
		given[i].v = v
	}
	b.ranged.Adjustable = design.Adjustable{
		Name: a.Name.Text, Value: given[0].v.q, From: given[1].v.q, To: given[2].v.q, Step: given[3].v.q,
	}
	r := b.ranged
	switch {
	case r.From.Number > r.To.Number:
		e.report(a.From.Span().Join(a.To.Span()), "write the smaller end first", "the range of '%s' runs backwards", r.Name)
		return value{}
	case a.Step != nil && r.Step.Number <= 0:
		e.report(a.Step.Span(), "make it more than 0, or leave it out", "the step of '%s' must be more than 0", r.Name)
		return value{}
	}
	r.sound = e.within(b, given[0].v, a.Value.Span())
	if o, ok := e.override[r.Name]; ok {
		v, ok := e.newValue(b, o)
		if !ok {
			return value{}
		}
		r.Value = v.q
		return v
	}
	if !r.sound {
		return value{}
	}
	return given[0].v
}

// fit checks that a value is of the dimension that the name has.
func (e *evaluator) fit(b *binding, dim quantity.Dimension, v value, at source.Span) (value, bool) {
	if dim == quantity.Length {
		v = e.length(v, at)
	}
	if v.kind == failed || v.is(dim) {
		return v, v.kind != failed
	}
	hint := "its unit is " + unitsOf(dim)
	switch {
	case v.is(quantity.Number):
		hint = "give it a unit: " + unitsOf(dim)
	case dim == quantity.Number:
		hint = "its own value has no unit; give this none"
	}
	e.report(at, hint, "'%s' is %s, and this is %s", b.name.Text, dim, v)
	return value{}, false
}

// within checks that a value lies in the range of its name.
func (e *evaluator) within(b *binding, v value, at source.Span) bool {
	r := b.ranged
	if order(v.q.Number, r.From.Number) >= 0 && order(v.q.Number, r.To.Number) <= 0 {
		return true
	}
	hint := "stay within the range"
	if b.adjust != nil {
		hint += ", or widen the range of '" + r.Name + "'"
	}
	d := e.report(at, hint, "'%s' may be from %s to %s, and this is %s", r.Name, e.quantity(r.From), e.quantity(r.To), e.say(v))
	if at.File != b.name.At.File {
		note(d, b.adjust.Span(), "its range is given here")
	}
	return false
}

// newValue works out a value given to an adjustable name from outside of its
// declaration.
func (e *evaluator) newValue(b *binding, a syntax.Assignment) (value, bool) {
	v := e.eval(a.Value, e.top)
	if v.kind == failed {
		return v, false
	}
	v, ok := e.fit(b, b.ranged.From.Dim, v, a.Value.Span())
	return v, ok && e.within(b, v, a.Value.Span())
}

// readVariations notes the variations and takes the values of the chosen one.
func (e *evaluator) readVariations() {
	var titles []string
	var chosen *syntax.Variation
	given := map[string]*syntax.Variation{}
	for _, s := range e.file.Statements {
		v, ok := s.(*syntax.Variation)
		if !ok || v.Title == nil {
			continue
		}
		if first := given[v.Title.Text]; first != nil {
			note(e.report(v.Title.Span(), "give one of the two another name", "the variation \"%s\" is given twice", v.Title.Text),
				first.Title.Span(), "first given here")
			continue
		}
		given[v.Title.Text] = v
		e.variations = append(e.variations, v)
		titles = append(titles, v.Title.Text)
		if v.Title.Text == e.options.Variation {
			chosen = v
		}
	}
	e.design.Variations = titles
	if e.options.Variation == "" {
		return
	}
	if chosen == nil {
		e.missing(source.Span{}, e.suggest(e.options.Variation, titles, ""), "the design has no variation \"%s\"", e.options.Variation)
		return
	}
	e.design.Variation = e.options.Variation
	for _, a := range chosen.Set {
		e.override[a.Name.Text] = a
	}
}

// readSet takes the values that the caller gives.
func (e *evaluator) readSet() {
	given := map[string]source.Span{}
	for _, a := range e.options.Set {
		if first, twice := given[a.Name.Text]; twice {
			note(e.report(a.Name.At, "keep one of the two", "'%s' is set twice", a.Name.Text), first, "first set here")
			continue
		}
		given[a.Name.Text] = a.Name.At
		if e.adjustable(a.Name) != nil {
			e.override[a.Name.Text] = a
		}
	}
}

// adjustable returns the definition of a name that may be given new values, or
// reports why the name is none.
func (e *evaluator) adjustable(name syntax.Name) *binding {
	b := e.top.names[name.Text]
	switch {
	case b != nil && b.adjust != nil:
		return b
	case b != nil && b.let != nil:
		note(e.report(name.At, "make it an 'adjust' with a range", "'%s' is fixed by a let; only an 'adjust' may be given new values", name.Text),
			b.let.Name.At, "it is defined here")
		return nil
	}
	var names []string
	for n, b := range e.top.names {
		if b.adjust != nil && len(names) <= mostNames {
			names = append(names, n)
		}
	}
	e.missing(name.At, e.suggest(name.Text, sorted(names), "only an 'adjust' may be given new values"), "there is no adjustable '%s'", name.Text)
	return nil
}

// checkVariations checks the values of all variations, chosen or not.
func (e *evaluator) checkVariations() {
	for _, v := range e.variations {
		given := map[string]source.Span{}
		for _, a := range v.Set {
			if first, twice := given[a.Name.Text]; twice {
				note(e.report(a.Name.At, "keep one of the two", "'%s' is given twice", a.Name.Text), first, "first given here")
				continue
			}
			given[a.Name.Text] = a.Name.At
			if b := e.adjustable(a.Name); b != nil && b.ranged.sound {
				e.newValue(b, a)
			}
		}
	}
}
