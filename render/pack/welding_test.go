package pack

import (
	"slices"
	"strings"
	"testing"

	"stabile/fab/assembly"
)

// TestNotesOfSteps: each note of a step stands at it, or its mark does, and the
// marked ones are those that several steps have in common.
func TestNotesOfSteps(t *testing.T) {
	marked, closing := 0, 0
	for _, name := range []string{"lamp-thorn", "reed-bed", "slow-tide", "winter-orchard"} {
		j := example(t, name)
		plan := j.Plan.Assembly
		often := oftenNoted(plan)
		rows := newPack(j, Options{}).stepTable(plan).Rows
		for i := range plan.Steps {
			for _, n := range plan.Steps[i].Notes {
				if strings.HasPrefix(n, closesHollow) {
					closing++
				}
				if at := slices.Index(often, n); at >= 0 {
					marked++
					if !slices.Contains(strings.Split(rows[i][3], "\n"), noteMark(at)) {
						t.Errorf("%s: step %d has %q beside it, want %q for %q", name, i+1, rows[i][3], noteMark(at), n)
					}
				} else if !strings.Contains(rows[i][1], sentence(n)) {
					t.Errorf("%s: step %d does not say %q", name, i+1, n)
				}
			}
		}
	}
	if marked == 0 {
		t.Error("no example has a note that several steps have in common")
	}
	if closing == 0 {
		t.Errorf("no note begins %q", closesHollow)
	}
}

func TestOftenNoted(t *testing.T) {
	const closes = closesHollow + " it"
	steps := [][]string{{"a", "b", closes}, {"b", closes}, {"a", "c", closes}, {"b", "a"}, {"a"}}
	plan := &assembly.Plan{}
	for _, notes := range steps {
		plan.Steps = append(plan.Steps, assembly.Step{Notes: notes})
	}
	if got, want := oftenNoted(plan), []string{"b", "a"}; !slices.Equal(got, want) {
		t.Errorf("oftenNoted(%q) = %q, want %q", steps, got, want)
	}
}
