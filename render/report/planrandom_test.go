package report

import (
	"math/rand/v2"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/param"
	"stabile/param/sample"
	"stabile/param/source"
	"stabile/render/words"
)

// TestPlanNoOddNumbers draws up the plan of many designs, which JSON could not
// hold with a NaN in it, and twice to the same end.
func TestPlanNoOddNumbers(t *testing.T) {
	rnd := rand.New(rand.NewPCG(51, 52))
	built := 0
	for n := 0; built < 100 && n < 2000; n++ {
		d, wrong := param.Evaluate(source.NewFile("any.stabile", sample.Text(rnd)), param.Options{})
		if len(wrong) > 0 {
			continue
		}
		if _, wrong := fab.Build(d, 0); len(wrong) > 0 {
			continue
		}
		built++
		text := func() string {
			j, _ := fab.Build(d, fab.WithPlan|fab.WithMarks)
			p := j.Plan
			if p.Sheets.Bound() > p.Sheets.Count() && p.Sheets.Complete() {
				t.Errorf("%d sheets, and a bound of %d", p.Sheets.Count(), p.Sheets.Bound())
			}
			for _, f := range p.Findings {
				if text := words.In(d.Units).Finding(f); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || strings.Contains(text, "%!") {
					t.Errorf("finding %q", text)
				}
			}
			var b strings.Builder
			if err := Of(j).WriteJSON(&b); err != nil {
				t.Fatal(err)
			}
			return b.String()
		}
		if a, b := text(), text(); a != b {
			t.Fatal("two plans of one design differ")
		}
	}
	if built < 100 {
		t.Errorf("%d designs built, want 100", built)
	}
}
