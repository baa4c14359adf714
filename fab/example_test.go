package fab_test

import (
	"fmt"

	"stabile/fab"
	"stabile/param"
	"stabile/param/quantity"
	"stabile/param/source"
)

// A plate of 400 x 400 x 10 mm weighs 1.6e-3 m3 x 7850 kg/m3 = 12.56 kg. A tube
// of 60 mm across and 1.5 mm thick unrolls to pi x 58.5 mm; 500 mm of it weigh
// 1.082 kg, and the disc of 57 mm in its head 0.030 kg.
func ExampleBuild() {
	d, wrong := param.Evaluate(source.NewFile("mast.stabile", `
units mm
metal skin { alloy low-carbon-steel, thickness 1.5, density 7850 kg/m3 }
metal slab { alloy low-carbon-steel, thickness 10, density 7850 kg/m3 }
base pad { plate 400 by 400, metal slab }
post mast on pad { at (0, 0), diameter 60, length 500, metal skin }
site { push 30 N at 500 }
`), param.Options{})
	if err := wrong.Err(); err != nil {
		fmt.Println(err)
		return
	}
	job, wrong := fab.Build(d, fab.Everything)
	if err := wrong.Err(); err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range job.Parts {
		fmt.Println(p.Name, quantity.Decimal(p.Mass, 3), "kg")
	}
	fmt.Printf("factor %.2f under a %s, all well: %v\n", job.Tipping.Factor, job.Tipping.WorstCase.Kind, job.OK())
	// Output:
	// pad 12.56 kg
	// mast 1.112 kg
	// factor 1.79 under a push, all well: true
}
