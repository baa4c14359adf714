package syntax

import (
	"strings"
	"unicode/utf8"
)

// quoted reads a string, which ends at its closing quote or, unclosed, at the
// end of its line.
func (s *scanner) quoted(t *token) {
	t.kind = text
	_, size := utf8.DecodeRuneInString(s.src[s.pos:])
	from := s.pos + size
	curly := size > 1
	for i := from; i < len(s.src) && s.src[i] != '\n'; {
		r, size := utf8.DecodeRuneInString(s.src[i:])
		switch {
		case r == '\\' && s.byteAt(i+1) != '\n':
			i += 2
			continue
		case r == '"' || curly && (r == '”' || r == '“' || r == '»' || r == '″'):
			if curly {
				s.report(t.from, i+size, `write " before and after it`, "put text in straight quotes")
			}
			s.close(t, from, i, i+size)
			return
		}
		i += size
	}
	end := s.lineEnd(from)
	// A straight quote closed by a curly one is a slip of its own.
	if i := strings.LastIndexAny(s.src[from:end], "”“″"); i >= 0 && !curly {
		i += from
		s.report(i, i+len("”"), `write "`, "put text in straight quotes")
		s.close(t, from, i, i+len("”"))
		return
	}
	end = from + len(strings.TrimRight(s.src[from:end], " \t\r"))
	s.report(t.from, end, `close it with " on the same line`, "the text that starts here is not closed")
	t.spoilt = true
	s.close(t, from, end, end)
}

// close makes the token the string whose content runs from one offset to
// another and which ends at a third.
func (s *scanner) close(t *token, from, to, end int) {
	s.pos, t.to = end, end
	t.text = s.unescape(from, to)
}

// unescape returns the content of a string without its escapes.
func (s *scanner) unescape(from, to int) string {
	raw := s.src[from:to]
	if !utf8.ValidString(raw) {
		at := from + invalid(raw)
		s.foreign(at, at+1)
		raw = strings.ToValidUTF8(raw, "\ufffd")
	}
	for i := from; i < to; i++ {
		if c := s.src[i]; c < ' ' && c != '\t' && c != '\r' || c == 0x7f {
			s.report(i, i+1, "leave it out", "an invisible character (%U) in a text", c)
			return strings.Map(visible, raw)
		}
	}
	if strings.IndexByte(raw, '\\') < 0 {
		return raw
	}
	var b strings.Builder
	for i := from; i < to; i++ {
		c := s.src[i]
		if c == '\\' && i+1 < to {
			i++
			if c = s.src[i]; c != '"' && c != '\\' {
				s.report(i-1, i+1, `write \\ for one \`, `in text, \ goes only before " and \`)
				b.WriteByte('\\')
			}
		}
		b.WriteByte(c)
	}
	return strings.ToValidUTF8(b.String(), "\ufffd")
}

func visible(r rune) rune {
	if r < ' ' || r == 0x7f {
		return -1
	}
	return r
}

// invalid returns the offset of the first byte that is not UTF-8 text.
func invalid(s string) int {
	for i, r := range s {
		if r == utf8.RuneError {
			if _, size := utf8.DecodeRuneInString(s[i:]); size == 1 {
				return i
			}
		}
	}
	return len(s)
}

func firstRune(s string) rune {
	r, _ := utf8.DecodeRuneInString(s)
	return r
}

// singleQuote reads a text between single quotes as a string.
func (s *scanner) singleQuote(t *token) {
	_, size := utf8.DecodeRuneInString(s.src[s.pos:])
	from := s.pos + size
	t.kind = text
	for i := from; i < len(s.src) && s.src[i] != '\n'; {
		c, size := s.as(i)
		if c == '\'' {
			s.report(t.from, i+size, `write " before and after it`, "put text in double quotes")
			s.close(t, from, i, i+size)
			return
		}
		i += size
	}
	s.report(t.from, from, "leave it out; feet are written ft", "a single quote has no meaning here")
	t.spoilt = true
	s.close(t, from, from, from)
}
