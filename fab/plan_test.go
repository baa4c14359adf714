package fab_test

import (
	"os"
	"reflect"
	"slices"
	"testing"
	"testing/fstest"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/estimate"
	"stabile/fab/finding"
	"stabile/fab/sheets"
	workshop "stabile/fab/shop"
	"stabile/param"
)

// yardPiece is a design for the example shop that has something of everything:
// a plate for the cutter, a tube, a taper, gores with caps and halves.
const yardPiece = `sculpture "Yard piece"
units inch
bring "lower-yard.stabile"
base pad { plate 28 by 22, metal slab }
post mast on pad { at (0, 0), diameter 4-1/2, length 28, metal skin }
ball moon on mast { diameter 12, gores 10, caps 3, metal skin }
post stay on moon { offset 2 toward 0 deg, diameter 3 to 3-1/2, length 14, metal skin }
ball drop on stay { diameter 6, halves, metal skin }
`

// inYard builds a design that uses the example shop.
func inYard(t testing.TB, text string) *fab.Job {
	t.Helper()
	shop, err := os.ReadFile("../examples/shop/lower-yard.stabile")
	if err != nil {
		t.Fatal(err)
	}
	files := fstest.MapFS{"piece.stabile": {Data: []byte(text)}, "lower-yard.stabile": {Data: shop}}
	d, err := param.Load(files, "piece.stabile", param.Options{})
	if err != nil {
		t.Fatal(err)
	}
	j, wrong := fab.Build(d, fab.Everything)
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	return j
}

// TestPlan goes once through the plan of a piece for the example shop.
func TestPlan(t *testing.T) {
	j := inYard(t, yardPiece)
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

// TestPlanRequired: requirements read the sheets and the cost, and say why they
// cannot.
func TestPlanRequired(t *testing.T) {
	j := inYard(t, yardPiece+"require sheets <= 2\nrequire sheets < 1\nrequire cost < 1000000\nrequire cost < 100\n")
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
