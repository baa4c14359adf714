package eval

import (
	"slices"
	"strings"

	"stabile/param/quantity"
	"stabile/param/syntax"
)

// noun says what an argument is to be.
func (a *Argument) noun() string {
	if a.Noun != "" {
		return a.Noun
	}
	switch a.Kind {
	case Whole:
		return "a whole number"
	case Choice:
		return "one of " + strings.Join(a.Choices, ", ")
	case Alloy:
		return "the name of an alloy"
	case Metal:
		return "the name of a metal"
	case Bearing:
		return "an angle or the name of a part"
	case Place:
		return "a point (x, y)"
	case Text:
		return "a text in quotes"
	case Nominal:
		return "a nominal size, such as 2 or 1-1/2"
	case Joined:
		return "the name of a part"
	}
	return a.Dim.String()
}

// argument works out one value and checks that it is of the right sort and in
// range. The value that follows it, nil for none, serves its hint.
func (b *body) argument(p *Property, want *Argument, x syntax.Expression, toward *syntax.Argument, s *scope) value {
	switch want.Kind {
	case Alloy:
		return b.alloy(x)
	case Choice:
		return b.choice(p, want, x)
	case Metal:
		return b.metal(x, s)
	case Nominal:
		return b.nominal(p, want, x, s)
	}
	v := b.eval(x, s)
	if v.kind == failed {
		return v
	}
	switch want.Kind {
	case Bearing:
		if v.is(quantity.Angle) || v.kind == thing || v.kind == point {
			return v
		}
	case Joined:
		if v.kind == thing {
			return v
		}
	case Place:
		if v.kind == point && v.point.n == 2 {
			return v
		}
	case Text:
		if v.kind == text {
			return v
		}
	case Whole:
		if slices.ContainsFunc(want.Or, v.is) {
			return v
		}
		if v.is(quantity.Number) {
			n, ok := whole(v.q.Number)
			if !ok {
				b.report(x.Span(), b.hint(p, want), "'%s' needs a whole number, and this is %s", p.Word, b.say(v))
				return value{}
			}
			v.q.Number = float64(n)
			return b.inRange(p, want, v, x, toward, s)
		}
	case Measure:
		if want.Dim == quantity.Length {
			v = b.length(v, x.Span())
		}
		if v.kind == failed {
			return v
		}
		if v.is(want.Dim) || slices.ContainsFunc(want.Or, v.is) {
			return b.inRange(p, want, v, x, toward, s)
		}
	}
	hint, put := b.hint(p, want), ""
	if wording := b.inDimension(want, x); wording != "" && p.isSingle() {
		hint, put = "write it as "+p.Word+" "+wording, wording
	} else if n, negative := written(x); want.Kind == Whole && n != "" && !negative && p.isSingle() {
		hint, put = "write it as "+p.Word+" "+n, n
	}
	if lit, ok := x.(*syntax.Literal); ok && want.Dim == quantity.Angle && lit.Terms[0].Mixed && lit.Terms[0].Unit.Text == "" {
		put = x.Span().Text() + " deg"
		hint = "a mixed number without a unit is a length: write " + put
	} else if units := unitsOf(want.dimension()); v.is(quantity.Number) && units != "" && want.Noun == "" {
		hint = "give it a unit: " + units
		if wording := b.inDimension(want, x); wording != "" {
			hint, put = "write "+wording+"; its unit may be "+units, wording
		}
	}
	d := b.report(x.Span(), hint, "'%s' needs %s, and this is %s", p.Word, want.noun(), v)
	if put != "" {
		d.Put(put)
	}
	return value{}
}

// dimension returns that of a value which carries a unit; that of a plain
// number for others.
func (a *Argument) dimension() quantity.Dimension {
	if a.Kind == Bearing {
		return quantity.Angle
	}
	return a.Dim
}

// unitsOf lists the units of a dimension.
func unitsOf(d quantity.Dimension) string {
	names := quantity.UnitNames(&d)
	if len(names) < 2 {
		return strings.Join(names, "")
	}
	return strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
}

func (b *body) inRange(p *Property, want *Argument, v value, x syntax.Expression, toward *syntax.Argument, s *scope) value {
	at := x.Span()
	if want.Range.holds(v.q.Number) {
		return v
	}
	hint, cure := b.outOfRange(p, want, v, x, toward, s)
	if want.Noun != "" {
		b.report(at, hint, "'%s' must be %s", p.Word, want.Range.Words).Cure = cure
		return value{}
	}
	words := want.Range.Words
	if want.Dim == quantity.Length && want.Range.From > 0 && v.q.Number <= 0 {
		words = "more than 0" // rather than all that it may be
	}
	b.report(at, hint, "'%s' must be %s, and this is %s", p.Word, words, b.say(v)).Cure = cure
	return value{}
}

func (b *body) choice(p *Property, want *Argument, x syntax.Expression) value {
	word, ok := syntax.Word(x)
	if w := syntax.British(word); ok && slices.Contains(want.Choices, w) {
		return value{kind: text, text: w}
	}
	hint := b.hint(p, want)
	if ok {
		hint = b.suggest(word, want.Choices, hint)
	}
	b.report(x.Span(), hint, "'%s' is %s", p.Word, list(want.Choices, "or"))
	return value{}
}
