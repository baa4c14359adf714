package terminal

import (
	"bytes"
	"strings"
	"unicode"
)

// columns is the width that no line of the report is wider than. A page of a
// hundred columns fits a laptop's terminal beside nothing and a printed sheet.
const columns = 100

// margin is what the lines under a heading are set in by.
const margin = 2

// The SGR codes of ECMA-48 that the report uses.
const (
	bold   = "\x1b[1m"
	dim    = "\x1b[2m"
	normal = "\x1b[0m"
)

// A page collects the lines of a report.
type page struct {
	buf   bytes.Buffer
	style Style
}

// set writes one line in the given SGR code; "" for plain.
func (p *page) set(code string, line string) {
	line = strings.TrimRight(line, " ")
	text := strings.TrimLeft(line, " ")
	p.buf.WriteString(line[:len(line)-len(text)])
	if p.style.ANSI && code != "" && text != "" {
		text = code + text + normal
	}
	p.buf.WriteString(text)
	p.buf.WriteByte('\n')
}

func (p *page) blank() { p.buf.WriteByte('\n') }

// heading leaves a line and writes a heading.
func (p *page) heading(text string) {
	p.blank()
	p.strong(0, text)
}

func (p *page) strong(indent int, text string) { p.lines(bold, indent, "", text) }
func (p *page) faint(indent int, text string)  { p.lines(dim, indent, "", text) }

// hanging writes a label and a text beside it, broken into lines that all start
// under each other.
func (p *page) hanging(indent int, label, text string) { p.lines("", indent, label, text) }

func (p *page) lines(code string, indent int, label, text string) {
	lead := strings.Repeat(" ", indent) + label
	for _, line := range wrap(text, columns-width(lead)) {
		p.set(code, lead+line)
		lead = strings.Repeat(" ", width(lead))
	}
}

// wrap breaks a text into lines of at most the given width, at its blanks. The
// blank between a number and the word after it, such as its unit, is kept whole
// where it can be; a word wider than a line is broken anywhere. An empty text
// is one empty line.
func wrap(text string, limit int) []string {
	limit = max(limit, 2) // the widest character
	var lines []string
	line := ""
	for _, w := range phrases(clean(text)) {
		if line != "" && width(line)+1+width(w) <= limit {
			line += " " + w
			continue
		}
		if line != "" {
			lines = append(lines, line)
		}
		for left := width(w); left > limit; {
			cut := breakAt(w, limit)
			lines = append(lines, strings.TrimRight(w[:cut], " "))
			rest := strings.TrimLeft(w[cut:], " ")
			left -= width(w[:len(w)-len(rest)])
			w = rest
		}
		line = w
	}
	return append(lines, line)
}

// phrases splits a text at the blanks where a line may end.
func phrases(text string) []string {
	var out []string
	for _, w := range strings.Fields(text) {
		if n := len(out); n > 0 && endsInDigit(out[n-1]) && !strings.Contains(out[n-1], " ") {
			out[n-1] += " " + w
			continue
		}
		out = append(out, w)
	}
	return out
}

func endsInDigit(w string) bool {
	c := w[len(w)-1]
	return '0' <= c && c <= '9'
}

// breakAt returns the byte offset at which the first limit columns of a word
// end.
func breakAt(w string, limit int) int {
	n := 0
	for i, c := range w {
		n += cells(c)
		if n > limit {
			return i
		}
	}
	return len(w)
}

// clean replaces what a terminal would act on, rather than show, by blanks: a
// title is the user's own text and may hold anything.
func clean(text string) string {
	return strings.Map(func(c rune) rune {
		if unicode.IsControl(c) || unicode.Is(unicode.Cf, c) || unicode.Is(unicode.Zl, c) || unicode.Is(unicode.Zp, c) {
			return ' '
		}
		return c
	}, text)
}

// width returns the columns that a text takes.
func width(text string) int {
	n := 0
	for _, c := range text {
		n += cells(c)
	}
	return n
}

// cells returns the columns that a character takes: none for a mark that goes
// on the one before, two for the scripts that terminals show wide, else one.
func cells(c rune) int {
	switch {
	case c < 0x300:
		return 1
	case unicode.In(c, unicode.Mn, unicode.Me):
		return 0
	case unicode.In(c, unicode.Han, unicode.Hiragana, unicode.Katakana, unicode.Hangul),
		0x3000 <= c && c <= 0x303f, // CJK punctuation
		0xff00 <= c && c <= 0xff60, // full-width forms
		c >= 0x1f300:               // pictographs and what follows
		return 2
	}
	return 1
}
