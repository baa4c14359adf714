package fab

import (
	"testing"

	"stabile/fab/flat"
)

// TestMassOfOpenSeams integrates balls whose seams have a root gap, of every build.
func TestMassOfOpenSeams(t *testing.T) {
	most := 0.0
	for _, made := range []string{
		"gores 8", "gores 12, caps 60", "gores 12, caps 90, 40", "gores 7, edge mid, caps 60, 20 round", "gores 10, bend domed",
		"gores 9, bend domed, caps 30, 70", "zones 7", "zones 4", "halves",
	} {
		j := build(t, shop+"ball b on pad { diameter 300, gap 1.5, "+made+", metal skin }")
		most = max(most, checkMasses(t, j, 400))
		for _, b := range j.Parts[indexOf(j, "b")].Blanks {
			told := b.Shape == flat.Disc && made != "halves" // a cap is cut to it
			for _, f := range b.Notes {
				switch f := f.(type) {
				case flat.SeamGaps:
					told = f.Gap == 1.5
				case flat.TrimHalf:
					told = f.Short == 0.75
				}
			}
			if !told {
				t.Errorf("%s, %s: its root gap is not told: %v", made, b.Name, b.Notes)
			}
		}
	}
	t.Logf("at most %.4f %% off", 100*most)
}
