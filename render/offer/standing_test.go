package offer_test

import (
	"strings"
	"testing"

	"stabile/fab"
	"stabile/param"
	"stabile/param/source"
	"stabile/render/ink"
	"stabile/render/internal/inspect"
	"stabile/render/offer"
)

// said returns all that the offer of a design says, in one line.
func said(t *testing.T, src string) string {
	t.Helper()
	d, wrong := param.Evaluate(source.NewFile("trial.stabile", src), param.Options{})
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	j, wrong := fab.Build(d, fab.Everything)
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	page, err := offer.Page(j, offer.Options{})
	if err != nil {
		t.Fatal(err)
	}
	inspect.Check(t, d.Title, page)
	var all []string
	for _, item := range page.Items {
		if text, ok := item.(*ink.Text); ok {
			all = append(all, text.Text)
		}
	}
	return strings.NewReplacer("\u00a0", " ").Replace(strings.Join(all, " "))
}

// TestChecks: the offer tells plainly what the piece was checked for, what fails and
// what was not decided, which never reads as if it held.
func TestChecks(t *testing.T) {
	const head = `sculpture "Trial"
units mm
metal skin { alloy low-carbon-steel, thickness 1.5 mm }
metal slab { alloy low-carbon-steel, thickness 15 mm }
`
	const foot = `post mast on pad { diameter 100, length 1500, metal skin }
ball top on mast { diameter 300, gores 10, metal skin }
`
	const free, held = "base pad { disc 900, metal slab }\n", "base pad { plate 500 by 500, metal slab, anchors 4, anchor_diameter 14, anchor_edge 45 }\n"
	for _, tt := range []struct {
		name, base, text string
		want, not        []string
	}{
		{
			"held by its anchors, which were not decided", held, "site { wind 26 m/s, terrain II }\nrequire tipping >= 1.5\n",
			[]string{
				"Checked for: wind of 26 m/s.", "Not decided: tipping under load, sliding, ", "the hold of the anchors in the ground",
				"The drawing is not ready to be built.",
			},
			[]string{"It stands and holds", "Fails as drawn"},
		},
		{
			"tips", free, "site { push 500 N at 1.4 m }\nrequire tipping >= 1.5 \"children lean on it\"\n",
			[]string{
				"Checked for: a push of 500 N at a height of 1400 mm.", "Not decided: wind, ", "people leaning or climbing", "Fails as drawn: tipping under load (factor 0.",
				", at least 1.50 needed).", "Fails as drawn: sliding (factor 0.", "Fails as drawn: a weld of mast on pad (1.", "The drawing is not ready to be built.",
			},
			[]string{"It stands and holds"},
		},
		{
			"a slope alone", free, "site { slope 1 deg }\nrequire wind <= 100 N\nrequire cost <= 1234\nrequire tipping >= 1.5\n",
			[]string{"Firm ground that slopes by 1 deg at most under its plate", "Checked for: ground that slopes by 1 deg.", "Not decided: wind, ", "people leaning or climbing"},
			[]string{"level ground", "1234", "against these", "Fails as drawn"},
		},
		{
			"nothing given", free, "",
			[]string{"Firm, level ground", "Not decided: tipping under load, sliding, wind, ", "people leaning or climbing"},
			[]string{"Checked for", "It stands and holds"},
		},
		{
			"stands", free, "site { wind 10 m/s, terrain IV, push 50 N at 1 m }\nrequire tipping >= 1.5\n",
			[]string{"Checked for: wind of 10 m/s; a push of 50.0 N at a height of 1000 mm.", "Not decided: the ball wall of top at mast, people leaning or climbing, "},
			[]string{"Fails as drawn", "not ready"},
		},
	} {
		got := said(t, head+tt.base+foot+tt.text)
		for _, want := range tt.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: the offer says %q, not %q", tt.name, got, want)
			}
		}
		for _, not := range tt.not {
			if strings.Contains(got, not) {
				t.Errorf("%s: the offer says %q", tt.name, not)
			}
		}
	}
}
