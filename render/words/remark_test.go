package words

import (
	"fmt"

	"stabile/fab/finding"
	"stabile/param/quantity"
)

func ExampleWriter_Remarks() {
	for _, r := range In(quantity.Millimetre).Remarks([]finding.Finding{
		{Level: finding.Note, Part: "moon", Text: "tips are blunt"},
		{Level: finding.Caution, Text: "heavy"},
		{Level: finding.Note, Part: "star", Text: "tips are blunt"},
		{Level: finding.Note, Part: "moon", Text: "no vent"},
		{Level: finding.Note, Part: "moon", Text: "tips are blunt"},
		{Level: finding.Fault, Part: "mast", Text: "too thin"},
	}) {
		fmt.Println(r.Level, r.Parts, r.Text)
	}
	// Output:
	// fault [mast] too thin
	// caution [] heavy
	// note [moon star] tips are blunt
	// note [moon] no vent
}
