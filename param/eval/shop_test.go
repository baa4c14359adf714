package eval

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"stabile/param/design"
	"stabile/param/quantity"
)

// A shop, a site and a finish come out in SI units; the money stays in the
// shop's currency.
func TestShop(t *testing.T) {
	d := mustEvaluate(t, `units inch
metal skin { alloy low-carbon-steel, gauge 18, price 1.10 / 1 lb }
metal slab { alloy low-carbon-steel, thickness 3/8 in, price 2 / 1 kg }
base pad { disc 30, metal slab }
shop {
  name     "The lower yard"
  currency "EUR"
  sheet skin { size 48 by 96, price 85, trim 1/4 in, turn no, stock 3 }
  sheet slab { size 24 by 48 }
  offcut skin { size 20 by 48, number 2 }
  offcut slab { size 12 by 12 }
  offcut skin { size 48 by 20 }
  cutter { kerf 1/16 in, width 50, length 100, thickness 1/2 in }
  shear { width 54, alloy mild-steel, gauge 16, least 3/4 in }
  rolls { width 50, alloy low-carbon-steel, thickness 1.5 mm, pinch_diameter 3, back_diameter 3, back_distance 2.5, screw_pitch 1/8 in, slant 30 deg, least 3-1/2 in }
  brake { width 48, alloy stainless-304, gauge 18 }
  welding { process tig, filler 1/16 in, tack 2, narrow 1/8 in, shrink 0.5 mm }
  paper ansi-B
  printer { paper letter, margin 1/4 in, overlap 1/2 in, roll 36 }
  rates {
    labour 60 / 1 hr, setup 10 min, cut 90 s, pass 1 min, fit 0.25 hr
    clean 36 m / 1 hr, weld 100 mm / 1 min, dress 18 m / 1 hr
    filler 12 / 1 kg, pipe 2.50 / 1 kg, gas 9 / 1 hr, markup 0.15
  }
}
finish coat { galvanize, price 40 / (1 m * 1 m) }
site { wind 36 km/h, terrain II, push 10 N at 1 m }
`)
	skin, slab := part(t, d, "pad").Metal, part(t, d, "pad").Metal
	if d.Shop != nil && len(d.Shop.Sheets) == 2 {
		skin = d.Shop.Sheets[0].Metal
	}
	if skin.Name != "skin" || slab.Name != "slab" || !near(skin.Price, 1.10/0.45359237) || !near(slab.Price, 2) {
		t.Errorf("prices of %s %v and %s %v", skin.Name, skin.Price, slab.Name, slab.Price)
	}
	// Gauges: Manufacturers' Standard 16 is 0.0598 in; stainless 18 is 1/20 in.
	want := &design.Shop{
		Name: "The lower yard", Currency: "EUR", Paper: "ansi-B",
		Sheets: []design.Sheet{
			{Metal: skin, Width: 1219.2, Length: 2438.4, Price: 85, Trim: 6.35, Stock: 3, Stocked: true},
			{Metal: slab, Width: 609.6, Length: 1219.2, Turn: true},
		},
		Offcuts: []design.Offcut{
			{Metal: skin, Width: 508, Length: 1219.2, Number: 2},
			{Metal: slab, Width: 304.8, Length: 304.8, Number: 1},
			{Metal: skin, Width: 1219.2, Length: 508, Number: 1},
		},
		Cutter:  &design.Cutter{Kerf: 1.5875, Width: 1270, Length: 2540, Thickness: 12.7},
		Shear:   &design.Shear{Capacity: design.Capacity{Width: 1371.6, Alloy: "low-carbon-steel", Gauge: 16, Thickness: 1.51892, Yield: 140}, Least: 19.05},
		Rolls:   &design.Rolls{Capacity: design.Capacity{Width: 1270, Alloy: "low-carbon-steel", Thickness: 1.5, Yield: 140}, PinchDiameter: 76.2, BackDiameter: 76.2, BackDistance: 63.5, ScrewPitch: 3.175, Slant: math.Pi / 6, Least: 88.9},
		Brake:   &design.Brake{Capacity: design.Capacity{Width: 1219.2, Alloy: "stainless-304", Gauge: 18, Thickness: 1.27, Yield: 205}},
		Welding: &design.Welding{Process: design.TIG, Filler: 1.5875, Tack: 50.8, Narrow: 3.175, Shrink: 0.5},
		Printer: &design.Printer{Paper: "letter", Margin: 6.35, Overlap: 12.7, Roll: 914.4},
		Rates: design.Rates{Labour: 60, Setup: 600, Cut: 90, Pass: 60, Fit: 900, Clean: 0.01, Weld: 0.1 / 60, Dress: 0.005,
			Filler: 12, Pipe: 2.5, Gas: 9, Markup: 0.15},
	}
	if d.Shop == nil {
		t.Fatal("no shop")
	}
	round(reflect.ValueOf(want))
	round(reflect.ValueOf(d.Shop))
	if !reflect.DeepEqual(d.Shop, want) {
		t.Errorf("Shop = %+v\nwant   %+v", *d.Shop, *want)
	}
	if f := d.Finish; f == nil || f.Name != "coat" || f.Kind != design.Galvanize || !near(f.Price, 40) {
		t.Errorf("Finish = %+v", f)
	}
	if s := d.Site; s == nil || !near(s.Wind, 10) || s.Method != design.EN1991 || s.Terrain != "II" || s.Exposure != "" || s.Push != 10 {
		t.Errorf("Site = %+v", s)
	}
}

// round rounds all numbers within a value to nine decimals, the last of which
// products of units do not share.
func round(v reflect.Value) {
	switch v.Kind() {
	case reflect.Float64:
		v.SetFloat(math.Round(v.Float()*1e9) / 1e9)
	case reflect.Pointer:
		if !v.IsNil() && v.Type() != reflect.TypeFor[*design.Metal]() {
			round(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			round(v.Field(i))
		}
	case reflect.Slice:
		for i := range v.Len() {
			round(v.Index(i))
		}
	}
}

func TestSites(t *testing.T) {
	for _, tt := range []struct {
		in   string
		want design.Site
	}{
		{"wind 10 m/s, exposure C, method asce7", design.Site{Wind: 10, Exposure: "C", Method: design.ASCE7}},
		{"wind 10 m/s, exposure B", design.Site{Wind: 10, Exposure: "B", Method: design.ASCE7}},
		{"wind 10 m/s, terrain 0", design.Site{Wind: 10, Terrain: "0", Method: design.EN1991}},
		{"people 3 climbing, risk 3, hill 1.2, soil sand, seismic 0.5, ice 6 mm",
			design.Site{People: design.PeopleClimbing, Crowd: 3, Risk: 3, Hill: 1.2, Soil: "sand", Seismic: 0.5, SeismicGiven: true, Ice: 6, IceGiven: true}},
		{"people leaning", design.Site{People: design.PeopleLeaning, Crowd: 1}},
		{"people none, seismic 0, ice 0", design.Site{People: design.NoPeople, SeismicGiven: true, IceGiven: true}},
		{"wind 10 m/s, method en1991, terrain IV", design.Site{Wind: 10, Terrain: "IV", Method: design.EN1991}},
	} {
		if d := mustEvaluate(t, stage+"site { "+tt.in+" }"); *d.Site != tt.want {
			t.Errorf("%s: %+v, want %+v", tt.in, *d.Site, tt.want)
		}
	}
	for _, f := range finishes {
		if d := mustEvaluate(t, stage+"finish f1 { "+string(f)+" }"); d.Finish.Kind != f || d.Finish.Price != 0 {
			t.Errorf("finish %s: %+v", f, *d.Finish)
		}
	}
}

func TestShopMistakes(t *testing.T) {
	for _, tt := range []struct {
		name string
		text string
		want []wrong
	}{
		{"unknown machine", stage + "shop { «shaer» { width 54 } }",
			[]wrong{{"a shop has no 'shaer'", "did you mean 'shear'?"}}},
		{"unknown property within", stage + "shop { shear { «widht» 54, alloy copper, gauge 16 } }",
			[]wrong{{"a shear has no 'widht'", "did you mean 'width'?"}}},
		{"missing within", stage + "shop { «shear» { width 54, alloy copper } }",
			[]wrong{{"the shear lacks 'gauge' or 'thickness'", "gauge 16"}}},
		{"no braces", stage + "shop { «shear» }",
			[]wrong{{"'shear' needs braces { } around what it says", "shear { width 54 in"}}},
		{"machine twice", stage + "shop { shear { width 54, alloy copper, gauge 16 }, «shear» { width 54, alloy copper, gauge 16 } }",
			[]wrong{{"'shear' is given twice", "keep one"}}},
		{"gauge of no sheet", stage + "shop { shear { width 54, alloy low-carbon-steel, gauge «1» } }",
			[]wrong{{"there is no 1 gauge in low-carbon-steel; the table goes from 3 to 30", "3 gauge"}}},
		{"sheet of no metal", stage + "shop { sheet «skim» { size 48 by 96 } }",
			[]wrong{{"there is no metal 'skim'", "did you mean 'skin'?"}}},
		{"sheet all trimmed", stage + "shop { sheet skin { size 48 by 96, «trim 24» } }",
			[]wrong{{"a trim of 24 in all round leaves nothing of a sheet of 48 in by 96 in", "less than 24 in"}}},
		{"sheet twice", stage + "shop { sheet skin { size 48 by 96 }, sheet skin { «size 48 by 96» } }",
			[]wrong{{"sheet of 'skin' of 48 in by 96 in is given twice", "keep one"}}},
		{"offcut twice", stage + "shop { offcut skin { size 20 by 48 }, offcut skin { number 2, «size 20 by 48» } }",
			[]wrong{{"offcut of 'skin' of 20 in by 48 in is given twice", "say in 'number' how many there are"}}},
		{"each mistake of the rack", stage + "shop { sheet «skim» { size 48 by 96 }, sheet skin { size 48 by 96, «trim 24» }, offcut skin { size «0» by 4 }, offcut skin { number «1/2», size 3 by 4 } }",
			[]wrong{
				{"there is no metal 'skim'", "did you mean 'skin'?"},
				{"a trim of 24 in all round leaves nothing of a sheet of 48 in by 96 in", "less than 24 in"},
				{"'size' must be more than 0, and this is 0 in", "size 20 in by 48 in"},
				{"'number' needs a whole number, and this is 0.5", "number 2"},
			}},
		{"offcut of no size", stage + "shop { «offcut» skin { number 2 } }",
			[]wrong{{"the offcut lacks 'size'", "size 20 in by 48 in"}}},
		{"no offcut", stage + "shop { offcut skin { size 20 by 48, number «0» } }",
			[]wrong{{"'number' must be from 1 to 10,000, and this is 0", "number 2"}}},
		{"offcut of no metal", stage + "shop { «offcut { size 20 by 48 }» }",
			[]wrong{{"'offcut' needs the name of a metal", "write it as offcut skin { size 20 in by 48 in, number 2 }"}}},
		{"cutter without kerf", stage + "shop { «cutter» { width 50 } }",
			[]wrong{{"the cutter lacks 'kerf'", "kerf 1/16 in"}}},
		{"kerf of a foot", stage + "shop { cutter { kerf «12 in» } }",
			[]wrong{{"'kerf' must be from 0 to 50 mm, and this is 12 in", "kerf 1/16 in"}}},
		{"pipe by the piece", stage + "shop { rates { pipe «40» } }",
			[]wrong{{"'pipe' needs a price by weight, and this is a plain number", "pipe 2.50 / 1 lb"}}},
		{"smaller than its roll", stage + "shop { rolls { width 50, alloy copper, gauge 16, pinch_diameter 3, «least 2» } }",
			[]wrong{{"a tube of 2 in cannot be rolled on a roll of 3 in", "3 in or more"}}},
		{"money with a unit", stage + "shop { sheet skin { size 48 by 96, price «85 kg» } }",
			[]wrong{{"'price' needs an amount of money, and this is a weight", "price 85"}}},
		{"wages without an hour", stage + "shop { rates { labour «60» } }",
			[]wrong{{"'labour' needs a price by the hour, and this is a plain number", "labour 60 / 1 hr"}}},
		{"less than no money", stage + "shop { rates { labour «-60 / 1 hr» } }",
			[]wrong{{"'labour' must be from 0 to 1,000,000,000 an hour", "labour 60 / 1 hr"}}},
		{"name without quotes", stage + "shop { name «7» }",
			[]wrong{{"'name' needs a text in quotes, and this is a plain number", `name "The lower yard"`}}},
		{"unknown paper", stage + "shop { paper «A5» }",
			[]wrong{{"'paper' is A4, A3, A2, A1, letter, tabloid, ansi-A, ansi-B, ansi-C or ansi-D", "did you mean 'A4'?"}}},
		{"shop twice", stage + "shop { }\n«shop» { }",
			[]wrong{{"'shop' is given twice", "keep one"}}},
		{"shop in a block", stage + "when 1 < 2 { «shop» { } }",
			[]wrong{{"'shop' goes at the top of the file, not in a block", "move it out"}}},
		{"two finishes", stage + "finish coat { paint, «weather» }",
			[]wrong{{"'paint' and 'weather' both say how it is finished", "keep one"}}},
		{"finish of nothing", stage + "finish «coat» { }",
			[]wrong{{"finish 'coat' lacks 'paint', 'galvanize', 'weather' or 'brushed'", "paint"}}},
		{"price of a finish", stage + "finish coat { paint, price «4» }",
			[]wrong{{"'price' needs a price by area, and this is a plain number", "price 40 / (1 ft * 1 ft)"}}},
		{"finish twice", stage + "finish coat { paint }\n«finish» other { weather }",
			[]wrong{{"'finish' is given twice", "keep one"}}},
		{"wind without method", stage + "site { «wind 100 mph» }",
			[]wrong{{"'wind' also needs a method", "exposure C"}}},
		{"method without country", stage + "site { wind 100 mph, «method asce7» }",
			[]wrong{{"asce7 also needs 'exposure'", "exposure C"}}},
		{"country of another method", stage + "site { wind 100 mph, method en1991, «exposure» C }",
			[]wrong{{"'exposure' is not for en1991", "give 'terrain' instead"}}},
		{"two countries", stage + "site { wind 100 mph, exposure C, «terrain» II }",
			[]wrong{{"'exposure' is for asce7 and 'terrain' for en1991; the site gives both", "keep one"}}},
		{"exposure of no class", stage + "site { wind 100 mph, exposure «E» }",
			[]wrong{{"'exposure' is B, C or D", "exposure C"}}},
		{"country without wind", stage + "site { «exposure» C }",
			[]wrong{{"'exposure' goes with 'wind'", "wind 100 mph"}}},
		{"people who do something else", stage + "site { people «swimming» }",
			[]wrong{{"'people' is none, leaning or climbing", "people leaning"}}},
		{"a count of people alone", stage + "site { «people 2» }",
			[]wrong{{"'people' needs one of none, leaning, climbing", "people leaning"}}},
		{"half a person", stage + "site { people «1/2» climbing }",
			[]wrong{{"'people' needs a whole number, and this is 0.5", "people"}}},
		{"a number of nobody", stage + "site { people «2» none }",
			[]wrong{{"nobody is no number of people", "people none"}}},
		{"risk of none", stage + "site { risk «5» }",
			[]wrong{{"'risk' must be from 1 to 4, and this is 5", "risk 4, or less"}}},
		{"hill that shelters", stage + "site { hill «0.8» }",
			[]wrong{{"'hill' must be from 1 to 10, and this is 0.8", "hill 1.2"}}},
		{"soil of peat", stage + "site { soil «peat» }",
			[]wrong{{"'soil' is bedrock, rock, gravel, sand or clay", "soil sand"}}},
		{"earthquake with a unit", stage + "site { seismic «2 in» }",
			[]wrong{{"'seismic' needs a plain number, and this is a length", "seismic"}}},
		{"ice by weight", stage + "site { ice «2 kg» }",
			[]wrong{{"'ice' needs a length, and this is a weight", "ice"}}},
		{"footing under no anchors", strings.Replace(stage, "metal skin }\npost", "metal skin, «footing» 30 by 30 by 12 }\npost", 1),
			[]wrong{{"'footing' goes with 'anchors'", "anchors 4"}}},
		{"footing too small", strings.Replace(stage, "metal skin }\npost", "metal skin, anchors 4, anchor_diameter 1/2, anchor_edge 2, footing «20» by 30 by 12 }\npost", 1),
			[]wrong{{"base 'pad' is wider than its footing", "24 in or more"}}},
		{"footing not deep", strings.Replace(stage, "metal skin }\npost", "metal skin, anchors 4, anchor_diameter 1/2, anchor_edge 2, footing 30 by «18» by 12 }\npost", 1),
			[]wrong{{"base 'pad' is deeper than its footing", "20 in or more"}}},
		{"anchors through the footing", strings.Replace(stage, "metal skin }\npost", "metal skin, anchors 4, anchor_diameter 1/2, anchor_edge 2, footing 30 by 30 by 12, «anchor_depth 12» }\npost", 1),
			[]wrong{{"anchors 12 in deep go through a footing of 12 in", "less than 12 in"}}},
		{"concrete by weight", strings.Replace(stage, "metal skin }\npost", "metal skin, anchors 4, anchor_diameter 1/2, anchor_edge 2, concrete «3000» }\npost", 1),
			[]wrong{{"'concrete' needs a pressure, and this is a plain number", "psi"}}},
		{"wind of a length", stage + "site { wind «100», exposure C }",
			[]wrong{{"'wind' needs a speed, and this is a plain number", "mph"}}},
	} {
		t.Run(tt.name, func(t *testing.T) { checkMistakes(t, tt.text, Options{}, tt.want) })
	}
}

// Results that no step of the work gives yet are accepted, checked for sense,
// and come out as not checked.
func TestLaterResults(t *testing.T) {
	nothing := func(string) (quantity.Quantity, string, bool) { return quantity.Quantity{}, "", false }
	for in, name := range map[string]string{
		"wind <= 2 kN": "wind", "strength < 0.6": "strength", "frequency >= 2 Hz": "frequency", "sheets <= 4": "sheets", "cost < 3000": "cost",
	} {
		d := mustEvaluate(t, stage+"require "+in)
		want := design.Outcome{Unchecked: true, Why: "'" + name + "' is not calculated in this version"}
		if got := d.Require[0].Check(nothing); !reflect.DeepEqual(got, want) {
			t.Errorf("%s: %+v, want %+v", in, got, want)
		}
	}
	checkMistakes(t, stage+"require «wind < 3»\nrequire «frequency < 3»\nrequire «cost < 3 kg»", Options{}, []wrong{
		{"a force cannot be compared with a plain number", "unit"}, {"a frequency cannot be compared with a plain number", "unit"}, {"a plain number cannot be compared with a weight", "unit"},
	})
}

// The factor against tipping that is asked for is the design's target, and is
// written as reports write it: rounded down.
func TestTippingTarget(t *testing.T) {
	for _, tt := range []struct {
		in   string
		want float64
	}{
		{"require weight < 3 kg", 0},
		{"require tipping >= 2", 2},
		{"require tipping > 3/2", 1.5},
		{"let least = 1.25\nrequire least <= (tipping)", 1.25},
		{"require tipping >= 1.2 and weight < 3 kg\nrequire tipping >= 2\nrequire 1.7 < tipping", 2},
		{"require tipping >= 2 or weight < 3 kg", 0},
		{"require tipping <= 2", 0},
		{"require tipping >= weight / 3 kg", 0},
		{"require not tipping >= 2", 0},
	} {
		if d := mustEvaluate(t, stage+tt.in); d.TippingTarget != tt.want {
			t.Errorf("%s: TippingTarget = %v, want %v", tt.in, d.TippingTarget, tt.want)
		}
	}
}
