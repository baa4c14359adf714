package eval

import "testing"

// A requirement is reported as it is written, without the comments within it.
func TestRequirementText(t *testing.T) {
	d := mustEvaluate(t, stage+`require weight <=  # two people
  140 lb and       # and a truck
  (moon.top
    < 7 ft)        # the door
variation "low" { }
variation "tall" { }
`)
	if got, want := d.Require[0].Text, "weight <= 140 lb and (moon.top < 7 ft)"; got != want {
		t.Errorf("Text = %q, want %q", got, want)
	}
	if v := d.Variations; len(v) != 2 || v[0] != "low" || v[1] != "tall" {
		t.Errorf("Variations = %q", v)
	}
}
