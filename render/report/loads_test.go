package report

import (
	"math"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/param"
	"stabile/param/source"
)

// build evaluates a text and builds it with what is wanted.
func build(t testing.TB, text string, want fab.Want) *fab.Job {
	t.Helper()
	d, wrong := param.Evaluate(source.NewFile("test.stabile", text), param.Options{})
	if len(wrong) > 0 {
		t.Fatalf("%v\n%s", wrong.Err(), text)
	}
	j, wrong := fab.Build(d, want)
	if len(wrong) > 0 {
		t.Fatalf("%v\n%s", wrong.Err(), text)
	}
	return j
}

// windy is a ball on a mast in the wind, on an anchored plate.
const windy = `units mm
metal skin { alloy low-carbon-steel, thickness 1.5 }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { plate 600 by 400, metal slab, anchors 4, anchor_diameter 12, anchor_edge 30 }
post mast on pad { at (0, 0), diameter 60, length 900, metal skin }
ball moon on mast { diameter 240, halves, metal skin }
site { wind 40 m/s, method asce7, exposure C }
`

func within(got, want, share float64) bool { return math.Abs(got-want) <= share*math.Abs(want) }

// TestReportOfLoads holds that the items add up to the whole, and that what was
// not worked out is left out.
func TestReportOfLoads(t *testing.T) {
	r := Of(build(t, windy, 0))
	if r.Wind == nil || r.Strength != nil || r.Tipping.AnchorTension != nil {
		t.Fatalf("wind %v, strength %v", r.Wind, r.Strength)
	}
	sum := 0.0
	for _, it := range r.Wind.Items {
		sum += it.Force
	}
	if !within(sum, r.Wind.Force, 1e-6) || !within(r.Wind.Moment, r.Wind.Force*r.Wind.CenterHeight/1e3, 1e-6) {
		t.Errorf("items of %v N for a force of %v N, %v N m at %v mm", sum, r.Wind.Force, r.Wind.Moment, r.Wind.CenterHeight)
	}
	j := build(t, windy, fab.WithModes)
	r = Of(j)
	if r.Strength == nil || *r.Tipping.AnchorTension != r.Strength.Anchors.Tension || r.Strength.WorstRatio <= 0 || *r.Strength.Frequency <= 0 {
		t.Errorf("strength %+v", r.Strength)
	}
	if j := build(t, strings.Replace(windy, "wind 40 m/s, method asce7, exposure C", "slope 1 deg", 1), 0); Of(j).Wind != nil {
		t.Error("a report of wind without wind")
	}
}
