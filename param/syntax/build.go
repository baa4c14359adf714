package syntax

import "stabile/param/source"

// NewLiteral returns a number that stands in no text, in the place of what
// stands at a span of one: a plain number of it means a length in the units of
// that text.
func NewLiteral(at source.Span, terms ...Term) *Literal {
	return &Literal{node: node{at}, Terms: terms}
}
