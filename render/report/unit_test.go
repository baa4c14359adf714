package report

import (
	"math"
	"testing"

	"stabile/param"
	"stabile/param/source"
)

// TestAdjustUnits gives an adjustable value of every dimension that the language
// names, and of some that it does not, in the report's units.
func TestAdjustUnits(t *testing.T) {
	for _, tt := range []struct {
		value, unit string
		want        float64
	}{
		{"12", "mm", 12}, // a plain number is a length where one is due; here it is a count
		{"3 in", "mm", 76.2},
		{"2 in * 3 mm", "mm2", 152.4},
		{"2 mm * 3 mm * 1 m", "mm3", 6000},
		{"2 lb", "kg", 0.90718474},
		{"5 min", "s", 300},
		{"1 rad", "deg", 180 / math.Pi},
		{"36 km/h", "m/s", 10},
		{"2 kN", "N", 2000},
		{"1 kPa", "MPa", 0.001},
		{"8 g / (1 cm * 1 cm * 1 cm)", "kg/m3", 8000},
		{"5 N * 2 m", "N m", 10},
		{"5 Hz", "Hz", 5},
		{"3 kg / 2 m", "kg m-1", 1.5},
		{"9 m / (2 s * 3 s)", "m s-2", 1.5},
		{"1 / 4 kg", "kg-1", 0.25},
		{"7 deg / 1 s", "s-1 rad", 7 * math.Pi / 180},
	} {
		// A count has no unit.
		if tt.value == "12" {
			tt.unit = ""
		}
		text := "units mm\nmetal skin { alloy low-carbon-steel, gauge 18 }\nadjust x = " + tt.value + " from 0.5 * (" + tt.value + ") to 2 * (" + tt.value + ")\n" +
			"base pad { plate 300 by 300, metal skin }\n"
		d, wrong := param.Evaluate(source.NewFile("test.stabile", text), param.Options{})
		if err := wrong.Err(); err != nil {
			t.Errorf("%s: %v", tt.value, err)
			continue
		}
		got := AdjustOf(d.Adjust[0])
		if got.Unit != tt.unit || math.Abs(got.Value-tt.want) > 1e-6 || math.Abs(got.From-tt.want/2) > 1e-6 || math.Abs(got.To-tt.want*2) > 1e-6 {
			t.Errorf("%s = %+v, want %v %q", tt.value, got, tt.want, tt.unit)
		}
	}
}
