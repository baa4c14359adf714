package eval

import (
	"slices"
	"strings"

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
}

// A Clause is a word that ties a declaration to another thing, such as the
// "on" of "post mast on pad".
type Clause struct {
	Word    string
	Form    string // how the declaration is then written
	Meaning string
	To      []Host // the kinds of part that it ties to; none for a point in space
	As      Host   // how the part is then tied; "" where that is the kind of part it is on
}

// A Property is one line that a declaration may have between its braces.
type Property struct {
	Word      string
	Arguments []Argument   // in order
	Body      *Declaration // what stands between its own braces; nil where it has none
	Many      bool         // may be given more than once
	Meaning   string
	Default   string // what holds where the property is not given, in words
	Example   string

	// Required properties must be given where they apply, except beside the
	// property named by Unless. Of the properties that share a OneOf exactly
	// one must be given; OneOf says what they choose, in words.
	Required bool
	Unless   string
	OneOf    string

	// On is the ways to be tied that the property applies to, all when empty. A
	// word that means another thing on another host has a property for each.
	// With the properties one of which must stand beside it, when not empty.
	// Instead says what to do where it does not apply.
	On      []Host
	With    []string
	Instead string
}

// An Argument is a value of a property.
type Argument struct {
	// Link is the word that leads to the value; "" where none does. LinkOptional
	// reports that the value may also stand without it.
	Link         string
	LinkOptional bool

	Counts bool // it may be left out before the word that goes with it
	List   bool // one or more values, parted by commas; it is the only argument

	Kind     Kind
	Optional bool
	Free     bool                 // a bearing that may be left out whatever the size before it
	Dim      quantity.Dimension   // of a Measure
	Or       []quantity.Dimension // that a Measure or a Whole may have instead
	Range    Range                // of a Measure or a Whole
	Choices  []string             // of a Choice
	Noun     string               // what it is in words, where the dimension does not say so
	Example  string               // of the property with this value, where that of the property has none
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
	Text                // a text in quotes
	Nominal             // a nominal size, a number of inches without its unit
	Joined              // the name of a part
)

// A Range bounds a number, in coherent units. Above reports that the least value
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

// A Host is a way in which a part is tied to others: the kind of thing that it
// stands on, or none.
type Host string

// The hosts.
const (
	OnBase   Host = "base"
	OnWall   Host = "wall" // a post on a base that is on a wall
	OnPost   Host = "post"
	OnBall   Host = "ball"
	OnBowl   Host = "bowl"
	Between  Host = "between"
	Around   Host = "around"
	Outright Host = "outright"
)

// Kinds are the hosts that are kinds of parts, of which numbers can be read.
var Kinds = []Host{OnBase, OnPost, OnBall, OnBowl}

// KindOf returns the kind of part that a declaration of the keyword makes: of a ring, posts.
func KindOf(keyword string) Host {
	if keyword == "ring" {
		return OnPost
	}
	return Host(keyword)
}

// words returns the host in words, such as "on a base".
func (h Host) words() string {
	switch h {
	case Between:
		return "between two parts"
	case Around:
		return "around a post"
	case Outright:
		return "placed outright"
	}
	return "on a " + string(h)
}

// Words returns the host in words, such as "on a base".
func (h Host) Words() string { return h.words() }

// Without says in words what holds where a property is left out; "" where that is
// not worth a word.
func (d *Declaration) Without(p *Property) string {
	switch {
	case p.OneOf != "":
		var words []string
		for _, o := range d.Properties {
			if o.OneOf == p.OneOf {
				words = append(words, o.Word)
			}
		}
		return "Required: one of " + list(words, "and")
	case p.Required && p.Unless != "":
		return "Required, except for a " + d.Keyword + " that is " + p.Unless
	case p.Default == "" && len(p.With) == 1:
		return "Required beside '" + p.With[0] + "'"
	case p.Required:
		return "Required"
	case p.Default == "none" || p.Default == "":
		return ""
	}
	return "If left out: " + p.Default
}

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

// property returns the property of a word for a part that is tied in the given
// way; if the word is for other ways only, one of those; else nil.
func (d *Declaration) property(word string, host Host) *Property {
	var other *Property
	for i := range d.Properties {
		p := &d.Properties[i]
		switch {
		case p.Word != word:
		case p.appliesTo(host):
			return p
		case other == nil:
			other = p
		}
	}
	return other
}

// forms returns the properties of which a word is the first of two.
func (d *Declaration) forms(word string) []*Property {
	var list []*Property
	for i := range d.Properties {
		if strings.HasPrefix(d.Properties[i].Word, word+" ") {
			list = append(list, &d.Properties[i])
		}
	}
	return list
}

// formsOf lists those properties in words.
func (d *Declaration) formsOf(word string) string {
	var words []string
	for _, p := range d.forms(word) {
		words = append(words, p.Word)
	}
	return quoted(words, "or")
}

func (p *Property) appliesTo(host Host) bool { return len(p.On) == 0 || slices.Contains(p.On, host) }

func (d *Declaration) clause(word string) *Clause {
	for i := range d.Clauses {
		if d.Clauses[i].Word == word {
			return &d.Clauses[i]
		}
	}
	return nil
}

// words returns the properties that a part tied in the given way may have; all
// of them where that is not known.
func (d *Declaration) words(host Host) []string {
	var words []string
	for i := range d.Properties {
		if p := &d.Properties[i]; (host == "" || p.appliesTo(host)) && !slices.Contains(words, p.Word) {
			words = append(words, p.Word)
		}
	}
	return words
}

func keywords() []string {
	var words []string
	for _, s := range Statements() {
		words = append(words, s.Word)
	}
	for _, d := range declarations {
		words = append(words, d.Keyword)
	}
	return words
}
