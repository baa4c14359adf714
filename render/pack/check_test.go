package pack_test

import (
	"flag"
	"fmt"
	"slices"
	"sync"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/internal/inspect"
	"stabile/render/internal/sample"
	"stabile/render/pack"
)

// bare reports whether a sheet is a page of a pattern, without a frame.
func bare(s *ink.Sheet) bool {
	return !slices.ContainsFunc(s.Items, func(it ink.Item) bool {
		f, ok := it.(*ink.Stroke)
		return ok && f.Line == ink.Frame
	})
}

func extent(path []r2.Vec) (lo, hi r2.Vec) {
	lo, hi = path[0], path[0]
	for _, p := range path {
		lo = r2.Vec{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
		hi = r2.Vec{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	return lo, hi
}

// sculptures is how many random sculptures are drawn and looked at. All 500 take
// some minutes.
var sculptures = flag.Uint64("sculptures", 50, "how many random sculptures to look at, up to 500")

// TestSheetsAreClean draws packs of random sculptures of 3 to 60 parts, and of
// the examples, and looks at every sheet twice: at the drawing model, and at the
// SVG as written.
func TestSheetsAreClean(t *testing.T) {
	var hold sync.Mutex
	var total inspect.Report
	t.Cleanup(func() {
		t.Logf("%d texts looked at, each in the model or in %d MB of SVG", total.Texts, total.Bytes/1e6)
		c := total.Crossings
		t.Logf("%d dimension lines are crossed by %d extension lines or dimension lines", c.Dimensions, c.OfDimensions)
		t.Logf("%d leaders cross %d outlines, %d narrow lines", c.Leaders, c.WithOutlines, c.WithNarrow)
	})
	look := func(name string, sheets func() []*ink.Sheet) {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			report := inspect.Check(t, name, sheets()...)
			hold.Lock()
			total.Add(report)
			hold.Unlock()
		})
	}
	for seed := range min(*sculptures, 500) {
		look(fmt.Sprintf("tree %d", seed), func() []*ink.Sheet {
			units := []quantity.System{quantity.Millimetre, quantity.Inch}[seed%2]
			return newExample("", sample.Job(sample.Random(seed, 3+int(seed*seed%58), units))).sheets()
		})
	}
	for _, e := range append(examples(t), stack()) {
		look(e.name, e.sheets)
	}
}

// TestExtremes draws the least designs, and very large and very small ones with
// long names.
func TestExtremes(t *testing.T) {
	const long = "a_name_that_somebody_thought_would_never_be_written_on_a_tube"
	metal := "metal skin { alloy low-carbon-steel, gauge 18 }\nmetal slab { alloy low-carbon-steel, thickness 12 mm }\n"
	const bolted = "metal slab, anchors 4, anchor_diameter 14 mm, anchor_edge 30 mm }\n" +
		"post arm on plate { at (0 mm, 80 mm), diameter 50 mm, length 260 mm, metal skin }\npost riser on arm { diameter 50 mm, length 400 mm, lean 12 deg toward left, metal skin }\n" +
		"ball moon on riser { diameter 200 mm, gores 10, metal skin }\npost spray on plate { at (80 mm, -90 mm), diameter 40 mm, length 350 mm, lean 60 deg toward front, metal skin }\nball star on spray { diameter 130 mm, gores 8, metal skin }\n"
	for _, tt := range []struct{ name, src string }{
		{"post", onePost},
		{"joined", joined},
		{"joined in inches", joinedInch},
		{"ball", oneBall},
		{"feet", onFeet},
		{"long names", "sculpture \"" + long + " " + long + "\"\nunits mm\n" + metal + "base pad { plate 400 by 300, metal slab, anchors 4, anchor_diameter 12, anchor_edge 30 }\n" +
			"post " + long + " on pad { diameter 60, length 800, lean 5 deg toward 0 deg, metal skin }\nball " + long + "_ball on " + long + " { diameter 200, gores 8, metal skin }\n"},
		{"large", "sculpture \"Large\"\nunits mm\n" + metal + "base pad { plate 4000 by 3000, metal slab }\npost p on pad { diameter 900, length 18 m, metal slab }\nball o on p { diameter 3 m, gores 24, metal slab }\n"},
		{"small", "sculpture \"Small\"\nunits mm\n" + metal + "base pad { plate 40 by 30, metal skin }\npost p on pad { diameter 8, length 20, metal skin }\nball o on p { diameter 14, halves, metal skin }\n"},
		{"rings", "sculpture \"Rings\"\nunits mm\n" + metal + "base pad { plate 900 by 700, metal slab }\nring hoop on pad { at (-100, -200), across 500, diameter 60, segments 9, metal skin }\n" +
			"post stem on pad { at (100, 150), diameter 50, length 300, metal skin }\nring halo on stem { across 400, diameter 50, flat, gap 1, metal skin }\n" +
			"ring curb on pad { across 200, bought pipe 1 schedule 40, segments 6, flat, metal skin }\nhole eye in hoop[5] { at 80 toward 270 deg, diameter 20 }\n" +
			"post spur on hoop[4] { at 60 toward 0 deg, diameter 30, length 120, metal skin }\n"},
		{"a ring in inches", "sculpture \"Ring\"\nunits inch\n" + metal + "base pad { plate 24 by 20, metal slab }\npost stem on pad { diameter 2-1/2 in, length 12, metal skin }\nring hoop on stem { across 30, diameter 3, metal skin }\n"},
		{"wall", "sculpture \"Wall\"\nunits inch\n" + metal + "base plate { wall 12 by 16 at 60, " + bolted},
		{"low on a wall", "sculpture \"Low\"\nunits mm\n" + metal + "base plate { wall 300 mm by 400 mm at 210 mm, " + bolted},
		{"wide", "sculpture \"Wide\"\nunits inch\n" + metal + "base pad { plate 200 by 12, metal slab, anchors 4, anchor_diameter 1/2, anchor_edge 2 }\npost p on pad { diameter 4, length 6, metal skin }\n"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			looked(t, tt.name, text(t, tt.src))
		})
	}
}

// looked draws a job's pack and fails at whatever is wrong with its sheets.
func looked(t *testing.T, name string, j *fab.Job) inspect.Report {
	t.Helper()
	return inspect.Check(t, name, pack.Sheets(j, pack.Options{Date: "2026-01-31"})...)
}
