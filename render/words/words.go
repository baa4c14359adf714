// Package words puts words to what package fab knows: findings, checks, cases,
// notes, steps of the work, and the last word on a design. It is the one place
// where figures become sentences, so that the terminal, JSON, paper, offers,
// contact sheets, tables and pictures say the same of the same design.
//
// It decides nothing: verdicts come with the data.
package words

import (
	"fmt"

	"stabile/fab/finding"
	"stabile/param/quantity"
)

// A Writer writes in one system of units.
type Writer struct {
	Units quantity.System
	paper bool // with the signs that a sheet has letters for
}

// In returns a writer in a system of units.
func In(units quantity.System) Writer { return Writer{Units: units} }

// OnPaper returns a writer that uses the signs for which a sheet has letters, such as
// that for degrees.
func OnPaper(units quantity.System) Writer { return Writer{Units: units, paper: true} }

// Finding returns the text of a finding, without its level and its parts. The
// sentence speaks of its parts as "it" or leaves them out: they are named
// before it.
func (w Writer) Finding(f finding.Finding) string {
	return w.Fact(f.Fact)
}

// Fact returns the sentence of a fact; "" for none.
func (w Writer) Fact(f finding.Fact) string {
	if f == nil {
		return ""
	}
	for _, say := range [...]func(finding.Fact) (string, bool){
		w.standing, w.wind, w.strength, w.surroundings, w.job, w.term,
		w.flat, w.sheets, w.saw, w.shop, w.rolling, w.assembly, w.estimate,
	} {
		if text, ok := say(f); ok {
			return text
		}
	}
	panic(fmt.Sprintf("words: no sentence for %T", f))
}
