package eval

import (
	"math"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/syntax"
)

// MaxValues is the greatest number of values that one sweep may take.
const MaxValues = 10_000

// usualValues is how many values a sweep takes of a name that has no step.
const usualValues = 5

// sweep works out which values a name is to take: those asked for, else those
// of its declaration.
func (e *evaluator) sweep(s *syntax.Sweep) {
	b := e.adjustable(s.Name)
	if b == nil || b.ranged.Name == "" {
		return // reported, here or where it is declared
	}
	r := b.ranged
	out := design.Sweep{Name: r.Name, From: r.From, To: r.To, Step: r.Step}
	if !e.sweepValue(b, s.From, &out.From) || !e.sweepValue(b, s.To, &out.To) || !e.sweepValue(b, s.Step, &out.Step) ||
		!e.sweepEnd(b, s.From, out.From) || !e.sweepEnd(b, s.To, out.To) {
		return
	}
	count := quantity.Quantity{Number: 1}
	if s.Values != nil {
		v := e.eval(s.Values, e.top)
		if v.kind == failed {
			return
		}
		if !v.is(quantity.Number) || v.q.Number != math.Round(v.q.Number) || v.q.Number < 1 || v.q.Number > MaxValues {
			e.report(s.Values.Span(), "it has no unit", "a whole number from 1 to %d is needed here, and this is %s", MaxValues, e.say(v))
			return
		}
		count = v.q
	}
	span := out.To.Number - out.From.Number
	switch {
	case span < 0:
		e.report(s.From.Span().Join(s.To.Span()), "write the smaller end first", "these values run backwards")
		return
	case s.Step != nil && out.Step.Number <= 0:
		e.report(s.Step.Span(), "", "the step must be more than 0")
		return
	}
	switch {
	case s.Values != nil:
		out.Count, out.Step.Number = int(count.Number), 0
	case out.Step.Number > 0:
		// Rounding must not cost the last value.
		steps := math.Floor(span/out.Step.Number + 1e-9)
		if steps >= MaxValues {
			e.report(s.Span(), "take a larger step, or say how many with 'values'", "'%s' would take more than %d values", r.Name, MaxValues)
			return
		}
		out.Count = int(steps) + 1
	default:
		out.Count = usualValues
	}
	if span == 0 {
		out.Count = 1
	}
	for _, other := range e.design.Sweeps {
		if other.Name == out.Name {
			e.report(s.Name.At, "leave one of them out", "'%s' is given twice", out.Name)
			return
		}
	}
	for _, a := range e.options.Set {
		if a.Name.Text == r.Name {
			note(e.report(s.Name.At, "leave one of them out", "'%s' is set to one value already", r.Name), a.Name.At, "it is set here")
			return
		}
	}
	e.design.Sweeps = append(e.design.Sweeps, out)
}

// sweepValue works out an end or the step of a sweep, if it is given.
func (e *evaluator) sweepValue(b *binding, x syntax.Expression, into *quantity.Quantity) bool {
	if x == nil {
		return true
	}
	v := e.eval(x, e.top)
	if v.kind == failed {
		return false
	}
	if v.kind != number {
		e.report(x.Span(), "", "'%s' is a number, and this is %s", b.name.Text, v)
		return false
	}
	v, ok := e.fit(b, b.ranged.From.Dim, v, x.Span())
	*into = v.q
	return ok
}

// sweepEnd checks that an end that is given lies in the range of the name.
func (e *evaluator) sweepEnd(b *binding, x syntax.Expression, q quantity.Quantity) bool {
	return x == nil || e.within(b, value{kind: number, q: q}, x.Span())
}
