// Package calculation has the lines of a calculation sheet: what an engineer
// reads to check a result by hand.
package calculation

import "stabile/fab/finding"

// A Line is one term of a calculation.
type Line struct {
	Symbol  string       // as the source writes it, such as "q_z"
	Name    finding.Fact // what it is: a Term, or a struct where there is more to say
	Formula string       // in symbols; "" for a value that is given or read
	Value   float64      // in Unit
	Unit    string       // "" for a plain number
	Source  string       // standard and clause, "given", or "assumed"
	Varies  bool         // there is no one value: each part has its own
}

// A Term names what a line has. Package render/words has the words of each.
type Term string

// An Assumption is something that a calculation assumes. Package render/words has
// the sentence of each.
type Assumption string

// Fact marks terms and assumptions.
func (Term) Fact()       {}
func (Assumption) Fact() {}
