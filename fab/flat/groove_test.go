package flat

import (
	"testing"

	"stabile/param/written"
)

// TestCapGroove: the seam round a cap is as wide at the outside as the notes of the caps say
// at most, of a bowl as of a ball.
func TestCapGroove(t *testing.T) {
	for _, text := range []string{
		"ball b on pad { diameter 500, gores 8, caps 60, metal thick }",
		"ball b on pad { diameter 500, gores 8, caps 60, edge mid, metal thick }",
		"ball b on pad { diameter 500, gores 8, caps 40, 70, metal thick }",
		"bowl b on pad { diameter 500, depth 190, gores 8, caps 60, metal thick }",
		"bowl b on pad { diameter 500, depth 190, gores 8, caps 60, edge mid, metal thick }",
	} {
		d := written.Design(t, written.Metric+"metal thick { alloy low-carbon-steel, thickness 4 }\nbase pad { plate 600 by 600, metal slab }\n"+text+"\n")
		all, wrong := All(d)
		if err := wrong.Err(); err != nil {
			t.Fatal(err)
		}
		want, caps := 0.0, 0
		for _, b := range all[1].Blanks {
			if b.Shape != Disc && b.Forming.How != "flat" {
				continue
			}
			caps += b.Quantity
			for _, f := range b.Notes {
				if g, ok := f.(Groove); ok {
					want = max(want, g.Top)
				}
			}
		}
		round := 0
		for _, s := range all[1].Seams {
			if s.Kind != CapEdge {
				continue
			}
			round += s.Count
			if s.Top != want || !(want > 0) {
				t.Errorf("%s: the groove round a cap is %v wide, by their notes %v", text, s.Top, want)
			}
		}
		if round != caps || caps == 0 {
			t.Errorf("%s: %d caps, with %d seams round them", text, caps, round)
		}
	}
}
