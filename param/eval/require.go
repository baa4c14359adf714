package eval

import (
	"slices"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

func sorted(names []string) []string {
	slices.Sort(names)
	return names
}

// A pending requirement waits until all parts are known.
type pending struct {
	*syntax.Require
	scope *scope
}

// judging is the state of a requirement at work: being read, when the results
// are not known yet, or being checked against them.
type judging struct {
	results design.Results // nil while it is read
	reason  string         // why a result is not there
}

// result returns a result of the finished work.
func (e *evaluator) result(name string, d quantity.Dimension) value {
	j := e.judging
	if j.results == nil {
		return value{kind: number, unknown: true, q: quantity.Quantity{Dim: d}}
	}
	q, reason, ok := j.results(name)
	if !ok {
		if reason == "" {
			reason = "'" + name + "' is not calculated in this version"
		}
		if j.reason == "" {
			j.reason = reason
		}
		return value{}
	}
	q.Dim = d
	return value{kind: number, q: q}
}

// require reads a requirement: it is worked out once with results that are not
// known yet, so that a mistake in it is found before the work is done.
func (e *evaluator) require(p pending) {
	e.judging = &judging{}
	v := e.eval(p.Condition, p.scope)
	e.judging = nil
	switch {
	case v.kind == failed:
		return
	case v.kind != boolean:
		e.report(p.Condition.Span(), "write it as 'require weight <= 140 lb'", "'require' needs a condition, and this is %s", v)
		return
	}
	at := p.Condition.Span()
	e.charge(at.To - at.From)
	r := design.Requirement{
		Text:  e.file.Words(at),
		Span:  p.Span(),
		Check: func(results design.Results) design.Outcome { return e.check(p, results) },
	}
	e.design.TippingTarget = max(e.design.TippingTarget, e.tippingTarget(p.Condition, p.scope))
	if p.Why != nil {
		r.Why = p.Why.Text
	}
	e.design.Require = append(e.design.Require, r)
}

// check works out a requirement with the results in hand. It works on a copy,
// so that it can be done as often as results come in.
func (e *evaluator) check(p pending, results design.Results) design.Outcome {
	c := e.judge(results)
	v := c.eval(p.Condition, p.scope)
	if v.kind != failed {
		return design.Outcome{Holds: v.yes, Sides: c.sides(p.Condition, p.scope)}
	}
	return design.Outcome{Unchecked: true, Why: c.unchecked()}
}

// judge returns a copy of the evaluator that knows the results.
func (e *evaluator) judge(results design.Results) *evaluator {
	c := *e
	c.steps, c.depth, c.stopped, c.list = 0, 0, false, nil
	c.reported = map[source.Span]bool{}
	c.judging = &judging{results: results}
	return &c
}

// unchecked returns why something that was judged could not be worked out.
func (e *evaluator) unchecked() string {
	if e.judging.reason == "" && len(e.list) > 0 {
		return e.list[0].Text
	}
	return e.judging.reason
}

// sides returns what a condition came to: of each comparison the side that depends
// on the results, or the left one.
func (e *evaluator) sides(x syntax.Expression, s *scope) []design.Side {
	switch x := x.(type) {
	case *syntax.Paren:
		return e.sides(x.Inner, s)
	case *syntax.Unary:
		return e.sides(x.Operand, s)
	case *syntax.Binary:
		switch x.Operator {
		case syntax.And, syntax.Or:
			return append(e.sides(x.Left, s), e.sides(x.Right, s)...)
		case syntax.Equal, syntax.NotEqual, syntax.Less, syntax.LessEqual, syntax.Greater, syntax.GreaterEqual:
			side := x.Left
			if !e.depends(x.Left, s) && e.depends(x.Right, s) {
				side = x.Right
			}
			return e.side(side, s)
		}
	}
	return e.side(x, s)
}

// side returns what an expression came to; nothing where it is no number.
func (e *evaluator) side(x syntax.Expression, s *scope) []design.Side {
	v := e.eval(x, s)
	if v.kind != number {
		return nil
	}
	return []design.Side{{Result: resultOf(x), Quantity: v.q}}
}

// resultOf returns the name of the result that an expression is; "" for another.
func resultOf(x syntax.Expression) string {
	switch x := x.(type) {
	case *syntax.Paren:
		return resultOf(x.Inner)
	case *syntax.Ident:
		if _, ok := lookupResult(x.Name); ok {
			return x.Name
		}
	}
	return ""
}

// isTipping reports whether an expression is the factor against tipping.
func isTipping(x syntax.Expression) bool { return resultOf(x) == "tipping" }

// depends reports whether an expression reads a result.
func (e *evaluator) depends(x syntax.Expression, s *scope) bool {
	j := e.judging
	e.judging = &judging{}
	v := e.eval(x, s)
	e.judging = j
	return v.unknown
}

// tippingTarget returns the factor against tipping that a condition sets,
// as tipping >= 1.5 does and each of several conditions that must all hold; 0
// where it sets none.
func (e *evaluator) tippingTarget(x syntax.Expression, s *scope) float64 {
	switch x := x.(type) {
	case *syntax.Paren:
		return e.tippingTarget(x.Inner, s)
	case *syntax.Binary:
		least, factor := x.Right, x.Left
		switch x.Operator {
		case syntax.And:
			return max(e.tippingTarget(x.Left, s), e.tippingTarget(x.Right, s))
		case syntax.Less, syntax.LessEqual:
			least, factor = factor, least
		case syntax.Greater, syntax.GreaterEqual:
		default:
			return 0
		}
		if !isTipping(factor) || e.depends(least, s) {
			return 0
		}
		if v := e.eval(least, s); v.is(quantity.Number) && v.q.Number > 0 {
			return v.q.Number
		}
	}
	return 0
}
