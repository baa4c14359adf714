package list

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/study"
	"stabile/param/quantity"
	"stabile/render/words"
)

// TestVerdicts: a variation has its verdict, the last word on it, and its dangers
// and faults.
func TestVerdicts(t *testing.T) {
	over := check.Check{ID: check.Post, Part: "mast", Verdict: check.Fails, Found: 1.5, Limit: 1}
	results := []study.Result{
		{Number: 1, Verdict: check.Holds},
		{Number: 2, Verdict: check.Fails, Reasons: check.Groups([]check.Check{over}), Grave: []finding.Finding{
			{Parts: []string{"mast"}, Fact: fab.RequirementFails{Text: "a"}}, {Fact: fab.RequirementFails{Text: "b"}},
		}},
		{Number: 3, Verdict: check.Undecided, Reasons: check.Groups([]check.Check{{ID: check.Wind, Verdict: check.Undecided}})},
	}
	var b bytes.Buffer
	require.NoError(t, CSV(&b, Variations(results, quantity.Millimetre)))
	rows, err := csv.NewReader(&b).ReadAll()
	require.NoError(t, err)
	at := map[string]int{}
	for i, name := range rows[0] {
		at[name] = i
	}
	w := words.In(quantity.Millimetre)
	for i, r := range results {
		row := rows[i+1]
		require.Equal(t, []string{words.Condition(r.Verdict), w.Verdict(r.Verdict, r.Reasons), strings.Join(w.Named(r.Grave), " | ")},
			[]string{row[at["verdict"]], row[at["last word"]], row[at["dangers and faults"]]})
	}
}
