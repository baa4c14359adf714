package report

import (
	"encoding/json"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/param"
	"stabile/param/sample"
	"stabile/param/source"
	"stabile/render/words"
)

// TestNoOddNumbers builds many designs and looks for numbers that are none in
// their reports. JSON cannot hold NaN or Inf: writing it would fail.
func TestNoOddNumbers(t *testing.T) {
	rnd := rand.New(rand.NewPCG(41, 42))
	built := 0
	for n := 0; built < 500 && n < 5000; n++ {
		d, wrong := param.Evaluate(source.NewFile("any.stabile", sample.Text(rnd)), param.Options{})
		if len(wrong) > 0 {
			continue
		}
		j, wrong := fab.Build(d, fab.WithStrength|fab.WithMarks)
		if len(wrong) > 0 {
			continue
		}
		built++
		var b strings.Builder
		r := Of(j)
		if err := r.WriteJSON(&b); err != nil {
			t.Fatalf("%v", err)
		}
		var back Document
		if err := json.Unmarshal([]byte(b.String()), &back); err != nil {
			t.Fatalf("the report does not read back: %v", err)
		}
		for _, f := range j.Findings {
			if text := words.In(d.Units).Finding(f); strings.Contains(text, "NaN") || strings.Contains(text, "Inf") || strings.Contains(text, "%!") {
				t.Errorf("finding %q", text)
			}
		}
		if s := j.Tipping; s.Loaded && (s.Factor < 0 || math.IsInf(s.Factor, 0) || math.IsNaN(s.Factor)) {
			t.Errorf("factor %v", s.Factor)
		}
		if m := j.Mass; !(m.Low <= m.Total && m.Total <= m.High) {
			t.Errorf("masses %+v", m)
		}
	}
	if built < 500 {
		t.Errorf("%d designs built, want 500", built)
	}
}
