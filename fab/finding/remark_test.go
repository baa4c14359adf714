package finding

import "fmt"

func ExampleRemarks() {
	for _, r := range Remarks([]Finding{
		{Level: Note, Part: "moon", Text: "tips are blunt"},
		{Level: Caution, Part: "", Text: "heavy"},
		{Level: Note, Part: "star", Text: "tips are blunt"},
		{Level: Note, Part: "moon", Text: "no vent"},
		{Level: Note, Part: "moon", Text: "tips are blunt"},
		{Level: Fault, Part: "mast", Text: "too thin"},
	}) {
		fmt.Println(r.Level, r.Parts, r.Text)
	}
	// Output:
	// fault [mast] too thin
	// caution [] heavy
	// note [moon star] tips are blunt
	// note [moon] no vent
}
