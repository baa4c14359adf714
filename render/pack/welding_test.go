package pack

import (
	"slices"
	"strings"
	"testing"

	"stabile/fab/assembly"
	"stabile/fab/finding"
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
				if _, ok := n.(assembly.ClosesHollow); ok {
					closing++
				}
				if at := indexOf(often, n); at >= 0 {
					marked++
					if !slices.Contains(strings.Split(rows[i][3], "\n"), noteMark(at)) {
						t.Errorf("%s: step %d has %q beside it, want %q for %+v", name, i+1, rows[i][3], noteMark(at), n)
					}
				} else if !strings.Contains(rows[i][1], newPack(j, Options{}).sentence(n)) {
					t.Errorf("%s: step %d does not say %+v", name, i+1, n)
				}
			}
		}
	}
	if marked == 0 {
		t.Error("no example has a note that several steps have in common")
	}
	if closing == 0 {
		t.Error("no step closes a hollow")
	}
}

func TestOftenNoted(t *testing.T) {
	closes := assembly.ClosesHollow{Parts: []string{"moon"}}
	a, b, c := assembly.BackPurge, assembly.CloseCold, assembly.OpenInOven
	steps := [][]finding.Fact{{a, b, closes}, {b, closes}, {a, c, closes}, {b, a}, {a}}
	plan := &assembly.Plan{}
	for _, notes := range steps {
		plan.Steps = append(plan.Steps, assembly.Step{Notes: notes})
	}
	if got, want := oftenNoted(plan), []finding.Fact{b, a}; !slices.Equal(got, want) {
		t.Errorf("oftenNoted(%v) = %v, want %v", steps, got, want)
	}
}
