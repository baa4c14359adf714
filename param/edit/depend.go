package edit

import (
	"slices"

	"stabile/param/quantity"
	"stabile/param/syntax"
)

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
