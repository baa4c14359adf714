package eval

import (
	"fmt"
	"math"
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

// TestOunces: copper goes by the weight of a square foot, and its sheet has that
// weight.
func TestOunces(t *testing.T) {
	// The inches are those of ASTM B370 as suppliers print them, from memory; GNU
	// units gives 0.021622 in for 16 ouncecopper.
	for ounces, inches := range map[int]float64{16: 0.0216, 20: 0.0270, 24: 0.0323, 32: 0.0431} {
		d := mustEvaluate(t, fmt.Sprintf("units inch\nmetal skin { alloy copper, ounces %d }\nbase pad { plate 12 by 12, metal skin }\n", ounces))
		m := d.Part("pad").Metal
		if got := m.Thickness / 25.4; math.Abs(got-inches) > 1.5e-4 {
			t.Errorf("%d oz is %.5f in, want %.4f", ounces, got, inches)
		}
		if weight := 304.8 * 304.8 * m.Thickness * m.Density * 1e-9 / 28.349523125e-3; !near(weight, float64(ounces)) || m.Ounces != ounces {
			t.Errorf("a square foot of %d oz weighs %g oz", ounces, weight)
		}
	}
	for text, want := range map[string]string{
		"alloy brass, ounces 16":             "only copper goes by the ounce",
		"alloy copper, ounces 16, gauge 18":  "both say how thick it is",
		"alloy copper, ounces 500":           "'ounces' must be from 4 to 160",
		"alloy copper, ounces 16 oz":         "'ounces' needs a whole number",
		"alloy low-carbon-steel, ounces 16 ": "only copper goes by the ounce",
	} {
		_, list := evaluate("units inch\nmetal skin { "+text+" }\nbase pad { feet }\npost one on pad { diameter 3, length 9, metal skin }\n", Options{})
		if len(list) != 1 || !strings.Contains(list.Err().Error(), want) {
			t.Errorf("%s: %v, want %q", text, list.Err(), want)
		}
	}
}

func TestSecondRatingMistakes(t *testing.T) {
	for text, want := range map[string]string{
		"second_alloy stainless-304":                                         "'second_alloy' also needs",
		"second_gauge 18":                                                    "'second_gauge' goes with 'second_alloy'",
		"second_alloy low-carbon-steel, second_gauge 18":                     "rated twice in low-carbon-steel",
		"second_alloy stainless-304, second_gauge 99":                        "there is no 99 gauge",
		"second_alloy stainless-304, second_gauge 18, second_thickness 1 mm": "both say how thick it may be",
		"second_alloy stainles-304, second_gauge 18":                         "there is no alloy",
	} {
		_, list := evaluate(stand24+"shop { shear { width 48, alloy low-carbon-steel, gauge 16, "+text+" } }\n", Options{})
		if len(list) != 1 || !strings.Contains(list.Err().Error(), want) {
			t.Errorf("%s: %v, want %q", text, list.Err(), want)
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
