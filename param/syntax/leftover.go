package syntax

import "stabile/param/quantity"

// Where something is left over, as leftover is reported.
const (
	inBody        = "the property"
	inParentheses = "the value"
)

// leftover reports what stands after a thing that should have ended.
func (p *parser) leftover(of string) {
	t := p.tok
	switch t.kind {
	case word:
		p.leftoverWord(of)
	case number, text, leftParen:
		if of == inBody || of == inParentheses {
			p.errorHere("put a comma between them, or a word such as by, to or toward", "there are two values side by side")
			return
		}
		p.errorHere("a statement ends with its line", "%s is not understood after %s", quoted(t), of)
	case rightParen, rightBracket:
		p.errorHere("leave it out, or open what it closes", "this %s closes nothing", signText[t.kind])
	case comma:
		if !p.decimalComma() {
			p.errorHere("leave it out", "there is no comma after %s", of)
		}
	case leftBrace:
		p.errorHere("leave it out with its contents", "there is no { } after %s", of)
	default:
		p.errorHere("leave it out", "%s is not understood after %s", quoted(t), of)
	}
	p.bad = true
}

// leftoverWord reports a word after a thing that should have ended.
func (p *parser) leftoverWord(of string) {
	t := p.tok
	if _, ok := quantity.LookupUnit(t.text); ok {
		p.errorHere("write a unit right after its number, or multiply by 1 "+t.text,
			"the unit '%s' is not after a number", t.text)
		return
	}
	next := p.peek()
	if near, ok := nearLink(t.text); ok && !next.first && p.startsValue(next) {
		p.errorHere("did you mean '"+near+"'?", "'%s' is not understood after %s", t.text, of).Put(near)
		return
	}
	switch {
	case of == inBody && !isConnective(t.text):
		p.errorHere("put a comma or a new line between the two", "a comma is missing before '%s'", t.text)
	case of == inBody || of == inParentheses:
		p.errorHere("leave it out", "'%s' is not understood after %s", t.text, of)
	case startsStatement(t.text):
		p.errorHere("start it on a new line", "a new line is missing before '%s'", t.text)
	default:
		p.errorHere("a statement ends with its line", "'%s' is not understood after %s", t.text, of)
	}
}
