package param_test

import (
	"math"
	"strings"
	"testing"

	"stabile/param"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
)

const asked = `units inch
adjust rise = 36 in from 24 in to 60 in step 12 in
adjust lean = 6 deg from 0 deg to 15 deg
adjust count = 3 from 1 to 4
metal skin { alloy low-carbon-steel, gauge 18 }
base pad { plate 24 in by 20 in, metal skin }
post mast on pad { diameter 5 in, length rise, lean lean toward 0 deg, metal skin }
`

func TestSweep(t *testing.T) {
	for _, c := range []struct {
		sweep string
		want  design.Sweep
	}{
		{"rise", design.Sweep{From: inches(24), To: inches(60), Step: inches(12), Count: 4}},
		{"rise from 30 in to 42 step 4", design.Sweep{From: inches(30), To: inches(42), Step: inches(4), Count: 4}},
		{"rise from 30 in to 30 in", design.Sweep{From: inches(30), To: inches(30), Step: inches(12), Count: 1}},
		{"rise values 10", design.Sweep{From: inches(24), To: inches(60), Count: 10}},
		{"rise from rise to rise + 1 ft values 3", design.Sweep{From: inches(36), To: inches(48), Count: 3}},
		{"count step 1", design.Sweep{From: plain(1), To: plain(4), Step: plain(1), Count: 4}},
	} {
		d, wrong := param.Evaluate(source.NewFile("d.stabile", asked), param.Options{Sweep: []string{c.sweep}})
		if err := wrong.Err(); err != nil {
			t.Errorf("sweep %q: %v", c.sweep, err)
			continue
		}
		got := d.Sweeps[0]
		c.want.Name = strings.Fields(c.sweep)[0]
		if c.want.Step.Number == 0 {
			got.Step, c.want.Step = quantity.Quantity{}, quantity.Quantity{}
		}
		near := func(q, w quantity.Quantity) bool { return q.Dim == w.Dim && math.Abs(q.Number-w.Number) < 1e-9 }
		if got.Name != c.want.Name || got.Count != c.want.Count || !near(got.From, c.want.From) || !near(got.To, c.want.To) || !near(got.Step, c.want.Step) {
			t.Errorf("sweep %q = %v, want %v", c.sweep, got, c.want)
		}
		if last := got.At(got.Count - 1).Number; got.Count > 1 && last > got.To.Number*(1+1e-12) {
			t.Errorf("sweep %q goes on to %v, past %v", c.sweep, last, got.To.Number)
		}
	}
}

func inches(n float64) quantity.Quantity {
	return quantity.Quantity{Number: n * 25.4, Dim: quantity.Length}
}

func plain(n float64) quantity.Quantity { return quantity.Quantity{Number: n} }

func TestSweepWrong(t *testing.T) {
	for _, c := range []struct{ sweep, want string }{
		{"", "--each:1:1: the name of an adjustable value is missing"},
		{"raise", "--each:1:1: there is no adjustable 'raise'"},
		{"rise from 20 in to 30 in", "--each:1:11: 'rise' may be from 24 in to 60 in"},
		{"rise from 30 in to 90 in", "--each:1:20: 'rise' may be from"},
		{"rise from 40 in to 30 in", "run backwards"},
		{"rise from 40 in", "'to' is missing"},
		{"rise step 0 in", "the step must be more than 0"},
		{"rise step 1 deg", "--each:1:11: 'rise' is a length"},
		{"rise step 1/10000 in", "more than 10000 values"},
		{"rise values 2.5", "a whole number from 1 to 10000"},
		{"rise values 3 in", "a whole number from 1 to 10000"},
		{"rise values 3 4", "--each:1:15"},
		{"lean values true", "--each:1:13"},
	} {
		_, wrong := param.Evaluate(source.NewFile("d.stabile", asked), param.Options{Sweep: []string{c.sweep}})
		if len(wrong) != 1 || !strings.Contains(wrong.Err().Error(), c.want) {
			t.Errorf("sweep %q: %v, want one mistake with %q", c.sweep, wrong.Err(), c.want)
		}
	}
	o := param.Options{Sweep: []string{"rise"}, Set: []string{"rise=40in"}}
	if _, wrong := param.Evaluate(source.NewFile("d.stabile", asked), o); len(wrong) != 1 || !strings.Contains(wrong[0].Text, "set to one value already") {
		t.Errorf("a sweep of a name that is set: %v", wrong.Err())
	}
	o = param.Options{Sweep: []string{"rise", "rise values 2"}}
	if _, wrong := param.Evaluate(source.NewFile("d.stabile", asked), o); len(wrong) != 1 || !strings.Contains(wrong[0].Text, "given twice") {
		t.Errorf("a name swept twice: %v", wrong.Err())
	}
}

func TestAsk(t *testing.T) {
	results := func(name string) (quantity.Quantity, string, bool) {
		switch name {
		case "tipping":
			return plain(1.75), "", true
		case "weight":
			return quantity.Quantity{Number: 20, Dim: quantity.Mass}, "", true
		}
		return quantity.Quantity{}, "not today", false
	}
	d, wrong := param.Evaluate(source.NewFile("d.stabile", asked), param.Options{Ask: []param.Question{
		{From: "--keep", Text: "tipping >= 1.5 and mast.top > 30", Condition: true},
		{From: "--least", Text: " weight "},
		{From: "--least", Text: "wind"},
	}})
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	var got []design.Answer
	for _, q := range d.Questions {
		got = append(got, q.Answer(results))
	}
	if !got[0].Holds || got[0].Unchecked {
		t.Errorf("the condition came to %+v", got[0])
	}
	if d.Questions[1].Text != "weight" || got[1].Number.Kilograms() != 20 {
		t.Errorf("%q came to %+v, want 20 kg", d.Questions[1].Text, got[1])
	}
	if !got[2].Unchecked || got[2].Why != "not today" {
		t.Errorf("wind came to %+v, want it unchecked for the reason given", got[2])
	}
	if len(d.Require) != 0 || d.TippingTarget != 0 {
		t.Error("a question counts as a requirement")
	}
}

func TestAskWrong(t *testing.T) {
	for _, c := range []struct {
		q    param.Question
		want string
	}{
		{param.Question{From: "--keep", Text: "weight", Condition: true}, "--keep:1:1: --keep needs a condition, and this is a weight"},
		{param.Question{From: "--least", Text: "weight < 3 kg"}, "--least:1:1: --least needs a number"},
		{param.Question{From: "--least", Text: "wieght"}, "there is no 'wieght'"},
		{param.Question{From: "--keep", Text: "tipping >=", Condition: true}, "--keep:1:"},
	} {
		_, wrong := param.Evaluate(source.NewFile("d.stabile", asked), param.Options{Ask: []param.Question{c.q}})
		if len(wrong) != 1 || !strings.Contains(wrong.Err().Error(), c.want) {
			t.Errorf("%+v: %v, want one mistake with %q", c.q, wrong.Err(), c.want)
		}
	}
}
