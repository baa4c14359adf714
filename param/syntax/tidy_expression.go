package syntax

import "strings"

// expression prints an expression, the first token of which stands behind the
// given gap.
func (p *printer) expression(g gap, e Expression) {
	switch e := e.(type) {
	case *Literal:
		for _, t := range e.Terms {
			p.term(g, t)
			g = blank
		}
	case *Index:
		p.expression(g, e.Of)
		p.index(e.Index)
	case *Member:
		p.expression(g, e.Of)
		p.sign(none, ".")
		p.at(none, e.Name.At)
	case *Call:
		p.at(g, e.Function.At)
		p.list(none, e.Arguments)
	case *Point:
		p.list(g, e.Coordinates)
	case *Paren:
		p.list(g, []Expression{e.Inner})
	case *Unary:
		p.sign(g, string(e.Operator))
		if e.Operator == Not {
			p.expression(soft, e.Operand)
		} else {
			p.expression(lineEnd, e.Operand)
		}
	case *Binary:
		p.expression(g, e.Left)
		p.at(soft, e.OperatorAt)
		p.expression(soft, e.Right)
	default: // a word or a string
		p.at(g, e.Span())
	}
}

// term prints a number as it is written, and its unit.
func (p *printer) term(g gap, t Term) {
	if t.Unit.Text == "" {
		p.at(g, t.At)
		return
	}
	number := strings.TrimRight(p.src[t.At.From:t.Unit.At.From], blanks)
	p.put(g, t.At.From, t.At.From+len(number))
	p.at(blank, t.Unit.At)
}

// list prints expressions in parentheses.
func (p *printer) list(g gap, list []Expression) {
	p.bracket(g, "(")
	for i, e := range list {
		if i == 0 {
			p.expression(lineEnd, e)
			continue
		}
		p.sign(none, ",")
		p.expression(soft, e)
	}
	p.unbracket(")")
}

// index prints an expression in brackets.
func (p *printer) index(e Expression) {
	p.bracket(none, "[")
	p.expression(lineEnd, e)
	p.unbracket("]")
}

// bracket prints an opening parenthesis or bracket. Lines within stand one
// level further in than its own.
func (p *printer) bracket(g gap, s string) {
	p.sign(g, s)
	p.open = append(p.open, p.lines[len(p.lines)-1].indent)
}

// unbracket prints the closing one, which stands at the level of the line of
// the opening one where it starts a line.
func (p *printer) unbracket(s string) {
	from, last := p.find(), len(p.open)-1
	p.lead(lineEnd, from, p.open[last])
	p.open = p.open[:last]
	p.text = append(p.text, s...)
	p.pos = from + len(s)
}

// isResult reports whether an expression is the name of a result, such as
// weight or seed[7].top.
func isResult(e Expression) bool {
	for {
		switch x := e.(type) {
		case *Ident:
			return true
		case *Member:
			e = x.Of
		case *Index:
			e = x.Of
		default:
			return false
		}
	}
}

// isCompound reports whether an expression reads as a word with hyphens and
// holds no unit. As the value of a property it may be a name such as
// weathering-steel, which blanks about the hyphens would make a difference of.
func isCompound(e Expression) bool {
	if _, ok := e.(*Binary); !ok {
		return false
	}
	if _, ok := Word(e); !ok {
		return false
	}
	for {
		b, ok := e.(*Binary)
		if !ok {
			return !hasUnit(e)
		}
		if hasUnit(b.Right) {
			return false
		}
		e = b.Left
	}
}

func hasUnit(e Expression) bool {
	lit, ok := e.(*Literal)
	return ok && lit.Terms[0].Unit.Text != ""
}
