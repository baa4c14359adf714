package pack_test

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/param/external"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/internal/inspect"
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

func patterns(t testing.TB, j *fab.Job, o pack.PatternOptions) []*ink.Sheet {
	t.Helper()
	sheets, err := pack.Patterns(j, o)
	if err != nil {
		t.Fatal(err)
	}
	return sheets
}

// marginOf returns what the printer of a job's shop leaves white, in mm: 1/4 in where
// the design does not say.
func marginOf(j *fab.Job) float64 {
	if s := j.Design.Shop; s != nil && s.Printer != nil {
		return s.Printer.Margin
	}
	return 6.35
}

var (
	patternOnce sync.Once
	patternList []example
)

// patternJobs are what the patterns are tried on, worked out once for all tests.
func patternJobs(t *testing.T) []example {
	t.Helper()
	patternOnce.Do(func() { patternList = makePatternJobs(t) })
	if len(patternList) == 0 {
		t.Fatal("the designs could not be worked out")
	}
	return patternList
}

func makePatternJobs(t *testing.T) []example {
	jobs := examples(t)
	for seed := range uint64(6) {
		units := []quantity.System{quantity.Millimetre, quantity.Inch}[seed%2]
		jobs = append(jobs, newExample(fmt.Sprintf("tree %d", seed), sample.Job(sample.Random(seed, 4+int(seed)*3, units))))
	}
	metal := "metal skin { alloy low-carbon-steel, gauge 18 }\nmetal slab { alloy low-carbon-steel, thickness 12 mm }\n"
	return append(jobs,
		newExample("disc", text(t, onePost)),
		newExample("halves", text(t, oneBall)),
		newExample("small", text(t, "sculpture \"Small\"\nunits mm\n"+metal+"base pad { plate 40 by 30, metal skin }\npost p on pad { diameter 8, length 20, metal skin }\nball o on p { diameter 14, halves, metal skin }\n")),
		newExample("wide margin", text(t, onePrinter+"shop { printer { paper A4, margin 30 mm, overlap 45 mm } }\n")),
		newExample("roll", text(t, onePrinter+"shop { printer { paper A4, roll 300 mm } }\n")),
		newExample("wide disc", text(t, "sculpture \"Wide\"\nunits mm\n"+metal+"base pad { disc 1200, anchors 5, anchor_diameter 14, anchor_edge 40, metal slab }\npost p on pad { diameter 80, length 900, metal skin }\n")),
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
		drawing := patterns(t, e.job, o)
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
			tl := newTile(t, s, pages[p], marginOf(e.job))
			pieces[tl.piece] = append(pieces[tl.piece], tl)
			for _, want := range [2]float64{100, 4 * 25.4} {
				if off := proofBar(pages[p], marginOf(e.job), want); !(off <= true1to1) {
					t.Errorf("%s, %s: the proof bar of %v mm is off by %v", e.name, s.Name, want, off)
				}
			}
		}
		for _, c := range e.job.Cuts {
			if len(c.Blank.Outline) == 0 || pack.ByMeasures(&c.Blank) {
				continue
			}
			name := strings.Join(c.Names, "; ")
			n, off := assemble(t, e.name+", "+name, pieces[name], &c)
			points += n
			worst = max(worst, off)
		}
	}
	t.Logf("%d sheets; %d points of outlines, the worst %.4f mm off", sheets, points, worst)
}

// proofBar returns how far the level line nearest to a length is off it.
func proofBar(page []drawn, margin, want float64) float64 {
	best := math.Inf(1)
	for _, d := range page {
		if len(d.path) == 2 && math.Abs(d.path[0].Y-d.path[1].Y) < 1e-6 && d.path[0].Y < margin+9.65 {
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
			inspect.Check(t, fmt.Sprintf("%s, %v", e.name, o), patterns(t, e.job, o)...)
		}
	}
}

// onePrinter is a post for trying printers: a taper, of which nothing is left out.
const onePrinter = "sculpture \"Printer\"\nunits mm\nmetal skin { alloy low-carbon-steel, thickness 1.5 mm }\nmetal slab { alloy low-carbon-steel, thickness 5 mm }\n" +
	"base pad { plate 240 by 240, metal slab }\npost mast on pad { diameter 100 to 99, length 900, lean 3 deg toward 0 deg, metal skin }\n"

// TestPatternsOnShopPrinter prints one design on the printers of several shops: the
// paper, the margin, the overlap and the roll are the shop's, unless a paper is asked
// for.
func TestPatternsOnShopPrinter(t *testing.T) {
	for _, tt := range []struct {
		shop          string
		o             pack.PatternOptions
		width, height float64 // of pages with tiles, upright; a height of 0 for as long as the piece
		count         int     // of them
		said          string
	}{
		{"", pack.PatternOptions{}, 210, 297, 8, ""},
		{"printer { paper A4 }", pack.PatternOptions{}, 210, 297, 8, ""},
		{"printer { paper A4, margin 20 mm }", pack.PatternOptions{}, 210, 297, 12, ""},
		{"printer { paper A4, overlap 60 mm }", pack.PatternOptions{}, 210, 297, 10, ""},
		{"printer { paper A4, margin 40 mm, overlap 60 mm }", pack.PatternOptions{}, 0, 0, 0, "tiles overlap by 49 mm at most, not 60 mm"},
		{"printer { paper tabloid, margin 1/4 in }", pack.PatternOptions{}, 279.4, 431.8, 4, ""},
		{"printer { paper tabloid, margin 1/4 in }", pack.PatternOptions{Paper: printerPaper(t, "A3")}, 297, 420, 4, ""},
		{"printer { paper A4, roll 24 in }", pack.PatternOptions{}, 609.6, 0, 1, ""},
		{"printer { paper A4, roll 300 mm }", pack.PatternOptions{}, 300, 0, 2, ""},
		{"printer { paper A4, roll 24 in }", pack.PatternOptions{Paper: printerPaper(t, "A4")}, 210, 297, 8, ""},
		{"printer { paper A4, margin 50 mm, overlap 100 mm }", pack.PatternOptions{}, 0, 0, 0, "tiles overlap by 39 mm at most"},
		{"printer { paper A4, roll 100 mm }", pack.PatternOptions{}, 0, 0, 0, "no room for a tile"},
	} {
		shop := ""
		if tt.shop != "" {
			shop = "shop { " + tt.shop + " }\n"
		}
		sheets, err := pack.Patterns(text(t, onePrinter+shop), tt.o)
		if tt.said != "" {
			if err == nil || !strings.Contains(err.Error(), tt.said) {
				t.Errorf("%s: %v, want %q", tt.shop, err, tt.said)
			}
			continue
		}
		if err != nil {
			t.Errorf("%s: %v", tt.shop, err)
			continue
		}
		count := 0
		var names []string
		for _, s := range sheets {
			if !bare(s) {
				continue
			}
			count++
			names = append(names, s.Name)
			w, h := min(s.Width, s.Height), max(s.Width, s.Height)
			if tt.height == 0 {
				w, h = s.Width, 0
			}
			if math.Abs(w-tt.width) > 1e-9 || math.Abs(h-tt.height) > 1e-9 {
				t.Errorf("%s: %s is %v × %v, want %v × %v", tt.shop, s.Name, s.Width, s.Height, tt.width, tt.height)
			}
		}
		if count != tt.count {
			t.Errorf("%s: %d pages with tiles, want %d %v", tt.shop, count, tt.count, names)
		}
	}
}

// A hole in the middle of a large plate stands on a tile that has no edge of
// the plate; tiles lead to it.
func TestPatternsHangTogether(t *testing.T) {
	d := sample.New("Ring", quantity.Millimetre, 1200, 1000).Design
	j := sample.Job(d)
	b := &j.Parts[0].Blanks[0]
	b.Holes = append(b.Holes, flat.Hole{Center: r2.Vec{X: 11, Y: 7}, Outline: []r2.Vec{{X: 41, Y: 7}, {X: 11, Y: 37}, {X: -19, Y: 7}, {X: 11, Y: -23}}})
	j.Cuts[0].Blank.Holes = b.Holes
	drawing := patterns(t, j, pack.PatternOptions{})
	pdf, err := vector.PDF(drawing, vector.Info{})
	if err != nil {
		t.Fatal(err)
	}
	var tiles []*tile
	for i, page := range readPDF(t, pdf) {
		if bare(drawing[i]) {
			tiles = append(tiles, newTile(t, drawing[i], page, marginOf(j)))
		}
	}
	if n := len(tiles); n >= 35 {
		t.Errorf("%d tiles: no empty one is left out", n)
	}
	assemble(t, "ring", tiles, &j.Cuts[0])
}

// A job with nothing to cut says so.
func TestPatternsOfNothing(t *testing.T) {
	j := text(t, "sculpture \"Bought\"\nunits mm\nbase b { feet }\nball o on b { diameter 200, bought 1.2 kg }\n")
	sheets := patterns(t, j, pack.PatternOptions{})
	if len(sheets) != 1 || !strings.Contains(sheets[0].String(), "nothing to cut") {
		t.Errorf("%d sheets, the first %.400v", len(sheets), sheets[0])
	}
	if files := pack.CutFiles(j, pack.PatternOptions{}); len(files) != 0 {
		t.Errorf("%d files to cut", len(files))
	}
}

// poppler finds on every sheet of a written PDF what must stand there.
func TestPatternsSay(t *testing.T) {
	tool := external.Tool(t, "pdftotext")
	drawing := patterns(t, sample.Job(sample.Stack(quantity.Inch)), pack.PatternOptions{})
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
			patterns(b, j, pack.PatternOptions{})
		}
	})
	b.Run("30 files", func(b *testing.B) {
		for b.Loop() {
			pack.CutFiles(j, pack.PatternOptions{})
		}
	})
}

// TestTilesNameTheirPieces looks for words cut short on the patterns of all designs on four
// papers, and for the names of the pieces on each tile: in full there or, of so many that
// they do not go in, on the first sheets.
func TestTilesNameTheirPieces(t *testing.T) {
	tiles := 0
	for _, e := range patternJobs(t) {
		known := map[string]bool{}
		for _, c := range e.job.Cuts {
			known[strings.Join(c.Names, "; ")] = true
		}
		for _, paper := range [...]string{"A4", "letter", "tabloid", "A3"} {
			first := "" // the words of the sheets that are no tiles
			for _, s := range patterns(t, e.job, pack.PatternOptions{Paper: printerPaper(t, paper), Overlap: 8}) {
				var words []string
				for _, item := range s.Items {
					if text, ok := item.(*ink.Text); ok {
						words = append(words, text.Text)
						if strings.Contains(text.Text, "…") {
							t.Errorf("%s on %s, sheet %s: %q is cut short", e.name, paper, s.Name, text.Text)
						}
					}
				}
				all := strings.Join(words, " ")
				_, name, ok := strings.Cut(s.Title, " of ")
				if !ok {
					name = s.Title
				}
				if !known[name] {
					first += all
					continue
				}
				tiles++
				if !strings.Contains(all, s.Title) && !(strings.Contains(all, "see the first sheet") && strings.Contains(first, name)) {
					t.Errorf("%s on %s: sheet %s does not name %q", e.name, paper, s.Name, s.Title)
				}
			}
		}
	}
	if tiles < 200 {
		t.Errorf("%d tiles looked at", tiles)
	}
}
