package syntax

import (
	"slices"
	"strings"

	"stabile/param/source"
)

// declaration reads a thing with its name, its clauses and its properties.
func (p *parser) declaration(start token) Statement {
	d := &Declaration{Keyword: p.nameOf(start)}
	nameless := p.tok.kind == leftBrace || p.ended() || p.tok.kind == word && isClause(p.tok.text) &&
		p.peek().kind != leftBrace
	if isNameless(start.text) {
		nameless = nameless || p.peek().kind != leftBrace
	} else {
		nameless = false // it needs a name, and says so
	}
	switch {
	case isTitled(start.text):
		d.Title = p.title(start)
	case !nameless:
		d.Name = p.newName(start, start.text+" NAME ...")
	}
	if p.tok.kind == leftBracket && !p.ended() {
		d.Index = p.index()
	}
	for p.tok.kind == word && isClause(p.tok.text) {
		t := p.advance()
		d.Clauses = append(d.Clauses, Clause{Word: p.nameOf(t), Value: p.expression()})
	}
	if open, ok := p.open(start); ok {
		d.Body = p.body(open)
	}
	d.node = p.nodeFrom(start.from)
	return d
}

// title reads the text in quotes that a thing is known by. One without quotes is
// reported and taken for it.
func (p *parser) title(start token) *String {
	t := p.tok
	form := start.text + ` "B" { ... }`
	switch {
	case t.kind == text && !p.ended():
		return p.quotedText()
	case p.ended() || t.kind == leftBrace:
		p.errorAt(start.span(p.file), "write "+form, "a letter in quotes is missing after %s", quoted(start))
		return nil
	case t.kind == word || t.kind == number:
		p.advance()
		p.slip(t.span(p.file), "write "+start.text+` "`+p.written(t)+`"`, "put the letter of a revision in quotes").Put(`"` + p.written(t) + `"`)
		return &String{p.nodeFrom(t.from), p.written(t)}
	}
	p.errorHere("write "+form, "a letter in quotes is missing before %s", quoted(t))
	return nil
}

// nameOf returns a word as a name at its place.
func (p *parser) nameOf(t token) Name { return Name{t.text, t.span(p.file)} }

// newName reads the name that a statement gives to something. The form shows
// how the statement is written.
func (p *parser) newName(start token, form string) Name {
	t := p.tok
	switch {
	case p.ended() || t.kind == leftBrace || t.kind == word && isClause(t.text) && p.peek().kind != leftBrace:
		p.errorAt(start.span(p.file), "write "+form, "a name is missing after %s", quoted(start))
		return Name{}
	case t.kind == text:
		p.advance()
		p.slip(t.span(p.file), "write "+start.text+" "+t.text, "a name has no quotes").Put(t.text)
		return p.nameOf(t)
	case t.kind != word:
		if t.kind == number {
			p.errorHere("put a letter before it, as in p"+p.written(t), "a name starts with a letter")
		} else {
			p.errorHere("write "+form, "a name is missing before %s", quoted(t))
		}
		return Name{}
	}
	p.advance()
	if next := p.tok; t.text == start.text && next.kind == word && !p.ended() && !isClause(next.text) {
		p.slip(t.span(p.file), "leave one of them out", "%s is written twice", quoted(t)).Put("")
		t = p.advance()
	}
	n := p.nameOf(t)
	if p.tok.kind == minus && p.tok.from == p.prev.to {
		n = p.hyphens(n)
		n.Text = strings.ReplaceAll(n.Text, "-", "_")
		p.slip(n.At, "write "+n.Text, "a name has no '-', which would read as a difference").Put(n.Text)
	}
	if why := taken(n.Text); why != "" {
		p.slip(n.At, "choose another name, such as '"+n.Text+"1'", "'%s' %s and cannot be a name", n.Text, why)
	}
	return n
}

// hyphens goes on reading a word at hyphens without blanks about them.
func (p *parser) hyphens(n Name) Name {
	for p.tok.kind == minus && p.tok.from == n.At.To && !p.tok.spoilt {
		part := p.peek()
		if part.from != p.tok.to || part.kind != word && part.kind != number {
			break
		}
		p.advance()
		p.advance()
		n.At.To = p.prev.to
		n.Text = n.At.Text()
	}
	return n
}

// braced reads what stands between braces, parted by commas or new lines, each
// starting with a word and read by the given function.
// The opening brace has been taken.
func (p *parser) braced(open token, read func()) {
	for {
		switch {
		case p.tok.kind == rightBrace:
			p.leave()
			return
		case p.tok.kind == endOfText || p.tok.first && p.anotherStatement():
			p.blocks--
			p.unclosed(open)
			p.bad = false
			return
		case p.tok.kind == leftBrace && p.surplus() < 0:
			p.slip(p.tok.span(p.file), "leave one of them out", "this { is written twice")
			p.advance()
			continue
		case p.tok.kind == comma:
			p.slip(p.tok.span(p.file), "leave it out", "there is nothing before this comma")
			p.advance()
			continue
		case p.tok.kind == semicolon:
			p.advance()
			continue
		case p.tok.kind == word:
			read()
		default:
			p.notAProperty()
		}
		if !p.bad && !p.ended() && p.tok.kind != comma && p.prev.kind != rightBrace {
			p.leftover(inBody)
		}
		if p.bad {
			p.sync(true)
		}
		if p.tok.kind == comma {
			p.advance()
		}
	}
}

// anotherStatement reports whether a statement starts at the token in hand, so
// that the body before it must have been left open.
func (p *parser) anotherStatement() bool {
	if p.tok.kind != word || !startsStatement(p.tok.text) {
		return false
	}
	s := p.ahead()
	next := s.next()
	if next.first {
		return false
	}
	if onlyStatement(p.tok.text) {
		return next.kind == word || next.kind == text || next.kind == leftBrace
	}
	if isTitled(p.tok.text) {
		return next.kind == text
	}
	if isNameless(p.tok.text) {
		return next.kind == leftBrace
	}
	return next.kind == word && s.next().kind == leftBrace
}

// notAProperty reports a sign, number or text where a property must start.
func (p *parser) notAProperty() {
	t := p.tok
	switch {
	case t.kind == leftBrace:
		p.errorHere("write the property that it belongs to before it", "this { belongs to no property")
		p.skipBlock()
		p.bad = true
		return
	case p.decimalComma():
	case t.kind == leftParen:
		p.errorHere("a property starts with a word, such as at or offset", "no property starts with %s", quoted(t))
		p.paren = 1 // to be gone past as a whole
	default:
		p.errorHere("a property starts with a word, such as diameter or metal", "no property starts with %s", quoted(t))
	}
	p.advance()
	p.bad = true
}

// decimalComma reports a comma between two digits, which elsewhere stands for a
// decimal point or parts off the thousands.
func (p *parser) decimalComma() bool {
	c := p.prev
	if p.tok.kind == comma {
		c = p.tok
	}
	if !p.withinNumber(c) {
		return false
	}
	p.errorAt(c.span(p.file), "write a decimal as 1.5, and a thousand as 1000", "a number has no comma in it")
	return true
}

// withinNumber reports whether a token is a comma between two digits.
func (p *parser) withinNumber(c token) bool {
	return c.kind == comma && c.from > 0 && isDigit(p.file.Text[c.from-1]) && isDigit(p.scan.byteAt(c.to))
}

// body reads the properties between braces.
func (p *parser) body(open token) []Property {
	var list []Property
	p.braced(open, func() { list = add(list, p.property()) })
	return slices.Clip(list)
}

// anotherPoint reports whether the comma in hand leads to another point of the
// property, as in plate polygon (0, 0), (9, 0), (9, 6). No property starts with a
// parenthesis.
func (p *parser) anotherPoint(prop *Property) bool {
	return p.tok.kind == comma && len(prop.Arguments) > 0 && prop.Arguments[0].Link.Text == listLink && p.peek().kind == leftParen
}

// anotherSize reports whether the comma in hand leads to another size of the property, as
// in caps 3 in, 2 in. No property starts with a number.
func (p *parser) anotherSize(prop *Property) bool {
	if p.tok.kind != comma || len(prop.Arguments) != 1 || prop.Word.Text != shapedWord || p.withinNumber(p.tok) {
		return false
	}
	next := p.peek()
	return next.kind == number || next.kind == leftParen
}

// property reads a word with its values.
func (p *parser) property() Property {
	start := p.tok
	if takesHyphens(start.text) {
		p.bad = p.bad || start.spoilt
		p.prev, p.tok = start, p.scan.hyphened()
	} else {
		p.advance()
	}
	prop := Property{Word: p.hyphens(p.nameOf(start))}
	if p.tok.kind == assign && !p.ended() {
		p.slip(p.tok.span(p.file), "leave it out", "a property has no '=' before its value")
		p.advance()
	}
	for !p.bad && (p.anotherPoint(&prop) || p.anotherSize(&prop) || !p.ended() && p.tok.kind != comma && p.tok.kind != leftBrace) {
		a := Argument{}
		switch {
		case p.tok.kind == comma:
			p.advance()
		case len(prop.Arguments) == 0 && p.tok.is(listLink) && p.peek().kind == leftParen:
			a.Link = p.nameOf(p.advance())
		case p.tok.kind == word && isLink(p.tok.text):
			a.Link = p.nameOf(p.advance())
		case prop.Word.Text == boughtWord && p.leadsToPipe(len(prop.Arguments)):
			a.Link = Name{[...]string{pipeLink, scheduleLink}[len(prop.Arguments)], p.tok.span(p.file)}
			if a.Link.Text == scheduleLink {
				p.bad = p.bad || p.tok.spoilt
				p.prev, p.tok = p.tok, p.scan.hyphened()
			} else {
				p.advance()
			}
		case len(prop.Arguments) == 1 && prop.Word.Text == countWord && p.tok.kind == word && isActivity(p.tok.text):
			// What is counted, after the number.
		case len(prop.Arguments) > 0 && prop.Word.Text == shapedWord && p.tok.kind == word && slices.Contains(shapes, p.tok.text):
			// What shape it has, after its size.
		case len(prop.Arguments) > 0 || !p.startsValue(p.tok) && p.tok.kind != minus && p.tok.kind != plus && !p.tok.is("not"):
			p.leftover(inBody)
			a.Value = p.badFrom(p.tok.from) // it may have been one that would be missed
			prop.Arguments = append(prop.Arguments, a)
			continue
		}
		a.Value = p.argument()
		prop.Arguments = append(prop.Arguments, a)
	}
	if p.tok.kind == leftBrace && !p.bad && !p.ended() {
		if open, ok := p.enter(); ok {
			prop.Body = p.body(open)
		}
	}
	prop.At = p.spanFrom(start.from)
	return prop
}

// leadsToPipe reports whether the token in hand leads to the size of a pipe, or to its
// schedule, after so many values. A misspelt word is reported and taken for it.
func (p *parser) leadsToPipe(values int) bool {
	if values > 1 || p.tok.kind != word {
		return false
	}
	link, next := [...]string{pipeLink, scheduleLink}[values], p.peek()
	switch {
	case p.tok.text == link && values == 1 && (next.first || next.kind == comma || next.kind == rightBrace):
		p.errorHere("write it as schedule 40", "there is no schedule after '%s'", link)
		p.bad = true
		return false
	case next.first || !p.startsValue(next) && next.kind != minus:
		return false
	case p.tok.text == link:
		return true
	}
	near, ok := source.Suggest(p.tok.text, []string{link})
	if ok {
		p.slip(p.tok.span(p.file), "did you mean '"+near+"'?", "'%s' is not understood after %s", p.tok.text, boughtWord).Put(near)
	}
	return ok
}
