package pack_test

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/param/quantity"
	"stabile/render/internal/sample"
	"stabile/render/pack"
	"stabile/render/sheet"
	"stabile/render/vector"
)

// true1to1 is how far, in mm, anything measured on a written file may be off.
const true1to1 = 0.02

func printerPaper(t testing.TB, name string) sheet.Paper {
	t.Helper()
	p, ok := sheet.LookupPaper(name)
	if !ok {
		t.Fatalf("no paper %q", name)
	}
	return p
}

// patternJobs are what the patterns are tried on.
func patternJobs(t *testing.T) []example {
	jobs := examples(t)
	for seed := range uint64(6) {
		units := []quantity.System{quantity.Millimetre, quantity.Inch}[seed%2]
		jobs = append(jobs, example{fmt.Sprintf("tree %d", seed), sample.Job(sample.Random(seed, 4+int(seed)*3, units))})
	}
	metal := "metal skin { alloy low-carbon-steel, gauge 18 }\nmetal slab { alloy low-carbon-steel, thickness 12 mm }\n"
	return append(jobs,
		example{"disc", text(t, onePost)},
		example{"halves", text(t, oneBall)},
		example{"small", text(t, "sculpture \"Small\"\nunits mm\n"+metal+"base pad { plate 40 by 30, metal skin }\npost p on pad { diameter 8, length 20, metal skin }\nball o on p { diameter 14, halves, metal skin }\n")},
		example{"wide disc", text(t, "sculpture \"Wide\"\nunits mm\n"+metal+"base pad { disc 1200, anchors 5, anchor_diameter 14, anchor_edge 40, metal slab }\npost p on pad { diameter 80, length 900, metal skin }\n")},
	)
}

// TestPatternsMeasured writes the patterns as PDF, reads the lines back from
// it, and measures: the proof bars of every sheet, and the outline of each
// blank when its tiles are cut and laid over each other by their registration
// marks, as the first sheet says.
func TestPatternsMeasured(t *testing.T) {
	papers := []string{"letter", "A4", "tabloid", "A3"}
	var sheets, points int
	worst := 0.0
	for i, e := range patternJobs(t) {
		o := pack.PatternOptions{Paper: printerPaper(t, papers[i%4]), Long: i%5 == 4}
		drawing := pack.Patterns(e.job, o)
		pdf, err := vector.PDF(drawing, vector.Info{})
		if err != nil {
			t.Fatal(err)
		}
		pages := readPDF(t, pdf)
		if len(pages) != len(drawing) {
			t.Fatalf("%s: %d pages, want %d", e.name, len(pages), len(drawing))
		}
		pieces := map[string][]*tile{}
		for p, s := range drawing {
			if !bare(s) {
				continue
			}
			sheets++
			tl := newTile(t, s, pages[p])
			pieces[tl.piece] = append(pieces[tl.piece], tl)
			for _, want := range [2]float64{100, 4 * 25.4} {
				if off := proofBar(pages[p], want); !(off <= true1to1) {
					t.Errorf("%s, %s: the proof bar of %v mm is off by %v", e.name, s.Name, want, off)
				}
			}
		}
		for _, c := range e.job.Cuts() {
			if len(c.Blank.Outline) == 0 {
				continue
			}
			name := c.Names[0]
			if n := len(c.Names) - 1; n > 0 {
				name = fmt.Sprintf("%s and %d more", name, n)
			}
			n, off := assemble(t, e.name+", "+name, pieces[name], &c)
			points += n
			worst = max(worst, off)
		}
	}
	t.Logf("%d sheets; %d points of outlines, the worst %.4f mm off", sheets, points, worst)
}

// proofBar returns how far the level line nearest to a length is off it.
func proofBar(page []drawn, want float64) float64 {
	best := math.Inf(1)
	for _, d := range page {
		if len(d.path) == 2 && math.Abs(d.path[0].Y-d.path[1].Y) < 1e-6 && d.path[0].Y < 16 {
			best = min(best, math.Abs(math.Abs(d.path[1].X-d.path[0].X)-want))
		}
	}
	return best
}

// TestPatternsAreClean holds the patterns to the rules of writing of all
// sheets, on every paper.
func TestPatternsAreClean(t *testing.T) {
	for _, e := range patternJobs(t) {
		for _, o := range []pack.PatternOptions{
			{}, {Paper: printerPaper(t, "A3")}, {Paper: printerPaper(t, "tabloid"), Overlap: 15}, {Long: true},
		} {
			got := check(pack.Patterns(e.job, o))
			if got.overlaps+got.outside+got.small+got.missing+got.onObject+got.onThin > 0 {
				t.Errorf("%s, %v: %d texts overlap, %d leave the page, %d are too small, %d lack letters, %d stand on edges, %d on other lines: %q",
					e.name, o, got.overlaps, got.outside, got.small, got.missing, got.onObject, got.onThin, got.first)
			}
		}
	}
}

// A hole in the middle of a large plate stands on a tile that has no edge of
// the plate; tiles lead to it.
func TestPatternsHangTogether(t *testing.T) {
	d := sample.New("Ring", quantity.Millimetre, 1200, 1000).Design
	j := sample.Job(d)
	b := &j.Parts[0].Blanks[0]
	b.Holes = append(b.Holes, flat.Hole{Center: r2.Vec{X: 11, Y: 7}, Diameter: 60, Outline: []r2.Vec{{X: 41, Y: 7}, {X: 11, Y: 37}, {X: -19, Y: 7}, {X: 11, Y: -23}}})
	drawing := pack.Patterns(j, pack.PatternOptions{})
	pdf, err := vector.PDF(drawing, vector.Info{})
	if err != nil {
		t.Fatal(err)
	}
	var tiles []*tile
	for i, page := range readPDF(t, pdf) {
		if bare(drawing[i]) {
			tiles = append(tiles, newTile(t, drawing[i], page))
		}
	}
	if n := len(tiles); n >= 35 {
		t.Errorf("%d tiles: no empty one is left out", n)
	}
	assemble(t, "ring", tiles, &j.Cuts()[0])
}

// A job with nothing to cut says so.
func TestPatternsOfNothing(t *testing.T) {
	j := sample.Job(sample.Stack(quantity.Inch))
	for i := range j.Parts {
		j.Parts[i].Blanks = nil
	}
	sheets := pack.Patterns(j, pack.PatternOptions{})
	if len(sheets) != 1 || !strings.Contains(sheets[0].String(), "nothing to cut") {
		t.Errorf("%d sheets: %v", len(sheets), sheets)
	}
	if files := pack.CutFiles(j); len(files) != 0 {
		t.Errorf("%d files to cut", len(files))
	}
}

// poppler finds on every sheet of a written PDF what must stand there.
func TestPatternsSay(t *testing.T) {
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		if os.Getenv("STABILE_REFERENCE") == "required" {
			t.Fatal("pdftotext is not installed")
		}
		t.Skip("pdftotext is not installed")
	}
	drawing := pack.Patterns(sample.Job(sample.Stack(quantity.Inch)), pack.PatternOptions{})
	pdf, err := vector.PDF(drawing, vector.Info{})
	if err != nil {
		t.Fatal(err)
	}
	file := filepath.Join(t.TempDir(), "patterns.pdf")
	if err := os.WriteFile(file, pdf, 0o666); err != nil {
		t.Fatal(err)
	}
	out, err := exec.Command(tool, "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	pages := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
	if len(pages) != len(drawing) {
		t.Fatalf("%d pages, want %d", len(pages), len(drawing))
	}
	for i, page := range pages {
		wanted := []string{"5a3c91f"}
		if bare(drawing[i]) {
			wanted = append(wanted, "100 mm", "4 in", "100 %", "actual size", "FACE UP", "Quantity", fmt.Sprintf("Sheet %d of %d", i+1, len(pages)))
		}
		for _, want := range wanted {
			if !strings.Contains(page, want) {
				t.Errorf("page %d lacks %q:\n%s", i+1, want, page)
			}
		}
	}
}

func BenchmarkPatterns(b *testing.B) {
	j := sample.Job(sample.Random(4, 30, quantity.Millimetre))
	b.Run("30", func(b *testing.B) {
		for b.Loop() {
			pack.Patterns(j, pack.PatternOptions{})
		}
	})
	b.Run("30 files", func(b *testing.B) {
		for b.Loop() {
			pack.CutFiles(j)
		}
	})
}
