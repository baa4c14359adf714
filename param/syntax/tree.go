// Package syntax reads the text of a design into a tree. The tree knows the
// shape of the language and nothing of sculpture: which properties a ball has,
// and what a word such as "gores" asks for, is settled where the tree is
// evaluated.
//
// # Grammar
//
//	file      = { statement newline } .
//	statement = setting | let | adjust | declaration | repeat | when | variation | require .
//	setting   = WORD ( STRING | WORD ) .                          sculpture "T", units inch, bring "F"
//	let       = "let" NAME "=" expr .
//	adjust    = "adjust" NAME "=" expr "from" expr "to" expr [ "step" expr ] .
//	declaration = WORD [ STRING | NAME [ "[" expr "]" ] ] { clause } body .
//	clause    = "on" expr | "from" expr | "to" expr | "around" expr | "at" expr .
//	body      = "{" { property ( newline | "," ) } "}" .
//	property  = WORD ( [ [ link ] argument ] { link argument } | "polygon" point { "," point } ) [ body ] .
//	point     = "(" expr "," expr ")" .
//	argument  = expr .
//	link      = "to" | "toward" | "by" | "at" .
//	repeat    = "repeat" NAME "from" expr "to" expr block .
//	when      = "when" expr block .
//	block     = "{" { statement newline } "}" .
//	variation = "variation" STRING "{" { NAME "=" expr ( newline | "," ) } "}" .
//	require   = "require" expr [ STRING ] .
//
// Expressions bind, from the loosest: or; and; not; comparison; + and -; * and
// /; a leading -; then calls, indexing and the parts of a part (moon.centre).
// A statement ends at the end of its line or at the "}" that closes its block.
// A line goes on inside ( ) and after a comma or an operator. The body of a
// statement may start on the next line. In an argument, "or" is an operator only
// inside ( ).
package syntax

import "stabile/param/source"

// A File is the tree of one text.
type File struct {
	Source     *source.File
	Statements []Statement
	Comments   []Comment // in source order
}

// A Comment runs from its # to the end of its line.
type Comment struct {
	Span source.Span
}

// A Statement is one declaration or instruction.
type Statement interface {
	Span() source.Span
	statement()
}

// An Expression yields a value.
type Expression interface {
	Span() source.Span
	expression()
}

// A Name is a word at its place: a keyword, a property, or the name of a thing.
type Name struct {
	Text string
	At   source.Span
}

// Span returns the place of the word.
func (n Name) Span() source.Span { return n.At }

// node is embedded by every statement and expression to carry its span.
type node struct{ at source.Span }

// Span returns the stretch of text that the node was read from.
func (n node) Span() source.Span { return n.at }

// The statements.
type (
	// Setting is a word with one operand: sculpture "T", units inch, bring "F".
	Setting struct {
		node
		Keyword Name
		Value   Expression // *String or *Ident
	}

	// Let names a value.
	Let struct {
		node
		Name  Name
		Value Expression
	}

	// Adjust names a value that may be changed within a range. Step is nil
	// where none is given.
	Adjust struct {
		node
		Name           Name
		Value          Expression
		From, To, Step Expression
	}

	// Declaration declares a thing with its properties: metal, base, post,
	// ball, site, shop, finish. Name is zero where the thing has none, Index
	// nil where the name has none. Title is nil for all but a revision, which is
	// known by it.
	Declaration struct {
		node
		Keyword Name
		Name    Name
		Title   *String
		Index   Expression
		Clauses []Clause
		Body    []Property
	}

	// Repeat is a block done once for each whole number of a range.
	Repeat struct {
		node
		Variable Name
		From, To Expression
		Block    []Statement
	}

	// When is a block done only where its condition holds.
	When struct {
		node
		Condition Expression
		Block     []Statement
	}

	// Variation is a named set of new values for adjustable names.
	Variation struct {
		node
		Title *String
		Set   []Assignment
	}

	// Require is a condition to be checked after everything is worked out.
	// Why is nil where no reason is given.
	Require struct {
		node
		Condition Expression
		Why       *String
	}
)

// A Clause ties a declaration to another thing: on pad, from a to b.
type Clause struct {
	Word  Name
	Value Expression
}

// A Property is one line of a declaration's body. Body is nil where the
// property has no braces of its own.
type Property struct {
	Word      Name
	Arguments []Argument
	Body      []Property
	At        source.Span // from the word to the end of the last argument
}

// Span returns the stretch of text that the property was read from.
func (p Property) Span() source.Span { return p.At }

// An Argument is a value of a property with the word that leads to it, such as
// the "toward" of "lean 6 deg toward moon". Link is zero where none stands.
type Argument struct {
	Link  Name
	Value Expression
}

// An Assignment gives a name a new value.
type Assignment struct {
	Name  Name
	Value Expression
}

func (*Setting) statement()     {}
func (*Let) statement()         {}
func (*Adjust) statement()      {}
func (*Declaration) statement() {}
func (*Repeat) statement()      {}
func (*When) statement()        {}
func (*Variation) statement()   {}
func (*Require) statement()     {}

// The expressions.
type (
	// Literal is a number with or without a unit: 12, 3/8 in, 5 ft 3-1/2 in.
	Literal struct {
		node
		Terms []Term
	}

	// String is a quoted text.
	String struct {
		node
		Text string // without quotes and escapes
	}

	// Ident is a name standing for its value.
	Ident struct {
		node
		Name string
	}

	// Index picks one of an indexed name: reed[2].
	Index struct {
		node
		Of    Expression
		Index Expression
	}

	// Member is a resolved number of a part: moon.centre.
	Member struct {
		node
		Of   Expression
		Name Name
	}

	// Call is a function with its arguments.
	Call struct {
		node
		Function  Name
		Arguments []Expression
	}

	// Point is (x, y) or (x, y, z).
	Point struct {
		node
		Coordinates []Expression
	}

	// Paren is an expression in parentheses.
	Paren struct {
		node
		Inner Expression
	}

	// Unary is an operator before its operand: - or not.
	Unary struct {
		node
		Operator Operator
		Operand  Expression
	}

	// Binary is an operator between two operands. OperatorAt is its place.
	Binary struct {
		node
		Operator    Operator
		OperatorAt  source.Span
		Left, Right Expression
	}

	// Bad stands where an expression could not be read; the mistake has been
	// reported.
	Bad struct{ node }
)

// A Term is one number of a literal with its unit; most literals have one, and
// feet and inches have two.
type Term struct {
	Number float64
	Mixed  bool // written as a mixed number, 1-1/2
	Unit   Name // zero where there is none
	At     source.Span
}

func (*Literal) expression() {}
func (*String) expression()  {}
func (*Ident) expression()   {}
func (*Index) expression()   {}
func (*Member) expression()  {}
func (*Call) expression()    {}
func (*Point) expression()   {}
func (*Paren) expression()   {}
func (*Unary) expression()   {}
func (*Binary) expression()  {}
func (*Bad) expression()     {}

// An Operator is a sign or word of an expression.
type Operator string

// The operators.
const (
	Or           Operator = "or"
	And          Operator = "and"
	Not          Operator = "not"
	Equal        Operator = "=="
	NotEqual     Operator = "!="
	Less         Operator = "<"
	LessEqual    Operator = "<="
	Greater      Operator = ">"
	GreaterEqual Operator = ">="
	Add          Operator = "+"
	Subtract     Operator = "-"
	Multiply     Operator = "*"
	Divide       Operator = "/"
)
