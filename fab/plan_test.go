package fab_test

import (
	"math"
	"math/rand/v2"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/estimate"
	"stabile/fab/finding"
	"stabile/fab/sheets"
	workshop "stabile/fab/shop"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/sample"
	"stabile/param/source"
	"stabile/param/written"
)

// inYard builds a design that uses the example shop.
func inYard(t testing.TB, text string) *fab.Job {
	t.Helper()
	j, wrong := fab.Build(written.Yard(t, text), fab.Everything)
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	return j
}

// TestPlan goes once through the plan of a piece for the example shop.
func TestPlan(t *testing.T) {
	j := inYard(t, written.YardPiece)
	p := j.Plan
	if p.Filled.Whole || len(p.Filled.Missing) > 0 {
		t.Errorf("the example shop leaves out %+v", p.Filled.Missing)
	}
	if !p.Sheets.Complete() || p.Sheets.Bound() > p.Sheets.Count() || len(p.Sheets.Orders) > 0 {
		t.Errorf("sheets: %+v", p.Sheets)
	}
	if m := p.Estimate.Money; m == nil || !m.Priced() || m.Currency != "USD" || !(m.Total.Low < m.Total.Likely && m.Total.Likely < m.Total.High) {
		t.Errorf("money: %+v", m)
	}
	// Every piece of every blank has a place, and what is rolled is in a batch.
	pieces, rolled := 0, 0
	for _, part := range j.Parts {
		for i := range part.Blanks {
			b := &part.Blanks[i]
			pieces += b.Quantity
			if b.Forming.How == "roll" || b.Forming.How == "cone" {
				rolled += b.Quantity
			}
		}
	}
	for i := range p.Sheets.Stacks {
		for _, s := range p.Sheets.Stacks[i].Sheets {
			for _, b := range s.Blocks {
				pieces -= s.Copies * len(b.Pieces)
			}
		}
	}
	for _, b := range p.Rolling.Batches {
		rolled -= b.Count
	}
	for _, r := range p.Rolling.Refused {
		rolled -= r.Quantity
	}
	if pieces != 0 || rolled != 0 {
		t.Errorf("%d pieces have no place, %d are in no batch", pieces, rolled)
	}
	said := 0
	for _, f := range p.Findings {
		for _, g := range j.Findings {
			if reflect.DeepEqual(f, g) {
				said++
				break
			}
		}
	}
	if said != len(p.Findings) {
		t.Errorf("%d of %d findings of the plan are among the job's", said, len(p.Findings))
	}
}

// TestPlanOfModestShop: what the built-in shop cannot do is no fault of a design.
func TestPlanOfModestShop(t *testing.T) {
	j := inYard(t, `units inch
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 3/8 in }
base pad { plate 28 by 22, metal slab }
post mast on pad { at (0, 0), diameter 2, length 110, metal skin }
`)
	p := j.Plan
	if !j.OK() {
		t.Errorf("%+v", j.Findings)
	}
	modest, order, long := false, false, false
	for _, f := range p.Findings {
		switch f.Fact.(type) {
		case workshop.Modest:
			modest = true
		case sheets.TooThick:
			order = slices.Equal(f.Parts, []string{"pad"})
		case sheets.TooLarge:
			long = slices.Equal(f.Parts, []string{"mast"}) && f.Level == finding.Caution
		}
	}
	if !p.Filled.Whole || !modest || !order || !long || p.Estimate.Money != nil {
		t.Errorf("Findings = %+v", p.Findings)
	}
}

// TestEstimateAddsUp: on random designs the lines of an estimate add up to its
// hours and its total, and no total stands where something has no price.
func TestEstimateAddsUp(t *testing.T) {
	rnd := rand.New(rand.NewPCG(18, 3))
	priced, unpriced := 0, 0
	for range 40 {
		text := strings.NewReplacer("gauge 18 }", "gauge 18, price 2 / 1 kg }", "bought 2 kg", "bought 2 kg, price 31").Replace(sample.Text(rnd))
		slab := "thickness 8 mm }"
		if rnd.IntN(3) > 0 {
			text = strings.ReplaceAll(text, slab, "thickness 8 mm, price 240 }")
		}
		text += "finish coat { paint, price 38 / (1 m * 1 m) }\nshop { cutter { kerf 1 mm }, rates { labour 55 / 1 hr, filler 20 / 1 kg, gas 14 / 1 hr, markup 0.15 } }\n"
		d, wrong := param.Evaluate(source.NewFile("random.stabile", text), param.Options{})
		if len(wrong) > 0 {
			continue
		}
		j, wrong := fab.Build(d, fab.WithPlan)
		if len(wrong) > 0 {
			continue
		}
		e := j.Plan.Estimate
		hours := 0.0
		for _, l := range e.Work {
			hours += l.Hours.Likely
		}
		if math.Abs(hours-e.Hours.Likely) > 1e-9*hours {
			t.Errorf("the lines are %v h, the sum %v h:\n%s", hours, e.Hours.Likely, text)
		}
		money := 0.0
		for _, c := range e.Money.Lines {
			money += c.Money.Likely
		}
		q, why := j.Result("cost")
		if !e.Money.Priced() {
			unpriced++
			if e.Money.Total != (estimate.Range{}) || why == nil {
				t.Errorf("a total stands without a price for %v:\n%s", e.Money.Unpriced, text)
			}
			continue
		}
		priced++
		if math.Abs(money-e.Money.Total.Likely) > 1e-9*money || q.Number != e.Money.Total.Likely || why != nil {
			t.Errorf("the lines cost %v, the total is %v, the result %v:\n%s", money, e.Money.Total.Likely, q.Number, text)
		}
	}
	if priced < 8 || unpriced < 4 {
		t.Errorf("%d designs with a price and %d without, too few", priced, unpriced)
	}
}

// TestExampleRanges: the price of every example, at prices for all that it needs,
// is known to 20 percent.
func TestExampleRanges(t *testing.T) {
	const dir = "../examples"
	paths, err := filepath.Glob(dir + "/*.stabile")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no examples: %v", err)
	}
	for _, path := range paths {
		d, err := param.Load(os.DirFS(dir), filepath.Base(path), param.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range d.Parts {
			if p.Metal != nil && p.Metal.Price == 0 {
				p.Metal.Price = 2.5
			}
			if p.Ball != nil && p.Ball.Build == design.Bought {
				p.Ball.Price = 30
			}
		}
		if d.Shop == nil {
			d.Shop = &design.Shop{Rates: design.Rates{Labour: 55, Filler: 20, Gas: 14}}
		}
		j, wrong := fab.Build(d, fab.WithPlan)
		if err := wrong.Err(); err != nil {
			t.Fatal(err)
		}
		m := j.Plan.Estimate.Money
		if !m.Priced() {
			t.Errorf("%s: no price for %v", path, m.Unpriced)
			continue
		}
		down, up := 1-m.Total.Low/m.Total.Likely, m.Total.High/m.Total.Likely-1
		t.Logf("%s: %.0f, -%.1f %% and +%.1f %%", filepath.Base(path), m.Total.Likely, 100*down, 100*up)
		if down > 0.2 || up > 0.2 {
			t.Errorf("%s: -%.1f %% and +%.1f %%", path, 100*down, 100*up)
		}
	}
}

// TestPlanRequired: requirements read the sheets and the cost, and say why they
// cannot.
func TestPlanRequired(t *testing.T) {
	j := inYard(t, written.YardPiece+"require sheets <= 2\nrequire sheets < 1\nrequire cost < 1000000\nrequire cost < 100\n")
	for i, want := range []bool{true, false, true, false} {
		if o := j.Requirements[i]; o.Missing != nil || (o.Verdict == check.Holds) != want {
			t.Errorf("%s: %+v", j.Requirements[i].Text, o)
		}
	}
	j = inYard(t, `units inch
metal skin { alloy low-carbon-steel, gauge 18 }
base ground { feet }
post mast on ground { at (0, 0), diameter 4, length 110, metal skin }
require sheets <= 2
require cost < 100
`)
	for i := range 2 {
		if o := j.Requirements[i]; o.Missing != (estimate.NoPlace{}) {
			t.Errorf("%s: %+v, want it undecided for want of a place", o.Text, o)
		}
	}
	j = inYard(t, `units inch
metal skin { alloy low-carbon-steel, gauge 18 }
base ground { feet }
post mast on ground { at (0, 0), diameter 4-1/2, length 28, metal skin }
require cost < 100
`)
	if o := j.Requirements[0]; o.Missing != (estimate.NoPrices{}) {
		t.Errorf("cost without prices: %+v", o)
	}
}
