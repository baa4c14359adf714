package syntax

import (
	"strconv"
	"unicode/utf8"

	"stabile/param/quantity"
)

// maxDigits is the longest number, in characters: more than any measure needs,
// and short enough that no product of a few leaves the range of a float64.
const maxDigits = 40

// number reads a number, and the unit after it.
func (s *scanner) number(t *token) {
	t.kind = number
	i := s.digits(s.pos)
	t.whole = i > s.pos
	switch c, size := s.as(i); {
	case t.whole && c == '/':
		if end, ok := s.fractionEnd(i + size); ok {
			t.fraction, t.whole = true, false
			t.value = s.ratio(t, s.pos, i, i+size, end)
			s.pasted(i)
			i = end
		}
	case t.whole && c == '-':
		if mid := s.digits(i + size); mid > i+size {
			if c, stroke := s.as(mid); c == '/' {
				if end, ok := s.fractionEnd(mid + stroke); ok {
					s.mixed(t, i, i+size, mid, mid+stroke, end)
					i = end
				}
			}
		}
	case c == '.' && isDigit(s.byteAt(i+1)):
		t.whole = false
		i = s.digits(i + 1)
	}
	if t.whole || !t.fraction && !t.mixed {
		i = s.fractionSign(t, i)
	}
	if !t.fraction && !t.mixed {
		t.value = s.float(s.pos, i)
		if s.byteAt(i) == '.' && t.whole && s.wordEnd(i+1) == i+1 {
			s.report(i, i+1, "leave it out, or write a digit after it", "there is no digit after the decimal point")
			i++
		}
	}
	if i-s.pos > maxDigits {
		s.report(s.pos, i, "round it", "this number has more digits than any measure needs")
		t.value, t.spoilt = 1, true
	}
	t.numberTo, t.to, s.pos = i, i, i
	s.unit(t)
}

// mixed reads a mixed number, of which the whole part, the numerator and the
// denominator start or end at the given offsets.
func (s *scanner) mixed(t *token, hyphen, over, stroke, under, end int) {
	t.mixed, t.whole = true, false
	s.pasted(hyphen)
	s.pasted(stroke)
	f := s.ratio(t, over, stroke, under, end)
	t.value = s.float(s.pos, hyphen) + f
	if f >= 1 && !t.spoilt {
		whole, part := s.src[s.pos:hyphen], s.src[over:end]
		s.report(s.pos, end, "write "+whole+" - "+part+" for the difference",
			"'%s' reads as %s and %s, but the fraction of a mixed number is less than 1", s.src[s.pos:end], whole, part).Put(whole + " - " + part)
		t.spoilt = true
	}
}

// fractionSign reads a fraction of one character, such as ½, that stands alone
// or after a whole number. It returns the end of the number.
func (s *scanner) fractionSign(t *token, i int) int {
	at := i
	for c, size := s.as(at); at > s.pos && (c == ' ' || c == '-') && at < len(s.src); c, size = s.as(at) {
		at += size
	}
	if at >= len(s.src) || s.src[at] < utf8.RuneSelf || at > s.pos && !t.whole {
		return i
	}
	r, size := utf8.DecodeRuneInString(s.src[at:])
	p := pastedSign(r)
	if !p.isFraction() {
		return i
	}
	f := float64(p.as[0]-'0') / float64(p.as[2]-'0')
	if at == s.pos {
		s.report(at, at+size, "write "+p.as, "'%c' is not written in a design", r).Put(p.as)
		t.fraction, t.value = true, f
		return at + size
	}
	whole := s.src[s.pos:i]
	s.report(at, at+size, "write "+whole+"-"+p.as, "'%c' is not written in a design", r).PutAt(s.span(s.pos, at+size), whole+"-"+p.as)
	t.mixed, t.whole, t.value = true, false, s.float(s.pos, i)+f
	return at + size
}

// digits returns the end of the digits that start at an offset.
func (s *scanner) digits(i int) int {
	for isDigit(s.byteAt(i)) {
		i++
	}
	return i
}

// fractionEnd returns the end of a denominator. It reports false where there is
// none: no digit, or a decimal, which makes it a division.
func (s *scanner) fractionEnd(i int) (end int, ok bool) {
	end = s.digits(i)
	return end, end > i && !(s.byteAt(end) == '.' && isDigit(s.byteAt(end+1)))
}

// ratio returns the value of a fraction.
func (s *scanner) ratio(t *token, over, stroke, under, end int) float64 {
	d := s.float(under, end)
	if d == 0 {
		s.report(over, end, "the bottom of a fraction cannot be 0", "'%s' divides by zero", s.src[over:end])
		t.spoilt = true
		return 1
	}
	return s.float(over, stroke) / d
}

// float returns the value of the digits from one offset to another, or 1 for
// ever so many of them.
func (s *scanner) float(from, to int) float64 {
	if to-from > maxDigits {
		return 1
	}
	f, err := strconv.ParseFloat(s.src[from:to], 64)
	if err != nil {
		return 1
	}
	return f
}

// unit reads the unit that stands after a number, if one does. A word that is
// no unit is left to the parser, which knows whether one must stand there.
func (s *scanner) unit(t *token) {
	i := s.pos
	for c, size := s.as(i); (c == ' ' || c == '\t') && i < len(s.src); c, size = s.as(i) {
		i += size
	}
	if end := s.wordEnd(i); end > i && !isDigit(s.src[i]) {
		s.unitWord(t, i, end)
		return
	}
	if i < len(s.src) {
		s.unitSign(t, i)
	}
}

// unitWord reads a unit of letters: the longer compound, such as m/s, before
// the simple one.
func (s *scanner) unitWord(t *token, from, to int) {
	if c, size := s.as(to); c == '/' {
		if end := s.wordEnd(to + size); end > to+size {
			name := s.src[from:to] + "/" + s.src[to+size:end]
			raised := s.raised(end)
			if raised > end {
				name += map[rune]string{'²': "2", '³': "3"}[firstRune(s.src[end:])]
			}
			if s.take(t, name, from, raised) {
				s.pasted(to)
				return
			}
		}
	}
	if s.take(t, s.src[from:to], from, to) {
		return
	}
	// 5ft3in: the inches touch the feet.
	if i := from + 2; i < to && isDigit(s.src[i]) && smaller(s.src[from:i]) != "" {
		s.take(t, s.src[from:i], from, i)
	}
}

// raised returns the end of a raised 2 or 3 at an offset.
func (s *scanner) raised(i int) int {
	if r := firstRune(s.src[i:]); r == '²' || r == '³' {
		return i + utf8.RuneLen(r)
	}
	return i
}

// take gives the token the unit of the given name. It reports false where there
// is no such unit.
func (s *scanner) take(t *token, name string, from, to int) bool {
	if isConnective(name) {
		return false
	}
	u, ok := quantity.LookupUnit(name)
	if !ok {
		other, known := otherUnit(name)
		if !known {
			return false
		}
		u, _ = quantity.LookupUnit(other)
	}
	for i := s.pos; i < from; {
		_, size := s.as(i)
		s.pasted(i)
		i += size
	}
	switch written := s.src[from:to]; {
	case !ok && fullUnits[written]:
	case !ok:
		s.report(from, to, "write '"+u.Name+"'", "unknown unit '%s'", written).Put(u.Name)
	case len(written) != len(name):
		s.report(from, to, "write '"+u.Name+"'", "'%s' is not written in a design", written).Put(u.Name)
	}
	s.setUnit(t, u.Name, from, to)
	// An abbreviation's full stop is a slip of its own.
	if s.byteAt(to) == '.' && s.wordEnd(to+1) == to+1 {
		s.report(to, to+1, "leave it out", "there is no full stop after '%s'", u.Name).Put("")
		s.pos, t.to = to+1, to+1
	}
	return true
}

// unitSign reads the signs that stand for feet, inches and degrees elsewhere.
func (s *scanner) unitSign(t *token, i int) {
	c := s.src[i]
	if c < utf8.RuneSelf && (i > s.pos || c != '\'' && c != '"') {
		return
	}
	r, size := utf8.DecodeRuneInString(s.src[i:])
	as := string(r)
	if p := pastedSign(r); p != nil {
		as = p.as
	}
	var unit, name string
	switch {
	case as == "deg":
		unit, name = "deg", "degrees"
	case i > s.pos && r != '′' && r != '″':
		return // a quote after a blank opens a text
	case r == '\'' && s.byteAt(i+1) == '\'': // two single quotes for a double one
		unit, name, size = "in", "inches", 2
	case as == `"`:
		unit, name = "in", "inches"
	case as == "'":
		unit, name = "ft", "feet"
		if inches, end := s.inchesAfter(i + size); end > 0 && s.inchMark < i {
			s.inchMark = end
			as := s.src[t.from:t.numberTo] + " ft " + inches + " in"
			s.report(t.from, end, "write "+as, "feet and inches are written 'ft' and 'in'").Put(as)
		}
	default:
		return
	}
	if s.inchMark >= i {
		s.setUnit(t, unit, i, i+size) // reported with the feet
		return
	}
	s.report(i, i+size, "write '"+unit+"'", "%s are written '%s'", name, unit).Put(" " + unit)
	s.setUnit(t, unit, i, i+size)
}

// inchesAfter returns the number with inch marks that stands at an offset, after
// blanks, and where it ends; 0 where there is none.
func (s *scanner) inchesAfter(i int) (number string, end int) {
	for s.byteAt(i) == ' ' || s.byteAt(i) == '-' {
		i++
	}
	from := i
	for c := s.byteAt(i); isDigit(c) || c == '-' || c == '/' || c == '.'; c = s.byteAt(i) {
		i++
	}
	if c, size := s.as(i); i > from && c == '"' {
		return s.src[from:i], i + size
	}
	return "", 0
}

func (s *scanner) setUnit(t *token, name string, from, to int) {
	t.unit, t.unitFrom, t.unitTo = name, from, to
	s.pos, t.to = to, to
}
