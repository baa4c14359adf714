package fab_test

import (
	"bytes"
	"encoding/json"
	"os"
	"reflect"
	"strings"
	"testing"
	"testing/fstest"

	"stabile/fab"
	"stabile/fab/finding"
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
	j, wrong := fab.Build(d)
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	return j
}

// TestPlan goes once through the plan of a piece for the example shop.
func TestPlan(t *testing.T) {
	j := inYard(t, yardPiece)
	before := len(j.Findings)
	p := j.Plan()
	if p != j.Plan() {
		t.Error("the plan is worked out twice")
	}
	if p.Filled.Whole || len(p.Filled.Items) > 0 {
		t.Errorf("the example shop leaves out %q", p.Filled.Items)
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
	if said != len(p.Findings) || len(j.Findings) != before+len(p.Findings) {
		t.Errorf("%d of %d findings of the plan are among the job's %d, which had %d", said, len(p.Findings), len(j.Findings), before)
	}
}

// TestPlanReport holds the section of the report to its keys, and to the rule that
// what was not asked for is left out.
func TestPlanReport(t *testing.T) {
	var r struct {
		Shop *struct {
			Sheets []struct {
				Metal   string
				Size    []float64 `json:"size_mm"`
				Count   int
				Used    float64 `json:"used_ratio"`
				Layouts []struct {
					Copies int
					Pieces []struct {
						Blank  string
						X      *float64 `json:"x_mm"`
						Y      *float64 `json:"y_mm"`
						W      float64  `json:"w_mm"`
						H      float64  `json:"h_mm"`
						Turned *bool
					}
					Cuts []struct {
						Order int
						Along string
						At    *float64 `json:"at_mm"`
						From  *float64 `json:"from_mm"`
						To    float64  `json:"to_mm"`
					}
				}
			}
			Rolling []json.RawMessage
			Weld    float64 `json:"weld_length_mm"`
			Edge    float64 `json:"edge_to_clean_mm"`
			Filler  float64 `json:"filler_kg"`
			Hours   float64
			Cost    *struct {
				Total    float64
				Currency string
			}
		}
	}
	report := func(j *fab.Job) string {
		var b bytes.Buffer
		if err := j.Report().WriteJSON(&b); err != nil {
			t.Fatal(err)
		}
		return b.String()
	}
	text := report(inYard(t, yardPiece))
	if err := json.Unmarshal([]byte(text), &r); err != nil {
		t.Fatal(err)
	}
	s := r.Shop
	if s == nil || len(s.Sheets) == 0 || len(s.Rolling) == 0 || s.Weld <= 0 || s.Edge <= 0 || s.Filler <= 0 || s.Hours <= 0 || s.Cost == nil || s.Cost.Total <= 0 || s.Cost.Currency != "USD" {
		t.Fatalf("shop = %+v", s)
	}
	for _, h := range s.Sheets {
		if h.Metal == "" || len(h.Size) != 2 || h.Count == 0 || !(h.Used > 0 && h.Used < 1) || len(h.Layouts) == 0 {
			t.Errorf("sheet %+v", h)
		}
		for _, l := range h.Layouts {
			for _, p := range l.Pieces {
				if p.Blank == "" || p.X == nil || p.Y == nil || p.Turned == nil || *p.X+p.W > h.Size[0] || *p.Y+p.H > h.Size[1] {
					t.Errorf("piece %+v", p)
				}
			}
			for i, c := range l.Cuts {
				if c.Order != i+1 || c.Along != "x" && c.Along != "y" || c.At == nil || c.From == nil || c.To <= *c.From {
					t.Errorf("cut %+v", c)
				}
			}
		}
	}
	if report(inYard(t, yardPiece)) != text {
		t.Error("two reports of one design differ")
	}
	bare := strings.NewReplacer(`bring "lower-yard.stabile"`, "metal skin { alloy low-carbon-steel, gauge 18 }\nmetal slab { alloy low-carbon-steel, thickness 3/8 in }")
	j := inYard(t, bare.Replace(yardPiece))
	if strings.Contains(report(j), `"shop"`) {
		t.Error("a design without a shop has one in its report")
	}
	j.Plan()
	without := report(j)
	if !strings.Contains(without, `"shop"`) || strings.Contains(without, `"cost"`) {
		t.Error("a plan that was asked for is not in the report, or has a cost that nothing gives")
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
	if !j.OK() {
		t.Fatalf("before the plan: %+v", j.Findings)
	}
	p := j.Plan()
	if !j.OK() {
		t.Errorf("after it: %+v", j.Findings)
	}
	modest, order, long := false, false, false
	for _, f := range p.Findings {
		modest = modest || strings.Contains(f.Text, "the design describes no shop: the plan is for a modest one") && strings.Contains(f.Text, "common practice, no source")
		order = order || f.Part == "pad" && strings.Contains(f.Text, "buy it cut to size")
		long = long || f.Part == "mast" && f.Level == finding.Caution && strings.Contains(f.Text, "too large for every sheet")
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
		if o := j.Requirements[i].Outcome; o.Unchecked || o.Holds != want {
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
	for i, want := range []string{"no place", "no place"} {
		if o := j.Requirements[i].Outcome; !o.Unchecked || !strings.Contains(o.Value, want) {
			t.Errorf("%s: %+v, want %q", j.Requirements[i].Text, o, want)
		}
	}
	j = inYard(t, `units inch
metal skin { alloy low-carbon-steel, gauge 18 }
base ground { feet }
post mast on ground { at (0, 0), diameter 4-1/2, length 28, metal skin }
require cost < 100
`)
	if o := j.Requirements[0].Outcome; !o.Unchecked || !strings.Contains(o.Value, "no price") {
		t.Errorf("cost without prices: %+v", o)
	}
}
