package assembly_test

import (
	"fmt"

	"stabile/fab"
	"stabile/fab/assembly"
	"stabile/param"
	"stabile/param/source"
)

// The bead of a butt in sheet of 2 mm is 1.5 x 4 = 6 mm2, the fillet at the foot
// 4 / 2 = 2 mm2. The seam is 500 mm long, the foot's ring pi x 60 = 188.5 mm, the
// edge of the disc, which fits inside, pi x 56 = 175.9 mm:
// (6 x 675.9 + 2 x 188.5) mm3 x 7850 kg/m3 = 34.8 g.
func ExampleMake() {
	d, wrong := param.Evaluate(source.NewFile("mast.stabile", `
units mm
metal skin { alloy low-carbon-steel, thickness 2, density 7850 kg/m3 }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { plate 400 by 400, metal slab }
post mast on pad { diameter 60, length 500, metal skin }
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
	plan := assembly.Make(input(job))
	for _, s := range plan.Steps {
		fmt.Printf("%d. %T %v\n", s.Number, s.Do, s.Parts)
	}
	fmt.Printf("%.1f mm of weld, %.1f g of filler\n", plan.Totals.Weld, 1000*plan.Totals.Filler)
	// Output:
	// 1. assembly.CutBase [pad]
	// 2. assembly.RollTube [mast]
	// 3. assembly.LayBase [pad]
	// 4. assembly.SetUnit [mast]
	// 5. assembly.FinishAll [pad mast]
	// 864.4 mm of weld, 34.8 g of filler
}
