package strength_test

import (
	"math"
	"testing"

	"stabile/fab/frame"
	"stabile/fab/strength"
	"stabile/param/design"
)

// The rows of the tests below were worked out by hand from the clause that each
// names. The area of a tube is pi (D - t) t; a D/t of 625 has the fourth root 5, so
// that (D/t)^(5/4) is 3125 and (D/t)^(3/2) is 15625.

// TestShear holds AISC 360 G5. A tube of 625 by 1 has half an area of 312 pi.
func TestShear(t *testing.T) {
	for _, tt := range []struct{ d, t, length, want float64 }{
		{625, 1, 625, 102.4 * 312 * math.Pi},    // 1.60 x 200e3 / 3125
		{625, 1, 2500, 51.2 * 312 * math.Pi},    // half of it at four times the length
		{625, 1, 90000, 9.984 * 312 * math.Pi},  // 0.78 x 200e3 / 15625; the other is 8.53
		{32, 2, 32, 0.6 * 230 * 30 * math.Pi},   // 1.60 x 200e3 / 32 is far above 0.6 Fy
		{32, 2, 3200, 0.6 * 230 * 30 * math.Pi}, // 0.78 x 200e3 / 64 too
	} {
		if got := strength.Shear(frame.Tube(tt.d, tt.t), 230, 200e3, tt.length); !near(got, tt.want, 1e-9) {
			t.Errorf("Shear(%v by %v, L %v) = %v, want %v", tt.d, tt.t, tt.length, got, tt.want)
		}
	}
}

// TestTwist holds AISC 360 H3.1: the stress times pi (D - t)2 t / 2.
func TestTwist(t *testing.T) {
	for _, tt := range []struct{ d, t, length, want float64 }{
		{625, 1, 625, 78.72 * math.Pi * 624 * 624 / 2},     // 1.23 x 200e3 / 3125
		{625, 1, 2500, 39.36 * math.Pi * 624 * 624 / 2},    // half of it
		{625, 1, 90000, 7.68 * math.Pi * 624 * 624 / 2},    // 0.60 x 200e3 / 15625; the other is 6.56
		{32, 2, 32, 0.6 * 230 * math.Pi * 30 * 30 * 2 / 2}, // above 0.6 Fy
	} {
		if got := strength.Twist(frame.Tube(tt.d, tt.t), 230, 200e3, tt.length); !near(got, tt.want, 1e-9) {
			t.Errorf("Twist(%v by %v, L %v) = %v, want %v", tt.d, tt.t, tt.length, got, tt.want)
		}
	}
}

// TestEffectiveArea holds AISC 360-16 E7.2 for E/Fy = 1000: all of the area up to D/t
// of 110; at 200 it is 38 / 200 + 2/3 = 0.856667 of it, at 380 0.766667.
func TestEffectiveArea(t *testing.T) {
	for _, tt := range []struct{ d, t, want float64 }{
		{200, 2, 396 * math.Pi},
		{220, 2, 436 * math.Pi},
		{400, 2, (0.19 + 2.0/3) * 796 * math.Pi},
		{760, 2, (0.1 + 2.0/3) * 1516 * math.Pi},
	} {
		if got := strength.EffectiveArea(frame.Tube(tt.d, tt.t), 200, 200e3); !near(got, tt.want, 1e-9) {
			t.Errorf("EffectiveArea(%v by %v) = %v, want %v", tt.d, tt.t, got, tt.want)
		}
	}
}

// TestRatio holds AISC 360 H1.1 and H3.2.
func TestRatio(t *testing.T) {
	a := strength.Allowable{Tension: 1000, Compression: 500, Bending: 10e3, Shear: 400, Twist: 2000}
	for _, tt := range []struct {
		what                              string
		pull, shear, bending, twist, want float64
	}{
		{"H1-1b", 100, 40, 5000, 0, 0.1/2 + 0.5},
		{"H1-1a", 300, 40, 5000, 0, 0.3 + 8.0/9*0.5},
		{"H1-1a, pushed", -100, 40, 5000, 0, 0.2 + 8.0/9*0.5},
		{"a fifth of its twist", 100, 40, 5000, 400, 0.1/2 + 0.5},
		{"H3-6, a quarter of its twist", 100, 40, 5000, 500, 0.1 + 0.5 + 0.35*0.35},
		{"shear and twist alone", 0, 380, 0, 380, 0.95 + 0.19},
	} {
		if got := a.Ratio(tt.pull, tt.shear, tt.bending, tt.twist); !near(got, tt.want, 1e-12) {
			t.Errorf("%s: %v, want %v", tt.what, got, tt.want)
		}
	}
}

// TestYield holds the yield beside a weld: of soft sheet, by the ASTM standard that
// each alloy names (B209 -O, welded 6061 by the Aluminum Design Manual, B152 and B36
// soft, B96 soft, A240 annealed; in MPa, from memory), where the sheet is harder.
// Structural steels keep theirs.
func TestYield(t *testing.T) {
	for _, tt := range []struct {
		alloy       string
		given, want float64
	}{
		{"aluminium-3003", 115, 35}, {"aluminium-5052", 160, 65}, {"aluminium-6061", 240, 105},
		{"copper", 250, 69}, {"brass", 360, 75}, {"silicon-bronze", 380, 150}, {"stainless-304", 515, 205}, {"stainless-316", 515, 205},
		{"copper", 69, 69}, {"copper", 60, 60}, {"aluminium-6061", 90, 90},
		{"low-carbon-steel", 250, 250}, {"weathering-steel", 345, 345}, {"galvanized-steel", 230, 230},
	} {
		got, soft := strength.Yield(&design.Metal{Alloy: tt.alloy, Yield: tt.given})
		if got != tt.want || soft == (got == tt.given) {
			t.Errorf("Yield(%s of %v) = %v, soft %v; want %v", tt.alloy, tt.given, got, soft, tt.want)
		}
	}
}

// TestThroatStress holds the stress on the throat of a fillet weld: 0.30 x 482 MPa of
// E70 weld metal (AISC 360 J2.4), or that with which the base metal beside the leg
// carries 0.40 Fy (J4.2), the leg being 1.41421 times the throat.
func TestThroatStress(t *testing.T) {
	for _, tt := range []struct{ yield, want float64 }{{69, 39.0323}, {140, 79.1960}, {230, 130.108}, {345, 144.6}} {
		if got := strength.ThroatStress(tt.yield); !near(got, tt.want, digits) {
			t.Errorf("ThroatStress(%v) = %v, want %v", tt.yield, got, tt.want)
		}
	}
}
