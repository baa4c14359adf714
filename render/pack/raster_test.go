package pack_test

import (
	"context"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/internal/sample"
	"stabile/render/pack"
	"stabile/render/vector"
)

// How a sheet's two pictures are compared. They are drawn finer and then taken
// together, since a reader of PDF puts letters on whole dots.
const (
	resolution = 150   // dots to the inch
	finer      = 2     // times as many are drawn each way
	half       = 128   // grey levels of 255 by which a dot that is said to be the same may differ
	mostApart  = 0.005 // share of dots that may differ
)

var everySheet = flag.Bool("every-sheet", false, "compare every sheet of the examples in both formats, not each fifth")

// tool returns the path of an outside program. Where it is missing the test is
// skipped, unless reference tools are required.
func tool(t *testing.T, name string) string {
	t.Helper()
	path, err := exec.LookPath(name)
	if err != nil {
		if os.Getenv("STABILE_REFERENCE") == "required" {
			t.Fatalf("%s is not installed", name)
		}
		t.Skipf("%s is not installed", name)
	}
	return path
}

// TestSameInBothFormats has a browser print the SVGs of the examples' sheets, one
// program draw that and our PDF as dots, and compares them dot by dot. With
// -every-sheet, or where reference tools are required, it takes every sheet.
func TestSameInBothFormats(t *testing.T) {
	browser, reader := tool(t, "chromium"), tool(t, "pdftoppm")
	every := 5
	if *everySheet || os.Getenv("STABILE_REFERENCE") == "required" {
		every = 1
	}
	list := append(examples(t), example{"stack", sample.Job(sample.Stack(quantity.Inch))})
	var worst float64
	var where string
	count := 0
	for _, e := range list {
		var sheets []*ink.Sheet
		for i, s := range pack.Sheets(e.job, pack.Options{Date: "2026-01-31"}) {
			if i%every == 0 {
				sheets = append(sheets, s)
			}
		}
		document, err := vector.PDF(sheets, vector.Info{})
		if err != nil {
			t.Fatal(err)
		}
		dir := t.TempDir()
		ours, theirs := filepath.Join(dir, "ours.pdf"), filepath.Join(dir, "theirs.pdf")
		if err := os.WriteFile(ours, document, 0o644); err != nil {
			t.Fatal(err)
		}
		print(t, browser, sheets, dir, theirs)
		for i, s := range sheets {
			a, b := dots(t, reader, ours, i+1), dots(t, reader, theirs, i+1)
			if max(a.width-b.width, b.width-a.width, a.height-b.height, b.height-a.height) > finer {
				t.Fatalf("%s, %s: %d by %d dots, and %d by %d", e.name, s.Name, a.width, a.height, b.width, b.height)
			}
			share := compare(a, b)
			count++
			if share >= worst {
				worst, where = share, e.name+", "+s.Name
			}
			if share > mostApart {
				t.Errorf("%s, %s: %.3f %% of dots differ", e.name, s.Name, 100*share)
			}
		}
	}
	t.Logf("%d sheets at %d dpi: worst is %s, where %.3f %% of dots differ by more than half", count, resolution, where, 100*worst)
}

// print has a browser print sheets as SVG, a page for each.
func print(t *testing.T, program string, sheets []*ink.Sheet, dir, document string) {
	t.Helper()
	var head, body strings.Builder
	for i, s := range sheets {
		data, err := vector.SVG(s)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, fmt.Sprintf("%d.svg", i)), data, 0o644); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(&head, "@page p%d { size: %gmm %gmm; margin: 0 }\n", i, s.Width, s.Height)
		// A hair less than the page, or an empty one follows.
		fmt.Fprintf(&body, `<div style="page: p%d; width: %gmm; height: %gmm"><img src="%d.svg"></div>`+"\n", i, s.Width, s.Height-0.1, i)
	}
	page := "<!DOCTYPE html><style>body { margin: 0 } div { overflow: hidden } div + div { break-before: page } img { display: block }\n" + head.String() + "</style>\n" + body.String()
	file := filepath.Join(dir, "page.html")
	if err := os.WriteFile(file, []byte(page), 0o644); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithTimeout(t.Context(), 3*time.Minute)
	defer cancel()
	out, err := exec.CommandContext(ctx, program, "--headless", "--no-sandbox", "--disable-gpu", "--no-pdf-header-footer",
		"--user-data-dir="+filepath.Join(dir, "user"), "--print-to-pdf="+document, "file://"+file).CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
}

// A raster is a picture of grey dots, white 255.
type raster struct {
	width, height int
	grey          []byte
}

// dots returns a page of a document as dots.
func dots(t *testing.T, program, document string, page int) raster {
	t.Helper()
	n := fmt.Sprint(page)
	out, err := exec.Command(program, "-r", fmt.Sprint(resolution*finer), "-gray", "-f", n, "-l", n, document).Output()
	if err != nil {
		t.Fatalf("%s: %v", program, err)
	}
	var fine raster
	var most int
	if _, err := fmt.Sscanf(string(out[:min(len(out), 40)]), "P5\n%d %d\n%d", &fine.width, &fine.height, &most); err != nil || most != 255 {
		t.Fatalf("not a picture of grey dots: %q", out[:min(len(out), 40)])
	}
	fine.grey = out[len(out)-fine.width*fine.height:]
	return fine
}

// coarse returns the picture, from the given corner on, at the resolution.
func (r raster) coarse(x0, y0 int) raster {
	c := raster{width: (r.width - x0) / finer, height: (r.height - y0) / finer}
	c.grey = make([]byte, 0, c.width*c.height)
	for y := range c.height {
		for x := range c.width {
			sum := 0
			for dy := range finer {
				for _, g := range r.grey[(y0+y*finer+dy)*r.width+x0+x*finer:][:finer] {
					sum += int(g)
				}
			}
			c.grey = append(c.grey, byte(sum/(finer*finer)))
		}
	}
	return c
}

// compare returns the share of dots that differ by more than half. A browser
// rounds the size of its page: where the pictures do not agree as they are, the
// one is laid on the other a fine dot to the side or higher.
func compare(a, b raster) float64 {
	share := a.coarse(0, 0).differing(b.coarse(0, 0))
	if share <= mostApart {
		return share
	}
	for dx := -1; dx <= 1; dx++ {
		for dy := -1; dy <= 1; dy++ {
			share = min(share, a.coarse(max(dx, 0), max(dy, 0)).differing(b.coarse(max(-dx, 0), max(-dy, 0))))
		}
	}
	return share
}

// differing returns the share of dots that differ by more than half. One picture
// may have a row more, where its page was rounded up.
func (r raster) differing(s raster) float64 {
	w, h := min(r.width, s.width), min(r.height, s.height)
	n := 0
	for y := range h {
		a, b := r.grey[y*r.width:][:w], s.grey[y*s.width:][:w]
		for x := range a {
			if d := int(a[x]) - int(b[x]); d > half || d < -half {
				n++
			}
		}
	}
	return float64(n) / float64(w*h)
}
