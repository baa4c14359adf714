package syntax

import (
	"slices"
	"strings"

	"stabile/param/quantity"
	"stabile/param/source"
)

func (p *parser) term(t token) Term {
	term := Term{Number: t.value, Mixed: t.mixed, At: t.span(p.file)}
	if t.unit != "" {
		term.Unit = Name{t.unit, p.scan.span(t.unitFrom, t.unitTo)}
	}
	return term
}

// smaller is the unit in which a length or weight of two terms goes on.
func smaller(unit string) string {
	switch unit {
	case "ft":
		return "in"
	case "lb":
		return "oz"
	}
	return ""
}

// literal reads a number, or feet and inches, or pounds and ounces.
func (p *parser) literal() Expression {
	t := p.advance()
	if t.spoilt {
		return p.badFrom(t.from)
	}
	// Most have one term; it stands beside the literal, as one piece of memory.
	room := &struct {
		Literal
		term [1]Term
	}{term: [1]Term{p.term(t)}}
	lit := &room.Literal
	lit.Terms = room.term[:]
	next := p.tok
	if next.first && p.paren == 0 || next.spoilt {
		lit.node = p.nodeFrom(t.from)
		return lit
	}
	switch {
	case next.kind == number && next.unit != "" && next.unit == smaller(t.unit):
		lit.Terms = append(lit.Terms, p.term(p.advance()))
	case next.kind == number && next.unit == "" && smaller(t.unit) != "":
		p.advance()
		at := p.scan.span(t.from, next.numberTo)
		p.slip(at, "write "+at.Text()+" "+smaller(t.unit), "a number after '%s' needs its unit", t.unit).Put(at.Text() + " " + smaller(t.unit))
		return p.badFrom(t.from)
	case next.kind == number && next.fraction && t.whole && t.unit == "":
		p.advance()
		at := p.scan.span(t.from, next.numberTo)
		p.slip(at, "write "+p.joined(t, next), "a mixed number is written with a hyphen").Put(p.joined(t, next))
		return p.badFrom(t.from)
	case next.kind == minus:
		if p.hyphenSlip(t) {
			return p.badFrom(t.from)
		}
	case next.kind == word && t.unit == "":
		if p.unknownUnit(t) {
			return p.badFrom(t.from)
		}
	}
	lit.node = p.nodeFrom(t.from)
	return lit
}

// joined returns a whole number and a fraction as a mixed number.
func (p *parser) joined(whole, fraction token) string {
	return p.file.Text[whole.from:whole.numberTo] + "-" + p.file.Text[fraction.from:fraction.numberTo]
}

// hyphenSlip reports a hyphen that may join two numbers or part them: 1 -1/2 in,
// or 5 ft-3 in. With blanks on both sides it is a difference and no slip.
func (p *parser) hyphenSlip(t token) bool {
	hyphen := p.tok
	fraction := t.whole && t.unit == ""
	if !fraction && smaller(t.unit) == "" {
		return false
	}
	next := p.peek()
	if next.kind != number || hyphen.from > t.to && next.from > hyphen.to {
		return false
	}
	switch first, second := p.file.Text[t.from:t.to], p.file.Text[next.from:next.to]; {
	case fraction && next.fraction:
		p.slip(p.scan.span(t.from, next.numberTo),
			"write "+p.joined(t, next)+" for the mixed number, or "+first+" - "+p.file.Text[next.from:next.numberTo]+" for the difference",
			"'%s' may mean a mixed number or a difference", p.file.Text[t.from:next.numberTo])
	case !fraction && next.unit == smaller(t.unit):
		if p.file.Text[t.unitFrom:t.unitTo] != t.unit {
			break // 5'-3": the marks have been reported
		}
		p.slip(p.scan.span(t.from, next.to),
			"write "+first+" "+second+" for the sum, or "+first+" - "+second+" for the difference",
			"'%s' may mean a sum or a difference", p.file.Text[t.from:next.to])
	default:
		return false
	}
	p.advance()
	p.advance()
	return true
}

// unknownUnit reports a word after a number that is no unit where one must
// stand. It reports false for a word that goes on with something else.
func (p *parser) unknownUnit(t token) bool {
	w := p.tok
	if isConnective(w.text) || isActivity(w.text) || w.text == scheduleLink || slices.Contains(shapes, w.text) {
		return false
	}
	touches := w.from == t.to
	if next := p.peek(); !touches && !next.first && (p.startsValue(next) || next.kind == assign) {
		return false // another property or name, before which a comma is missing
	}
	p.advance()
	at := w.span(p.file)
	if p.tok.kind == slash && p.tok.from == w.to {
		if next := p.peek(); next.kind == word && next.from == p.tok.to {
			p.advance()
			at = at.Join(p.advance().span(p.file))
		}
	}
	written := at.Text()
	if touches && strings.Trim(written, "eE0123456789") == "" {
		p.slip(p.scan.span(t.from, at.To), "write the number out, with all its digits", "a number has no power of ten")
		if _, ok := quantity.LookupUnit(p.tok.text); ok && p.tok.kind == word && !p.ended() {
			p.advance()
		}
		return true
	}
	if isGauge(written) {
		bare := p.file.Text[t.from:t.numberTo]
		d := p.slip(at, "write gauge "+bare, "a gauge has no unit")
		if strings.HasSuffix(strings.TrimRight(p.file.Text[:t.from], " \t"), "gauge") {
			d.PutAt(p.scan.span(t.from, at.To), bare)
		}
		return true
	}
	hint := "the units are " + strings.Join(quantity.UnitNames(nil), " ")
	if near, ok := source.Suggest(written, quantity.UnitNames(nil)); ok {
		hint = "did you mean '" + near + "'?"
	}
	p.slip(at, hint, "unknown unit '%s'", written)
	return true
}

// isGauge reports whether a word after a number says that it is a gauge.
func isGauge(w string) bool {
	switch strings.ToLower(w) {
	case "ga", "gauge", "gage", "swg", "awg":
		return true
	}
	return false
}

// startsValue reports whether a value may start with the token.
func (p *parser) startsValue(t token) bool {
	switch t.kind {
	case number, text, leftParen:
		return true
	case word:
		return !isConnective(t.text)
	}
	return false
}
