package shop

import (
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"

	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
	"stabile/param/stock"
)

func load(t *testing.T, text string) *design.Design {
	t.Helper()
	d, wrong := param.Evaluate(source.NewFile("test.stabile", text), param.Options{})
	if len(wrong) > 0 {
		t.Fatal(wrong.Err())
	}
	return d
}

const yard = `units inch
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 3/8 in, price 2 / 1 kg }
base pad { plate 30 by 24, metal slab }
post mast on pad { at (0, 0), diameter 5, length 28, metal skin }
`

func TestForWithout(t *testing.T) {
	d := load(t, yard)
	s, f := For(d)
	if !f.Whole || !f.Rolls {
		t.Errorf("Filled = %+v, want the whole", f)
	}
	if d.Shop != nil {
		t.Error("the design was changed")
	}
	if s.Shear == nil || math.Abs(s.Shear.Width-50*25.4) > 1e-9 || s.Shear.Gauge != 14 || math.Abs(s.Shear.Thickness-1.89738) > 1e-9 {
		t.Errorf("Shear = %+v", s.Shear)
	}
	if s.Rolls == nil || math.Abs(s.Rolls.Width-38*25.4) > 1e-9 || s.Rolls.Gauge != 15 || s.Rolls.PinchDiameter != 50.8 || s.Rolls.BackDistance <= s.Rolls.PinchDiameter || s.Rolls.Least < s.Rolls.PinchDiameter {
		t.Errorf("Rolls = %+v", s.Rolls)
	}
	if s.Welding == nil || s.Welding.Process != design.TIG || math.Abs(s.Welding.Tack-38.1) > 1e-9 || s.Printer == nil || s.Paper != "tabloid" {
		t.Errorf("Welding = %+v, Printer = %+v, Paper = %q", s.Welding, s.Printer, s.Paper)
	}
	if s.Brake != nil || s.Cutter != nil {
		t.Error("a brake or a cutter was made up")
	}
	if len(s.Sheets) != 2 || s.Sheets[0].Metal.Name != "slab" || s.Sheets[1].Metal.Name != "skin" || !s.Sheets[0].Turn {
		t.Fatalf("Sheets = %+v", s.Sheets)
	}
	// 48 x 96 in x 3/8 in of 7850 kg/m3 at 2 a kg, by the price of the metal.
	if got, want := s.Sheets[0].Price, 2*1.2192*2.4384*0.009525*7850; math.Abs(got-want) > 1e-6 {
		t.Errorf("the sheet of slab costs %g, want %g", got, want)
	}
	r := s.Rates
	if r.Labour != 0 || r.Filler != 0 || r.Gas != 0 || r.Markup != 0 || r.Pipe != 0 || s.Sheets[1].Price != 0 {
		t.Error("money was made up")
	}
	if !(r.Setup > 0 && r.Cut > 0 && r.Pass > 0 && r.Fit > 0 && r.Clean > 0 && r.Weld > 0 && r.Dress > 0) {
		t.Errorf("Rates = %+v, want all times", r)
	}
}

func TestForFilled(t *testing.T) {
	d := load(t, yard+`shop {
  sheet skin { size 36 by 72, price 60 }
  shear { width 36, alloy mild-steel, gauge 18 }
  rolls { width 30, alloy mild-steel, gauge 18, pinch_diameter 3 }
  rates { setup 1 min, cut 1 min, pass 1 min, fit 1 min, clean 1 m / 1 min, weld 1 m / 1 hr }
}`)
	before := *d.Shop
	rolls := *d.Shop.Rolls
	s, f := For(d)
	want := []Missing{{Item: RollsMeasures}, {Item: Welding}, {Sheets, "slab"}, {Item: Paper}, {Item: Printer}, {Item: DressSpeed}}
	if f.Whole || f.Rolls || !reflect.DeepEqual(f.Missing, want) {
		t.Errorf("Filled = %+v, want %+v", f, want)
	}
	if !reflect.DeepEqual(*d.Shop, before) || *d.Shop.Rolls != rolls {
		t.Error("the design was changed")
	}
	if math.Abs(s.Shear.Width-914.4) > 1e-9 || s.Rolls.PinchDiameter != rolls.PinchDiameter || s.Rolls.BackDiameter != rolls.PinchDiameter || math.Abs(s.Rolls.BackDistance-(76.2+6.35)) > 1e-9 {
		t.Errorf("Shear = %+v, Rolls = %+v", s.Shear, s.Rolls)
	}
	if len(s.Sheets) != 2 || s.Sheets[0].Price != 60 || s.Rates.Setup != 60 || s.Rates.Dress != Times().Dress {
		t.Errorf("Sheets = %+v, Rates = %+v", s.Sheets, s.Rates)
	}

	d = load(t, yard+"shop { cutter { kerf 1/16 } }")
	if s, f := For(d); s.Shear != nil || f.Shear || slices.Contains(f.Missing, Missing{Item: Shear}) {
		t.Errorf("a shop with a cutter was given a shear: %+v", f.Missing)
	}
}

// A bought ball is not cut from its metal.
func TestCut(t *testing.T) {
	d := load(t, yard+"metal gilt { alloy brass, gauge 20 }\nball sun on mast { diameter 8, bought 2 lb, metal gilt }\n")
	var names []string
	for _, m := range Cut(d) {
		names = append(names, m.Name)
	}
	if got := strings.Join(names, " "); got != "slab skin" {
		t.Errorf("Cut = %s, want slab skin", got)
	}
}

// TestLoad: the rating itself is 1; the limits of width and of thickness hold by
// themselves.
func TestLoad(t *testing.T) {
	c := capacity(914.4, 17)
	for _, tt := range []struct {
		name                    string
		thickness, yield, width float64
		load                    float64
		takes                   bool
	}{
		{"the rating", c.Thickness, c.Yield, 914.4, 1, true},
		{"half as wide", c.Thickness, c.Yield, 457.2, 0.5, true},
		{"half as wide, 40 % thicker", 1.4 * c.Thickness, c.Yield, 457.2, 0.98, true},
		{"narrow, but twice as thick", 2 * c.Thickness, c.Yield, 50, 4 * 50 / 914.4, false},
		{"twice as strong", c.Thickness, 2 * c.Yield, 914.4, 2, false},
		{"thin, but too wide", c.Thickness / 2, c.Yield, 1000, 0.25 * 1000 / 914.4, false},
	} {
		if got := Load(c, tt.thickness, tt.yield, tt.width); math.Abs(got-tt.load) > 1e-12 {
			t.Errorf("%s: Load = %g, want %g", tt.name, got, tt.load)
		}
		if got := Takes(c, tt.thickness, tt.yield, tt.width); got != tt.takes {
			t.Errorf("%s: Takes = %v, want %v", tt.name, got, tt.takes)
		}
	}
}

// TestShears: what a shear for 16 gauge mild steel takes of other alloys. Makers
// commonly rate the same shear for stainless two to four gauges lighter (common
// practice, no source).
func TestShears(t *testing.T) {
	s := &design.Shear{Capacity: capacity(50*25.4, 16)}
	for _, tt := range []struct {
		alloy string
		gauge int
		want  bool
	}{
		{"low-carbon-steel", 16, true}, {"low-carbon-steel", 15, false}, {"low-carbon-steel", 18, true},
		{"stainless-304", 20, true}, {"stainless-304", 18, false},
		{"weathering-steel", 18, true}, {"weathering-steel", 16, false},
		{"galvanized-steel", 18, true},
		{"aluminium-3003", 12, true}, {"copper", 14, true},
	} {
		a, _ := stock.LookupAlloy(tt.alloy)
		thickness, err := a.Family.Thickness(tt.gauge)
		if err != nil {
			t.Fatal(err)
		}
		m := &design.Metal{Alloy: a.Name, Thickness: thickness, Yield: a.Yield}
		if got := Shears(s, m); got != tt.want {
			t.Errorf("Shears(%s, %d gauge) = %v with a load of %.2f, want %v", tt.alloy, tt.gauge, got, ShearLoad(s, m), tt.want)
		}
	}
}
