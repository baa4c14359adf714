package eval

import "stabile/param/source"

// A given is a property as it is given.
type given struct {
	*Property
	word source.Span
	at   source.Span        // with its values
	args [mostArgs]argument // those of the table, in its order
	list []argument         // those of an argument that is a list
	body *body              // what stands between its own braces, or nil
}

// mostArgs is the greatest number of arguments that a property takes.
const mostArgs = 3

// An argument is the value of a property's argument; at is zero where it is
// not given.
type argument struct {
	value value
	at    source.Span
}

func (a argument) isGiven() bool { return !a.at.IsZero() }

// find returns a property as it is given, or nil.
func (b *body) find(word string) *given {
	for i := range b.given {
		if b.given[i].Word == word {
			return &b.given[i]
		}
	}
	return nil
}

func (b *body) has(word string) bool { return b.find(word) != nil }

// wordOf returns the first value of a property that is a word or a text, "" where
// it is not given.
func (b *body) wordOf(property string) string {
	g := b.find(property)
	if g == nil {
		return ""
	}
	return g.args[0].value.text
}

// number returns the first value of a property in coherent units, 0 where it is
// not given.
func (b *body) number(word string) float64 {
	g := b.find(word)
	if g == nil {
		return 0
	}
	return g.args[0].value.q.Number
}

// spanOf returns where a property stands, or the thing's name where it is not
// given.
func (b *body) spanOf(word string) source.Span {
	if g := b.find(word); g != nil {
		return g.at
	}
	return b.at
}

// spans returns where each given property stands.
func (b *body) spans() map[string]source.Span {
	m := make(map[string]source.Span, len(b.given))
	for _, g := range b.given {
		m[g.Word] = g.at
	}
	return m
}
