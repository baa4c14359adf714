package syntax

import "stabile/param/source"

// How tightly the operators bind, from the loosest.
const (
	bindsNothing = iota
	bindsOr
	bindsAnd
	bindsNot
	bindsComparison
	bindsSum
	bindsProduct
)

// operators are the signs that stand between two operands.
var operators = [...]struct {
	operator Operator
	binds    int
}{
	assign:       {Equal, bindsComparison}, // a slip, reported where it is read
	equal:        {Equal, bindsComparison},
	notEqual:     {NotEqual, bindsComparison},
	less:         {Less, bindsComparison},
	lessEqual:    {LessEqual, bindsComparison},
	greater:      {Greater, bindsComparison},
	greaterEqual: {GreaterEqual, bindsComparison},
	plus:         {Add, bindsSum},
	minus:        {Subtract, bindsSum},
	star:         {Multiply, bindsProduct},
	cross:        {Multiply, bindsProduct},
	slash:        {Divide, bindsProduct},
}

// expression reads a whole expression.
func (p *parser) expression() Expression {
	return p.whole(bindsOr)
}

// argument reads an expression in which "or" stands only in parentheses: no
// property takes a condition, so that a bare one is a slip.
func (p *parser) argument() Expression {
	return p.whole(bindsAnd)
}

// whole reads an expression that is not part of another. One that goes on with
// what could not be read is none.
func (p *parser) whole(least int) Expression {
	p.operators, p.depth = 0, 0
	from := p.tok.from
	e := p.binary(least)
	if p.tok.spoilt && !p.ended() && p.tok.kind != comma && p.tok.kind != leftBrace {
		return p.badFrom(from)
	}
	return e
}

// operator returns the operator in hand if it binds as tightly as least.
func (p *parser) operator(least int) (op Operator, binds int) {
	if p.tok.first && p.paren == 0 {
		return "", bindsNothing
	}
	switch k := p.tok.kind; {
	case k == word && p.tok.text == "or":
		op, binds = Or, bindsOr
	case k == word && p.tok.text == "and":
		op, binds = And, bindsAnd
	case int(k) < len(operators):
		op, binds = operators[k].operator, operators[k].binds
	}
	if binds < least {
		return "", bindsNothing
	}
	return op, binds
}

// binary reads operands with operators that bind as tightly as least.
func (p *parser) binary(least int) Expression {
	from := p.tok.from
	left := p.unary()
	compared := false
	for !p.bad {
		op, binds := p.operator(least)
		if binds == bindsNothing {
			break
		}
		if p.operators++; p.operators > maxOperators {
			p.errorHere("name parts of it with let", "this expression has more than %d operators", maxOperators)
			return p.badFrom(from)
		}
		t := p.advance()
		at := t.span(p.file)
		switch {
		case binds == bindsComparison && compared:
			p.errorAt(at, "write a < b and b < c", "comparisons cannot be chained")
		case t.kind == assign:
			p.slip(at, "write ==", "values are compared with '=='").Put("==")
		case binds == bindsComparison && t.text != "":
			p.slip(at, "write "+string(op), "'%s' is not a comparison", t.text).Put(string(op))
		}
		compared = binds == bindsComparison
		right := p.binary(binds + 1)
		if t.kind == cross { // it may have meant "by"; the slip has been reported
			left = p.badFrom(from)
			continue
		}
		left = &Binary{p.nodeFrom(from), op, at, left, right}
	}
	return left
}

// deeper goes one deeper into an expression. It reports false, and the mistake,
// where that is too deep.
func (p *parser) deeper() bool {
	if p.depth++; p.depth > maxDepth {
		p.errorHere("name parts of it with let", "this expression is nested more than %d deep", maxDepth)
		return false
	}
	return true
}

// unary reads an operand with the signs before it.
func (p *parser) unary() Expression {
	t := p.tok
	switch {
	case t.kind == minus, t.is("not"):
		p.advance()
		if !p.deeper() {
			return p.badFrom(t.from)
		}
		defer func() { p.depth-- }()
		if t.kind == minus {
			operand := p.unary()
			return &Unary{p.nodeFrom(t.from), Subtract, operand}
		}
		operand := p.binary(bindsComparison)
		return &Unary{p.nodeFrom(t.from), Not, operand}
	case t.kind == plus:
		p.slip(t.span(p.file), "leave it out", "a value has no '+' before it")
		p.advance()
		if p.tok.kind == plus {
			return p.missingValue()
		}
		return p.unary()
	}
	return p.postfix()
}

// postfix reads an operand with the calls, indexes and parts after it.
func (p *parser) postfix() Expression {
	from := p.tok.from
	e := p.primary()
	for !p.bad && !(p.tok.first && p.paren == 0) {
		if p.tok.kind != dot && p.tok.kind != leftBracket {
			break
		}
		if p.operators++; p.operators > maxOperators {
			p.errorHere("name parts of it with let", "this expression has more than %d operators", maxOperators)
			break
		}
		if p.tok.kind == leftBracket {
			index := p.index()
			e = &Index{p.nodeFrom(from), e, index}
			continue
		}
		p.advance()
		if p.tok.kind != word || p.tok.first {
			p.errorAt(p.prev.span(p.file), "write what you want to read after it, as in moon.centre", "there is nothing after the '.'")
			break
		}
		name := p.nameOf(p.advance())
		e = &Member{p.nodeFrom(from), e, name}
	}
	return e
}

// primary reads a value that stands by itself.
func (p *parser) primary() Expression {
	t := p.tok
	switch {
	case t.kind == number:
		return p.literal()
	case t.kind == text:
		return p.quotedText()
	case t.kind == leftParen:
		return p.parentheses()
	case t.kind != word || isConnective(t.text) || t.first && startsStatement(t.text):
		return p.missingValue()
	}
	p.advance()
	if p.tok.kind != leftParen || p.tok.first {
		return &Ident{p.nodeFrom(t.from), t.text}
	}
	c := &Call{Function: p.nameOf(t)}
	c.Arguments = p.list(rightParen)
	if p.bad {
		return p.badFrom(t.from) // it lacks values, or has more than were meant
	}
	c.node = p.nodeFrom(t.from)
	return c
}

// quotedText takes a text in quotes.
func (p *parser) quotedText() *String {
	t := p.advance()
	return &String{p.nodeFrom(t.from), t.text}
}

// parentheses reads an expression in parentheses, or a point.
func (p *parser) parentheses() Expression {
	t := p.tok
	list := p.list(rightParen)
	switch n := p.nodeFrom(t.from); {
	case p.bad:
		return &Bad{n}
	case len(list) == 1:
		return &Paren{n, list[0]}
	case len(list) == 2 || len(list) == 3:
		return &Point{n, list}
	default:
		p.slip(n.at, "write (x, y) or (x, y, z)", "a point has two or three coordinates, not %d", len(list))
		return &Bad{n}
	}
}

// index reads an expression in brackets.
func (p *parser) index() Expression {
	t := p.tok
	list := p.list(rightBracket)
	if len(list) == 1 {
		return list[0]
	}
	if !p.bad {
		p.slip(p.spanFrom(t.from), "write one number, as in reed[2]", "an index is one number, not %d", len(list))
	}
	return p.badFrom(t.from)
}

// list reads expressions parted by commas between parentheses or brackets, the
// opening one of which is in hand.
func (p *parser) list(closing kind) []Expression {
	if !p.deeper() {
		return nil
	}
	open := p.advance()
	p.paren++
	var list []Expression
	for !p.bad && p.tok.kind != closing {
		list = add(list, p.binary(bindsOr))
		if p.bad || p.tok.kind != comma {
			break
		}
		p.advance()
		if p.tok.kind == closing {
			p.missingValue()
		}
	}
	if p.bad {
		return list
	}
	if p.tok.kind != closing {
		p.notClosed(open, closing)
		return list
	}
	p.paren--
	p.depth--
	p.advance()
	return list
}

// notClosed reports what stands where a parenthesis should close.
func (p *parser) notClosed(open token, closing kind) {
	t := p.tok
	switch {
	case t.kind == endOfText, t.kind == leftBrace, t.kind == rightBrace, t.first, t.kind == text,
		t.kind == rightParen, t.kind == rightBracket,
		t.kind == word && isConnective(t.text),
		(t.kind == word || t.kind == number) && !p.closes(p.paren):
		p.errorAt(open.span(p.file), "close it with "+signText[closing], "this %s is never closed", signText[open.kind])
	default:
		p.leftover(inParentheses)
	}
}

// badFrom returns what stands for an expression that could not be read.
func (p *parser) badFrom(from int) Expression { return &Bad{p.nodeFrom(from)} }

const valueHint = "write a value there, such as 36 in"

// missingValue reports that a value is missing at the token in hand.
func (p *parser) missingValue() Expression {
	t := p.tok
	bad := &Bad{node{source.Span{File: p.file, From: t.from, To: t.from}}}
	switch {
	case p.prev.to == 0:
		p.errorHere(valueHint, "a value is missing")
	case p.ended(), t.first, t.kind == comma, t.kind == leftBrace, t.kind == rightParen, t.kind == rightBracket, t.kind == word:
		p.errorAt(p.prev.span(p.file), valueHint, "a value is missing after %s", quoted(p.prev))
	default:
		p.errorHere(valueHint, "a value is missing before %s", quoted(t))
	}
	return bad
}
