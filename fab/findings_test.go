package fab

import (
	"slices"
	"testing"

	"stabile/param"
	"stabile/param/source"
	"stabile/param/stock"
)

// TestMetals: each metal of a family that a part is made of is reported once, and what
// no part is made of is not; what poisons is cautioned of by those names.
func TestMetals(t *testing.T) {
	const src = `sculpture "Mixed"
units mm
metal slab { alloy galvanized-steel, thickness 3 mm }
metal skin { alloy stainless-304, gauge 18 }
metal rind { alloy stainless-304, gauge 16 }
metal spare { alloy copper, thickness 1 mm }
base pad { plate 400 by 400, metal slab }
post a on pad { at (-100, 0), diameter 60, length 500, metal rind }
post b on pad { at (0, 0), diameter 60, length 500, metal skin }
post c on pad { at (100, 0), diameter 60, length 500, metal rind }
`
	d, wrong := param.Evaluate(source.NewFile("mixed.stabile", src), param.Options{})
	if d == nil {
		t.Fatal(wrong)
	}
	j, wrong := Build(d, 0)
	if j == nil {
		t.Fatal(wrong)
	}
	for fumes, want := range map[stock.Fumes][]string{
		stock.ZincFumes: {"slab"}, stock.ChromiumFumes: {"rind", "skin"}, stock.CopperFumes: nil,
	} {
		var got []string
		for _, m := range j.Metals(func(a stock.Alloy) bool { return a.Fumes == fumes }) {
			got = append(got, m.Name)
		}
		if !slices.Equal(got, want) {
			t.Errorf("Metals(%v) = %q, want %q", fumes, got, want)
		}
	}
	var zinc, chromium []string
	for _, f := range j.Findings {
		switch fact := f.Fact.(type) {
		case ZincFumes:
			zinc = append(zinc, fact.Metals...)
		case ChromiumFumes:
			chromium = append(chromium, fact.Metals...)
		}
	}
	if !slices.Equal(zinc, []string{"slab"}) || !slices.Equal(chromium, []string{"rind", "skin"}) {
		t.Errorf("zinc fumes of %q, chromium of %q", zinc, chromium)
	}
}
