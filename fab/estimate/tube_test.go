package estimate_test

import (
	"math"
	"testing"

	"stabile/fab"
	"stabile/fab/estimate"
	"stabile/param/written"
)

// made returns the parts of a design, by their names.
func made(t *testing.T, text string) map[string]fab.Part {
	t.Helper()
	j, list := fab.Build(written.Design(t, written.Metric+text), 0)
	if err := list.Err(); err != nil {
		t.Fatal(err)
	}
	parts := map[string]fab.Part{}
	for _, p := range j.Parts {
		parts[p.Name] = p
	}
	return parts
}

// TestTubeOf holds the wall of posts to sums by hand, without the disc in the head.
// A tube of 100 mm from 1.5 mm sheet is pi 98.5 mm round in the middle of the sheet,
// less the root gap of its seam, and weighs 7850 kg/m3:
//
//	whole: 1000 long, pi 98.5 x 1.5 x 1000 mm3, 3.643737 kg
//	gapped: 1000 long, (pi 98.5 - 3) x 1.5 x 1000 mm3, 3.608412 kg
//
// A taper from 100 to 60 is 80 across half way, and as long as its slant, the root of
// 1000^2 + 20^2, 1000.19998, less what the edges of the sheet, square to its face, lean
// at both ends: 1.5 x 20 / 1000.2 in all. A gap of 3 mm runs along all of it.
func TestTubeOf(t *testing.T) {
	parts := made(t, `
base pad { plate 1200 by 600, metal slab }
post whole on pad { at (-400, 0), diameter 100, length 1000, metal skin }
post gapped on pad { at (-200, 0), diameter 100, length 1000, gap 3, metal skin }
post taper on pad { at (200, 0), diameter 100 to 60, length 1000, metal skin }
post split on pad { at (400, 0), diameter 100 to 60, length 1000, gap 3, metal skin }
ball moon on whole { diameter 200, halves, metal skin }
`)
	slant := math.Hypot(1000, 20)
	slant -= 1.5 * 20 / slant
	for name, want := range map[string]struct {
		outside, length, mass float64
		taper                 bool
	}{
		"whole":  {100, 1000, 3.643737, false},
		"gapped": {100, 1000, 3.608412, false},
		"taper":  {80, slant, 7850e-9 * 1.5 * math.Pi * 78.5 * slant, true},
		"split":  {80, slant, 7850e-9 * 1.5 * (math.Pi*78.5 - 3) * slant, true},
	} {
		p := parts[name]
		got, ok := estimate.TubeOf(p.Part, p.Blanks)
		if !ok || got.Part != name || got.Outside != want.outside || got.Taper != want.taper {
			t.Errorf("%s: %+v, %v", name, got, ok)
		}
		// The circle in the middle of a taper's sheet is a part in 5,000 of 0.75 mm in
		// 39.25 smaller, since the thickness is square to the slant.
		room := 1e-6
		if want.taper {
			room = 5e-6
		}
		if math.Abs(got.Length/want.length-1) > room || math.Abs(got.Mass/want.mass-1) > room {
			t.Errorf("%s: %v mm and %v kg, want %v and %v", name, got.Length, got.Mass, want.length, want.mass)
		}
	}
	for _, name := range []string{"pad", "moon"} {
		if got, ok := estimate.TubeOf(parts[name].Part, parts[name].Blanks); ok {
			t.Errorf("%s is a tube: %+v", name, got)
		}
	}
}

// TestSurface holds what a finish covers to sums by hand: of a post and of a ball the
// outside, taken as their sheet, of a plate both faces less their holes, and of a
// ball that is bought all of its sphere.
func TestSurface(t *testing.T) {
	parts := made(t, `
base pad { plate 600 by 400, metal slab, anchors 4, anchor_diameter 20, anchor_edge 40 }
post mast on pad { diameter 100, length 1000, head open, metal skin }
ball moon on mast { diameter 200, gores 8, bend domed, caps 60, metal skin }
ball nut on moon { diameter 50, bought 0.5 kg }
`)
	moon := 0.0
	for _, b := range parts["moon"].Blanks {
		moon += float64(b.Quantity) * b.Area
	}
	for name, want := range map[string]float64{
		"pad":  2 * (600*400 - 4*math.Pi*10*10),
		"mast": math.Pi * 98.5 * 1000,
		"moon": moon,
		"nut":  math.Pi * 50 * 50,
	} {
		p := parts[name]
		if got := estimate.Surface(p.Part, p.Blanks); math.Abs(got/want-1) > 1e-3 {
			t.Errorf("%s: %v mm2 to be covered, want %v", name, got, want)
		}
	}
	// The sheet of a ball is about its sphere: 8 gores of 198.5 mm in the middle.
	if sphere := math.Pi * 198.5 * 198.5; math.Abs(moon/sphere-1) > 0.03 {
		t.Errorf("the sheet of a ball is %v mm2, its sphere %v", moon, sphere)
	}
}
