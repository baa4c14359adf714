package edit

import (
	"math"

	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// A wanted is what an expression is to come to.
type wanted struct {
	quantity.Quantity
	step   float64 // 0 for the shop's
	direct bool    // it is the value of a property, and not of a part of it
	turn   bool    // it is a bearing: a full turn makes no difference

	// Of the adjustable name that the expression is the value of.
	adjust   *definition
	from, to float64
	name     string // of the let or adjust
	limit    bool
}

// solve changes the number that decides an expression.
func (s *setter) solve(x syntax.Expression, sc *scope, want wanted) error {
	if s.inRow(x, sc) {
		return refuse(InRow, x.Span(), s.counters(x, sc)...)
	}
	for range mostNames {
		switch y := x.(type) {
		case *syntax.Paren:
			x = y.Inner
			continue
		case *syntax.Literal:
			return s.write(y, nil, want)
		case *syntax.Unary:
			if lit, ok := y.Operand.(*syntax.Literal); ok && y.Operator == syntax.Subtract {
				return s.write(lit, y, want)
			}
		case *syntax.Call:
			if isRounding(y) {
				x, want.direct = y.Arguments[0], false
				continue
			}
		case *syntax.Ident:
			d := sc.lookup(y.Name)
			if d == nil || d.value == nil {
				return s.unknown(x, sc)
			}
			want.name, want.direct, want.adjust = d.name.Text, false, nil
			if d.adjust != nil {
				if err := s.limit(d, &want); err != nil {
					return err
				}
			}
			x, sc = d.value, d.scope
			continue
		}
		next, scope, w, err := s.part(x, sc, want)
		if err != nil {
			return err
		}
		if lit, ok := next.(*syntax.Literal); ok {
			minus := signOf(x, lit)
			if minus != nil {
				w.Number = -w.Number // of the number with its minus
			}
			return s.write(lit, minus, w)
		}
		x, sc, want = next, scope, w
	}
	return refuse(Mistakes, x.Span(), s.names(x, sc)...)
}

// limit brings a wanted value into the range of an adjustable name and on its
// step, which is counted from the least value.
func (s *setter) limit(d *definition, want *wanted) error {
	a := d.adjust
	list := []question{{x: a.From, scope: d.scope}, {x: a.To, scope: d.scope}}
	if a.Step != nil {
		list = append(list, question{x: a.Step, scope: d.scope})
	}
	q, ok := s.values(list...)
	if !ok {
		return refuse(Mistakes, a.Span(), d.name.Text)
	}
	number := func(i int, at source.Span) float64 {
		if want.Dim == quantity.Length {
			return s.length(q[i], at)
		}
		return q[i].Number
	}
	from, to := number(0, a.From.Span()), number(1, a.To.Span())
	near := want.Number
	if want.turn {
		near = turned(near, from)
		if near > to && near-to > from-(near-fullTurn) {
			near -= fullTurn // nearer to the least value than to the greatest
		}
	}
	slack := rounding * math.Abs(near)
	outside := near
	if a.Step != nil {
		step := number(2, a.Step.Span())
		slack = step / 2
		if step <= 0 || from > to {
			return refuse(Mistakes, a.Span(), d.name.Text)
		}
		n := math.Round((near - from) / step)
		n = max(0, min(n, math.Floor((to-from)/step*(1+rounding))))
		near = from + n*step
		want.step = exact
	}
	bound := max(from, min(near, to))
	want.limit = outside < from-slack || outside > to+slack
	if want.Number = bound; bound == from || bound == to {
		want.step = exact
	}
	want.adjust, want.from, want.to = d, from, to
	return nil
}

// mostNames bounds the names that lead to a number, one after the other. Those
// that lead in a circle are more.
const mostNames = 100

const fullTurn = 2 * math.Pi

// turned returns an angle, less or more by whole turns, that is no less than
// another and less than a turn above it.
func turned(angle, least float64) float64 {
	return angle - fullTurn*math.Floor((angle-least)/fullTurn)
}

const (
	// rounding is the share of a number that a chain of operations may be out by.
	rounding = 1e-9

	// exact stands for the step of a number that has been put on one already.
	exact = -1
)

// part finds the number of an expression that decides it, and what that has to
// be. It returns the number, a literal or a name.
func (s *setter) part(x syntax.Expression, sc *scope, want wanted) (syntax.Expression, *scope, wanted, error) {
	none := func(r Reason) (syntax.Expression, *scope, wanted, error) {
		return nil, nil, want, refuse(r, x.Span(), s.names(x, sc)...)
	}
	var lits []*syntax.Literal
	var names []*syntax.Ident
	var parts bool
	linear(x, func(y syntax.Expression) {
		switch y := y.(type) {
		case *syntax.Literal:
			lits = append(lits, y)
		case *syntax.Ident:
			if sc.lookup(y.Name) == nil {
				parts = parts || y.Name != "pi"
				return
			}
			names = append(names, y)
		default:
			parts = true
		}
	})
	lits = s.measures(lits, want.Dim)
	var sub substitute
	var next syntax.Expression
	switch {
	case len(lits) == 1:
		next, sub.literal = lits[0], lits[0]
		sub.by.Dim = dimOf(lits[0])
	case len(lits) > 1:
		return none(Several)
	default:
		id, reason := s.oneName(x, names, sc, want.Dim)
		switch {
		case id == nil && parts && len(names) == 0:
			return none(FromPart)
		case id == nil:
			return none(reason)
		case s.readsPart(x, sc):
			return none(Several)
		}
		next, sub.name = id, sc.lookup(id.Name)
		now, ok := s.values(question{x: id, scope: sc})
		if !ok {
			return none(Mistakes)
		}
		sub.by.Dim = now[0].Dim
	}
	// The expression is u + v n; three values of n show whether that holds.
	const far = 100
	at := func(n float64) question {
		c := sub
		c.by.Number = n
		return question{x: x, scope: sc, sub: c}
	}
	f, ok := s.values(at(0), at(far), at(3*far))
	if !ok {
		return none(s.why(x, sc))
	}
	slope := (f[1].Number - f[0].Number) / far
	bend := f[2].Number - f[0].Number - 3*far*slope
	if math.Abs(bend) > rounding*(math.Abs(f[0].Number)+math.Abs(f[2].Number)) || slope == 0 {
		return none(NotLinear)
	}
	w := want
	w.direct = false
	usual, target, scale := s.usual(want.Dim), want.Number, 1.0
	switch {
	case f[0].Dim == quantity.Number && want.Dim == quantity.Length:
		scale = s.length(quantity.Quantity{Number: 1}, x.Span())
		target /= scale
	case f[0].Dim != want.Dim:
		return none(Mistakes)
	}
	w.Quantity = quantity.Quantity{Number: (target - f[0].Number) / slope, Dim: sub.by.Dim}
	if w.turn = w.turn && w.Dim == quantity.Angle && math.Abs(math.Abs(slope)-1) < rounding; w.turn {
		w.Number = turned(w.Number, 0)
	}
	if scale != 1 && w.step == 0 {
		w.step = usual
	}
	if w.step > 0 {
		w.step /= scale
	}
	w.step = leafStep(w.step, usual, slope, sub.by.Dim == f[0].Dim)
	w.adjust = nil
	return next, sc, w, nil
}

// why reports why an expression cannot be worked out.
func (s *setter) why(x syntax.Expression, sc *scope) Reason {
	if _, ok := s.values(question{x: x, scope: sc}); ok {
		return NotLinear // it has a value as it stands, but not with another number
	}
	return Mistakes
}

// unknown refuses to change what no number decides: a name that stands for a
// part, or what has no number in it.
func (s *setter) unknown(x syntax.Expression, sc *scope) error {
	if s.inRow(x, sc) {
		return refuse(InRow, x.Span(), s.counters(x, sc)...)
	}
	if id, ok := x.(*syntax.Ident); ok && s.kindOf(id.Name) != "" {
		return refuse(NotANumber, x.Span(), id.Name)
	}
	if s.readsPart(x, sc) {
		return refuse(FromPart, x.Span(), s.names(x, sc)...)
	}
	return refuse(NotLinear, x.Span(), s.names(x, sc)...)
}

// signOf returns the minus that stands right before a number, or nil.
func signOf(x syntax.Expression, lit *syntax.Literal) (minus *syntax.Unary) {
	walk(x, func(y syntax.Expression) {
		if u, ok := y.(*syntax.Unary); ok && u.Operator == syntax.Subtract && u.Operand == syntax.Expression(lit) {
			minus = u
		}
	})
	return minus
}
