package syntax

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"stabile/param/source"
)

// A scanner reads a text token by token, as the parser asks for them. It never
// stops at a mistake: what is clearly meant is taken so, and anything else is
// left out and marks the next token as spoilt.
type scanner struct {
	file      *source.File
	src       string
	pos       int
	list      *source.List // nil while looking ahead, when nothing is reported
	comments  *[]Comment   // nil while looking ahead
	spoilt    bool         // something was left out since the last token
	inchMark  int          // end of inch marks that have been reported with the feet before them
	isForeign bool         // the text is no UTF-8, which has been reported
	full      bool         // too many mistakes; nothing more is read
}

func newScanner(f *source.File, list *source.List, comments *[]Comment) scanner {
	return scanner{file: f, src: f.Text, list: list, comments: comments}
}

func (s *scanner) span(from, to int) source.Span {
	return source.Span{File: s.file, From: from, To: to}
}

// report adds a mistake to the list. After too many, the rest of the text is
// not read.
// The mistake is returned, for what mends it.
func (s *scanner) report(from, to int, hint, format string, args ...any) *source.Diagnostic {
	if s.list == nil || len(*s.list) > maxMistakes {
		return &source.Diagnostic{}
	}
	if len(*s.list) == maxMistakes {
		s.list.Add(s.span(from, to), "correct those first", "more than %d mistakes; the rest of the text is not read", maxMistakes)
		s.full = true
		return &source.Diagnostic{}
	}
	return s.list.Add(s.span(from, to), hint, format, args...)
}

// byteAt returns the byte at an offset, or 0 at the end of the text.
func (s *scanner) byteAt(i int) byte {
	if i < len(s.src) {
		return s.src[i]
	}
	return 0
}

// next returns the next token.
func (s *scanner) next() token {
	first := s.blanks()
	if s.full {
		s.pos = len(s.src)
	}
	t := token{kind: endOfText, first: first, from: s.pos, to: s.pos}
	if s.pos < len(s.src) {
		s.scan(&t)
	}
	t.spoilt = t.spoilt || s.spoilt
	s.spoilt = false
	return t
}

// blanks goes past blanks, comments, line ends and whatever has no meaning. It
// reports whether the next token is the first on its line.
func (s *scanner) blanks() (first bool) {
	first = s.pos == 0
	for s.pos < len(s.src) && !s.full {
		switch c := s.src[s.pos]; {
		case c == '\n':
			first = true
			s.pos++
		case c == ' ' || c == '\t' || c == '\r' || c == '\f' || c == '\v':
			s.pos++
		case c == '#':
			s.comment()
		case c == '/' && s.byteAt(s.pos+1) == '/':
			s.report(s.pos, s.pos+2, "write # before a comment", "a comment starts with #, not with //").Put("#")
			s.pos = s.lineEnd(s.pos)
		case c == '/' && s.byteAt(s.pos+1) == '*':
			s.report(s.pos, s.pos+2, "write # before each line of a comment", "a comment starts with #, not with /*")
			if i := strings.Index(s.src[s.pos:], "*/"); i >= 0 {
				s.pos += i + len("*/")
			} else {
				s.pos = s.lineEnd(s.pos)
			}
		case c < utf8.RuneSelf:
			if startsToken[c] {
				return first
			}
			s.strange(c)
		default:
			r, _ := utf8.DecodeRuneInString(s.src[s.pos:])
			switch {
			case isBlank(r):
				s.pasted(s.pos)
				for isBlank(r) {
					s.pos += utf8.RuneLen(r)
					r, _ = utf8.DecodeRuneInString(s.src[s.pos:])
				}
			case pastedSign(r) != nil || isLetter(r):
				return first
			default:
				s.unreadable(r)
			}
		}
	}
	return true
}

// startsToken tells for each ASCII character whether a token starts with it.
var startsToken = func() (starts [utf8.RuneSelf]bool) {
	for c := range starts {
		starts[c] = c == '_' || unicode.IsLetter(rune(c)) || unicode.IsDigit(rune(c))
	}
	for _, c := range `{}()[],;.=!<>+-*/"'&|` {
		starts[c] = true
	}
	return starts
}()

func (s *scanner) comment() {
	from := s.pos
	s.pos = s.lineEnd(from)
	to := s.pos
	if s.src[to-1] == '\r' {
		to--
	}
	if s.comments != nil {
		*s.comments = add(*s.comments, Comment{Span: s.span(from, to)})
	}
}

// lineEnd returns the offset of the end of the line that an offset is on.
func (s *scanner) lineEnd(i int) int {
	for i < len(s.src) && s.src[i] != '\n' {
		i++
	}
	return i
}

// scan reads the token that starts at the scanner's place.
func (s *scanner) scan(t *token) {
	c := s.src[s.pos]
	switch {
	case 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || c == '_':
		s.word(t)
	case isDigit(c) || c == '.' && isDigit(s.byteAt(s.pos+1)):
		s.number(t)
	case c == '"':
		s.quoted(t)
	case c == '\'':
		s.singleQuote(t)
	case c < utf8.RuneSelf:
		s.sign(t, c)
	default:
		r, size := utf8.DecodeRuneInString(s.src[s.pos:])
		if p := pastedSign(r); p != nil {
			s.pastedToken(t, p, size)
		} else {
			s.word(t)
		}
	}
}

// word reads a name or keyword.
func (s *scanner) word(t *token) {
	if s.src[s.pos] == '_' {
		s.report(s.pos, s.pos+1, "put a letter before it", "a name starts with a letter, not with '_'")
	}
	t.kind = word
	t.to = s.wordEnd(s.pos)
	t.text = s.src[t.from:t.to]
	s.pos = t.to
}

// wordEnd returns the end of the word that starts or goes on at an offset.
func (s *scanner) wordEnd(i int) int {
	for i < len(s.src) {
		c := s.src[i]
		if c < utf8.RuneSelf {
			if !('a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || isDigit(c) || c == '_') {
				break
			}
			i++
			continue
		}
		r, size := utf8.DecodeRuneInString(s.src[i:])
		if !isLetter(r) {
			break
		}
		i += size
	}
	return i
}

// hyphened reads the next token as one word that may hold hyphens and start
// with a digit, as alloys are named: low-carbon-steel, 304L. Anything else is
// read as ever.
func (s *scanner) hyphened() token {
	first := s.blanks()
	from, i := s.pos, s.pos
	for {
		end := s.wordEnd(i)
		if end == i {
			break
		}
		i = end
		if s.byteAt(i) != '-' || s.wordEnd(i+1) == i+1 {
			break
		}
		i++
	}
	if c := s.byteAt(i); i == from || c == '.' || c == '/' {
		t := s.next()
		t.first = first
		return t
	}
	s.pos = i
	t := token{kind: word, first: first, spoilt: s.spoilt, from: from, to: i, text: s.src[from:i]}
	s.spoilt = false
	return t
}

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

// isLetter reports whether a name may hold the letter. The ordinal signs are
// letters to Unicode, but a slip for the degree sign here.
func isLetter(r rune) bool {
	return unicode.IsLetter(r) && r != 'º' && r != 'ª'
}

// sign reads a token of one or two signs.
func (s *scanner) sign(t *token, c byte) {
	next := s.byteAt(s.pos + 1)
	two := func(k kind) { t.kind, t.to = k, s.pos+2 }
	t.kind, t.to = signs[c], s.pos+1
	switch {
	case c == '=' && next == '=':
		two(equal)
	case c == '!' && next == '=':
		two(notEqual)
	case c == '<' && next == '=':
		two(lessEqual)
	case c == '>' && next == '=':
		two(greaterEqual)
	case c == '=' && next == '>':
		two(greaterEqual)
		t.text = "=>"
	case c == '=' && next == '<':
		two(lessEqual)
		t.text = "=<"
	case c == '<' && next == '>':
		two(notEqual)
		t.text = "<>"
	case c == '*' && next == '*':
		two(star)
		t.spoilt = true
		s.report(t.from, t.to, "multiply a value by itself, as in r * r", "there is no sign for a power")
	case c == '&' || c == '|':
		t.kind = word
		t.text = map[byte]string{'&': "and", '|': "or"}[c]
		if next == c {
			t.to++
		}
		s.report(t.from, t.to, "write '"+t.text+"'", "'%s' is written as a word", s.src[t.from:t.to]).Put(t.text)
	case c == '!':
		t.kind, t.text = word, "not"
		s.report(t.from, t.to, "write 'not'", "'!' is written as a word").Put("not ")
	case c == ';':
		s.report(t.from, t.to, "write a comma between properties, or a new line", "a ';' has no meaning here").Put(",")
	}
	s.pos = t.to
}

// signs are the tokens of one ASCII character.
var signs = [utf8.RuneSelf]kind{
	'{': leftBrace, '}': rightBrace, '(': leftParen, ')': rightParen,
	'[': leftBracket, ']': rightBracket, ',': comma, ';': semicolon, '.': dot,
	'=': assign, '<': less, '>': greater,
	'+': plus, '-': minus, '*': star, '/': slash,
}
