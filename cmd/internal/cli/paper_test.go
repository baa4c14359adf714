package cli

import (
	"bytes"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// pageSizes returns the sizes of the pages of a PDF in mm, the short side first.
func pageSizes(t *testing.T, path string) [][2]float64 {
	t.Helper()
	text, err := os.ReadFile(path)
	require.NoError(t, err)
	var sizes [][2]float64
	for _, m := range regexp.MustCompile(`/MediaBox ?\[ ?0 0 ([\d.]+) ([\d.]+) ?\]`).FindAllSubmatch(text, -1) {
		w, err := strconv.ParseFloat(string(m[1]), 64)
		require.NoError(t, err)
		h, err := strconv.ParseFloat(string(m[2]), 64)
		require.NoError(t, err)
		const point = 25.4 / 72
		sizes = append(sizes, [2]float64{min(w, h) * point, max(w, h) * point})
	}
	require.NotEmpty(t, sizes, "no pages in %s", path)
	return sizes
}

// TestShopPaper: papers are of the size that the design's shop says, unless a flag
// says another; where neither does, that of the units.
func TestShopPaper(t *testing.T) {
	a4, a3, a1, tabloid := [2]float64{210, 297}, [2]float64{297, 420}, [2]float64{594, 841}, [2]float64{279.4, 431.8}
	const full = "--full-size"
	for _, tt := range []struct {
		call, shop string
		first      [2]float64 // of the first page
		last       [2]float64 // of the last
	}{
		{"draw", "", a3, a4},
		{"draw", "shop { paper A1 }", a1, a4},
		{"draw", "shop { paper tabloid }", tabloid, a4},
		{"draw --paper A3", "shop { paper A1 }", a3, a4},
		{"offer", "", a4, a4},
		{"offer", "shop { paper A3 }", a4, a4},
		{"offer --paper A3", "shop { paper A1 }", a3, a3},
		{"vary", "", a3, a3},
		{"vary", "shop { paper A1 }", a1, a1},
		{"vary --paper tabloid", "shop { paper A1 }", tabloid, tabloid},
		{"draw " + full, "", a4, a4},
		{"draw " + full, "shop { paper A1, printer { paper tabloid } }", tabloid, tabloid},
		{"draw " + full + " --printer A4", "shop { paper A1, printer { paper tabloid } }", a4, a4},
	} {
		dir := t.TempDir()
		design, out := filepath.Join(dir, "first.stabile"), filepath.Join(dir, "out.pdf")
		put(t, design, `sculpture "First"
units mm
metal skin { alloy low-carbon-steel, thickness 1.2 mm }
metal slab { alloy low-carbon-steel, thickness 8 mm }
base pad { plate 400 by 400, metal slab }
post mast on pad { diameter 60, length 500, metal skin }
variation "as it is" { }
`+tt.shop+"\n")
		var stdout, stderr bytes.Buffer
		words := strings.Fields(tt.call)
		args := append([]string{words[0], design, "-o", out}, words[1:]...)
		if status := Run(args, nil, &stdout, &stderr, noEnv); status == statusWrong {
			t.Errorf("%s, %s: %s", tt.call, tt.shop, stderr.String())
			continue
		}
		sizes := pageSizes(t, out)
		for i, want := range [2][2]float64{tt.first, tt.last} {
			got := sizes[i*(len(sizes)-1)]
			if math.Abs(got[0]-want[0]) > 0.1 || math.Abs(got[1]-want[1]) > 0.1 {
				t.Errorf("%s, %q: page %d of %d is %.1f × %.1f mm, want %v", tt.call, tt.shop, i*(len(sizes)-1)+1, len(sizes), got[0], got[1], want)
			}
		}
	}
}

// TestShopPrinter: margins and overlap of the printer change how many pages the patterns of a taper
// take, and what leaves nothing is reported and writes nothing.
func TestShopPrinter(t *testing.T) {
	for _, tt := range []struct {
		printer string
		pages   int // with the one that says how; 0 for none at all
	}{
		{"", 9},
		{"printer { paper A4 }", 9},
		{"printer { paper A4, margin 20 mm }", 13},
		{"printer { paper A4, overlap 60 mm }", 11},
		{"printer { paper A4, margin 40 mm, overlap 60 mm }", 0},
	} {
		dir := t.TempDir()
		design, out := filepath.Join(dir, "first.stabile"), filepath.Join(dir, "out.pdf")
		put(t, design, `sculpture "First"
units mm
metal skin { alloy low-carbon-steel, thickness 1.5 mm }
metal slab { alloy low-carbon-steel, thickness 5 mm }
base pad { plate 240 by 240, metal slab }
post mast on pad { diameter 100 to 99, length 900, lean 3 deg toward 0 deg, metal skin }
shop { `+tt.printer+" }\n")
		var stdout, stderr bytes.Buffer
		status := Run([]string{"draw", design, "--full-size", "-o", out}, nil, &stdout, &stderr, noEnv)
		if tt.pages == 0 {
			_, err := os.Stat(out)
			if status != statusWrong || !os.IsNotExist(err) || !strings.Contains(stderr.String(), "overlap by 49 mm at most") {
				t.Errorf("%q: exit status %d, %v: %s", tt.printer, status, err, stderr.String())
			}
			continue
		}
		if status == statusWrong {
			t.Errorf("%q: %s", tt.printer, stderr.String())
			continue
		}
		if got := len(pageSizes(t, out)); got != tt.pages {
			t.Errorf("%q: %d pages, want %d", tt.printer, got, tt.pages)
		}
	}
}
