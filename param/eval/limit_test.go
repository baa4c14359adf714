package eval

import (
	"fmt"
	"strings"
	"testing"
)

// Each limit is one diagnostic that names it, and what comes after it is left.
func TestLimits(t *testing.T) {
	const bead = "ball bead[i] on pad { diameter 1, halves, metal skin }"
	var chain strings.Builder // each name leans on the next one
	for i := range 2500 {
		fmt.Fprintf(&chain, "let a%d = a%d\n", i, i+1)
	}
	var lets strings.Builder
	for i := range MaxMistakes + 50 {
		fmt.Fprintf(&lets, "let a%d = b%d\n", i, i)
	}
	for _, tt := range []struct{ name, text, want string }{
		{"mistakes", stage + lets.String(), "more than 200 mistakes; the rest of the text is not worked out"},
		{"parts", stage + "repeat i from 1 to 10000 { " + bead + " }", "the design has more than 10000 parts"},
		{"steps", stage + "repeat i from 1 to 1000000000 { let x = i }", "the design needs more than 1000000 steps to work out"},
		{"steps of nothing", stage + "repeat i from 1 to 1000000000 { }", "the design needs more than 1000000 steps to work out"},
		{"steps of mistakes", stage + "repeat i from 1 to 1000000000 { repeat k from 1 to 2 deg { " + bead + " } }", "the design needs more than 1000000 steps to work out"},
		{"depth of names", stage + chain.String() + "let a2500 = 1", "more than 2000 expressions are nested in one another"},
		{"name", stage + "let " + strings.Repeat("a", 101) + " = 1", "a name has at most 100 characters"},
		{"name of a part", stage + "ball " + strings.Repeat("a", 101) + " on pad { diameter 1, halves, metal skin }", "a name has at most 100 characters"},
		{"a step in a count", stage + "repeat i from 1 to 100000000000 { }", "'repeat' counts to a whole number, and this is 100000000000"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			_, list := evaluate(tt.text, Options{})
			n := 0
			for _, d := range list {
				if d.Text == tt.want {
					n++
				}
			}
			most := 2 // the limit, and what led to it
			if tt.name == "mistakes" {
				most = MaxMistakes + 1
			}
			if n != 1 || len(list) > most {
				t.Errorf("%d of %d mistakes are %q: %v", n, len(list), tt.want, list.Err())
			}
		})
	}
}

// At the limit of parts a design is still sound.
func TestMostParts(t *testing.T) {
	d := mustEvaluate(t, stage+fmt.Sprintf("repeat i from 1 to %d { ball bead[i] on pad { diameter 1, halves, metal skin } }", MaxParts-3))
	if len(d.Parts) != MaxParts {
		t.Errorf("%d parts, want %d", len(d.Parts), MaxParts)
	}
}
