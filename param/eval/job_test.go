package eval

import (
	"strings"
	"testing"

	"stabile/param/design"
)

func TestJob(t *testing.T) {
	const stage = "units inch\nmetal skin { alloy low-carbon-steel, gauge 18 }\nbase pad { feet }\nball one on pad { diameter 12, bought 2 lb, price 40 }\n"
	d := mustEvaluate(t, stage+`job { number "LT-014", client "The Orchard Trust", place "The walled garden", drawn "R. T.", approved "M. O.", valid 30 days, deposit 0.4, price 4200 }`)
	want := design.Job{Number: "LT-014", Client: "The Orchard Trust", Place: "The walled garden", Drawn: "R. T.", Approved: "M. O.", Valid: 30, Deposit: 0.4, Price: 4200}
	if d.Job == nil || *d.Job != want {
		t.Errorf("Job = %+v, want %+v", d.Job, want)
	}
	if got := d.Part("one").Ball.Price; got != 40 {
		t.Errorf("the bought ball costs %g, want 40", got)
	}
	if d := mustEvaluate(t, stage); d.Job != nil {
		t.Errorf("Job = %+v, want none", d.Job)
	}
}

// TestPrices: a metal has a price by weight, by length or of a sheet.
func TestPrices(t *testing.T) {
	for _, tt := range []struct {
		text                  string
		weight, length, sheet float64
	}{
		{"price 2 / 1 kg", 2, 0, 0},
		{"price 9 / 1 ft", 0, 9 / 304.8, 0},
		{"price 85", 0, 0, 85},
	} {
		d := mustEvaluate(t, "units inch\nmetal skin { alloy copper, gauge 18, "+tt.text+" }\nbase pad { plate 10 by 10, metal skin }\n")
		m := d.Part("pad").Metal
		if !near(m.Price, tt.weight) || !near(m.LengthPrice, tt.length) || !near(m.SheetPrice, tt.sheet) {
			t.Errorf("%s: %+v", tt.text, m)
		}
	}
}

func TestJobMistakes(t *testing.T) {
	const stage = "units inch\nmetal skin { alloy low-carbon-steel, gauge 18 }\nbase pad { feet }\nball one on pad { diameter 12, bought 2 lb }\n"
	for text, want := range map[string]string{
		"job { valid 30 }":         "'valid' needs a time",
		"job { valid 1 min }":      "'valid' must be from 1 day to 3650 days",
		"job { deposit 40 }":       "'deposit' must be from 0 to 1",
		"job { price 4 kg }":       "'price' needs an amount of money",
		"job { }\njob { }":         "'job' is given twice",
		"job mine { price 3 }":     "a job has no name",
		"job { client The Trust }": "",
	} {
		_, list := evaluate(stage+text, Options{})
		if len(list) == 0 || !strings.Contains(list.Err().Error(), want) {
			t.Errorf("%s: %v, want %q", text, list.Err(), want)
		}
	}
}
