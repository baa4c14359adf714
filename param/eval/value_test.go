package eval

import (
	"fmt"
	"math"
	"reflect"
	"testing"

	"stabile/param/design"
	"stabile/param/quantity"
)

// valueOf works out an expression by way of the length of a post, which takes
// lengths and plain numbers, in inches.
func valueOf(t *testing.T, x string) float64 {
	t.Helper()
	d := mustEvaluate(t, stage+"post probe on pad { at (8, 8), diameter 1, length "+x+", metal skin }")
	return part(t, d, "probe").Post.Length / 25.4
}

func TestExpressions(t *testing.T) {
	for _, tt := range []struct {
		in   string
		want float64 // in
	}{
		{"12", 12},
		{"1-1/2", 1.5},
		{"1 + 1/2", 1.5},
		{"5 ft 3-1/2 in", 63.5},
		{"2 * 1-1/2", 3},
		{"254 mm", 10},
		{"10 - 2 - 3", 5},
		{"24 / 2 / 3", 4},
		{"2 + 3 * 4", 14},
		{"-(2 - 5)", 3},
		{"3 in + 4", 7},
		{"4 + 3 in", 7},
		{"12 in - 4", 8},
		{"12 in / 4", 3},
		{"12 in / 4 in", 3},
		{"min(3 in, 2, 1 ft)", 2},
		{"max(3, 2, 1 ft)", 12},
		{"round(10 in / 3, 1/16 in)", 53.0 / 16},
		{"round(10 in / 3, 1/16)", 53.0 / 16},
		{"round(7/2)", 4},
		{"floor(10 in / 3, 1/16 in)", 53.0 / 16},
		{"ceil(10 in / 3, 1/16 in)", 54.0 / 16},
		{"floor(3 / 10, 1 / 10) * 10", 3},
		{"ceil(12/5)", 3},
		{"abs(-3 in)", 3},
		{"sqrt(3 in * 3 in + 4 in * 4 in)", 5},
		{"10 in * sin(30 deg)", 5},
		{"10 in * cos(60 deg)", 5},
		{"10 in * tan(45 deg)", 10},
		{"10 in * sin(asin(1/4))", 2.5},
		{"10 in * cos(acos(1/4))", 2.5},
		{"10 * (atan2(1 in, 1 in) / (45 deg))", 10},
		{"2 in * pi", 2 * math.Pi},
		{"pick(3 > 2, 5 in, 1 / 0)", 5},
		{"pick(3 < 2, 1 / 0, 5 in)", 5},
		{"pick(not (3 < 2) and 1 in < 1 ft or 1 / 0 > 2, 5, 6)", 5},
		{"pick(3 == 3 in, 5, 6)", 5},
		{"pick(1/10 + 2/10 == 3/10, 5, 6)", 5},
		{"pick(2 != 3, 5, 6)", 5},
		{"distance((0, 0), (3, 4 in))", 5},
		{"distance((0, 0, 1), (2, 3, 7))", 7},
		{"distance(polar(5, 90 deg), (0, 0))", 5},
		{"polar(5, 90 deg).y", 5},
		{"((1, 2) + (3 in, 4) * 2).y", 10},
		{"distance(-(3, 4) / 2, (0, 0))", 2.5},
		{"moon.diameter", 9},
		{"moon.radius", 4.5},
		{"mast.length", 30},
		{"mast.head.z - mast.foot.z", 30},
		{"mast.diameter", 5},
		{"pad.width + pad.depth", 44},
		{"moon.top - moon.centre.z", 4.5},
		{"distance(mast.head, mast.foot)", 30},
		{"2 * distance(mast.centre, mast.head)", 30},
	} {
		if got := valueOf(t, tt.in); !near(got, tt.want) {
			t.Errorf("%s = %v in, want %v in", tt.in, got, tt.want)
		}
	}
}

// The top of a leaning tube is the highest point of its rim.
func TestTopOfLeaning(t *testing.T) {
	for _, lean := range []float64{0, 10, 45, 80} {
		d := mustEvaluate(t, metric+fmt.Sprintf(`
post mast on pad { diameter 60, length 900, metal skin, lean %v deg toward 30 deg }
ball stone on pad { at (200, 0), diameter mast.top, halves, metal skin }`, lean))
		post, want := part(t, d, "mast").Post, 0.0
		for i := range stations {
			want = max(want, ring(post, post.Ends[design.Head].At, 30, 30*degree+2*math.Pi*float64(i)/stations).Z)
		}
		if got := 2 * part(t, d, "stone").Ball.Radius; !near(got, want) {
			t.Errorf("lean %v deg: mast.top = %v, want %v", lean, got, want)
		}
	}
}

// Definitions may stand after their use, and inside of a block its own.
func TestDefinitions(t *testing.T) {
	d := mustEvaluate(t, `
base pad { disc size * 4, metal slab }
repeat i from 1 to 3 {
	let reach = stride * i
	when i != 2 { ball bead[i] on pad { at (reach, 0), diameter i, halves, metal slab } }
}
ball last on pad { at (0, bead[3].top), diameter 1, halves, metal slab }
let size = 2 * stride
let stride = 10
metal slab { alloy aluminum-5052, thickness 1/8 in }
units inch
`)
	if d.Units != quantity.Inch || len(d.Parts) != 4 || d.Part("bead[2]") != nil {
		t.Fatalf("units %v, %d parts", d.Units, len(d.Parts))
	}
	if x := part(t, d, "bead[3]").Ball.Center.X; !near(x, 30*25.4) {
		t.Errorf("bead[3] is at x = %v", x)
	}
	if y := part(t, d, "last").Ball.Center.Y; !near(y, 3.125*25.4) {
		t.Errorf("last is at y = %v", y)
	}
	if m := part(t, d, "last").Metal; m.Alloy != "aluminium-5052" || m.Gauge != 0 || m.GaugeTable != "" {
		t.Errorf("metal = %+v", *m)
	}
}

func TestMetals(t *testing.T) {
	d := mustEvaluate(t, `units mm
metal own { alloy stainless-304, gauge 16, density 8000 kg/m3, yield 300 MPa, modulus 200000 MPa }
base pad { disc 300, metal own, ballast 40 lb }`)
	p := part(t, d, "pad")
	if want := (design.Metal{
		Name: "own", Alloy: "stainless-304", Gauge: 16, Thickness: 25.4 / 16, Tolerance: 0.08,
		Density: 8000, Yield: 300, Modulus: 200e3, GaugeTable: "US Standard of 1893",
	}); !near(p.Metal.Density, want.Density) || !near(p.Metal.Modulus, want.Modulus) || p.Metal.Gauge != 16 ||
		!near(p.Metal.Thickness, want.Thickness) || !near(p.Metal.Yield, want.Yield) || p.Metal.Tolerance != want.Tolerance || p.Metal.GaugeTable != want.GaugeTable {
		t.Errorf("metal = %+v, want %+v", *p.Metal, want)
	}
	if !near(p.Base.Ballast, 18.1436948) || p.Base.Shape != design.Disc || p.Base.Depth != 300 {
		t.Errorf("base = %+v", *p.Base)
	}
}

func TestRequirements(t *testing.T) {
	known := func(name string) (quantity.Quantity, string, bool) {
		switch name {
		case "weight":
			return quantity.Quantity{Number: 50}, "", true
		case "tipping":
			return quantity.Quantity{Number: 1.625}, "", true
		case "moon.weight":
			return quantity.Quantity{Number: 2.5}, "", true
		case "height":
			return quantity.Quantity{Number: 1000}, "", true
		}
		return quantity.Quantity{}, "nothing is said of " + name, false
	}
	for _, tt := range []struct {
		in   string
		want design.Outcome
	}{
		{"weight <= 140 lb", design.Outcome{Holds: true, Sides: []design.Side{{Result: "weight", Quantity: quantity.Quantity{Number: 50, Dim: quantity.Mass}}}}},
		{"weight < 50 kg", design.Outcome{Holds: false, Sides: []design.Side{{Result: "weight", Quantity: quantity.Quantity{Number: 50, Dim: quantity.Mass}}}}},
		{"weight <= 50 kg", design.Outcome{Holds: true, Sides: []design.Side{{Result: "weight", Quantity: quantity.Quantity{Number: 50, Dim: quantity.Mass}}}}},
		{"tipping >= 1.5", design.Outcome{Holds: true, Sides: []design.Side{{Result: "tipping", Quantity: quantity.Quantity{Number: 1.625}}}}},
		{"1.75 <= tipping", design.Outcome{Holds: false, Sides: []design.Side{{Result: "tipping", Quantity: quantity.Quantity{Number: 1.625}}}}},
		{"moon.weight < 3 kg and (tipping > 1)", design.Outcome{Holds: true, Sides: []design.Side{{Quantity: quantity.Quantity{Number: 2.5, Dim: quantity.Mass}}, {Result: "tipping", Quantity: quantity.Quantity{Number: 1.625}}}}},
		{"height <= 40", design.Outcome{Holds: true, Sides: []design.Side{{Result: "height", Quantity: quantity.Quantity{Number: 1000, Dim: quantity.Length}}}}},
		{"height / 2 <= 10 in", design.Outcome{Holds: false, Sides: []design.Side{{Quantity: quantity.Quantity{Number: 500, Dim: quantity.Length}}}}},
		{"moon.top <= 7 ft", design.Outcome{Holds: true, Sides: []design.Side{{Quantity: quantity.Quantity{Number: 973.352312557172, Dim: quantity.Length}}}}},
		{"pick(weight > 10 kg, 1, 2) == 1", design.Outcome{Holds: true, Sides: []design.Side{{Quantity: quantity.Quantity{Number: 1}}}}},
		{"not weight > 100 kg", design.Outcome{Holds: true, Sides: []design.Side{{Result: "weight", Quantity: quantity.Quantity{Number: 50, Dim: quantity.Mass}}}}},
		{"width < 3 ft", design.Outcome{Unchecked: true, Why: "nothing is said of width"}},
		{"weight / (tipping - 13/8) < 3 kg", design.Outcome{Unchecked: true, Why: "this divides by 0"}},
	} {
		d := mustEvaluate(t, stage+"require "+tt.in)
		for range 2 { // checking changes nothing
			if got := d.Require[0].Check(known); !reflect.DeepEqual(got, tt.want) {
				t.Errorf("%s: %+v, want %+v", tt.in, got, tt.want)
			}
		}
	}
}
