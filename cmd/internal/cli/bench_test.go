package cli

import (
	"bytes"
	"fmt"
	"io"
	"io/fs"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"stabile/fab"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
	"stabile/param/syntax"
	"stabile/render/ink"
	"stabile/render/pack"
	"stabile/render/report"
	"stabile/render/terminal"
	"stabile/render/vector"
)

// grove returns the text of a design with the given number of parts: a plate
// with stacks of post, ball, post and ball in a square grid, so wide that none
// meets another. No two stacks are alike, so that every blank is one of its
// own.
func grove(parts int) string {
	const (
		stack = 4   // parts in a stack
		pitch = 500 // mm between stacks
	)
	stacks := (parts - 1 + stack - 1) / stack
	side := max(1, int(math.Ceil(math.Sqrt(float64(stacks)))))
	var b strings.Builder
	fmt.Fprintf(&b, "sculpture \"Grove of %d\"\nunits mm\n", parts)
	b.WriteString("metal skin { alloy low-carbon-steel, gauge 18 }\n")
	b.WriteString("metal slab { alloy low-carbon-steel, thickness 12 mm }\n")
	b.WriteString("adjust rise = 600 mm from 400 mm to 900 mm\n")
	fmt.Fprintf(&b, "base pad { plate %[1]d by %[1]d, metal slab, anchors 4, anchor_diameter 14, anchor_edge 40 }\n", side*pitch)
	left := parts - 1
	for i := range stacks {
		x := pitch * (float64(i%side) - float64(side-1)/2)
		y := pitch * (float64(i/side) - float64(side-1)/2)
		kinds := []string{
			"post mast%[1]d on pad { at (%.0[2]f, %.0[3]f), diameter %.1[4]f, length rise + %.1[4]f, lean 2 deg toward %.0[5]f deg, metal skin }\n",
			"ball moon%[1]d on mast%[1]d { diameter %.1[6]f, gores 8, offset 4 toward %.0[5]f deg, metal skin }\n",
			"post spur%[1]d on moon%[1]d { diameter %.1[7]f, length 200 + %.1[7]f, offset 12 toward %.0[5]f deg, metal skin }\n",
			"ball star%[1]d on spur%[1]d { diameter %.1[8]f, gores 6, metal skin }\n",
		}
		for _, k := range kinds[:min(left, stack)] {
			n := float64(i)
			fmt.Fprintf(&b, k, i+1, x, y, 70+0.2*n, math.Mod(37*n, 360), 240+0.3*n, 45+0.1*n, 120+0.2*n)
		}
		left -= min(left, stack)
	}
	b.WriteString("site { push 200 N at 600 mm, slope 1 deg }\nrequire tipping >= 1.5\nrequire weight <= 20000 kg\n")
	return b.String()
}

const groveName = "grove.stabile"

func files(text string) fs.FS {
	return fstest.MapFS{groveName: {Data: []byte(text)}}
}

func mustLoad(tb testing.TB, text string) *design.Design {
	tb.Helper()
	d, err := param.Load(files(text), groveName, param.Options{})
	if err != nil {
		tb.Fatalf("%v\n%s", err, text)
	}
	return d
}

func mustBuild(tb testing.TB, d *design.Design) *fab.Job {
	tb.Helper()
	j, wrong := fab.Build(d, fab.Everything)
	if err := wrong.Err(); err != nil {
		tb.Fatal(err)
	}
	return j
}

// The groves that are measured are what they are said to be.
func TestGrove(t *testing.T) {
	for _, parts := range []int{2, 5, 10, 30, 100} {
		d := mustLoad(t, grove(parts))
		if len(d.Parts) != parts {
			t.Errorf("grove(%d) has %d parts", parts, len(d.Parts))
		}
		j := mustBuild(t, d)
		var b bytes.Buffer
		if err := terminal.Report(&b, j, terminal.Style{}); err != nil {
			t.Error(err)
		}
		for line := range strings.Lines(b.String()) {
			if n := len([]rune(line)) - 1; n > 100 {
				t.Errorf("grove(%d): a line of %d columns: %s", parts, n, line)
			}
		}
	}
}

// sizes are the numbers of parts that the chain is measured with.
var sizes = [...]int{10, 100}

func each(b *testing.B, run func(b *testing.B, text string)) {
	for _, parts := range sizes {
		b.Run(fmt.Sprintf("%d_parts", parts), func(b *testing.B) {
			b.ReportAllocs()
			run(b, grove(parts))
		})
	}
}

func BenchmarkParse(b *testing.B) {
	each(b, func(b *testing.B, text string) {
		b.SetBytes(int64(len(text)))
		for b.Loop() {
			if _, wrong := syntax.Parse(source.NewFile(groveName, text)); len(wrong) > 0 {
				b.Fatal(wrong.Err())
			}
		}
	})
}

// Load is parsing and evaluation.
func BenchmarkLoad(b *testing.B) {
	each(b, func(b *testing.B, text string) {
		fsys := files(text)
		for b.Loop() {
			if _, err := param.Load(fsys, groveName, param.Options{}); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// Fabricate is blanks, weights, collisions, tipping and requirements.
func BenchmarkFabricate(b *testing.B) {
	each(b, func(b *testing.B, text string) {
		d := mustLoad(b, text)
		for b.Loop() {
			mustBuild(b, d)
		}
	})
}

func BenchmarkReport(b *testing.B) {
	each(b, func(b *testing.B, text string) {
		j := mustBuild(b, mustLoad(b, text))
		for b.Loop() {
			if err := terminal.Report(io.Discard, j, terminal.Style{}); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkReportJSON(b *testing.B) {
	each(b, func(b *testing.B, text string) {
		j := mustBuild(b, mustLoad(b, text))
		for b.Loop() {
			if err := report.Of(j).WriteJSON(io.Discard); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// Draw is the sheets of the print pack, without writing them out.
func BenchmarkDraw(b *testing.B) {
	each(b, func(b *testing.B, text string) {
		j := mustBuild(b, mustLoad(b, text))
		for b.Loop() {
			pack.Sheets(j, pack.Options{})
		}
	})
}

// PrintPack is all from the text to the bytes of the PDF and of every SVG, for
// a piece of 30 parts.
func BenchmarkPrintPack(b *testing.B) {
	const parts = 30
	b.ReportAllocs()
	text := grove(parts)
	for b.Loop() {
		j := mustBuild(b, mustLoad(b, text))
		writeOut(b, pack.Sheets(j, pack.Options{}))
	}
}

func writeOut(b *testing.B, sheets []*ink.Sheet) {
	if _, err := vector.PDF(sheets, vector.Info{Title: "grove"}); err != nil {
		b.Fatal(err)
	}
	for _, s := range sheets {
		if _, err := vector.SVG(s); err != nil {
			b.Fatal(err)
		}
	}
}
