package finding

import "fmt"

func ExampleRemarks() {
	for _, r := range Remarks([]Finding{
		{Note, "moon", "tips are blunt"},
		{Caution, "", "heavy"},
		{Note, "star", "tips are blunt"},
		{Note, "moon", "no vent"},
		{Note, "moon", "tips are blunt"},
		{Fault, "mast", "too thin"},
	}) {
		fmt.Println(r.Level, r.Parts, r.Text)
	}
	// Output:
	// fault [mast] too thin
	// caution [] heavy
	// note [moon star] tips are blunt
	// note [moon] no vent
}
