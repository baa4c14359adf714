package syntax

import (
	"strings"

	"stabile/param/source"
)

// statements reads statements up to the end of the text or, in a block, up to
// its closing brace, which it leaves in hand. A nil open is the whole text.
func (p *parser) statements(open *token) []Statement {
	var list []Statement
	for {
		switch p.tok.kind {
		case endOfText:
			if open != nil {
				p.unclosed(*open)
				p.bad = false
			}
			return list
		case rightBrace:
			if open != nil {
				return list
			}
			p.errorHere("leave it out, or open what it closes with {", "this } closes nothing")
			p.advance()
			p.bad = false
			continue
		case semicolon:
			p.advance()
			continue
		case leftBrace:
			if open != nil && p.surplus() < 0 {
				p.slip(p.tok.span(p.file), "leave one of them out", "this { is written twice")
				p.advance()
				continue
			}
		}
		if s := p.statement(); s != nil {
			list = add(list, s)
		}
		if !p.bad && !p.ended() && p.prev.kind != rightBrace {
			p.leftover("the statement")
		}
		if p.bad {
			p.sync(false)
		}
	}
}

// block reads the statements between braces.
func (p *parser) block(of token) []Statement {
	open, ok := p.open(of)
	if !ok {
		return nil
	}
	list := p.statements(&open)
	if p.tok.kind == rightBrace {
		p.leave()
	} else {
		p.blocks--
	}
	return list
}

// open takes the opening brace of what a statement holds, on the same line or
// the next. Where the head before it could not be read the brace is looked for;
// where only the brace is missing, and its closing one is there, reading goes on
// behind where it should stand.
func (p *parser) open(of token) (open token, ok bool) {
	if !p.bad && p.tok.kind == leftBrace {
		return p.enter()
	}
	missing := p.surplus() > 0 && p.blocks < maxBlocks
	if !p.bad {
		switch {
		case missing:
			p.slip(of.span(p.file), "write { before its contents", "the { of %s is missing", quoted(of))
			p.paren = 0
			p.blocks++
			return of, true
		case p.ended():
			p.errorAt(of.span(p.file), "write its contents between { and }", "%s has no { }", quoted(of))
		default:
			p.leftover("the head of " + quoted(of))
		}
	}
	p.skipParens()
	for p.tok.kind != leftBrace && !p.ended() && !missing {
		p.advance()
	}
	switch {
	case p.tok.kind == leftBrace:
		p.bad = false
		return p.enter()
	case missing:
		for !p.tok.first && p.tok.kind != rightBrace && p.tok.kind != endOfText && p.tok.kind != word {
			p.advance()
		}
		p.bad = false
		p.blocks++
		return of, true
	}
	return token{}, false
}

// statement reads one statement. It returns nil for one that cannot be made
// anything of.
func (p *parser) statement() Statement {
	if p.tok.kind != word {
		p.notAStatement()
		if p.tok.kind == leftBrace {
			p.skipBlock()
		} else {
			p.advance()
		}
		p.bad = true
		return nil
	}
	start := p.advance()
	if start.spoilt && !startsStatement(start.text) {
		return nil
	}
	if !startsStatement(start.text) {
		return p.unknownStatement(start)
	}
	return p.statementOf(start)
}

// statementOf reads the statement that starts with the given word.
func (p *parser) statementOf(start token) Statement {
	switch start.text {
	case "sculpture", "units", "bring":
		return p.setting(start)
	case "let":
		return p.let(start)
	case "adjust":
		return p.adjust(start)
	case "repeat":
		return p.repeat(start)
	case "when":
		s := &When{Condition: p.expression()}
		s.Block = p.block(start)
		s.node = p.nodeFrom(start.from)
		return s
	case "variation":
		return p.variation(start)
	case "require":
		s := &Require{Condition: p.expression()}
		if p.tok.kind == text && !p.ended() {
			s.Why = p.quotedText()
		}
		s.node = p.nodeFrom(start.from)
		return s
	}
	return p.declaration(start)
}

// notAStatement reports a sign, number or text where a statement must start.
func (p *parser) notAStatement() {
	switch p.tok.kind {
	case plus, minus, star, slash, cross, equal, notEqual, less, lessEqual, greater, greaterEqual:
		p.errorHere("put it at the end of the line before, where it shows that the line goes on",
			"a line cannot start with %s", quoted(p.tok))
	case leftBrace:
		p.errorHere("write what it describes before it, such as a post or a ball", "this { belongs to nothing")
	case comma:
		p.errorHere("leave it out; commas separate properties only", "there is no comma between statements")
	default:
		p.errorHere("start the line with a word such as let, post or ball", "no statement starts with %s", quoted(p.tok))
	}
}

// unknownStatement reports a word that no statement starts with, and reads on
// as what was most likely meant.
func (p *parser) unknownStatement(start token) Statement {
	at := start.span(p.file)
	if p.tok.kind == assign && !p.ended() {
		name := Name{start.text, at}
		p.advance()
		value := p.expression()
		if p.tok.is("from") && !p.ended() {
			p.slip(at, "write adjust "+start.text+" = ...", "'%s' is given a range without adjust", start.text).Put("adjust " + start.text)
			s := &Adjust{Name: name, Value: value}
			p.adjustRange(start, s)
			return s
		}
		p.slip(at, "write let "+start.text+" = ... to name a value", "'%s' is given a value without let", start.text).Put("let " + start.text)
		return &Let{p.nodeFrom(start.from), name, value}
	}
	if now, ok := retired[start.text]; ok && p.tok.kind == text && !p.ended() {
		p.slip(at, "write "+now+" "+p.tok.span(p.file).Text(), "'%s' is now '%s'", start.text, now).Put(now)
		start.text = now
		return p.statementOf(start)
	}
	meant, ok := source.Suggest(strings.ToLower(start.text), statementWords)
	if l := strings.ToLower(start.text); startsStatement(l) {
		meant, ok = l, true
	}
	if !ok {
		p.errorAt(at, "a statement starts with one of: "+strings.Join(statementWords, ", "),
			"no statement starts with '%s'", start.text)
		return nil
	}
	p.slip(at, "did you mean '"+meant+"'?", "no statement starts with '%s'", start.text).Put(meant)
	// The word is read as the one that was meant, at its own place.
	start.text = meant
	return p.statementOf(start)
}

// let reads: NAME = expr.
func (p *parser) let(start token) Statement {
	s := &Let{}
	s.Name = p.newName(start, "let NAME = value")
	p.assign(s.Name)
	s.Value = p.expression()
	s.node = p.nodeFrom(start.from)
	return s
}

// adjust reads: NAME = expr from expr to expr [ step expr ].
func (p *parser) adjust(start token) Statement {
	s := &Adjust{}
	s.Name = p.newName(start, "adjust NAME = value from least to most")
	p.assign(s.Name)
	s.Value = p.expression()
	p.adjustRange(start, s)
	return s
}

// adjustRange reads: from expr to expr [ step expr ].
func (p *parser) adjustRange(start token, s *Adjust) {
	for _, part := range []struct {
		word string
		into *Expression
	}{{"from", &s.From}, {"to", &s.To}, {"step", &s.Step}} {
		switch {
		case p.takeWord(part.word):
			*part.into = p.expression()
		case part.word != "step":
			*part.into = p.badFrom(p.prev.to)
			if p.ended() {
				p.errorAt(start.span(p.file), "write adjust NAME = value from least to most", "this adjust has no range: '%s' is missing", part.word)
			} else {
				p.leftover("the value")
			}
		}
	}
	s.node = p.nodeFrom(start.from)
}

// takeWord takes the given word, or a slip of it, if it is in hand.
func (p *parser) takeWord(w string) bool {
	if p.tok.kind != word || p.ended() {
		return false
	}
	if p.tok.text != w {
		near, ok := source.Suggest(p.tok.text, []string{w})
		if !ok || isConnective(p.tok.text) || p.bad {
			return false
		}
		p.slip(p.tok.span(p.file), "did you mean '"+near+"'?", "'%s' is not understood here", p.tok.text).Put(near)
	}
	p.advance()
	return true
}

// assign takes the = after a name.
func (p *parser) assign(n Name) {
	switch {
	case p.tok.kind == assign && !p.ended():
		p.advance()
	case (p.tok.kind == equal || p.tok.text == "=>") && !p.ended():
		p.slip(p.tok.span(p.file), "write =", "a value is set with one '='").Put("=")
		p.advance()
	case !p.ended() && p.tok.kind == word && p.peek().kind == assign:
		p.slip(p.tok.span(p.file), "leave one of them out", "there are two names before the '='")
		p.advance()
		p.advance()
	case !p.ended() && p.startsValue(p.tok):
		p.slip(n.At, "write "+n.Text+" = ...", "there is no '=' between '%s' and its value", n.Text).Put(n.Text + " =")
	default:
		p.errorAt(n.At, "write "+n.Text+" = ...", "'%s' is given no value", n.Text)
	}
}

// repeat reads: NAME from expr to expr block.
func (p *parser) repeat(start token) Statement {
	s := &Repeat{}
	s.Variable = p.newName(start, "repeat i from 1 to 3 { ... }")
	for _, part := range []struct {
		word string
		into *Expression
	}{{"from", &s.From}, {"to", &s.To}} {
		if p.takeWord(part.word) {
			*part.into = p.expression()
			continue
		}
		*part.into = p.badFrom(p.prev.to)
		if p.ended() || p.tok.kind == leftBrace {
			p.errorAt(start.span(p.file), "write repeat i from 1 to 3 { ... }", "this repeat has no range: '%s' is missing", part.word)
		} else {
			p.leftover("the repeat")
		}
	}
	s.Block = p.block(start)
	s.node = p.nodeFrom(start.from)
	return s
}

// variation reads: STRING { NAME = expr ... }.
func (p *parser) variation(start token) Statement {
	s := &Variation{}
	switch {
	case p.tok.kind == text && !p.ended():
		s.Title = p.quotedText()
	case p.tok.kind == word && !p.ended():
		t := p.advance()
		p.slip(t.span(p.file), `write variation "`+t.text+`"`, "put the title of a variation in quotes")
		s.Title = &String{p.nodeFrom(t.from), t.text}
	default:
		p.errorAt(start.span(p.file), `write variation "tall" { ... }`, "this variation has no title")
		s.Title = &String{node: node{start.span(p.file)}}
	}
	if open, ok := p.open(start); ok {
		p.braced(open, func() {
			a := Assignment{Name: p.nameOf(p.advance())}
			p.assign(a.Name)
			a.Value = p.expression()
			s.Set = add(s.Set, a)
		})
	}
	s.node = p.nodeFrom(start.from)
	return s
}
