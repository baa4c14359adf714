package words

import (
	"fmt"

	"stabile/fab"
	"stabile/fab/finding"
	"stabile/param/quantity"
)

// What may injure comes first, and what is said of several parts is said once.
func ExampleWriter_Remarks() {
	note := func(level finding.Level, concern finding.Concern, text string, parts ...string) finding.Finding {
		return finding.Finding{Level: level, Concern: concern, Parts: parts, Fact: fab.DesignNote{Text: text}}
	}
	for _, r := range In(quantity.Millimetre).Remarks([]finding.Finding{
		note(finding.Note, finding.Work, "tips are blunt", "moon"),
		note(finding.Caution, finding.Life, "heavy"),
		note(finding.Note, finding.Work, "tips are blunt", "star"),
		note(finding.Note, finding.Work, "no vent", "moon"),
		note(finding.Note, finding.Work, "tips are blunt", "moon"),
		note(finding.Danger, finding.Life, "too thin", "mast"),
	}) {
		fmt.Println(r.Level, r.Parts, r.Text)
	}
	// Output:
	// danger [mast] too thin
	// caution [] heavy
	// note [moon star] tips are blunt
	// note [moon] no vent
}
