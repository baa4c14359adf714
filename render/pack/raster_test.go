package pack_test

import (
	"bufio"
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"stabile/param/external"
	"stabile/render/ink"
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

// TestSameInBothFormats has a browser print the SVGs of the examples' sheets, one
// program draw that and our PDF as dots, and compares them dot by dot. With
// -every-sheet, or where reference tools are required, it takes every sheet.
func TestSameInBothFormats(t *testing.T) {
	browser, reader := external.Tool(t, "chromium"), external.Tool(t, "pdftoppm")
	every := 5
	if *everySheet || external.Required() {
		every = 1
	}
	var (
		hold  sync.Mutex
		worst float64
		where string
		count int
	)
	t.Cleanup(func() {
		t.Logf("%d sheets at %d dpi: worst is %s, where %.3f %% of dots differ by more than half", count, resolution, where, 100*worst)
	})
	var jobs [][]*ink.Sheet // by example, the sheets to compare
	var all []*ink.Sheet
	list := append(examples(t), stack())
	for _, e := range list {
		var sheets []*ink.Sheet
		for i, s := range e.sheets() {
			if i%every == 0 {
				sheets = append(sheets, s)
			}
		}
		jobs, all = append(jobs, sheets), append(all, sheets...)
	}
	// One browser prints them all: it takes as long to start as to print fifty sheets.
	dir := t.TempDir()
	theirs := filepath.Join(dir, "theirs.pdf")
	print(t, browser, all, dir, theirs)
	page := 1
	for i, e := range list {
		sheets, first := jobs[i], page
		page += len(sheets)
		t.Run(e.name, func(t *testing.T) {
			t.Parallel()
			document, err := vector.PDF(sheets, vector.Info{})
			if err != nil {
				t.Fatal(err)
			}
			ours := filepath.Join(t.TempDir(), "ours.pdf")
			if err := os.WriteFile(ours, document, 0o644); err != nil {
				t.Fatal(err)
			}
			left, right := open(t, reader, ours, 1, len(sheets)), open(t, reader, theirs, first, len(sheets))
			for _, s := range sheets {
				a, b := left.next(t), right.next(t)
				if max(a.width-b.width, b.width-a.width, a.height-b.height, b.height-a.height) > finer {
					t.Fatalf("%s, %s: %d by %d dots, and %d by %d", e.name, s.Name, a.width, a.height, b.width, b.height)
				}
				share := compare(a, b)
				hold.Lock()
				count++
				if share >= worst {
					worst, where = share, e.name+", "+s.Name
				}
				hold.Unlock()
				if share > mostApart {
					t.Errorf("%s, %s: %.3f %% of dots differ", e.name, s.Name, 100*share)
				}
			}
			left.end(t)
			right.end(t)
		})
	}
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
	ctx, cancel := context.WithTimeout(t.Context(), 8*time.Minute)
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

// A document is the pages of a PDF, one after the other, drawn as dots.
type document struct {
	program *exec.Cmd
	out     *bufio.Reader
	grey    []byte // of the page at hand: that of the one before is written over
}

// open has a program draw a number of pages of a PDF, from the first that is wanted.
func open(t *testing.T, program, file string, first, pages int) *document {
	t.Helper()
	d := &document{program: exec.CommandContext(t.Context(), program, "-r", fmt.Sprint(resolution*finer), "-gray",
		"-f", fmt.Sprint(first), "-l", fmt.Sprint(first+pages-1), file)}
	out, err := d.program.StdoutPipe()
	if err == nil {
		err = d.program.Start()
	}
	if err != nil {
		t.Fatalf("%s: %v", program, err)
	}
	d.out = bufio.NewReaderSize(out, 1<<20)
	return d
}

// next returns the next page, which is good until the one after.
func (d *document) next(t *testing.T) raster {
	t.Helper()
	var r raster
	var most int
	if _, err := fmt.Fscanf(d.out, "P5\n%d %d\n%d\n", &r.width, &r.height, &most); err != nil || most != 255 {
		t.Fatalf("not a picture of grey dots: %v, white is %d", err, most)
	}
	d.grey = slices.Grow(d.grey[:0], r.width*r.height)[:r.width*r.height]
	r.grey = d.grey
	if _, err := io.ReadFull(d.out, r.grey); err != nil {
		t.Fatal(err)
	}
	return r
}

// end holds that there are no more pages.
func (d *document) end(t *testing.T) {
	t.Helper()
	if rest, err := io.Copy(io.Discard, d.out); rest > 0 || err != nil {
		t.Errorf("%d bytes follow the last page; %v", rest, err)
	}
	if err := d.program.Wait(); err != nil {
		t.Error(err)
	}
}

// compare returns the share of dots that differ by more than half. A browser
// rounds the size of its page: where the pictures do not agree as they are, the
// one is laid on the other a fine dot to the side or higher.
func compare(a, b raster) float64 {
	share := differing(a.from(0, 0), b.from(0, 0))
	if share <= mostApart {
		return share
	}
	for dx := -1; dx <= 1; dx++ {
		for dy := -1; dy <= 1; dy++ {
			share = min(share, differing(a.from(max(dx, 0), max(dy, 0)), b.from(max(-dx, 0), max(-dy, 0))))
		}
	}
	return share
}

// A corner is a picture from a dot of it on.
type corner struct {
	raster
	x, y int
}

func (r raster) from(x, y int) corner { return corner{r, x, y} }

// row returns a number of dots of a row, x and y being counted from the corner.
func (c corner) row(x, y, n int) []byte { return c.grey[(c.y+y)*c.width+c.x+x:][:n] }

// dot returns the grey of dot x, y at the resolution: the mean of its fine ones.
func (c corner) dot(x, y int) int {
	sum := 0
	for dy := range finer {
		for _, g := range c.row(x*finer, y*finer+dy, finer) {
			sum += int(g)
		}
	}
	return sum / (finer * finer)
}

// differing returns the share of dots at the resolution that differ by more than
// half. One picture may have a row more, where its page was rounded up. Stretches of
// dots that are all alike, as white paper is, are passed over at once.
func differing(a, b corner) float64 {
	const stretch = 64
	w, h := min((a.width-a.x)/finer, (b.width-b.x)/finer), min((a.height-a.y)/finer, (b.height-b.y)/finer)
	n := 0
	for y := range h {
		for from := 0; from < w; from += stretch {
			to := min(from+stretch, w)
			alike := true
			for dy := 0; dy < finer && alike; dy++ {
				alike = bytes.Equal(a.row(from*finer, y*finer+dy, (to-from)*finer), b.row(from*finer, y*finer+dy, (to-from)*finer))
			}
			for x := from; x < to && !alike; x++ {
				if d := a.dot(x, y) - b.dot(x, y); d > half || d < -half {
					n++
				}
			}
		}
	}
	return float64(n) / float64(w*h)
}
