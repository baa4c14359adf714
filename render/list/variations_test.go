package list

import (
	"bytes"
	"encoding/csv"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab/finding"
	"stabile/fab/study"
	"stabile/param/quantity"
)

// TestFaults: a variation that does not do says why: the faults besides the
// requirements that fail have a column.
func TestFaults(t *testing.T) {
	results := []study.Result{
		{Number: 1, OK: true},
		{Number: 2, Faults: []finding.Finding{{Text: "pad bends"}, {Text: "mast is too long"}}},
		{Number: 3, Failed: []string{"tipping >= 1.5"}, Faults: []finding.Finding{{Check: "requirement", Text: "does not hold: require tipping >= 1.5"}, {Text: "pad bends"}}},
	}
	var b bytes.Buffer
	require.NoError(t, CSV(&b, Variations(results, quantity.Millimetre)))
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	require.Contains(t, at, "faults")
	for i, want := range [][3]string{
		{"yes", "", ""},
		{"no", "", "pad bends | mast is too long"},
		{"no", "tipping >= 1.5", "pad bends"},
	} {
		row := rows[i+1]
		require.Equal(t, want, [3]string{row[at["does it do"]], row[at["fails"]], row[at["faults"]]})
	}
}
