package pack

import (
	"strings"
	"testing"

	"stabile/param/quantity"
	"stabile/render/internal/sample"
	"stabile/render/sheet"
)

// The order of work names only what there is to do.
func TestOrderOfWork(t *testing.T) {
	k := newPack(sample.Job(sample.Random(4, 12, quantity.Millimetre)), Options{})
	k.name = string(Bench)
	k.benchBook()
	if pages := k.acts["saw"]; len(pages) > 0 {
		t.Errorf("nothing is of pipe, and it is sawn on %v", names(pages))
	}
	for _, act := range []string{"blanks", "layouts", "rolling", "welds"} {
		if len(k.acts[act]) == 0 {
			t.Errorf("nothing is drawn of the act %q", act)
		}
	}
}

func names(pages []*sheet.Page) string {
	var list []string
	for _, p := range pages {
		list = append(list, p.Sheet.Name)
	}
	return strings.Join(list, ", ")
}
