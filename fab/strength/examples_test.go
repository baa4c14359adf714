package strength_test

import (
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/frame"
	"stabile/fab/solid"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/param"
	"stabile/param/design"
)

// TestExamples works out every example under winds by both methods and checks
// that the outcome is sound: finite, balanced, complete.
func TestExamples(t *testing.T) {
	files, err := filepath.Glob("../../examples/*.stabile")
	require.NoError(t, err)
	require.NotEmpty(t, files)
	for _, file := range files {
		text, err := os.ReadFile(file)
		require.NoError(t, err)
		if !strings.Contains(string(text), "\nsculpture ") {
			continue // what other files use
		}
		d, err := param.Load(os.DirFS("../../examples"), filepath.Base(file), param.Options{})
		require.NoError(t, err)
		for _, site := range []design.Site{
			{Wind: 40, Method: design.ASCE7, Exposure: "C", Push: 200, PushHeight: 1000},
			{Wind: 26, Method: design.EN1991, Terrain: "II", Slope: 0.03},
		} {
			d.Site = &site
			job, list := fab.Build(d, fab.Everything)
			require.NoError(t, list.Err())
			in := strength.Input{Design: d, Footprint: job.Tipping.Footprint}
			for _, p := range job.Parts {
				in.Items = append(in.Items, frame.Item{Part: p.Part, Mass: p.Mass, CG: p.CG})
				if p.Base != nil && len(p.Blanks) > 0 {
					for _, h := range p.Blanks[0].Holes {
						in.Anchors = append(in.Anchors, h.Center)
					}
				}
			}
			in.Wind, err = wind.On(d, solid.Bodies(d), wind.Options{})
			require.NoError(t, err)
			s, err := strength.Check(in)
			require.NoError(t, err)
			sound(t, s)
			t.Logf("%s, %s: worst %.3f (%+v), buckles at %.0f, sways %.2f mm in %+v, %.2f Hz (%s), anchors %+v, plate %.3f; %d cases",
				d.Title, in.Wind.Edition, s.Worst, s.WorstAt, s.Buckling, s.Sway.Moved, s.Sway.Case, s.Modes[0].Frequency, s.Modes[0].Part.Name, s.Anchors, s.Plate.Ratio, s.Cases)
		}
	}
}

// sound holds that an outcome has no figure that is not finite, but for a
// buckling factor of what is never pushed.
func sound(t *testing.T, s *strength.Strength) {
	t.Helper()
	finite := func(what string, list ...float64) {
		for _, x := range list {
			if math.IsNaN(x) || math.IsInf(x, 0) {
				t.Errorf("%s: %v", what, list)
			}
		}
	}
	finite("worst", s.Worst, s.Amplification, s.Sway.Moved)
	if math.IsNaN(s.Buckling) || s.Buckling <= 0 {
		t.Errorf("buckling factor %v", s.Buckling)
	}
	for _, m := range s.Members {
		finite(m.Part.Name+" "+string(m.Where), m.Axial, m.Shear, m.Bending, m.Twist, m.Stress, m.Limit, m.Ratio)
	}
	for _, w := range s.Welds {
		finite(w.Part.Name+" weld", w.Line, w.Stress, w.Ratio, w.Allowed)
	}
	for _, sh := range s.Shells {
		finite(sh.Ball.Name, sh.Load.Force, sh.Load.Moment, sh.Ratio)
	}
	for _, sh := range s.Shedding {
		finite(sh.Part.Name+" shedding", sh.Critical, sh.Of)
	}
	for _, m := range s.Modes {
		finite("mode", m.Frequency)
	}
	for _, l := range s.Lines() {
		finite(l.Symbol, l.Value)
	}
	if p := s.Plate; p != nil {
		finite("plate", p.Force, p.Lever, p.Moment, p.Stress, p.Ratio)
	}
	if a := s.Anchors; a != nil {
		finite("anchors", a.Tension, a.Shear, a.Moment)
	}
	if !s.Complete {
		t.Error("a mode may have been missed")
	}
}
