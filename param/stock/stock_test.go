package stock

import (
	"math"
	"strings"
	"testing"
)

func TestLookupAlloy(t *testing.T) {
	for _, tt := range []struct{ name, want string }{
		{"low-carbon-steel", "low-carbon-steel"},
		{"mild-steel", "low-carbon-steel"},
		{"aluminum-5052", "aluminium-5052"},
		{"aluminium-5052", "aluminium-5052"},
		{"brass", "brass"},
		{"Brass", ""},
		{"", ""},
	} {
		if a, ok := LookupAlloy(tt.name); a.Name != tt.want || ok != (tt.want != "") {
			t.Errorf("LookupAlloy(%q) = %q, %v, want %q", tt.name, a.Name, ok, tt.want)
		}
	}
}

// Every alloy is sane: its numbers are those of metals and in the units
// promised, and no two answer to one name.
func TestAlloys(t *testing.T) {
	seen := map[string]bool{}
	for _, name := range AlloyNames() {
		a, ok := LookupAlloy(name)
		if !ok {
			t.Errorf("LookupAlloy(%q) finds nothing", name)
		}
		for _, n := range append(a.Aliases, name) {
			if seen[n] {
				t.Errorf("two alloys answer to %q", n)
			}
			seen[n] = true
			if strings.ContainsAny(n, " _") {
				t.Errorf("%q cannot be written in a design", n)
			}
		}
		if a.Density < 2600 || a.Density > 9000 || a.Yield < 30 || a.Yield > a.Modulus/100 || a.Modulus < 60e3 || a.Modulus > 210e3 {
			t.Errorf("%s: density %v, yield %v, modulus %v", name, a.Density, a.Yield, a.Modulus)
		}
	}
}

func TestTolerance(t *testing.T) {
	for _, tt := range []struct {
		family    Family
		thickness float64
		want      float64
	}{
		// EN 10131:2006, widths to 1200 mm.
		{Steel, 0.7, 0.04}, {Steel, 0.8, 0.04}, {Steel, 0.9, 0.05}, {Steel, 1.2, 0.06},
		{Steel, 1.2141, 0.08}, {Steel, 1.5, 0.08}, {Steel, 2, 0.10}, {Steel, 2.5, 0.12}, {Steel, 3, 0.15},
		// EN 10259, now EN ISO 9445, widths under 1000 mm.
		{Stainless, 1.1, 0.06}, {Stainless, 1.5, 0.07}, {Stainless, 2, 0.08}, {Stainless, 2.5, 0.09},
		// Low-carbon sheet stands in.
		{Stainless, 0.7, 0.04}, {Stainless, 2.6, 0.15}, {Aluminium, 1.5, 0.08}, {Copper, 0.9, 0.05}, {Galvanized, 1.3, 0.08},
		// Beyond the bands.
		{Steel, 50, 0.8}, {Steel, 0.02, 0.01},
	} {
		if got := tt.family.Tolerance(tt.thickness); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("family %d: Tolerance(%v) = %v, want %v", tt.family, tt.thickness, got, tt.want)
		}
	}
}

// Tube weights against the plain-end weights printed in ASME B36.10M, in lb/ft
// to two decimals. The printed formula uses 7848.9 kg/m3 where we take
// the 7850 of its SI twin, hence the ratio.
func TestPipeWeight(t *testing.T) {
	const ratio = 7848.9 / 7850
	want := map[string]float64{
		"1 40": 1.68, "1-1/4 40": 2.27, "1-1/2 40": 2.72, "2 40": 3.66, "2-1/2 40": 5.80,
		"3 40": 7.58, "3-1/2 40": 9.12, "4 40": 10.80, "5 40": 14.63, "6 40": 18.99,
		"8 40": 28.58, "10 40": 40.52, "12 STD": 49.61, "12 40": 53.57,
	}
	metric := map[string]float64{"1 40": 2.501, "2 40": 5.442, "6 40": 28.267, "12 40": 79.739} // kg/m
	if len(EverydayPipes()) != len(want) {
		t.Errorf("EverydayPipes() has %d sizes, want %d", len(EverydayPipes()), len(want))
	}
	for _, p := range EverydayPipes() {
		name := p.NPS + " " + p.Schedule
		got := p.Weight() * ratio * 0.3048 / 0.45359237
		if math.Abs(got-want[name]) > 0.005 { // half of the last decimal printed
			t.Errorf("NPS %s weighs %.4f lb/ft, want %.2f", name, got, want[name])
		}
		if w, ok := metric[name]; ok && math.Abs(p.Weight()-w) > 0.0005 {
			t.Errorf("NPS %s weighs %.4f kg/m, want %.3f", name, p.Weight(), w)
		}
	}
}

func TestNearestPipe(t *testing.T) {
	for _, tt := range []struct {
		outside float64
		want    string
	}{{0, "1 40"}, {60, "2 40"}, {127, "4 40"}, {128, "5 40"}, {323, "12 STD"}, {1e4, "12 STD"}} {
		if p := NearestPipe(tt.outside); p.NPS+" "+p.Schedule != tt.want {
			t.Errorf("NearestPipe(%v) = NPS %s %s, want %s", tt.outside, p.NPS, p.Schedule, tt.want)
		}
	}
}
