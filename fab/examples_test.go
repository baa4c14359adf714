package fab

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/strength"
	"stabile/param"
	"stabile/param/design"
)

// TestExamplesHold: every example says what people do to it, is decided throughout and holds;
// what there is to say of it is at most eight findings above a note, dangers first, and its
// hollows are all named.
func TestExamplesHold(t *testing.T) {
	paths, err := filepath.Glob("../examples/*.stabile")
	require.NoError(t, err)
	require.NotEmpty(t, paths)
	for _, path := range paths {
		d, err := param.Load(os.DirFS("../examples"), filepath.Base(path), param.Options{})
		require.NoError(t, err)
		j, wrong := Build(d, Everything)
		require.NoError(t, wrong.Err())
		require.Equal(t, check.Holds, j.Verdict, path)
		require.NotEqual(t, design.NoPeople, d.Site.People, path)
		require.NotEqual(t, design.UnknownPeople, d.Site.People, path)
		require.Positive(t, d.Site.Wind, path)
		above, calm := 0, false
		for _, f := range j.Findings {
			if f.Level != finding.Note {
				above++
			}
			require.False(t, calm && f.Level == finding.Danger, "%s: a danger after others", path)
			calm = calm || f.Level != finding.Danger
			if _, ok := f.Fact.(Closed); ok {
				hollow := 0
				for _, p := range j.Parts {
					if p.Ball != nil && !(p.Ball.Vent > 0) || p.Post != nil {
						hollow++
					}
				}
				require.Len(t, f.Parts, hollow, path)
			}
		}
		require.LessOrEqual(t, above, 8, "%s: %v", path, j.Findings)
	}
}

// TestCuresAreTried: what is said to help the wall of a ball, a post that vibrates or a piece
// that people lean on does: made so, the same thing is not said again.
func TestCuresAreTried(t *testing.T) {
	const site = "site { wind 35 m/s, method asce7, exposure B, people leaning, seismic 0, ice 0 }\n"
	text := func(ball, post string) string {
		return `units mm
metal skin { alloy low-carbon-steel, gauge 18 }
metal of_ball { alloy low-carbon-steel, ` + ball + ` }
metal of_post { alloy low-carbon-steel, ` + post + ` }
metal slab { alloy low-carbon-steel, thickness 20 mm }
base pad { plate 900 by 900, metal slab, anchors 4, anchor_diameter 18, anchor_edge 60, anchor_depth 200, concrete 30 MPa }
post mast on pad { diameter 90, length 700, metal of_post }
ball moon on mast { diameter 320, halves, metal of_ball }
` + site
	}
	j := build(t, text("gauge 18", "gauge 16"))
	cures := 0
	for _, f := range j.Findings {
		var list []strength.Cure
		switch fact := f.Fact.(type) {
		case strength.WallBreaks:
			list = fact.Cures
		case strength.Vibrates:
			list = fact.Cures
		case LoadFails:
			list = fact.Cures
		}
		for _, c := range list {
			if c.Gauge == 0 {
				continue
			}
			gauge := map[string]string{"moon": "gauge 18", "mast": "gauge 16"}
			gauge[c.Of] = "thickness " + strconv.FormatFloat(c.Thickness, 'f', -1, 64) + " mm"
			k := build(t, text(gauge["moon"], gauge["mast"]))
			cures++
			for _, now := range k.Findings {
				switch fact := now.Fact.(type) {
				case strength.WallBreaks:
					was, same := f.Fact.(strength.WallBreaks)
					require.False(t, same && slices.Equal(f.Parts, now.Parts) && was.With == fact.With, "%+v: %+v", c, now)
				case strength.Vibrates:
					was, same := f.Fact.(strength.Vibrates)
					require.False(t, same && slices.Contains(now.Parts, was.Worst), "%+v: %+v", c, now)
				case LoadFails:
					was, same := f.Fact.(LoadFails)
					require.False(t, same && was.Of == fact.Of && was.Check.ID == fact.Check.ID && was.Check.Part == fact.Check.Part && was.Check.With == fact.Check.With, "%+v: %+v", c, now)
				}
			}
		}
	}
	require.Positive(t, cures, "%v", j.Findings)
}

// TestAnchorsCorrode: anchors through a plate of copper or weathering steel are cautioned of,
// those through bare steel or aluminium are not (the galvanic table).
func TestAnchorsCorrode(t *testing.T) {
	for alloy, want := range map[string]bool{"low-carbon-steel": false, "aluminium-5052": false, "weathering-steel": true, "copper": true, "stainless-304": true} {
		j := build(t, `units mm
metal slab { alloy `+alloy+`, thickness 10 mm }
base pad { plate 400 by 400, metal slab, anchors 4, anchor_diameter 14, anchor_edge 40 }
post mast on pad { diameter 80, length 300, metal slab }
`)
		require.Equal(t, want, finds[AnchorsCorrode](j, finding.Caution), alloy)
	}
}
