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

// TestChecks: the offer tells plainly what the piece was reckoned with, what of
// that it does not stand, what fails and what was not checked.
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
			"held by its anchors, which were not checked", held, "site { wind 26 m/s, terrain II }\nrequire tipping >= 1.5\n",
			[]string{
				"Reckoned with: wind of 26 m/s.", "Not checked: being pushed or leaned on.", "Its own weight holds only ",
				"its anchors must hold it. Whether they do in their ground was not checked.",
				"Asked for, but not met as drawn: a factor against tipping of at least 1.5; it is 0.",
			},
			[]string{"holds it upright", "The drawing has"},
		},
		{
			"tips", free, "site { push 500 N at 1.4 m }\nrequire tipping >= 1.5 \"children lean on it\"\n",
			[]string{
				"Reckoned with: a push of 500 N at a height of 1400 mm.", "Not checked: wind.", "As drawn it does not stand safely by itself: its weight holds 0.",
				"(children lean on it)", "The drawing has 3 faults, to be mended",
			},
			[]string{"holds it upright"},
		},
		{
			"a slope alone", free, "site { slope 1 deg }\nrequire wind <= 100 N\nrequire cost <= 1234\nrequire tipping >= 1.5\n",
			[]string{
				"Firm ground that slopes by 1 deg at most under its plate", "Reckoned with: ground that slopes by 1 deg.",
				"Not checked: wind; being pushed or leaned on.", "holds it upright on that slope, by itself.",
				"Asked for, but not checked: a force of the wind of at most 100 N.", "Asked for, but not checked: the shop's own limit on what it costs.",
			},
			[]string{"level ground", "1234", "against these", "tipping"},
		},
		{
			"nothing given", free, "",
			[]string{"Firm, level ground", "Not checked: wind; being pushed or leaned on."},
			[]string{"Reckoned with", "upright", "Asked for"},
		},
		{
			"stands", free, "site { wind 10 m/s, terrain IV, push 50 N at 1 m }\nrequire tipping >= 1.5\n",
			[]string{"Reckoned with: wind of 10 m/s; a push of 50.0 N at a height of 1000 mm.", "Its own weight holds it upright against these."},
			[]string{"Not checked", "Asked for", "The drawing has"},
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
