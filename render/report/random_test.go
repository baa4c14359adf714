package report

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/fab/finding"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/sample"
	"stabile/param/source"
	"stabile/render/words"
)

// random calls look with so many random designs that can be made, and what is wanted
// of each worked out.
func random(t *testing.T, seed uint64, many int, want fab.Want, look func(d *design.Design, j *fab.Job)) {
	t.Helper()
	rnd := rand.New(rand.NewPCG(seed, seed+1))
	built := 0
	for n := 0; built < many && n < 20*many; n++ {
		d, wrong := param.Evaluate(source.NewFile("any.stabile", sample.Text(rnd)), param.Options{})
		if len(wrong) > 0 {
			continue
		}
		j, wrong := fab.Build(d, want)
		if len(wrong) > 0 {
			continue
		}
		built++
		look(d, j)
	}
	if built < many {
		t.Errorf("%d designs built, want %d", built, many)
	}
}

// said returns the report of a job. JSON cannot hold NaN or Inf: writing it would fail;
// nor may a finding say one.
func said(t *testing.T, j *fab.Job, list []finding.Finding) string {
	t.Helper()
	var b strings.Builder
	if err := Of(j).WriteJSON(&b); err != nil {
		t.Fatal(err)
	}
	for _, f := range list {
		if text := words.In(j.Design.Units).Finding(f); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || strings.Contains(text, "%!") {
			t.Errorf("finding %q", text)
		}
	}
	return b.String()
}

// TestNoOddNumbers builds many designs and looks for numbers that are none in their
// reports.
func TestNoOddNumbers(t *testing.T) {
	random(t, 41, 500, fab.WithStrength|fab.WithMarks, func(d *design.Design, j *fab.Job) {
		var back Document
		if err := json.Unmarshal([]byte(said(t, j, j.Findings)), &back); err != nil {
			t.Fatalf("the report does not read back: %v", err)
		}
		if s := j.Tipping; s.Loaded && (s.Factor < 0 || math.IsInf(s.Factor, 0) || math.IsNaN(s.Factor)) {
			t.Errorf("factor %v", s.Factor)
		}
		if m := j.Mass; !(m.Low <= m.Total && m.Total <= m.High) {
			t.Errorf("masses %+v", m)
		}
	})
}

// TestPlanNoOddNumbers works out the plan of many designs, twice with the same outcome.
func TestPlanNoOddNumbers(t *testing.T) {
	const want = fab.WithPlan | fab.WithMarks
	random(t, 51, 100, want, func(d *design.Design, j *fab.Job) {
		if p := j.Plan; p.Sheets.Bound() > p.Sheets.Count() && p.Sheets.Complete() {
			t.Errorf("%d sheets, and a bound of %d", p.Sheets.Count(), p.Sheets.Bound())
		}
		again, _ := fab.Build(d, want)
		if said(t, j, j.Plan.Findings) != said(t, again, again.Plan.Findings) {
			t.Fatal("two plans of one design differ")
		}
	})
}
