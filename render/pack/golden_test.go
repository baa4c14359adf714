package pack_test

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"stabile/param/quantity"
	"stabile/render/internal/sample"
	"stabile/render/pack"
)

var update = flag.Bool("update", false, "write the goldens anew")

// TestGolden compares the pack of the small stack, sheet by sheet, with what
// was last looked at and found good.
func TestGolden(t *testing.T) {
	sheets := pack.Sheets(sample.Job(sample.Stack(quantity.Inch)), pack.Options{Date: "2026-01-31"})
	var all strings.Builder
	for _, s := range sheets {
		all.WriteString(s.String())
	}
	for _, g := range []struct{ name, got string }{{"stack.txt", all.String()}} {
		path := filepath.Join("testdata", g.name)
		if *update {
			if err := os.MkdirAll("testdata", 0o755); err != nil {
				t.Fatal(err)
			}
			if err := os.WriteFile(path, []byte(g.got), 0o644); err != nil {
				t.Fatal(err)
			}
			continue
		}
		want, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if string(want) == g.got {
			continue
		}
		t.Errorf("%s differs (run with -update and look at it):", g.name)
		wants, gots := strings.Split(string(want), "\n"), strings.Split(g.got, "\n")
		shown := 0
		for i := 0; i < max(len(wants), len(gots)) && shown < 6; i++ {
			a, b := at(wants, i), at(gots, i)
			if a != b {
				shown++
				t.Logf("line %d\n got %.200s\nwant %.200s", i+1, b, a)
			}
		}
	}
}

func at(lines []string, i int) string {
	if i < len(lines) {
		return lines[i]
	}
	return ""
}

// TestSameBytes draws the same job many times: maps and the clock must not
// show.
func TestSameBytes(t *testing.T) {
	j := sample.Job(sample.Random(9, 20, quantity.Millimetre))
	var first string
	for i := range 10 {
		var all strings.Builder
		for _, s := range pack.Sheets(j, pack.Options{}) {
			all.WriteString(s.String())
		}
		if i == 0 {
			first = all.String()
		} else if all.String() != first {
			t.Fatalf("pack %d differs from the first", i+1)
		}
	}
}
