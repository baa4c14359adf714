package words

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/fab/estimate"
	"stabile/fab/finding"
	"stabile/param"
	"stabile/param/golden"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/written"
)

// everything has a joint of each kind, with two metals and ballast.
var everything = strings.NewReplacer(
	"metal slab {", "metal pale { alloy stainless-304, thickness 1.5 }\nmetal slab {",
	"anchor_edge 40 }", "anchor_edge 40, ballast 20 kg }",
	"bend domed, metal skin", "bend domed, metal pale",
).Replace(written.EveryJoint)

// planned works a design out with its plan.
func planned(t *testing.T, text string) *fab.Job {
	t.Helper()
	d, wrong := param.Evaluate(source.NewFile("test.stabile", text), param.Options{})
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	j, wrong := fab.Build(d, fab.WithPlan|fab.WithMarks)
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	return j
}

// TestPlan compares all that is said of the plan of a design, in either system
// of units, with what is kept.
func TestPlan(t *testing.T) {
	for name, units := range map[string]quantity.System{"every-mm.txt": quantity.Millimetre, "every-inch.txt": quantity.Inch} {
		j := planned(t, everything)
		var b bytes.Buffer
		In(units).plan(&b, j)
		golden.Text(t, filepath.Join("testdata", name), b.String())
		for _, bad := range []string{"NaN", "Inf", "%!", "  ", " ,"} {
			if strings.Contains(b.String(), bad) {
				t.Errorf("%s has %q", name, bad)
			}
		}
	}
}

// plan writes all that is said of a plan.
func (w Writer) plan(b *bytes.Buffer, j *fab.Job) {
	list := func(head string, facts []finding.Fact) {
		if len(facts) > 0 {
			fmt.Fprintf(b, "\n%s\n", head)
		}
		for _, f := range facts {
			fmt.Fprintf(b, "- %s\n", w.Fact(f))
		}
	}
	p := j.Plan
	for _, c := range j.Cuts {
		list(strings.Join(c.Names, ", "), c.Blank.Notes)
		for _, m := range c.Blank.Marks {
			if text := In(quantity.Millimetre).Mark(&m); text != "" {
				fmt.Fprintf(b, "mark: %s\n", text)
			}
		}
		for _, o := range c.Blank.Ordinates {
			fmt.Fprintf(b, "%s: %s; %s\n", o.Edge, Ordinate(o.From), Station(o.From))
		}
	}
	list("rolling", p.Rolling.Notes)
	for i := range p.Rolling.Batches {
		list(fmt.Sprintf("card %d, %s along the rolls", i+1, AlongRolls(p.Rolling.Batches[i].Along)), p.Rolling.Batches[i].Notes)
	}
	for _, h := range p.Rolling.Hand {
		list(h.Name, []finding.Fact{h.Note})
	}
	for _, s := range p.Assembly.Steps {
		list(fmt.Sprintf("step %d: %s", s.Number, w.Fact(s.Do)), s.Notes)
	}
	list("rules", p.Assembly.Rules)
	list("estimate", p.Estimate.Rules)
	b.WriteString("\nfindings\n")
	for _, r := range w.Remarks(p.Findings) {
		fmt.Fprintf(b, "%s %s: %s\n", r.Level, strings.Join(r.Parts, ", "), r.Text)
	}
	b.WriteString("\nundecided\n")
	for _, c := range p.Checks {
		if c.Why != nil {
			fmt.Fprintf(b, "%s %s: %s\n", c.ID, c.Part, w.Fact(c.Why))
		}
	}
}

// TestQuantities checks how quantities, rates, money and pipe are written.
func TestQuantities(t *testing.T) {
	for _, tt := range []struct {
		line         estimate.Line
		units        quantity.System
		amount, rate string
	}{
		{estimate.Line{Quantity: 12, Unit: estimate.Count, Each: 90}, quantity.Inch, "12", "1.5 min each"},
		{estimate.Line{Quantity: 3048, Unit: estimate.Length, Speed: 25.4 * 3 / 60e3}, quantity.Inch, "10 ft", "3 in/min"},
		{estimate.Line{Quantity: 3048, Unit: estimate.Length, Speed: 0.1 / 60}, quantity.Millimetre, "3 m", "100 mm/min"},
		{estimate.Line{Quantity: 2.5e6, Unit: estimate.Area, Each: 3600}, quantity.Millimetre, "2.5 m2", "60 min/m2"},
		{estimate.Line{Quantity: 304.8 * 304.8 * 4, Unit: estimate.Area, Each: 3600}, quantity.Inch, "4 ft2", "5.6 min/ft2"},
	} {
		w := In(tt.units)
		if a, r := w.Amount(&tt.line), w.Rate(&tt.line); a != tt.amount || r != tt.rate {
			t.Errorf("%+v reads %q at %q, want %q at %q", tt.line, a, r, tt.amount, tt.rate)
		}
	}
	for _, tt := range []struct {
		money float64
		want  string
	}{{1234.5, "1234 EUR"}, {12.5, "12.50 EUR"}, {0, "0 EUR"}} {
		if got := Money(tt.money, "EUR"); got != tt.want {
			t.Errorf("Money(%v) = %q, want %q", tt.money, got, tt.want)
		}
	}
	if a, b := In(quantity.Inch).LiftLimit(), In(quantity.Millimetre).LiftLimit(); a != "51 lb" || b != "23 kg" {
		t.Errorf("limits %q and %q, want 51 lb and 23 kg", a, b)
	}
}

// TestUnpriced: items with commas of their own stand apart from each other, and all are
// named.
func TestUnpriced(t *testing.T) {
	list := []finding.Fact{
		estimate.SheetsOf{Metal: "skin", Width: 1219.2, Length: 2438.4}, estimate.CutToSize{Blank: "pad", Metal: "slab"},
		estimate.CutToSize{Blank: "gore", Metal: "bark"}, estimate.CutToSize{Blank: "cap", Metal: "bark"}, estimate.Labour,
	}
	const want = "sheets of 'skin', 48 by 96 in (metal skin { price 2 / 1 lb }); pad, cut to size from 'slab' (metal slab { price 2 / 1 lb }); gore and cap, cut to size from 'bark' (metal bark { price 2 / 1 lb }); labour (rates { labour 55 / 1 hr })"
	if got := In(quantity.Inch).Unpriced(list); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
