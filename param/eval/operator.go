package eval

import (
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

func (e *evaluator) unary(x *syntax.Unary, s *scope) value {
	v := e.eval(x.Operand, s)
	switch {
	case v.kind == failed:
	case x.Operator == syntax.Not && v.kind == boolean:
		v.yes = !v.yes
	case x.Operator == syntax.Subtract && v.kind == number:
		v.q.Number = -v.q.Number
	case x.Operator == syntax.Subtract && v.kind == point:
		return e.scaled(v, plain(-1), x.Span())
	case x.Operator == syntax.Not:
		e.report(x.Operand.Span(), "", "'not' needs a condition, and this is %s", v)
		return value{}
	default:
		e.report(x.Operand.Span(), "", "'-' needs a number, and this is %s", v)
		return value{}
	}
	return v
}

func (e *evaluator) binary(x *syntax.Binary, s *scope) value {
	switch x.Operator {
	case syntax.And, syntax.Or:
		return e.logic(x, s)
	}
	a, b := e.eval(x.Left, s), e.eval(x.Right, s)
	if a.kind == failed || b.kind == failed {
		return value{}
	}
	switch x.Operator {
	case syntax.Add, syntax.Subtract:
		return e.sum(x, a, b)
	case syntax.Multiply:
		return e.product(x, a, b)
	case syntax.Divide:
		return e.quotient(x, a, b)
	}
	return e.comparison(x, a, b)
}

// logic works out 'and' and 'or'. The right side is left alone where the left
// one settles the matter.
func (e *evaluator) logic(x *syntax.Binary, s *scope) value {
	a := e.condition(x.Left, x.Operator, s)
	if a.kind != failed && !a.unknown && a.yes == (x.Operator == syntax.Or) {
		return a
	}
	b := e.condition(x.Right, x.Operator, s)
	if a.kind == failed || b.kind == failed {
		return value{}
	}
	return b.leanOn(a)
}

func (e *evaluator) condition(x syntax.Expression, op syntax.Operator, s *scope) value {
	v := e.eval(x, s)
	if v.kind != failed && v.kind != boolean {
		e.report(x.Span(), "", "'%s' needs a condition on each side, and this is %s", op, v)
		return value{}
	}
	return v
}

// align gives both values one dimension: a plain number beside a length is a
// length in the file's units.
func (e *evaluator) align(a, b value, atA, atB source.Span) (value, value, bool) {
	switch {
	case a.is(quantity.Length):
		b = e.length(b, atB)
	case b.is(quantity.Length):
		a = e.length(a, atA)
	}
	return a, b, a.kind != failed && b.kind != failed
}

func (e *evaluator) sum(x *syntax.Binary, a, b value) value {
	if a.kind == point && b.kind == point && a.point.n == b.point.n {
		return e.shifted(x, a, b)
	}
	a, b, ok := e.align(a, b, x.Left.Span(), x.Right.Span())
	if !ok {
		return value{}
	}
	if a.kind != number || b.kind != number || a.q.Dim != b.q.Dim {
		if x.Operator == syntax.Add {
			return e.mismatch(x.Span(), "%s cannot be added to %s", b, a)
		}
		return e.mismatch(x.Span(), "%s cannot be subtracted from %s", b, a)
	}
	if x.Operator == syntax.Add {
		a.q.Number += b.q.Number
	} else {
		a.q.Number -= b.q.Number
	}
	return e.sound(a.leanOn(b), x.Span())
}

func (e *evaluator) mismatch(at source.Span, format string, a, b value) value {
	hint := "both must be the same kind, such as two lengths"
	if a.is(quantity.Number) || b.is(quantity.Number) {
		hint = "give the plain number its unit"
	}
	e.report(at, hint, format, a, b)
	return value{}
}

// meaningless reports a product or quotient of values that have none.
func (e *evaluator) meaningless(at source.Span, format string, a, b value) value {
	e.report(at, "", format, a, b)
	return value{}
}

func (e *evaluator) product(x *syntax.Binary, a, b value) value {
	switch {
	case a.kind == point && b.is(quantity.Number):
		return e.scaled(a, b, x.Span())
	case b.kind == point && a.is(quantity.Number):
		return e.scaled(b, a, x.Span())
	case a.kind != number || b.kind != number:
		return e.meaningless(x.Span(), "%s cannot be multiplied by %s", a, b)
	}
	d, ok := a.q.Dim.Times(b.q.Dim)
	if !ok {
		e.report(x.Span(), "", "this product means nothing here: %s times %s", a, b)
		return value{}
	}
	v := value{kind: number, q: quantity.Quantity{Number: a.q.Number * b.q.Number, Dim: d}}
	return e.sound(v.leanOn(a, b), x.Span())
}

func (e *evaluator) quotient(x *syntax.Binary, a, b value) value {
	if b.kind != number || a.kind != number && !(a.kind == point && b.is(quantity.Number)) {
		return e.meaningless(x.Span(), "%s cannot be divided by %s", a, b)
	}
	if b.q.Number == 0 && !b.unknown {
		e.report(x.Right.Span(), "this comes to 0; divide by something that does not", "this divides by 0")
		return value{}
	}
	if a.kind == point {
		b.q.Number = 1 / b.q.Number
		return e.scaled(a, b, x.Span())
	}
	d, ok := a.q.Dim.Over(b.q.Dim)
	if !ok {
		e.report(x.Span(), "", "this quotient has no meaning: %s over %s", a, b)
		return value{}
	}
	v := value{kind: number, q: quantity.Quantity{Dim: d}}.leanOn(a, b)
	if !v.unknown {
		v.q.Number = a.q.Number / b.q.Number
	}
	return e.sound(v, x.Span())
}

func (e *evaluator) comparison(x *syntax.Binary, a, b value) value {
	equality := x.Operator == syntax.Equal || x.Operator == syntax.NotEqual
	if equality && a.kind == boolean && b.kind == boolean {
		return value{kind: boolean, yes: (a.yes == b.yes) == (x.Operator == syntax.Equal)}.leanOn(a, b)
	}
	a, b, ok := e.align(a, b, x.Left.Span(), x.Right.Span())
	if !ok {
		return value{}
	}
	if a.kind != number || b.kind != number || a.q.Dim != b.q.Dim {
		return e.mismatch(x.Span(), "%s cannot be compared with %s", a, b)
	}
	v := value{kind: boolean}.leanOn(a, b)
	switch c := order(a.q.Number, b.q.Number); x.Operator {
	case syntax.Equal:
		v.yes = c == 0
	case syntax.NotEqual:
		v.yes = c != 0
	case syntax.Less:
		v.yes = c < 0
	case syntax.LessEqual:
		v.yes = c <= 0
	case syntax.Greater:
		v.yes = c > 0
	case syntax.GreaterEqual:
		v.yes = c >= 0
	}
	return v
}

// scaled multiplies a point by a plain number.
func (e *evaluator) scaled(p, by value, at source.Span) value {
	c := *p.point
	for i := range c.n {
		c.q[i].Number *= by.q.Number
		if v := e.sound(value{kind: number, q: c.q[i]}, at); v.kind == failed {
			return v
		}
	}
	return value{kind: point, point: &c}.leanOn(p, by)
}

// shifted adds or subtracts points of equally many coordinates.
func (e *evaluator) shifted(x *syntax.Binary, a, b value) value {
	c := *a.point
	for i := range c.n {
		u, v, ok := e.align(a.coordinate(i), b.coordinate(i), x.Left.Span(), x.Right.Span())
		if !ok {
			return value{}
		}
		if x.Operator == syntax.Add {
			u.q.Number += v.q.Number
		} else {
			u.q.Number -= v.q.Number
		}
		if u = e.sound(u, x.Span()); u.kind == failed {
			return u
		}
		c.q[i] = u.q
	}
	return value{kind: point, point: &c}.leanOn(a, b)
}
