package param

import (
	"math"
	"strings"
	"testing"

	"stabile/param/quantity"
)

func TestMeasure(t *testing.T) {
	least := quantity.Quantity{Number: 10, Dim: quantity.Length}
	most := quantity.Quantity{Number: 3000, Dim: quantity.Length}
	for _, c := range []struct {
		text   string
		units  quantity.System
		mm     float64
		answer string
	}{
		{text: "5 ft 9 in", units: quantity.Inch, mm: 69 * 25.4},
		{text: "62-1/2", units: quantity.Inch, mm: 62.5 * 25.4},
		{text: "1.75 m", units: quantity.Millimetre, mm: 1750},
		{text: "2 * (300 + 100)", units: quantity.Millimetre, mm: 800},
		{text: "5", units: quantity.Millimetre, answer: "'--eye' may be from 10 mm to 3000 mm, and this is 5 mm"},
		{text: "40 deg", units: quantity.Millimetre, answer: "'--eye' is a length, and this is an angle"},
		{text: "rise", units: quantity.Millimetre, answer: "there is no 'rise'"},
		{text: "1 m +", units: quantity.Millimetre, answer: "a value is missing after '+'"},
		{text: "", units: quantity.Millimetre, answer: "a value is missing"},
	} {
		q, err := Measure(c.text, "--eye", c.units, least, most)
		switch {
		case c.answer == "" && (err != nil || math.Abs(q.Millimetres()-c.mm) > 1e-9):
			t.Errorf("Measure(%q) = %v mm, %v; want %v mm", c.text, q.Millimetres(), err, c.mm)
		case c.answer != "" && (err == nil || !strings.Contains(err.Error(), c.answer)):
			t.Errorf("Measure(%q): %v, want %s", c.text, err, c.answer)
		}
	}
}

// FuzzMeasure: what is read lies between the limits, and all else is answered.
func FuzzMeasure(f *testing.F) {
	for _, s := range []string{"5 ft 9 in", "62-1/2", "2 * (300 + 100)", "-(1 m)", "1 m +", "max(1 m, 2 m)", "sqrt(4) * 1 ft", "(1, 2)", "moon.center", "1e9"} {
		f.Add(s)
	}
	least := quantity.Quantity{Number: 10, Dim: quantity.Length}
	most := quantity.Quantity{Number: 3000, Dim: quantity.Length}
	const rounding = 1e-6 // of a limit, within which a value is taken for it
	f.Fuzz(func(t *testing.T, text string) {
		q, err := Measure(text, "--eye", quantity.Inch, least, most)
		if err == nil && !(q.Dim == quantity.Length && q.Number >= 10*(1-rounding) && q.Number <= 3000*(1+rounding)) {
			t.Errorf("Measure(%q) = %v", text, q)
		}
	})
}
