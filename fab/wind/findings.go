package wind

import (
	"fmt"

	"stabile/fab/finding"
	"stabile/param/quantity"
)

// Findings returns what there is to say of the wind, in the given units.
func (w *Wind) Findings(units quantity.System) []finding.Finding {
	var list []finding.Finding
	if len(w.Bearings) == 0 || len(w.Items) == 0 {
		return nil
	}
	scaled, most := 0, 1.0
	for _, b := range w.Bearings {
		if b.Scale > 1 {
			scaled, most = scaled+1, max(most, b.Scale)
		}
	}
	if scaled > 0 {
		list = append(list, finding.Finding{Level: finding.Note, Text: fmt.Sprintf(
			"from %d of %d bearings the least design force of %s, 16 lb/ft2 on what the wind meets, is more than the speed asks for, by up to %s times; tipping, sliding and strength are checked with it",
			scaled, len(w.Bearings), w.Edition, quantity.Decimal(most+0.005, 2))})
	}
	for i := range w.Items {
		if it := &w.Items[i]; it.Lift > 0 {
			list = append(list, finding.Finding{Level: finding.Note, Part: it.Part.Name, Text: fmt.Sprintf(
				"is nearer to the ground than half its width, so the wind lifts it too, with %s", units.Force(it.lift()))})
		}
	}
	return list
}
