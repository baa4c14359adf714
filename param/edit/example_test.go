package edit_test

import (
	"fmt"

	"stabile/param/edit"
	"stabile/param/quantity"
)

// A ball is pulled to 5-1/4 in across. It is a third of a named height, which
// is changed for it, and everything else in the text stays.
func ExampleText_Set() {
	const text = `units inch
let rise = 12 in     # over the pad
ball moon on pad { diameter rise / 3, gores 8, metal skin }
`
	read := edit.Read("moon.stabile", text, edit.Options{})
	s, err := read.Set(edit.Wish{
		Place: edit.Place{Part: "moon", Property: "diameter"},
		Value: quantity.Quantity{Number: 5.25 * 25.4, Dim: quantity.Length},
	})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%s: %q for %q\n", s.Numbers[0].Name, s.Edit[0].New, s.Edit[0].Old)
	fmt.Print(s.Text)
	// Output:
	// rise: "15-3/4" for "12"
	// units inch
	// let rise = 15-3/4 in     # over the pad
	// ball moon on pad { diameter rise / 3, gores 8, metal skin }
}
