package flat_test

import (
	"fmt"

	"stabile/fab/flat"
	"stabile/param"
	"stabile/param/source"
)

// A plain tube 100 mm across and 1 m long of 1.5 mm steel: its blank is pi times
// the mean diameter wide, 3.14159 x 98.5 = 309.447 mm, and weighs 309.447 x 1000
// x 1.5 mm3 x 7850 kg/m3 = 3.644 kg.
func ExampleDevelop() {
	d, wrong := param.Evaluate(source.NewFile("mast.stabile", `units mm
metal skin { alloy low-carbon-steel, thickness 1.5, density 7850 kg/m3 }
base yard { feet }
post mast on yard { diameter 100, length 1000, head open, metal skin }
`), param.Options{})
	if err := wrong.Err(); err != nil {
		fmt.Println(err)
		return
	}
	developed, wrong := flat.Develop(d.Part("mast"))
	if err := wrong.Err(); err != nil {
		fmt.Println(err)
		return
	}
	blank := developed.Blanks[0]
	fmt.Printf("%.3f by %.3f mm, %.3f kg\n", blank.Width, blank.Length, developed.Mass)
	fmt.Printf("%s to a mean radius of %.2f mm\n", blank.Forming.How, blank.Forming.MeanRadius)
	// Output:
	// 309.447 by 1000.000 mm, 3.644 kg
	// roll to a mean radius of 49.25 mm
}
