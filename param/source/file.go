// Package source keeps the text of designs, places in it, and what there is
// to say about those places. It is the leaf of the language: every other
// package points into a text with its spans and speaks through its diagnostics.
package source

import (
	"sort"
	"strings"
	"unicode/utf8"
)

// A File is one text with its name.
type File struct {
	Name  string // among the files of the design, for example "harbour.stabile"
	Path  string // by which diagnostics speak of it; "" for its name
	Text  string
	lines []int // byte offset of the start of each line
}

// byteOrderMark is what some editors put before a UTF-8 text.
const byteOrderMark = "\ufeff"

// NewFile returns a file of the given name and text. A byte order mark before
// the text is left out, so that columns count what can be seen.
func NewFile(name, text string) *File {
	text = strings.TrimPrefix(text, byteOrderMark)
	lines := make([]int, 1, strings.Count(text, "\n")+1)
	for i := 0; ; {
		n := strings.IndexByte(text[i:], '\n')
		if n < 0 {
			return &File{Name: name, Text: text, lines: lines}
		}
		i += n + 1
		lines = append(lines, i)
	}
}

// A Position is a place in a text as people count: both numbers start at 1,
// and a column is one character (not one byte).
type Position struct {
	Line, Column int
}

// Position returns the line and column of a byte offset. An offset outside the
// text is taken at its nearest end.
func (f *File) Position(offset int) Position {
	offset = max(0, min(offset, len(f.Text)))
	line := sort.SearchInts(f.lines, offset+1) - 1
	return Position{
		Line:   line + 1,
		Column: utf8.RuneCountInString(f.Text[f.lines[line]:offset]) + 1,
	}
}

// Line returns the text of a line, counted from 1, without its line ending.
func (f *File) Line(line int) string {
	if line < 1 || line > len(f.lines) {
		return ""
	}
	start, end := f.lines[line-1], len(f.Text)
	if line < len(f.lines) {
		end = f.lines[line] - 1
	}
	if end > start && f.Text[end-1] == '\r' {
		end--
	}
	return f.Text[start:end]
}

// A Span is a stretch of a file's text: the bytes from From up to but not
// including To. The zero Span points nowhere.
type Span struct {
	File     *File
	From, To int
}

// IsZero reports whether the span points nowhere.
func (s Span) IsZero() bool { return s.File == nil }

// Text returns the words that the span covers.
func (s Span) Text() string {
	if s.File == nil {
		return ""
	}
	return s.File.Text[s.From:s.To]
}

// Start returns the position of the span's first character.
func (s Span) Start() Position {
	if s.File == nil {
		return Position{}
	}
	return s.File.Position(s.From)
}

// Join returns the shortest span that covers both. A zero span joins as
// nothing.
func (s Span) Join(t Span) Span {
	switch {
	case s.File == nil:
		return t
	case t.File == nil:
		return s
	}
	return Span{File: s.File, From: min(s.From, t.From), To: max(s.To, t.To)}
}
