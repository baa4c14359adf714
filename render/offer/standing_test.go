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
	"stabile/render/words"
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
	return page(t, j, offer.Options{})
}

// page returns all that the offer of a job says, in one line.
func page(t *testing.T, j *fab.Job, o offer.Options) string {
	t.Helper()
	pages, err := offer.Pages(j, o)
	if err != nil {
		t.Fatal(err)
	}
	inspect.Check(t, j.Design.Title, pages...)
	var all []string
	for _, item := range pages[0].Items {
		if text, ok := item.(*ink.Text); ok {
			all = append(all, text.Text)
		}
	}
	return strings.NewReplacer("\u00a0", " ").Replace(strings.Join(all, " "))
}

// TestChecks: the offer says in a client's words what the piece was checked for, what
// fails and what is not decided, and no word of the shop's.
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
			"held by its anchors, which were not checked", held, "site { wind 26 m/s, terrain II }\n",
			[]string{"Checked for wind of 26 m/s.", "Not decided yet: ", "its fixings and footing", "A footing by others, and 4 anchors in it", "Not included The footing and its anchors"},
			nil,
		},
		{
			"tips", free, "site { push 500 N at 1.4 m }\nrequire tipping >= 1.5 \"children lean on it\"\n",
			[]string{"Not ready to be built", "Does not hold yet: tipping over", "Checked for a push of 500 N at a height of 1400 mm.", "Required and not met yet: children lean on it."},
			nil,
		},
		{
			"a slope alone", free, "site { slope 1 deg }\nrequire cost <= 1234\nrequire tipping >= 1.5\n",
			[]string{"Firm ground that slopes by 1° at most under its plate", "Checked for ground that slopes by 1°.", "Not decided yet: wind"},
			[]string{"level ground", "1234", "Does not hold"},
		},
		{
			"nothing given", free, "",
			[]string{"Firm, level ground", "Not decided yet: tipping over; sliding; wind", "people leaning on it or climbing it"},
			[]string{"Checked for", "Checked, and holds: tipping"},
		},
		{
			"stands", free, "site { wind 10 m/s, terrain IV, push 50 N at 1 m }\nrequire tipping >= 1.5\n",
			[]string{"Checked for wind of 10 m/s; a push of 50.0 N at a height of 1000 mm.", "Not decided yet: people leaning on it or climbing it", "the strength of its parts and joints; swaying"},
			[]string{"Does not hold", "Not ready"},
		},
		{
			"the shop's limit on cost", free, "require cost <= 1234\n",
			nil, []string{"1234", "cost"},
		},
		{
			"whom it is for", free, "finish coat { paint }\njob { number \"LT-014\", client \"The Orchard Trust\", place \"The walled garden\", valid 30 days, deposit 0.4, price 4200 }\nshop { currency \"EUR\" }\n",
			[]string{"Offer LT-014 for The Orchard Trust, The walled garden, valid for 30 days", "4200 EUR, without tax.", "1680 EUR of it is due with the order.", "Touch up scratches", "Not included Preparing the ground, carriage, setting up"},
			[]string{"estimate", "footing by others"},
		},
	} {
		got := said(t, head+tt.base+foot+tt.text)
		for _, want := range tt.want {
			if !strings.Contains(got, want) {
				t.Errorf("%s: the offer says %q, not %q", tt.name, got, want)
			}
		}
		for _, not := range append(tt.not, "fault", "ball wall", "blank", "gore", "factor", "tipping >=") {
			if strings.Contains(got, not) {
				t.Errorf("%s: the offer says %q", tt.name, not)
			}
		}
	}
}

// TestSmall: a piece for a table has cautions of its own size.
func TestSmall(t *testing.T) {
	got := said(t, `sculpture "Bud"
units mm
metal skin { alloy stainless-304, thickness 1 mm }
base pad { disc 120, metal skin }
post stem on pad { diameter 20, length 90, metal skin }
`)
	for _, not := range []string{"climb", "engineer", "people", "footing", "setting up"} {
		if strings.Contains(got, not) {
			t.Errorf("a piece of 90 mm says %q: %q", not, got)
		}
	}
}

// TestPriceAgrees: the offer's price is the cost of the report to the digit.
func TestPriceAgrees(t *testing.T) {
	j := examples(t)["lamp-thorn.stabile"]
	p, why := j.Price()
	if why != nil {
		t.Fatal(why)
	}
	m := j.Plan.Estimate.Money
	text := words.Money(m.Total.Likely, m.Currency)
	if p.Amount != m.Total.Likely || !strings.Contains(page(t, j, offer.Options{Price: true}), "Price "+text+", an estimate") {
		t.Errorf("the offer does not say %s", text)
	}
}
