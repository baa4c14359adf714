package source

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// A Diagnostic is one mistake: where it is, what is wrong, and what to write
// instead.
type Diagnostic struct {
	Span Span   // the very words that are wrong; zero when no text is to blame
	Text string // what is wrong, one sentence without a full stop
	Hint string // how to mend it; may be empty
	Note []Note // other places that matter, such as an earlier definition
	Cure *Cure  // what mends it; nil where that is not known to the letter
}

// A Cure is what to put in the place of words to mend a mistake: "" to leave them out.
type Cure struct {
	Span  Span
	Words string
}

// In returns a text with the cure put into it.
func (c *Cure) In(text string) string { return text[:c.Span.From] + c.Words + text[c.Span.To:] }

// Put names what to put in the place of the words that are wrong.
func (d *Diagnostic) Put(words string) { d.PutAt(d.Span, words) }

// PutAt names what to put in the place of other words.
func (d *Diagnostic) PutAt(at Span, words string) { d.Cure = &Cure{at, words} }

// A Note points at a second place that helps to understand a Diagnostic.
type Note struct {
	Span Span
	Text string
}

// Error returns the place and what is wrong on one line.
func (d Diagnostic) Error() string {
	return place(d.Span) + visible(d.Text)
}

// A List collects diagnostics. The zero List is empty and ready for use.
type List []Diagnostic

// Add appends a diagnostic whose text is made as by fmt.Sprintf.
// It returns the diagnostic, for what else is known of it.
func (l *List) Add(span Span, hint, format string, args ...any) *Diagnostic {
	*l = append(*l, Diagnostic{Span: span, Text: fmt.Sprintf(format, args...), Hint: hint})
	return &(*l)[len(*l)-1]
}

// Sort puts the list in source order, file by file in order of name, and drops
// repetitions of the same words at the same place.
func (l *List) Sort() {
	name := func(d Diagnostic) string {
		if d.Span.File == nil {
			return ""
		}
		return d.Span.File.Name
	}
	slices.SortStableFunc(*l, func(a, b Diagnostic) int {
		return cmp.Or(
			cmp.Compare(name(a), name(b)),
			cmp.Compare(a.Span.From, b.Span.From),
			cmp.Compare(a.Span.To, b.Span.To),
		)
	})
	*l = slices.CompactFunc(*l, func(a, b Diagnostic) bool {
		return a.Span == b.Span && a.Text == b.Text
	})
}

// Err returns the list as an error, or nil when it is empty. A List is never
// itself passed as an error, so that an empty one cannot be taken for a fault.
func (l List) Err() error {
	if len(l) == 0 {
		return nil
	}
	return &Error{List: l}
}

// Error is the error that carries a list of diagnostics.
type Error struct {
	List List
}

// Error returns the diagnostics one to a line.
func (e *Error) Error() string {
	lines := make([]string, len(e.List))
	for i, d := range e.List {
		lines[i] = d.Error()
	}
	return strings.Join(lines, "\n")
}

func place(s Span) string {
	if s.File == nil {
		return ""
	}
	p := s.Start()
	return fmt.Sprintf("%s:%d:%d: ", visible(cmp.Or(s.File.Path, s.File.Name)), p.Line, p.Column)
}
