package pack_test

import (
	"strings"
	"testing"

	"stabile/param/golden"
	"stabile/param/quantity"
	"stabile/render/internal/sample"
	"stabile/render/pack"
)

// TestGolden compares the pack of the small stack, sheet by sheet, with what
// was last looked at and found good.
func TestGolden(t *testing.T) {
	sheets := pack.Sheets(sample.Job(sample.Stack(quantity.Inch)), pack.Options{Date: "2026-01-31"})
	var all strings.Builder
	for _, s := range sheets {
		all.WriteString(s.String())
	}
	golden.Text(t, "testdata/stack.txt", all.String())
}

// TestSameBytes draws the same job many times: maps and the clock must not
// show.
func TestSameBytes(t *testing.T) {
	j := sample.Job(sample.Random(9, 20, quantity.Millimetre))
	var first string
	for i := range 10 {
		var all strings.Builder
		for _, s := range pack.Sheets(j, pack.Options{}) {
			all.WriteString(s.String())
		}
		if i == 0 {
			first = all.String()
		} else if all.String() != first {
			t.Fatalf("pack %d differs from the first", i+1)
		}
	}
}
