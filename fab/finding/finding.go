// Package finding has what the program has to say about a design that is sound
// as a text: what may injure, what fails as drawn, what to take care of,
// what to know. It is data; package render/words puts words to it.
package finding

// A Level is how grave a finding is.
type Level string

// The levels.
const (
	Danger  Level = "danger"  // may injure or kill
	Fault   Level = "fault"   // fails as drawn
	Caution Level = "caution" // take care, or the shop must change something
	Note    Level = "note"    // worth knowing
)

// Fails reports whether what has a finding of the level does not do.
func (l Level) Fails() bool { return l == Danger || l == Fault }

// Levels are the levels, the gravest first.
var Levels = [...]Level{Danger, Fault, Caution, Note}

// A Concern is what a check or a finding is about.
type Concern string

// The concerns.
const (
	Life  Concern = "life"  // it may fall, break, burst or poison
	Work  Concern = "work"  // the shop cannot make it as drawn, or must take care in making it
	Money Concern = "money" // what it costs
	Wish  Concern = "wish"  // the design's own requirements and wishes
)

// Concerns are the concerns, the one that matters most first.
var Concerns = [...]Concern{Life, Work, Money, Wish}

// A Fact is what a finding, a note or a check that was not decided says, as data:
// a struct, by value, of the package that found it, with quantities in SI. Each
// kind of fact has one sentence, in package render/words.
type Fact interface {
	// Fact marks the type. A test holds that every marked type has words.
	Fact()
}

// A Joiner is a fact that can be said once of several parts although their
// figures differ.
type Joiner interface {
	Fact
	// Join returns one fact that is true of both, such as with the greater of
	// two figures; not ok where the other is of another kind or must be said by
	// itself.
	Join(other Fact) (joined Fact, ok bool)
}

// A Finding is one remark.
type Finding struct {
	Level   Level
	Concern Concern
	Parts   []string // the names of the parts that it is about, in source order; empty for the whole
	Check   string   // the id of the check that it belongs to, or ""
	Fact    Fact
}
