package eval

import (
	"strings"

	"stabile/param/design"
	"stabile/param/source"
	"stabile/param/syntax"
)

// A Question is an expression that is asked of the design from outside of its
// text.
type Question struct {
	Source    *source.File // its text
	Value     syntax.Expression
	Condition bool // it must be a condition; else a number
}

// ask reads a question: it is worked out once with results that are not known
// yet, so that a mistake in it is found before the work is done.
func (e *evaluator) ask(q Question) {
	e.judging = &judging{}
	v := e.eval(q.Value, e.top)
	e.judging = nil
	at := q.Value.Span()
	switch {
	case v.kind == failed:
		return
	case q.Condition && v.kind != boolean:
		e.report(at, "write it as in 'weight <= 140 lb'", "%s needs a condition, and this is %s", q.Source.Name, v)
		return
	case !q.Condition && v.kind != number:
		e.report(at, "name one, such as weight or tipping", "%s needs a number, and this is %s", q.Source.Name, v)
		return
	}
	e.design.Questions = append(e.design.Questions, design.Question{
		Text:   strings.TrimSpace(q.Source.Text),
		Span:   at,
		Dim:    v.q.Dim,
		Answer: func(results design.Results) design.Answer { return e.answer(q, results) },
	})
}

// answer works out a question with the results in hand, on a copy.
func (e *evaluator) answer(q Question, results design.Results) design.Answer {
	c := e.judge(results)
	v := c.eval(q.Value, c.top)
	switch v.kind {
	case boolean:
		return design.Answer{Holds: v.yes, Sides: c.sides(q.Value, c.top)}
	case number:
		return design.Answer{Number: v.q, Sides: []design.Side{{Result: resultOf(q.Value), Quantity: v.q}}}
	}
	return design.Answer{Unchecked: true, Why: c.unchecked()}
}
