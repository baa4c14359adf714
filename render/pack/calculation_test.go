package pack_test

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/solid"
	"stabile/fab/stand"
	"stabile/fab/wind"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/internal/inspect"
	"stabile/render/internal/sample"
	"stabile/render/pack"
	"stabile/render/words"
)

// calculations returns the calculation sheets of a job.
func calculations(j *fab.Job) (list []*ink.Sheet) {
	for _, s := range pack.Sheets(j, pack.Options{Date: "2026-01-31", Books: []pack.BookName{pack.Engineer}}) {
		if strings.HasSuffix(s.Name, "-calculation") || strings.HasSuffix(s.Name, "-checks") {
			list = append(list, s)
		}
	}
	return list
}

// written returns all that is written on a sheet, its texts parted by spaces.
func written(s *ink.Sheet) string {
	var b strings.Builder
	for _, it := range s.Items {
		if t, ok := it.(*ink.Text); ok {
			b.WriteString(t.Text + " ")
		}
	}
	return b.String()
}

// TestCalculationsAreClean looks at the calculation sheets of random designs under
// random sites, by both methods, and of all examples in the wind.
func TestCalculationsAreClean(t *testing.T) {
	sites := []design.Site{
		{Wind: 40, Method: design.ASCE7, Exposure: "C", Push: 200, PushHeight: 700, Slope: 0.02},
		{Wind: 26, Method: design.EN1991, Terrain: "II", Slope: 0.03},
		{Push: 300, PushHeight: 1500},
		{Wind: 70, Method: design.ASCE7, Exposure: "D"},
	}
	var total inspect.Report
	jobs := map[string]*fab.Job{}
	for seed := range uint64(24) {
		units := []quantity.System{quantity.Millimetre, quantity.Inch}[seed%2]
		d := sample.Random(seed, 3+int(seed*seed%40), units)
		d.Site = &sites[seed/2%4]
		j := sample.Job(d)
		var err error
		j.Wind, err = wind.On(d, solid.Bodies(d), wind.Options{})
		require.NoError(t, err)
		tipping := stand.TipInWind(j.Tipping.Footprint, stand.Weight{Mass: j.Mass.Total, CG: j.CG, Top: j.Size.Height, Anchors: int(seed % 5)}, d.Site, j.Wind, 0)
		j.Tipping = &tipping
		jobs[fmt.Sprintf("tree %d", seed)] = j
	}
	for _, e := range examples(t) {
		for i := range sites {
			d := *e.job.Design
			d.Site = &sites[i]
			j, wrong := fab.Build(&d, fab.WithModes|fab.WithPlan|fab.WithMarks) // cures are of findings alone
			require.NoError(t, wrong.Err())
			jobs[fmt.Sprintf("%s on site %d", e.name, i)] = j
		}
	}
	for name, j := range jobs {
		list := calculations(j)
		if len(list) < 2 { // what was checked, and how
			t.Errorf("%s: %d sheets of calculation", name, len(list))
		}
		total.Add(inspect.Check(t, name, list...))
		for _, s := range list {
			if !strings.Contains(written(s), "a licensed engineer and the local code decide") {
				t.Errorf("%s: sheet %s does not say who decides", name, s.Name)
			}
		}
	}
	t.Logf("%d texts", total.Texts)
}

// TestCalculationTells holds that the sheets have the job's own figures, every
// assumption and gap, and that what was not checked reads so.
func TestCalculationTells(t *testing.T) {
	src := `sculpture "Vane"
units mm
metal skin { alloy low-carbon-steel, gauge 16 }
metal slab { alloy low-carbon-steel, thickness 12 mm }
base pad { plate 500 by 400, metal slab, anchors 4, anchor_diameter 14, anchor_edge 40 }
post mast on pad { at (0, 0), diameter 90, length 1800, metal skin }
ball moon on mast { diameter 300, gores 12, metal skin }
post stub on pad { at (-150, 100), diameter 40, length 300, metal skin }
`
	if got := calculations(textWith(t, src, fab.WithPlan|fab.WithMarks)); strings.Contains(everything(got), "2 Given") {
		t.Errorf("without loads and strength there are %d sheets of calculation", len(got))
	}
	for _, site := range []string{"site { wind 40 m/s, method asce7, exposure C, push 150 N at 1.2 m }", "site { wind 26 m/s, method en1991, terrain III, push 150 N at 1.2 m }"} {
		without := everything(calculations(textWith(t, src+site, fab.WithPlan|fab.WithMarks)))
		if !strings.Contains(without, "Strength, sway, welds, plate and anchors.") || strings.Contains(without, "Ring welds") {
			t.Errorf("%s: strength was not worked out, and the sheets say %q", site, without)
		}
		j := text(t, src+site)
		all := everything(calculations(j))
		want := []string{
			"The least factor is " + words.Factor(j.Tipping.Factor), "the target is 1.50",
			"Tipping under load Weight alone is not enough; whether the anchors hold is not decided",
			"The hold of the anchors How much the anchors hold in the concrete is not known", "The ball wall of moon at mast",
			"The ground, what holds anchors in it", "150 N × 1200 mm 180 N m", words.Use(j.Strength.WorstMember().Ratio), words.Coefficient(j.Strength.Modes[0].Frequency) + " Hz",
			"the push does not reach stub", "moon moves most", "AISC 360 F8", string(j.Wind.Edition), "No certificate",
		}
		say := words.In(j.Design.Units)
		for _, l := range append(j.Wind.Lines(), j.Strength.Lines()...) {
			want = append(want, strings.Fields(say.Fact(l.Name))[1])
		}
		for _, a := range append(j.Wind.Assumptions(), j.Strength.Assumptions()...) {
			want = append(want, strings.Join(strings.Fields(say.Fact(a))[:3], " "))
		}
		for _, w := range want {
			if !strings.Contains(all, w) {
				t.Errorf("%s: the sheets do not say %q", site, w)
			}
		}
		if t.Failed() {
			t.Log(all)
		}
	}
}

func everything(list []*ink.Sheet) string {
	var all string
	for _, s := range list {
		all += written(s)
	}
	return strings.Join(strings.Fields(all), " ")
}
