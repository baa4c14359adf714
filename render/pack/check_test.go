package pack_test

import (
	"flag"
	"fmt"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/internal/sample"
	"stabile/render/pack"
)

// flaws are what a draughtsman would send back, counted over sheets.
type flaws struct {
	overlaps, outside, small, missing int // none is allowed
	onObject, onThin                  int // writing on lines of the object, on other lines
	texts, bytes                      int
	cross                             crossings
	first                             []string // the first few, in words
}

func (f *flaws) add(format string, args ...any) {
	if len(f.first) < 12 {
		f.first = append(f.first, fmt.Sprintf(format, args...))
	}
}

// The margins of ISO 5457.
const filing, margin = 20.0, 10.0

// printer is the edge, in mm, that printers leave free.
const printer = 6.35

// smallest is the least height of a capital, in mm, of the series of ISO 3098
// from 2.5 mm on.
const smallest = 2.5

// bare reports whether a sheet is a page of a pattern, without a frame.
func bare(s *ink.Sheet) bool {
	return !slices.ContainsFunc(s.Items, func(it ink.Item) bool {
		f, ok := it.(*ink.Stroke)
		return ok && f.Line == ink.Frame
	})
}

func check(sheets []*ink.Sheet) flaws {
	var f flaws
	for _, s := range sheets {
		f.check(s)
		f.cross.cross(s)
	}
	return f
}

func (f *flaws) check(s *ink.Sheet) {
	var texts []*ink.Text
	var boxes [][]r2.Vec
	var spans [][2]r2.Vec // about the boxes, to pass over what is far apart
	for _, item := range s.Items {
		t, ok := item.(*ink.Text)
		if !ok || t.Text == "" {
			continue
		}
		f.texts++
		box := t.Box()
		lo, hi := extent(box)
		left, other := filing, margin
		if bare(s) {
			left, other = printer, printer
		}
		inside := lo.X >= left && lo.Y >= other && hi.X <= s.Width-other && hi.Y <= s.Height-other
		border := !bare(s) && (hi.X <= filing || lo.X >= s.Width-margin || hi.Y <= margin || lo.Y >= s.Height-margin) && lo.X >= 0 && lo.Y >= 0 && hi.X <= s.Width && hi.Y <= s.Height
		if !inside && !border {
			f.outside++
			f.add("%s: %q leaves the frame", s.Name, t.Text)
		}
		if t.Height < smallest {
			f.small++
			f.add("%s: %q is %.2f mm high", s.Name, t.Text, t.Height)
		}
		if m := ink.Missing(t.Text); len(m) > 0 {
			f.missing++
			f.add("%s: %q lacks %q", s.Name, t.Text, m)
		}
		for k, other := range boxes {
			if far(spans[k], [2]r2.Vec{lo, hi}) || apart(box, other) > -0.05 {
				continue
			}
			f.overlaps++
			f.add("%s: %q overlaps %q at %.1f, %.1f", s.Name, t.Text, texts[k].Text, t.At.X, t.At.Y)
		}
		texts, boxes, spans = append(texts, t), append(boxes, box), append(spans, [2]r2.Vec{lo, hi})
	}
	for _, item := range s.Items {
		var path []r2.Vec
		var kind ink.Line
		switch it := item.(type) {
		case *ink.Stroke:
			path, kind = it.Path, it.Line
			if it.Closed {
				path = append(path[:len(path):len(path)], path[0])
			}
		case *ink.Arc:
			kind = it.Line
			for i := range 65 {
				path = append(path, it.At(it.From+(it.To-it.From)*float64(i)/64))
			}
		}
		if len(path) == 0 {
			continue
		}
		lo, hi := extent(path)
		for k, box := range boxes {
			if far(spans[k], [2]r2.Vec{lo, hi}) {
				continue
			}
			for i := 1; i < len(path); i++ {
				if apart(box, []r2.Vec{path[i-1], path[i]}) > -0.1 {
					continue
				}
				if kind == ink.Outline || kind == ink.Edge || kind == ink.Hidden || kind == ink.Seam {
					f.onObject++
				} else {
					f.onThin++
				}
				f.add("%s: %q at %.1f, %.1f lies on a %v line", s.Name, texts[k].Text, texts[k].At.X, texts[k].At.Y, kind)
				break
			}
		}
	}
}

// far reports whether two upright boxes, each given by its corners, are apart.
func far(a, b [2]r2.Vec) bool {
	return a[1].X < b[0].X || b[1].X < a[0].X || a[1].Y < b[0].Y || b[1].Y < a[0].Y
}

func extent(path []r2.Vec) (lo, hi r2.Vec) {
	lo, hi = path[0], path[0]
	for _, p := range path {
		lo = r2.Vec{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}
		hi = r2.Vec{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	return lo, hi
}

// apart returns the greatest gap between two convex shapes along the normals
// of their sides: negative where they overlap, by how deep (the separating
// axis theorem).
func apart(a, b []r2.Vec) float64 {
	gap := math.Inf(-1)
	for _, shape := range [2][]r2.Vec{a, b} {
		for i := range shape {
			d := r2.Sub(shape[(i+1)%len(shape)], shape[i])
			l := r2.Norm(d)
			if l < 1e-9 {
				continue
			}
			n := r2.Vec{X: -d.Y / l, Y: d.X / l}
			amin, amax := span(a, n)
			bmin, bmax := span(b, n)
			gap = max(gap, amin-bmax, bmin-amax)
		}
	}
	return gap
}

func span(path []r2.Vec, n r2.Vec) (lo, hi float64) {
	lo, hi = math.Inf(1), math.Inf(-1)
	for _, p := range path {
		t := r2.Dot(p, n)
		lo, hi = min(lo, t), max(hi, t)
	}
	return lo, hi
}

func TestApart(t *testing.T) {
	square := []r2.Vec{{}, {X: 2}, {X: 2, Y: 2}, {Y: 2}}
	for _, tt := range []struct {
		other []r2.Vec
		want  float64
	}{
		{[]r2.Vec{{X: 3}, {X: 5}, {X: 5, Y: 1}}, 1},
		{[]r2.Vec{{X: 1, Y: -1}, {X: 1, Y: 3}}, -1},
	} {
		if got := apart(square, tt.other); math.Abs(got-tt.want) > 1e-12 {
			t.Errorf("apart(square, %v) = %v, want %v", tt.other, got, tt.want)
		}
	}
}

// sculptures is how many random sculptures are drawn and looked at. All 500 take
// some minutes.
var sculptures = flag.Uint64("sculptures", 50, "how many random sculptures to look at, up to 500")

// TestSheetsAreClean draws packs of random sculptures of 3 to 60 parts, and of
// the examples, and looks at every sheet twice: at the drawing model, and at the
// SVG as written.
func TestSheetsAreClean(t *testing.T) {
	var total flaws
	for seed := range min(*sculptures, 500) {
		units := []quantity.System{quantity.Millimetre, quantity.Inch}[seed%2]
		j := sample.Job(sample.Random(seed, 3+int(seed*seed%58), units))
		total.tally(t, fmt.Sprintf("tree %d", seed), j)
	}
	for _, e := range examples(t) {
		total.tally(t, e.name, e.job)
	}
	total.tally(t, "stack", sample.Job(sample.Stack(quantity.Inch)))
	if total.onObject+total.onThin > 0 {
		t.Errorf("%d texts on lines of an object, %d on other lines", total.onObject, total.onThin)
	}
	t.Logf("%d texts looked at, each in the model or in %d MB of SVG", total.texts, total.bytes/1e6)
	c := total.cross
	if c.withLeaders > 0 {
		t.Errorf("%d pairs of leaders cross", c.withLeaders)
	}
	t.Logf("%d dimension lines are crossed by %d extension lines or dimension lines", c.dimensions, c.ofDimensions)
	t.Logf("%d leaders cross %d other leaders, %d outlines, %d dimensions and axes", c.leaders, c.withLeaders, c.withOutlines, c.withThin)
}

// TestExtremes draws the least designs, and very large and very small ones with
// long names.
func TestExtremes(t *testing.T) {
	const long = "a_name_that_somebody_thought_would_never_be_written_on_a_tube"
	metal := "metal skin { alloy low-carbon-steel, gauge 18 }\nmetal slab { alloy low-carbon-steel, thickness 12 mm }\n"
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
		{"wide", "sculpture \"Wide\"\nunits inch\n" + metal + "base pad { plate 200 by 12, metal slab, anchors 4, anchor_diameter 1/2, anchor_edge 2 }\npost p on pad { diameter 4, length 6, metal skin }\n"},
	} {
		t.Run(tt.name, func(t *testing.T) {
			var f flaws
			f.tally(t, tt.name, text(t, tt.src))
			if f.onObject+f.onThin > 0 {
				t.Errorf("%d texts on lines of an object, %d on other lines", f.onObject, f.onThin)
			}
		})
	}
}

func (f *flaws) tally(t *testing.T, name string, j *fab.Job) {
	t.Helper()
	sheets := pack.Sheets(j, pack.Options{Date: "2026-01-31"})
	got := check(sheets)
	for _, s := range sheets {
		got.checkWritten(t, s)
	}
	if got.overlaps+got.outside+got.small+got.missing > 0 {
		t.Errorf("%s: %d texts overlap, %d leave the frame, %d are too small, %d lack letters:", name, got.overlaps, got.outside, got.small, got.missing)
		for _, line := range got.first {
			t.Log(line)
		}
	} else if got.onObject+got.onThin > 0 {
		t.Logf("%s: %d on object, %d on thin: %q", name, got.onObject, got.onThin, got.first)
	}
	f.onObject += got.onObject
	f.onThin += got.onThin
	f.texts += got.texts
	f.bytes += got.bytes
	f.cross.add(got.cross)
}
