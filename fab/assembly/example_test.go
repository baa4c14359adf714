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
		fmt.Printf("%d. %s\n", s.Number, s.Text)
	}
	fmt.Printf("%.1f mm of weld, %.1f g of filler\n", plan.Totals.Weld, 1000*plan.Totals.Filler)
	// Output:
	// 1. Cut base 'pad' and mark on it where everything stands.
	// 2. Roll post 'mast', bring its edges together, and tack and weld its seam (weld 1). Let the disc into its head, flush, and weld it round (weld 2).
	// 3. Lay base 'pad' level and firm.
	// 4. Set post 'mast' on base 'pad', the middle of its foot at (0 mm, 0 mm) from the middle, upright, its seam at bearing 90 deg; tack it, check it, and weld it (weld 3). Check: the middle of the head of post 'mast' is 510 mm above the ground, over (0 mm, 0 mm).
	// 5. Let it cool. Dress the welds and look over every one of them.
	// 864.4 mm of weld, 34.8 g of filler
}
