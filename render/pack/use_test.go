package pack_test

import (
	"strings"
	"testing"

	"stabile/render/internal/inspect"
)

// mostThin is how many sheets of a pack may be used by less than a third: the last ones
// of its layouts and of a book, where what is on them fits on no sheet before.
const mostThin = 2

// TestUseOfSheets: no pack of an example has more than so many thin sheets, and nothing on
// them is cut short.
func TestUseOfSheets(t *testing.T) {
	for _, e := range examples(t) {
		var thin []string
		for _, s := range e.sheets() {
			r := inspect.Model(s)
			thin = append(thin, r.Thin...)
			for _, words := range r.CutShort {
				t.Errorf("%s, %s: %q is cut short", e.name, s.Name, words)
			}
		}
		if len(thin) > mostThin {
			t.Errorf("%s: %d of %d sheets are used by less than a third: %s", e.name, len(thin), len(e.sheets()), strings.Join(thin, ", "))
		}
	}
}
