package quantity

import (
	"fmt"
	"math"
	"os/exec"
	"strconv"
	"strings"
	"testing"

	"stabile/param/external"
)

// TestUnitsOutside compares every unit with GNU units, which keeps its own
// tables. The names differ where that program means something else by ours.
func TestUnitsOutside(t *testing.T) {
	program := external.Tool(t, "units")
	other := map[string]string{
		"deg": "degree", "rad": "radian", "psf": "lbf/ft^2", "km/h": "km/hour",
		"lb/ft3": "lb/ft^3", "kg/m3": "kg/m^3",
	}
	coherent := map[Dimension]string{
		Length: "mm", Mass: "kg", Time: "s", Angle: "radian", Speed: "mm/s",
		Force: "kg mm/s^2", Pressure: "kg/(mm s^2)", Density: "kg/mm^3", Rate: "1/s",
	}
	for _, name := range UnitNames(nil) {
		u, ok := LookupUnit(name)
		if !ok {
			t.Errorf("LookupUnit(%q) knows no unit of its own list", name)
			continue
		}
		theirs, ok := other[name]
		if !ok {
			theirs = name
		}
		out, err := exec.Command(program, "-t", "-o", "%.15g", theirs, coherent[u.Dim]).CombinedOutput()
		if err != nil {
			t.Errorf("units %q %q: %v: %s", theirs, coherent[u.Dim], err, out)
			continue
		}
		want, err := strconv.ParseFloat(strings.TrimSpace(string(out)), 64)
		if err != nil {
			t.Errorf("units %q %q: %s", theirs, coherent[u.Dim], out)
			continue
		}
		// They print 15 figures, and both sides multiply a few factors in their
		// own order.
		const figures = 1e-14
		if math.Abs(u.Scale/want-1) > figures {
			t.Errorf("unit %s = %.17g %s, want %.15g", name, u.Scale, coherent[u.Dim], want)
		}
	}
}

// TestUnitsExact checks the units of trade against the values that the
// international yard and pound agreement of 1959 and NIST Special Publication
// 811, appendix B.8, give (from memory).
func TestUnitsExact(t *testing.T) {
	for _, tt := range []struct {
		n    float64
		unit string
		got  func(Quantity) float64
		want float64
		tol  float64 // of the published figures
	}{
		{1, "in", Quantity.Millimetres, 25.4, 0},
		{1, "ft", Quantity.Millimetres, 304.8, 0},
		{1, "lb", Quantity.Kilograms, 0.45359237, 0},
		{1, "oz", Quantity.Kilograms, 0.028349523125, 1e-16},
		{1, "lbf", Quantity.Newtons, 4.4482216152605, 1e-14},
		{1, "psi", Quantity.Megapascals, 6.894757e-3, 5e-10},
		{1, "psf", Quantity.Megapascals, 4.788026e-5, 5e-12},
		{1, "mph", Quantity.MetresPerSecond, 0.44704, 1e-16},
		{1, "km/h", Quantity.MetresPerSecond, 1 / 3.6, 1e-16},
		{1, "lb/ft3", Quantity.KilogramsPerCubicMetre, 16.01846, 5e-6},
		{180, "deg", Quantity.Radians, math.Pi, 1e-15},
		{7850, "kg/m3", Quantity.KilogramsPerCubicMetre, 7850, 1e-12},
	} {
		u, _ := LookupUnit(tt.unit)
		if got := tt.got(u.Of(tt.n)); math.Abs(got-tt.want) > tt.tol {
			t.Errorf("%v %s = %.17g, want %v", tt.n, tt.unit, got, tt.want)
		}
	}
}

func TestLookupUnit(t *testing.T) {
	for _, name := range []string{"", "IN", "inch", "m/", "m/h", "ft3"} {
		if u, ok := LookupUnit(name); ok {
			t.Errorf("LookupUnit(%q) = %v, want none", name, u)
		}
	}
	d := Length
	if got, want := fmt.Sprint(UnitNames(&d)), "[in ft mm cm m]"; got != want {
		t.Errorf("UnitNames(length) = %s, want %s", got, want)
	}
	seen := map[string]bool{}
	for _, name := range UnitNames(nil) {
		if seen[name] {
			t.Errorf("unit %s is listed twice", name)
		}
		seen[name] = true
	}
	if len(seen) != 32 {
		t.Errorf("%d units, want the 32 of the language", len(seen))
	}
}

func TestDimension(t *testing.T) {
	for _, tt := range []struct {
		what string
		got  func() (Dimension, bool)
		want Dimension
		ok   bool
	}{
		{"length x length", func() (Dimension, bool) { return Length.Times(Length) }, Area, true},
		{"force / area", func() (Dimension, bool) { return Force.Over(Area) }, Pressure, true},
		{"mass / volume", func() (Dimension, bool) { return Mass.Over(Volume) }, Density, true},
		{"force x length", func() (Dimension, bool) { return Force.Times(Length) }, Moment, true},
		{"length / time", func() (Dimension, bool) { return Length.Over(Time) }, Speed, true},
		{"root of area", Area.Root, Length, true},
		{"root of volume", Volume.Root, Dimension{}, false},
		{"length to the 13th", func() (Dimension, bool) { return Dimension{Length: 12}.Times(Length) }, Dimension{}, false},
		{"length to the -13th", func() (Dimension, bool) { return Dimension{Length: -12}.Over(Length) }, Dimension{}, false},
	} {
		if got, ok := tt.got(); got != tt.want || ok != tt.ok {
			t.Errorf("%s = %v, %v, want %v, %v", tt.what, got, ok, tt.want, tt.ok)
		}
	}
	for _, tt := range []struct {
		d    Dimension
		want string
	}{
		{Number, "a plain number"},
		{Angle, "an angle"},
		{Mass, "a weight"},
		{Dimension{Length: 4}, "a quantity of length^4"},
		{Dimension{Mass: 1, Time: -1, Angle: 1}, "a quantity of weight time^-1 angle"},
	} {
		if got := tt.d.String(); got != tt.want {
			t.Errorf("String = %q, want %q", got, tt.want)
		}
	}
}

func ExampleLookupUnit() {
	psf, _ := LookupUnit("psf")
	fmt.Printf("%.1f Pa\n", psf.Of(5).Megapascals()*1e6)
	// Output: 239.4 Pa
}
