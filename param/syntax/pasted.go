package syntax

import (
	"unicode"
	"unicode/utf8"
)

// A pastedForm is a character that word processors and web pages put in place
// of one that a design is written with.
type pastedForm struct {
	r    rune
	as   string // what to write instead
	name string
}

var pastedForms = []pastedForm{
	{'–', "-", "a dash"}, {'—', "-", "a dash"}, {'‐', "-", "a printer's hyphen"},
	{'‑', "-", "a printer's hyphen"}, {'−', "-", "a printer's minus"}, {'－', "-", "a wide minus"},
	{'×', "*", "a multiplication cross"}, {'✕', "*", "a multiplication cross"},
	{'·', "*", "a multiplication dot"}, {'⋅', "*", "a multiplication dot"}, {'∗', "*", "a printer's star"},
	{'÷', "/", "a division sign"}, {'⁄', "/", "a fraction stroke"}, {'∕', "/", "a division stroke"},
	{'≤', "<=", "a printer's sign"}, {'≥', ">=", "a printer's sign"}, {'≠', "!=", "a printer's sign"},
	{'′', "'", "a prime"}, {'’', "'", "a curly quote"}, {'‘', "'", "a curly quote"}, {'´', "'", "an accent"},
	{'″', `"`, "a double prime"}, {'“', `"`, "a curly quote"}, {'”', `"`, "a curly quote"},
	{'„', `"`, "a low quote"}, {'«', `"`, "an angled quote"}, {'»', `"`, "an angled quote"},
	{'°', "deg", "a degree sign"}, {'º', "deg", "a raised o"}, {'˚', "deg", "a ring"},
	{'½', "1/2", ""}, {'¼', "1/4", ""}, {'¾', "3/4", ""}, {'⅓', "1/3", ""}, {'⅔', "2/3", ""},
	{'⅛', "1/8", ""}, {'⅜', "3/8", ""}, {'⅝', "5/8", ""}, {'⅞', "7/8", ""},
	{'⅕', "1/5", ""}, {'⅖', "2/5", ""}, {'⅗', "3/5", ""}, {'⅘', "4/5", ""}, {'⅙', "1/6", ""}, {'⅚', "5/6", ""},
}

// pastedSign returns what a character stands for, or nil.
func pastedSign(r rune) *pastedForm {
	for i := range pastedForms {
		if pastedForms[i].r == r {
			return &pastedForms[i]
		}
	}
	return nil
}

// isFraction reports whether the character is a fraction of its own, such as ½.
func (p *pastedForm) isFraction() bool { return p != nil && isDigit(p.as[0]) }

// isBlank reports whether a character looks like a blank and is none.
func isBlank(r rune) bool {
	switch r {
	case '\u0085', '\u200b', '\u200c', '\u200d', '\u2060', '\ufeff':
		return true
	}
	return r >= utf8.RuneSelf && unicode.IsSpace(r)
}

// as returns the ASCII character that the one at an offset is or stands for,
// and its length in bytes; 0 for one that stands for none.
func (s *scanner) as(i int) (c byte, size int) {
	c = s.byteAt(i)
	if c < utf8.RuneSelf {
		return c, 1
	}
	r, size := utf8.DecodeRuneInString(s.src[i:])
	if isBlank(r) {
		return ' ', size
	}
	if p := pastedSign(r); p != nil && len(p.as) == 1 {
		return p.as[0], size
	}
	return 0, size
}

// pasted reports the character at an offset if it was pasted in place of
// another.
func (s *scanner) pasted(i int) {
	if i >= len(s.src) || s.src[i] < utf8.RuneSelf {
		return
	}
	r, size := utf8.DecodeRuneInString(s.src[i:])
	if isBlank(r) {
		s.report(i, i+size, "type an ordinary space", "a pasted space that is not an ordinary one (%U)", r).Put(" ")
		return
	}
	switch p := pastedSign(r); {
	case p == nil:
	case r == '×' || r == '✕':
		s.report(i, i+size, "write * to multiply, or 'by' between two sizes", "'%c' is not written in a design", r)
	case p.isFraction():
		s.report(i, i+size, "write "+p.as, "'%c' is not written in a design", r).Put(p.as)
	default:
		s.report(i, i+size, "write "+p.as, "'%c' is %s", r, p.name).Put(p.as)
	}
}

// pastedToken reads a token that starts with a pasted character.
func (s *scanner) pastedToken(t *token, p *pastedForm, size int) {
	switch {
	case p.as == `"`:
		s.quoted(t)
		return
	case p.as == "'":
		s.singleQuote(t)
		return
	case p.isFraction():
		s.number(t)
		return
	}
	s.pasted(s.pos)
	t.to = s.pos + size
	s.pos = t.to
	switch p.as {
	case "-":
		t.kind = minus
	case "/":
		t.kind = slash
	case "<=":
		t.kind = lessEqual
	case ">=":
		t.kind = greaterEqual
	case "!=":
		t.kind = notEqual
	case "deg":
		t.kind, t.text, t.spoilt = word, "deg", true
	default:
		t.kind = star
		if p.r == '×' || p.r == '✕' {
			t.kind = cross
		}
	}
}

// strange goes past an ASCII character that has no meaning in a design.
func (s *scanner) strange(c byte) {
	from := s.pos
	s.pos++
	switch c {
	case ':':
		s.report(from, s.pos, "leave it out", "a design has no ':'").Put("")
		return // what is meant is clear without it
	case '%':
		s.report(from, s.pos, "write 0.15 for 15 percent", "there is no percent sign")
	case '^':
		s.report(from, s.pos, "multiply a value by itself, as in r * r", "there is no sign for a power")
	case '$':
		s.report(from, s.pos, "write the bare number", "a price has no currency sign").Put("")
	default:
		if c < ' ' || c == 0x7f {
			s.report(from, s.pos, "save the file as plain UTF-8 text", "an invisible character (%U)", c)
			break
		}
		s.report(from, s.pos, "leave it out", "'%c' has no meaning here", c).Put("")
	}
	s.spoilt = true
}

// foreign reports bytes that are no UTF-8 text: once, since the whole text is then
// in another encoding.
func (s *scanner) foreign(from, to int) {
	if !s.isForeign {
		s.report(from, to, "save the file as UTF-8 text", "a character that is not UTF-8 text")
	}
	s.isForeign = true
}

// unreadable goes past a character beyond ASCII that has no meaning in a
// design, or a run of bytes that is no text at all.
func (s *scanner) unreadable(r rune) {
	from := s.pos
	s.spoilt = true
	if r == utf8.RuneError {
		for s.pos < len(s.src) {
			r, size := utf8.DecodeRuneInString(s.src[s.pos:])
			if r != utf8.RuneError {
				break
			}
			s.pos += size
		}
		s.foreign(from, s.pos)
		return
	}
	s.pos += utf8.RuneLen(r)
	if unicode.IsPrint(r) {
		s.report(from, s.pos, "leave it out", "'%c' has no meaning here", r)
	} else {
		s.report(from, s.pos, "leave it out", "an invisible character (%U)", r)
	}
}
