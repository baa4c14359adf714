// Package worked reads the worked cases that tests hold this program to: figures
// of published tables and examples, or computed apart from it by other means. Each
// case names where its figures come from.
package worked

import (
	"encoding/json"
	"os"
	"testing"
)

// file has a package's worked cases, as a list of objects with an ID, the Source of
// the figures or the Method by which they were computed, Input and Output.
const file = "testdata/cases.json"

// Read reads what a worked case of the package under test takes and gives into
// what the two point to. Either may be nil.
func Read(t testing.TB, id string, input, output any) {
	t.Helper()
	ReadCheck(t, id, input, output, nil)
}

// ReadCheck is Read that also reads the case's Check: what a second route, such as
// finite elements, gives for the same.
func ReadCheck(t testing.TB, id string, input, output, check any) {
	t.Helper()
	text, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	var cases []struct {
		ID, Source, Method string
		Input, Output      json.RawMessage
		Check              json.RawMessage
	}
	if err := json.Unmarshal(text, &cases); err != nil {
		t.Fatalf("%s: %v", file, err)
	}
	for _, c := range cases {
		if c.ID != id {
			continue
		}
		if c.Source == "" && c.Method == "" {
			t.Errorf("worked case %s does not say where it comes from", id)
		}
		for _, part := range []struct {
			from json.RawMessage
			to   any
		}{{c.Input, input}, {c.Output, output}, {c.Check, check}} {
			if part.to == nil {
				continue
			}
			if err := json.Unmarshal(part.from, part.to); err != nil {
				t.Fatalf("worked case %s: %v", id, err)
			}
		}
		return
	}
	t.Fatalf("no worked case %s", id)
}
