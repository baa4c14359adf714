package edit

import (
	"math"
	"slices"

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

// why tells why an expression cannot be worked out.
func (s *setter) why(x syntax.Expression, sc *scope) Reason {
	if _, ok := s.values(question{x: x, scope: sc}); ok {
		return NotLinear // it has a value as it stands, but not with another number
	}
	return Mistakes
}

// linear calls a function for the numbers and names on which an expression may
// depend linearly: those that are added up, and measures in a product.
func linear(x syntax.Expression, do func(syntax.Expression)) {
	switch x := x.(type) {
	case *syntax.Literal, *syntax.Ident, *syntax.Member, *syntax.Index:
		do(x)
	case *syntax.Paren:
		linear(x.Inner, do)
	case *syntax.Unary:
		linear(x.Operand, do)
	case *syntax.Call:
		if isRounding(x) {
			linear(x.Arguments[0], do)
		}
	case *syntax.Binary:
		switch x.Operator {
		case syntax.Add, syntax.Subtract:
			linear(x.Left, do)
			linear(x.Right, do)
		case syntax.Multiply:
			left, right := isProportion(x.Left), isProportion(x.Right)
			if !left || right {
				linear(x.Left, do)
			}
			if !right || left {
				linear(x.Right, do)
			}
		case syntax.Divide:
			linear(x.Left, do)
		}
	}
}

// isProportion reports whether an expression is made of plain numbers only, or is
// one of a unit, which a plain name is given its unit by, as in high * 1 mm.
func isProportion(x syntax.Expression) bool {
	if lit, ok := x.(*syntax.Literal); ok && len(lit.Terms) == 1 && lit.Terms[0].Number == 1 {
		return true
	}
	plain := true
	walk(x, func(y syntax.Expression) {
		switch y := y.(type) {
		case *syntax.Literal:
			plain = plain && dimOf(y) == quantity.Number
		case *syntax.Ident:
			plain = plain && y.Name == "pi"
		}
	})
	return plain
}

// dimOf returns the dimension of a number as it is written.
func dimOf(x *syntax.Literal) quantity.Dimension {
	if u, ok := quantity.LookupUnit(x.Terms[0].Unit.Text); ok {
		return u.Dim
	}
	if x.Terms[0].Mixed {
		return quantity.Length
	}
	return quantity.Number
}

// measures returns the numbers that may decide a quantity of a dimension: those
// of that dimension, or else plain ones.
func (s *setter) measures(lits []*syntax.Literal, dim quantity.Dimension) []*syntax.Literal {
	of := func(d quantity.Dimension) (list []*syntax.Literal) {
		for _, x := range lits {
			if dimOf(x) == d {
				list = append(list, x)
			}
		}
		return list
	}
	if list := of(dim); len(list) > 0 {
		return list
	}
	return of(quantity.Number)
}

// oneName returns the one name that decides an expression, or why there is none.
func (s *setter) oneName(x syntax.Expression, names []*syntax.Ident, sc *scope, dim quantity.Dimension) (*syntax.Ident, Reason) {
	unique := names[:0:0]
	for _, n := range names {
		if !slices.ContainsFunc(unique, func(m *syntax.Ident) bool { return m.Name == n.Name }) {
			unique = append(unique, n)
		}
	}
	if len(unique) > 1 {
		var right []*syntax.Ident
		for _, n := range unique {
			q, ok := s.values(question{x: n, scope: sc})
			if !ok {
				return nil, Mistakes
			}
			if q[0].Dim == dim {
				right = append(right, n)
			}
		}
		unique = right
	}
	switch len(unique) {
	case 0:
		if len(names) == 0 {
			return nil, NotLinear
		}
		return nil, Several
	case 1:
	default:
		return nil, Several
	}
	// Wherever the name stands, or another that depends on it, it must do so
	// linearly.
	id := unique[0]
	d := sc.lookup(id.Name)
	count := 0
	sound := true
	walk(x, func(y syntax.Expression) {
		n, ok := y.(*syntax.Ident)
		if !ok {
			return
		}
		switch other := sc.lookup(n.Name); {
		case other == d:
			count++
		case other != nil && other.value != nil:
			s.follow(other.value, other.scope, func(e *definition) { sound = sound && e != d })
		}
	})
	for _, n := range names {
		if n.Name == id.Name {
			count--
		}
	}
	if count != 0 || !sound {
		return nil, NotLinear
	}
	return id, 0
}

// follow calls a function once for each definition that an expression leads to.
func (t *Text) follow(x syntax.Expression, sc *scope, do func(*definition)) {
	seen := map[*definition]bool{}
	var at func(x syntax.Expression, sc *scope)
	at = func(x syntax.Expression, sc *scope) {
		walk(x, func(y syntax.Expression) {
			id, ok := y.(*syntax.Ident)
			if !ok {
				return
			}
			if d := sc.lookup(id.Name); d != nil && !seen[d] && len(seen) < mostNodes {
				seen[d] = true
				do(d)
				at(d.value, d.scope)
			}
		})
	}
	at(x, sc)
}

// inRow reports whether an expression depends on the index of a row.
func (t *Text) inRow(x syntax.Expression, sc *scope) bool { return len(t.counters(x, sc)) > 0 }

// counters returns the names of the indexes that an expression depends on.
func (t *Text) counters(x syntax.Expression, sc *scope) (names []string) {
	t.follow(x, sc, func(d *definition) {
		if d.value == nil {
			names = append(names, d.name.Text)
		}
	})
	return names
}

// readsPart reports whether an expression depends on a part.
func (t *Text) readsPart(x syntax.Expression, sc *scope) (yes bool) {
	look := func(x syntax.Expression, sc *scope) {
		walk(x, func(y syntax.Expression) {
			if id, ok := y.(*syntax.Ident); ok && sc.lookup(id.Name) == nil && id.Name != "pi" {
				yes = true
			}
		})
	}
	look(x, sc)
	t.follow(x, sc, func(d *definition) { look(d.value, d.scope) })
	return yes
}

// names returns what an expression depends on, as it is written: names and
// numbers, each once.
func (t *Text) names(x syntax.Expression, sc *scope) []string {
	var list []string
	add := func(name string) {
		if !slices.Contains(list, name) {
			list = append(list, name)
		}
	}
	walk(x, func(y syntax.Expression) {
		switch y := y.(type) {
		case *syntax.Ident:
			add(y.Name)
		case *syntax.Literal:
			if dimOf(y) != quantity.Number {
				add(y.Span().Text())
			}
		}
	})
	return list
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
