// Package finding has what the program has to say about a design that is sound
// as a text: what to know, what to take care of, and what will not do.
package finding

// A Level is how much a finding matters.
type Level string

// The levels.
const (
	Note    Level = "note"    // worth knowing
	Caution Level = "caution" // take care: of the work, of people, of what was not checked
	Fault   Level = "fault"   // will not do as it is
)

// A Finding is one remark. Part is the name of the part that it concerns, or ""
// for the whole.
type Finding struct {
	Level Level
	Part  string
	Text  string
}
