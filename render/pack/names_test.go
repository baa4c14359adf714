package pack_test

import (
	"slices"
	"strings"
	"testing"

	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/internal/sample"
	"stabile/render/pack"
)

// TestNamesInOrder: a folder lists the sheets as the pack has them, also where
// there are more than 99.
func TestNamesInOrder(t *testing.T) {
	for _, parts := range []int{8, 80} {
		j := sample.Job(sample.Random(3, parts, quantity.Inch))
		sheets := pack.Sheets(j, pack.Options{})
		if parts == 80 && len(sheets) < 100 {
			t.Errorf("%d sheets are too few to tell", len(sheets))
		}
		if !slices.IsSortedFunc(sheets, func(a, b *ink.Sheet) int { return strings.Compare(a.Name, b.Name) }) {
			t.Errorf("the names of %d sheets are out of order", len(sheets))
		}
	}
}
