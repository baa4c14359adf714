package syntax

import "stabile/param/source"

// A kind is what sort of token a piece of text is.
type kind uint8

const (
	endOfText kind = iota
	word           // a name or keyword
	number         // a number with the unit that stands after it
	text           // a quoted string
	leftBrace
	rightBrace
	leftParen
	rightParen
	leftBracket
	rightBracket
	comma
	semicolon // a slip for a comma or a new line; reported by the scanner
	dot
	assign
	equal
	notEqual
	less
	lessEqual
	greater
	greaterEqual
	plus
	minus
	star
	cross // a slip for * or "by"; reported by the scanner
	slash
)

// A token is one word, number, string or sign of a text. A new line is not a
// token: the first token after it carries the mark.
type token struct {
	kind     kind
	first    bool // first on its line
	spoilt   bool // it, or what stands before it, could not be read and has been reported
	from, to int  // bytes of the text, the unit of a number included

	text string // of a word; of a string, without quotes and escapes; of a sign that is a slip

	// Of a number.
	value            float64
	mixed            bool   // written as 1-1/2
	fraction         bool   // written as 3/8
	whole            bool   // written with digits only
	numberTo         int    // end of the number itself
	unit             string // name of its unit, or ""
	unitFrom, unitTo int
}

// is reports whether the token is the given word.
func (t token) is(w string) bool { return t.kind == word && t.text == w }

func (t token) span(f *source.File) source.Span {
	return source.Span{File: f, From: t.from, To: t.to}
}
