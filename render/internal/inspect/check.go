package inspect

import (
	"testing"

	"stabile/render/ink"
)

// faultsShown is how many faults of a set of sheets are reported in full.
const faultsShown = 12

// Check looks at sheets twice and fails the test at whatever is wrong with them.
// What says which sheets they are.
func Check(t testing.TB, what string, sheets ...*ink.Sheet) Report {
	t.Helper()
	r, err := Sheets(sheets...)
	if err != nil {
		t.Errorf("%s: %v", what, err)
	}
	for i, f := range r.Faults {
		if i == faultsShown {
			t.Errorf("%s: and %d faults more", what, len(r.Faults)-faultsShown)
			break
		}
		t.Errorf("%s: %v", what, f)
	}
	return r
}
