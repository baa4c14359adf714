// Package written is for tests: it turns the text of a design into the design, so
// that what is tested is what a user can write.
package written

import (
	"testing"

	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
)

// Metric is the head of a text in mm: sheet 1.5 mm thick and plate 10 mm thick, both
// of low-carbon steel.
const Metric = `units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
metal slab { alloy low-carbon-steel, thickness 10 }
`

// Design returns the design that a text describes. The test stops where the text is
// not sound.
func Design(t testing.TB, text string) *design.Design {
	t.Helper()
	d, wrong := param.Evaluate(source.NewFile("written.stabile", text), param.Options{})
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	return d
}
