package rolling

import (
	"math"
	"reflect"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/stock"
)

// design2in are rolls of 2 in for 48 in of 16 gauge.
var design2in = design.Rolls{
	Capacity:      design.Capacity{Width: 1219.2, Alloy: "low-carbon-steel", Gauge: 16, Thickness: 1.51892, Yield: 140},
	PinchDiameter: 50.8, BackDiameter: 50.8, BackDistance: 63.5, ScrewPitch: 25.4 / 8,
}

func metal(alloy string, gauge int, thickness float64) *design.Metal {
	a, ok := stock.LookupAlloy(alloy)
	if !ok {
		panic("no alloy " + alloy)
	}
	if gauge > 0 {
		thickness, _ = a.Family.Thickness(gauge)
	}
	return &design.Metal{Name: "skin", Alloy: a.Name, Gauge: gauge, Thickness: thickness, Density: a.Density, Yield: a.Yield, Modulus: a.Modulus}
}

// tube returns the blank of a tube.
func tube(name string, m *design.Metal, outside, length float64) flat.Blank {
	mean := (outside - m.Thickness) / 2
	return flat.Blank{
		Name: name, Part: name, Shape: flat.Tube, Metal: m, Quantity: 1,
		Width: 2 * math.Pi * mean, Length: length,
		Forming: flat.Forming{How: "roll", Axis: "y", MeanRadius: mean},
	}
}

// taper returns the blank of a taper of the given mean radii at foot and head.
func taper(name string, m *design.Metal, foot, head, slant float64) flat.Blank {
	sin := (head - foot) / slant
	b := flat.Blank{
		Name: name, Part: name, Shape: flat.Sector, Metal: m, Quantity: 1,
		Forming: flat.Forming{How: "cone", Axis: "y", MeanRadius: (foot + head) / 2, Radii: [2]float64{foot, head}},
	}
	b.Fan = &flat.Fan{Apex: r2.Vec{Y: -foot / sin}, Small: min(foot, head) / math.Abs(sin), Large: max(foot, head) / math.Abs(sin), Angle: 2 * math.Pi * math.Abs(sin)}
	return b
}

func gore(name string, m *design.Metal, mean float64, n int) flat.Blank {
	return flat.Blank{
		Name: name, Part: name, Shape: flat.Gore, Metal: m, Quantity: n,
		Width: 2 * mean * math.Tan(math.Pi/float64(n)), Length: math.Pi * mean,
		Forming: flat.Forming{How: "roll", Axis: "x", MeanRadius: mean},
	}
}

func TestPieceOf(t *testing.T) {
	m := metal("low-carbon-steel", 18, 0)
	b := tube("mast", m, 100, 800)
	p, ok := PieceOf(&b)
	if !ok || p.Across != 800 || p.Around != b.Width || !p.Closed || p.IsCone() {
		t.Errorf("PieceOf(tube) = %+v, %v", p, ok)
	}
	b = gore("moon", m, 150, 12)
	if p, ok = PieceOf(&b); !ok || p.Across != b.Width || p.Around != b.Length || p.Closed || !p.Strip {
		t.Errorf("PieceOf(gore) = %+v, %v", p, ok)
	}
	for _, radii := range [][2]float64{{80, 50}, {50, 80}} {
		b = taper("horn", m, radii[0], radii[1], 600)
		p, ok = PieceOf(&b)
		if !ok || !near(p.Edges[0], 50, 1e-12) || !near(p.Edges[1], 80, 1e-12) || !near(p.Across, 600, 1e-12) || !p.Closed {
			t.Errorf("PieceOf(taper of %v) = %+v, %v", radii, p, ok)
		}
		// All the way round at every radius.
		if !near(p.Around, 2*math.Pi*65, 1e-12) {
			t.Errorf("PieceOf(taper) is %v around, want %v", p.Around, 2*math.Pi*65)
		}
	}
	for _, how := range []string{"dome", "dish", "flat", ""} {
		b.Forming.How = how
		if _, ok := PieceOf(&b); ok {
			t.Errorf("PieceOf(%q) is rolled", how)
		}
	}
}

func TestHandwork(t *testing.T) {
	m := metal("low-carbon-steel", 18, 0)
	half := flat.Blank{Name: "half", Metal: m, Quantity: 2, Diameter: 2*math.Sqrt2*100 + 20, Allowance: 10, Forming: flat.Forming{How: "dish", MeanRadius: 100, Depth: 100}}
	h, ok := handwork(&half)
	if !ok || !near(h.Crown, 100, 1e-12) || h.Trim != 10 {
		t.Errorf("handwork(half) = %+v, %v, want a depth of 100", h, ok)
	}
	// A cap of 60 deg from the pole: its area is that of its blank, its depth R/2.
	cap := flat.Blank{Name: "cap", Metal: m, Diameter: 2 * 100 * 2 * math.Sin(math.Pi/6), Forming: flat.Forming{How: "dish", MeanRadius: 100, Depth: 50}}
	if h, ok = handwork(&cap); !ok || !near(h.Crown, 50, 1e-12) {
		t.Errorf("handwork(cap) = %+v, %v, want a depth of 50", h, ok)
	}
	dome := gore("moon", m, 100, 12)
	dome.Forming = flat.Forming{How: "dome", MeanRadius: 100, Crown: 3.4, Stretch: 0.01}
	if h, ok = handwork(&dome); !ok || h.Crown != 3.4 || !near(h.Along, 100, 1e-9) {
		t.Errorf("handwork(domed gore) = %+v, %v", h, ok)
	}
	for i, want := range []finding.Fact{DishIt{}, DomeIt{}} {
		p := NewPlan([]flat.Blank{half, dome}, nil, Options{})
		if len(p.Hand) != 2 || reflect.TypeOf(p.Hand[i].Note) != reflect.TypeOf(want) || len(p.Findings) > 0 {
			t.Fatalf("%+v, want a %T", p.Hand, want)
		}
		switch f := p.Hand[i].Note.(type) {
		case DishIt:
			if !near(f.Crown, 100, 1e-12) || f.Trim != 10 {
				t.Errorf("%+v, want 100 mm deep", f)
			}
		case DomeIt:
			if f.Crown != 3.4 || !near(f.Along, 100, 1e-9) {
				t.Errorf("%+v, want 3.4 mm across", f)
			}
		}
	}
}
