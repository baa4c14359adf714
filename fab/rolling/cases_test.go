package rolling

import (
	"encoding/json"
	"testing"

	"stabile/fab/internal/worked"
)

// Figures are those of a worked case, to six digits.
type figures struct {
	ID     string
	Input  map[string]any
	Output map[string]json.RawMessage
}

func loadCase(t *testing.T, id string) figures {
	t.Helper()
	c := figures{ID: id}
	worked.Read(t, id, &c.Input, &c.Output)
	return c
}

func (w figures) in(key string) float64 { return w.Input[key].(float64) }

// out returns a number of the case's output; rows its table.
func (w figures) out(t *testing.T, key string) float64 {
	t.Helper()
	var x float64
	if err := json.Unmarshal(w.Output[key], &x); err != nil {
		t.Fatalf("case %s: %s: %v", w.ID, key, err)
	}
	return x
}

func (w figures) rows(t *testing.T) [][]any {
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
