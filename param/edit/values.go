package edit

import (
	"slices"

	"stabile/param/design"
	"stabile/param/eval"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// mostNodes bounds an expression with all that its names stand for. Nobody
// writes such a one by hand.
const mostNodes = 10_000

// A substitute is a number that stands for another one, or for a name.
type substitute struct {
	literal *syntax.Literal // nil where it stands for a name
	name    *definition     // nil where it stands for a number
	by      quantity.Quantity
}

// An inliner replaces the names of an expression by what they stand for.
type inliner struct {
	sub   substitute
	nodes int
	parts bool // the expression reads a part
	fails bool // it depends on the index of a row, or has too many nodes
}

func (in *inliner) inline(x syntax.Expression, s *scope) syntax.Expression {
	if in.nodes++; in.nodes > mostNodes || x == nil {
		in.fails = true
		return x
	}
	switch x := x.(type) {
	case *syntax.Literal:
		if x == in.sub.literal {
			return literalOf(x.Span(), in.sub.by)
		}
	case *syntax.Ident:
		d := s.lookup(x.Name)
		switch {
		case d == nil:
			in.parts = in.parts || x.Name != "pi"
		case d == in.sub.name:
			return literalOf(x.Span(), in.sub.by)
		case d.value == nil:
			in.fails = true
		default:
			return in.inline(d.value, d.scope)
		}
	case *syntax.Index:
		c := *x
		c.Index = in.inline(x.Index, s)
		in.parts = true
		return &c
	case *syntax.Member:
		c := *x
		c.Of = in.inline(x.Of, s)
		return &c
	case *syntax.Call:
		if isRounding(x) && in.holds(x.Arguments[0], s) {
			return in.inline(x.Arguments[0], s)
		}
		c := *x
		c.Arguments = in.all(x.Arguments, s)
		return &c
	case *syntax.Point:
		c := *x
		c.Coordinates = in.all(x.Coordinates, s)
		return &c
	case *syntax.Paren:
		c := *x
		c.Inner = in.inline(x.Inner, s)
		return &c
	case *syntax.Unary:
		c := *x
		c.Operand = in.inline(x.Operand, s)
		return &c
	case *syntax.Binary:
		c := *x
		c.Left, c.Right = in.inline(x.Left, s), in.inline(x.Right, s)
		return &c
	}
	return x
}

func (in *inliner) all(list []syntax.Expression, s *scope) []syntax.Expression {
	out := make([]syntax.Expression, len(list))
	for i, x := range list {
		out[i] = in.inline(x, s)
	}
	return out
}

// holds reports whether what is substituted stands in an expression.
func (in *inliner) holds(x syntax.Expression, s *scope) (found bool) {
	walk(x, func(x syntax.Expression) {
		switch x := x.(type) {
		case *syntax.Literal:
			found = found || x == in.sub.literal
		case *syntax.Ident:
			if d := s.lookup(x.Name); d != nil {
				found = found || d == in.sub.name
			}
		}
	})
	return found
}

// isRounding reports whether a call rounds its first value.
func isRounding(c *syntax.Call) bool {
	switch c.Function.Text {
	case "round", "floor", "ceil":
		return len(c.Arguments) > 0
	}
	return false
}

// walk calls a function for an expression and all that stand in it.
func walk(x syntax.Expression, do func(syntax.Expression)) {
	if x == nil {
		return
	}
	do(x)
	switch x := x.(type) {
	case *syntax.Index:
		walk(x.Of, do)
		walk(x.Index, do)
	case *syntax.Member:
		walk(x.Of, do)
	case *syntax.Call:
		for _, a := range x.Arguments {
			walk(a, do)
		}
	case *syntax.Point:
		for _, c := range x.Coordinates {
			walk(c, do)
		}
	case *syntax.Paren:
		walk(x.Inner, do)
	case *syntax.Unary:
		walk(x.Operand, do)
	case *syntax.Binary:
		walk(x.Left, do)
		walk(x.Right, do)
	}
}

// unitOf returns a unit in which a quantity of a dimension can be written.
func unitOf(d quantity.Dimension) (quantity.Unit, bool) {
	if d == quantity.Number {
		return quantity.Unit{Scale: 1}, true
	}
	names := quantity.UnitNames(&d)
	if len(names) == 0 {
		return quantity.Unit{}, false
	}
	return quantity.LookupUnit(names[len(names)-1])
}

// literalOf returns a quantity as a number in the tree.
func literalOf(at source.Span, q quantity.Quantity) syntax.Expression {
	u, _ := unitOf(q.Dim)
	return syntax.NewLiteral(at, syntax.Term{Number: q.Number / u.Scale, Unit: syntax.Name{Text: u.Name}, At: at})
}

// stub is a part for a design that has no other.
var stub = func() []syntax.Statement {
	tree, _ := syntax.Parse(source.NewFile("", "base stub { feet }"))
	return tree.Statements
}()

// A question is an expression whose value is sought, with one number in it
// changed or none.
type question struct {
	x     syntax.Expression
	scope *scope
	sub   substitute
}

// values works expressions out. It reports false where one of them is no number
// or cannot be worked out.
func (t *Text) values(list ...question) ([]quantity.Quantity, bool) {
	o := eval.Options{Alloys: t.options.Alloys}
	parts := false
	for _, q := range list {
		in := inliner{sub: q.sub}
		x := in.inline(q.x, q.scope)
		if in.fails {
			return nil, false
		}
		parts = parts || in.parts
		o.Questions = append(o.Questions, eval.Question{Source: t.tree.Source, Value: x})
	}
	var d *design.Design
	if parts {
		o.Used, o.Variation = t.used, t.options.Variation
		d, _ = eval.Evaluate(t.tree, o)
	} else {
		// All names are replaced; of the text only the units count.
		for _, u := range t.used {
			o.Used = append(o.Used, &syntax.File{Source: u.Source, Statements: unitsOf(u)})
		}
		d, _ = eval.Evaluate(&syntax.File{Source: t.tree.Source, Statements: slices.Concat(unitsOf(t.tree), stub)}, o)
	}
	if d == nil || len(d.Questions) != len(list) {
		return nil, false
	}
	out := make([]quantity.Quantity, len(list))
	for i, q := range d.Questions {
		a := q.Answer(func(string) (quantity.Quantity, string, bool) { return quantity.Quantity{}, "", false })
		if a.Unchecked {
			return nil, false
		}
		out[i] = a.Number
	}
	return out, true
}

// unitsOf returns the statements of a file that say what its plain lengths mean.
func unitsOf(f *syntax.File) []syntax.Statement {
	var list []syntax.Statement
	for _, s := range f.Statements {
		if set, ok := s.(*syntax.Setting); ok && set.Keyword.Text == "units" {
			list = append(list, s)
		}
	}
	return list
}
