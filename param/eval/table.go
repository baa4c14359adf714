package eval

import (
	"slices"

	"stabile/param/quantity"
)

// A Declaration is one kind of thing that a design may declare. The table of
// declarations is the one place that says what may be written: evaluation,
// its hints, and the user's reference are all made from it.
type Declaration struct {
	Keyword    string
	Form       string // how it is written
	Meaning    string
	Named      bool     // carries a name
	Top        bool     // stands only at the top of the file, not in a block
	Clauses    []Clause // how it is tied to other things
	Properties []Property
	Later      bool // not built yet
}

// A Clause is a word that ties a declaration to another thing, such as the
// "on" of "post mast on pad".
type Clause struct {
	Word    string
	Form    string // how the declaration is then written
	Meaning string
	Later   bool
}

// A Property is one line that a declaration may have between its braces.
type Property struct {
	Word      string
	Arguments []Argument // in order
	Meaning   string
	Default   string // what holds where the property is not given, in words
	Example   string

	// Required properties must be given where they apply, except beside the
	// property named by Unless. Of the properties that share a OneOf exactly
	// one must be given; OneOf says what they choose, in words.
	Required bool
	Unless   string
	OneOf    string

	// On is the kinds of host that the property applies to, all when empty;
	// With the properties one of which must stand beside it, when not empty.
	// Instead says what to do where it does not apply.
	On      []Host
	With    []string
	Instead string

	Later bool // not built yet
}

// An Argument is a value of a property.
type Argument struct {
	// Link is the word that leads to the value; "" where none does. LinkOptional
	// tells that the value may also stand without it.
	Link         string
	LinkOptional bool

	Kind     Kind
	Optional bool
	Dim      quantity.Dimension // of a Measure
	Range    Range              // of a Measure or a Whole
	Choices  []string           // of a Choice
	Later    bool               // not built yet
}

// A Kind is what sort of value an argument takes.
type Kind int

// The kinds of argument.
const (
	Measure Kind = iota // a quantity of the argument's dimension
	Whole               // a whole number
	Choice              // one of the argument's words
	Alloy               // the name of an alloy
	Metal               // the name of a metal
	Bearing             // an angle in plan, or a thing to point at
	Place               // a point (x, y) in plan
)

// A Range bounds a number, in coherent units. Above tells that the least value
// itself is out; Under that the greatest is.
type Range struct {
	From, To     float64
	Above, Under bool
	Words        string // such as "more than 0" or "from 4 to 48"
}

func (r Range) holds(x float64) bool {
	if r.Words == "" {
		return true
	}
	return x >= r.From && x <= r.To && !(r.Above && x == r.From) && !(r.Under && x == r.To)
}

// A Host is a kind of thing that another stands on.
type Host string

// The hosts.
const (
	OnBase Host = "base"
	OnPost Host = "post"
	OnBall Host = "ball"
)

// Declarations returns the table of what a design may declare.
func Declarations() []Declaration { return slices.Clone(declarations) }

func lookupDeclaration(keyword string) *Declaration {
	for i := range declarations {
		if declarations[i].Keyword == keyword {
			return &declarations[i]
		}
	}
	return nil
}

func (d *Declaration) property(word string) *Property {
	for i := range d.Properties {
		if d.Properties[i].Word == word {
			return &d.Properties[i]
		}
	}
	return nil
}

func (d *Declaration) clause(word string) *Clause {
	for i := range d.Clauses {
		if d.Clauses[i].Word == word {
			return &d.Clauses[i]
		}
	}
	return nil
}

func (d *Declaration) words() []string {
	words := make([]string, len(d.Properties))
	for i, p := range d.Properties {
		words[i] = p.Word
	}
	return words
}

func keywords() []string {
	words := []string{"sculpture", "units", "use", "let", "adjust", "repeat", "when", "variation", "require"}
	for _, d := range declarations {
		words = append(words, d.Keyword)
	}
	return words
}
