package rolling

import (
	"encoding/json"
	"os"
	"testing"
)

// A worked is one worked case, computed apart from this program by other means,
// which its source names, to six digits.
type worked struct {
	ID, Source, Title string
	Input             map[string]any
	Output            map[string]json.RawMessage
}

func loadCase(t *testing.T, id string) worked {
	t.Helper()
	text, err := os.ReadFile("testdata/cases.json")
	if err != nil {
		t.Fatal(err)
	}
	var list []worked
	if err := json.Unmarshal(text, &list); err != nil {
		t.Fatal(err)
	}
	for _, c := range list {
		if c.ID == id {
			return c
		}
	}
	t.Fatalf("no case %s", id)
	return worked{}
}

func (w worked) in(key string) float64 { return w.Input[key].(float64) }

// out returns a number of the case's output; rows its table.
func (w worked) out(t *testing.T, key string) float64 {
	t.Helper()
	var x float64
	if err := json.Unmarshal(w.Output[key], &x); err != nil {
		t.Fatalf("case %s: %s: %v", w.ID, key, err)
	}
	return x
}

func (w worked) rows(t *testing.T) [][]any {
	t.Helper()
	var rows [][]any
	if err := json.Unmarshal(w.Output["rows"], &rows); err != nil || len(rows) == 0 {
		t.Fatalf("case %s has no rows: %v", w.ID, err)
	}
	return rows
}

// sixDigits is the relative error of a number written to six digits, and of one
// worked out from such.
const sixDigits = 1e-5
