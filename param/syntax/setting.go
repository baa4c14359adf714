package syntax

import "strings"

// setting reads a word with one operand.
func (p *parser) setting(start token) Statement {
	s := &Setting{Keyword: p.nameOf(start)}
	needsText := start.text != "units"
	switch {
	case p.ended():
		p.errorAt(start.span(p.file), settingHint(start.text), "%s needs %s after it", quoted(start), settingOperand(start.text))
		s.Value = p.badFrom(start.from)
	case p.tok.kind == text:
		s.Value = p.quotedText()
		if !needsText {
			p.slip(s.Value.Span(), settingHint(start.text), "units have no quotes").Put(s.Value.(*String).Text)
			v := s.Value.(*String)
			s.Value = &Ident{v.node, v.Text}
		}
	case p.tok.kind == word && !needsText:
		t := p.advance()
		s.Value = &Ident{p.nodeFrom(t.from), t.text}
	default:
		from := p.tok.from
		end := p.restOfLine()
		at := p.scan.span(from, end)
		hint := settingHint(start.text)
		if needsText {
			hint = "write " + start.text + ` "` + at.Text() + `"`
		}
		d := p.errorAt(at, hint, "%s needs %s after it", quoted(start), settingOperand(start.text))
		if needsText && !strings.ContainsAny(at.Text(), `"'`) {
			d.Put(`"` + at.Text() + `"`)
		}
		s.Value = &Bad{node{at}}
	}
	s.node = p.nodeFrom(start.from)
	return s
}

// restOfLine returns the end of the line in hand, without a comment and
// trailing blanks.
func (p *parser) restOfLine() int {
	line, _, _ := strings.Cut(p.file.Text[p.tok.from:p.scan.lineEnd(p.tok.from)], "#")
	return p.tok.from + len(strings.TrimRight(line, " \t\r"))
}

func settingOperand(w string) string {
	switch w {
	case "sculpture":
		return "a title in quotes"
	case "bring":
		return "the name of a file in quotes"
	}
	return "inch or mm"
}

func settingHint(w string) string {
	switch w {
	case "sculpture":
		return `write sculpture "The title"`
	case "bring":
		return `write bring "garage.stabile"`
	}
	return "write units inch or units mm"
}
