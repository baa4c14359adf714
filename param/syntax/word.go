package syntax

import (
	"cmp"
	"slices"
	"strings"

	"stabile/param/source"
)

// Word returns the word that an expression spells: a name or number, or
// several joined by hyphens without blanks, such as low-carbon-steel,
// stainless-304 or 304. Such a word reads as a difference; only what takes the
// value knows that a word is needed. It reports false for any other expression.
func Word(e Expression) (string, bool) {
	switch e.(type) {
	case *Ident, *Literal, *Binary:
	default:
		return "", false
	}
	w := e.Span().Text()
	s := scanner{src: w}
	for i := 0; ; i++ {
		end := s.wordEnd(i)
		switch {
		case end == i:
			return "", false
		case end == len(w):
			return w, true
		case w[end] != '-':
			return "", false
		}
		i = end
	}
}

// Words returns the words and signs of a stretch of the text: without comments,
// and with one blank for each run of blanks and line ends.
func (f *File) Words(at source.Span) string {
	text, from := f.Source.Text, at.From
	i, _ := slices.BinarySearchFunc(f.Comments, from, func(c Comment, offset int) int {
		return cmp.Compare(c.Span.From, offset)
	})
	var b strings.Builder
	for _, c := range f.Comments[i:] {
		if c.Span.From >= at.To {
			break
		}
		b.WriteString(text[from:c.Span.From])
		from = c.Span.To
	}
	b.WriteString(text[from:max(from, at.To)])
	return strings.Join(strings.Fields(b.String()), " ")
}
