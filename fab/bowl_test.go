package fab

import (
	"slices"
	"strings"
	"testing"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/fab/strength"
	"stabile/fab/wind"
)

// TestBowlIsOpen: a bowl is no closed space, holds rain unless it has a drain, is loaded by
// the wind as an open half of a ball, and its wall is decided away from its rim alone.
func TestBowlIsOpen(t *testing.T) {
	const text = shop + `
post p on pad { at (0, 0), diameter 40, length 500, metal skin }
bowl dish on p { diameter 400, depth 150, gores 12, caps 120 round, bend domed, metal skin }
site { wind 20 m/s, method asce7, exposure C }
`
	j := buildWith(t, text, Everything)
	holds := func(j *Job) bool {
		return slices.ContainsFunc(j.Findings, func(f finding.Finding) bool { _, ok := f.Fact.(flat.HoldsRain); return ok })
	}
	if !holds(j) {
		t.Error("nobody says that it holds rain")
	}
	if holds(buildWith(t, strings.Replace(text, "caps 120", "drain 12, caps 120", 1), Everything)) {
		t.Error("it holds rain, with a drain")
	}
	for _, s := range j.Plan.Assembly.Spaces {
		if slices.Contains(s.Parts, "dish") {
			t.Error("it is a closed space")
		}
	}
	blown := slices.ContainsFunc(j.Wind.Items, func(it wind.Item) bool {
		return it.Part.Name == "dish" && it.Rule.Kind == wind.OpenBowl && it.Coefficient == 1.42 && it.Uplift > 0
	})
	if !blown {
		t.Errorf("the wind meets it by %+v", j.Wind.Items)
	}
	rim := func(j *Job) bool {
		return slices.ContainsFunc(j.Strength.Shells, func(s strength.Shell) bool { return s.Gap == strength.WallRim })
	}
	if rim(j) {
		t.Error("the wall is not decided at the bottom")
	}
	near := buildWith(t, strings.Replace(text, "depth 150,", "depth 60, tilt 24 deg toward 0 deg,", 1), Everything)
	if !rim(near) {
		t.Error("the wall is decided beside the rim")
	}
	if list := checksOf(near, check.BallWall); len(list) != 1 || list[0].Part != "dish" || list[0].Verdict != check.Undecided {
		t.Errorf("beside the rim the wall is %+v", list)
	}
}
