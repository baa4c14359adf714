package contact_test

import (
	"context"
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/study"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/source"
	"stabile/render/contact"
	"stabile/render/ink"
	"stabile/render/picture"
	"stabile/render/sheet"
	"stabile/render/vector"
)

const text = `sculpture "Lantern"
units inch
adjust rise = 36 in from 24 in to 60 in step 1 in
adjust crown = 12 in from 3 in to 20 in
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 3/8 in }
base pad { plate 24 in by 20 in, metal slab }
post mast on pad { diameter 4 in, length rise, metal skin }
ball moon on mast { diameter crown, gores 10, metal skin }
site { wind 60 mph, exposure B, method asce7 }
require tipping >= 0.8
require weight <= 65 lb "two people carry it"
`

// studied tries some variations; the first, with a ball that is too small, cannot
// be made.
func studied(t *testing.T, sweeps ...string) (*study.Study, *design.Design, []study.Result) {
	t.Helper()
	s := &study.Study{
		Options: param.Options{Sweep: sweeps, Ask: []param.Question{{From: "--plot", Text: "weight"}, {From: "--plot", Text: "tipping"}}},
		Load: func(o param.Options) (*design.Design, error) {
			d, wrong := param.Evaluate(source.NewFile("lantern.stabile", text), o)
			return d, wrong.Err()
		},
	}
	d, err := s.Load(s.Options)
	if err != nil {
		t.Fatal(err)
	}
	trials, err := study.Grid(d, d.Sweeps)
	if err != nil {
		t.Fatal(err)
	}
	results, err := s.Run(context.Background(), trials)
	if err != nil {
		t.Fatal(err)
	}
	return s, d, results
}

func entries(t *testing.T, s *study.Study, results []study.Result) []contact.Entry {
	t.Helper()
	list := make([]contact.Entry, len(results))
	for i, r := range results {
		list[i].Result = r
		if r.Err != nil {
			continue
		}
		j, err := s.Job(r.Trial)
		if err != nil {
			t.Fatal(err)
		}
		list[i].Job, list[i].Result = j, r.Planned(j)
	}
	return list
}

// clean reports what a draughtsman would send back: writing that is too small,
// that meets other writing or a line, or that leaves the frame.
func clean(t *testing.T, s *ink.Sheet) {
	t.Helper()
	var said []string
	var boxes []r2.Box
	for _, item := range s.Items {
		w, ok := item.(*ink.Text)
		if !ok {
			continue
		}
		if w.Height < sheet.Small {
			t.Errorf("%s: %q is %v mm high", s.Name, w.Text, w.Height)
		}
		b := r2.Box{Min: r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, Max: r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}}
		for _, p := range w.Box() {
			b.Min = r2.Vec{X: min(b.Min.X, p.X), Y: min(b.Min.Y, p.Y)}
			b.Max = r2.Vec{X: max(b.Max.X, p.X), Y: max(b.Max.Y, p.Y)}
		}
		for i, o := range boxes {
			if b.Min.X < o.Max.X && o.Min.X < b.Max.X && b.Min.Y < o.Max.Y && o.Min.Y < b.Max.Y {
				t.Errorf("%s: %q meets %q", s.Name, w.Text, said[i])
			}
		}
		if b.Min.X < 10 || b.Min.Y < 5 || b.Max.X > s.Width-5 || b.Max.Y > s.Height-5 {
			t.Errorf("%s: %q leaves the paper's margins", s.Name, w.Text)
		}
		said, boxes = append(said, w.Text), append(boxes, b)
	}
	for _, item := range s.Items {
		var path []r2.Vec
		switch it := item.(type) {
		case *ink.Stroke:
			path = it.Path
			if it.Closed {
				path = append(path[:len(path):len(path)], path[0])
			}
		case *ink.Arc:
			const chords = 64
			for i := range chords + 1 {
				path = append(path, it.At(it.From+(it.To-it.From)*float64(i)/chords))
			}
		case *ink.Fill:
			path = append(it.Path[:len(it.Path):len(it.Path)], it.Path[0])
		}
		for i := 1; i < len(path); i++ {
			for k, b := range boxes {
				if crosses(path[i-1], path[i], b) {
					t.Errorf("%s: a line runs through %q", s.Name, said[k])
				}
			}
		}
	}
}

// crosses reports whether a line goes through a box.
func crosses(p, q r2.Vec, b r2.Box) bool {
	from, to := 0.0, 1.0
	for _, axis := range [][4]float64{{p.X, q.X, b.Min.X, b.Max.X}, {p.Y, q.Y, b.Min.Y, b.Max.Y}} {
		at, d := axis[0], axis[1]-axis[0]
		if d == 0 {
			if at <= axis[2] || at >= axis[3] {
				return false
			}
			continue
		}
		t0, t1 := (axis[2]-at)/d, (axis[3]-at)/d
		from, to = max(from, min(t0, t1)), min(to, max(t0, t1))
	}
	return from < to
}

// number is how the writing under a drawing begins.
var number = regexp.MustCompile(`^(\d+)\. `)

// TestSheets: every variation stands on the sheets once, with its figures and
// what fails, on every paper, one page or several.
func TestSheets(t *testing.T) {
	s, d, results := studied(t, "rise step 9 in", "crown values 6")
	list := entries(t, s, results)
	for _, size := range []string{"", "A4", "A3", "A1", "letter", "ANSI D"} {
		for _, one := range []bool{false, true} {
			o := contact.Options{Said: "30 variations tried.", One: one, Date: "2027-05-03"}
			if size != "" {
				p, _ := sheet.LookupPaper(size)
				o.Paper = p.Landscape()
			}
			sheets, err := contact.Sheets(d, list, o)
			if err != nil {
				t.Errorf("%s: %v", size, err)
				continue
			}
			if one && len(sheets) != 1 {
				t.Errorf("%s: %d pages in the place of one", size, len(sheets))
			}
			count := map[string]int{}
			for _, page := range sheets {
				clean(t, page)
				for _, item := range page.Items {
					if w, ok := item.(*ink.Text); ok {
						if m := number.FindStringSubmatch(w.Text); m != nil {
							count[m[1]]++
						}
						if strings.HasPrefix(w.Text, "FAILS") {
							count["fails"]++
						}
					}
				}
			}
			fails := 0
			for _, r := range results {
				if n := count[fmt.Sprint(r.Number)]; n != 1 {
					t.Errorf("%s, one page %v: variation %d is there %d times", size, one, r.Number, n)
				}
				if len(r.Failed) > 0 {
					fails++
				}
			}
			if fails == 0 || count["fails"] != fails {
				t.Errorf("%s, one page %v: %d are told to fail, want %d, and more than 0", size, one, count["fails"], fails)
			}
		}
	}
}

// TestOneScale: elevations are drawn to one scale: a mast twice as long is twice
// as long on paper.
func TestOneScale(t *testing.T) {
	s, d, results := studied(t, "rise from 30 in to 60 in step 30 in")
	sheets, err := contact.Sheets(d, entries(t, s, results), contact.Options{})
	if err != nil {
		t.Fatal(err)
	}
	longest := map[int]float64{}
	for _, item := range sheets[0].Items {
		if l, ok := item.(*ink.Stroke); ok && l.Line == ink.Outline && len(l.Path) == 2 && l.Path[0].X == l.Path[1].X {
			cell := int(l.Path[0].X-20) / 65
			longest[cell] = max(longest[cell], math.Abs(l.Path[1].Y-l.Path[0].Y))
		}
	}
	// What the balls hide of the masts is the same of both.
	if r := longest[1] / longest[0]; math.Abs(r-2) > 0.05 {
		t.Errorf("masts of 30 and 60 in are drawn %v mm and %v mm long", longest[0], longest[1])
	}
}

func TestPlot(t *testing.T) {
	_, d, results := studied(t, "rise step 6 in", "crown values 6")
	x, y := contact.NewAxis(d, 1), contact.NewAxis(d, 0)
	page, err := contact.Plot(d, results, x, y, contact.Options{})
	if err != nil {
		t.Fatal(err)
	}
	clean(t, page)
	full, rings, both := 0, 0, 0
	for _, item := range page.Items {
		switch it := item.(type) {
		case *ink.Fill:
			full++
		case *ink.Arc:
			if it.Radius < 1 {
				rings++
			}
		}
	}
	do := 0
	for _, r := range results {
		if r.Err == nil {
			both++
			if r.OK {
				do++
			}
		}
	}
	if rings != both-do || full < do || do == 0 || both == do {
		t.Errorf("%d points and %d rings for %d variations, of which %d do", full, rings, both, do)
	}
	if _, err := contact.Plot(d, results[:1], x, y, contact.Options{}); err == nil {
		t.Error("a plot without points")
	}
}

// TestPictures: pictures are all of one size and go into the file.
func TestPictures(t *testing.T) {
	s, d, results := studied(t, "rise step 18 in", "crown from 8 in to 8 in")
	list := entries(t, s, results)
	if err := contact.Picture(context.Background(), list, 60, 60, picture.Options{Sketch: true}); err != nil {
		t.Fatal(err)
	}
	sheets, err := contact.Sheets(d, list, contact.Options{})
	if err != nil {
		t.Fatal(err)
	}
	pictures := 0
	for _, item := range sheets[0].Items {
		if m, ok := item.(*ink.Image); ok && m.Image.Bounds().Dx() == 60 {
			pictures++
		}
	}
	if pictures != len(results) {
		t.Errorf("%d pictures of %d variations", pictures, len(results))
	}
	if _, err := vector.PDF(sheets, vector.Info{Title: "x"}); err != nil {
		t.Error(err)
	}
}
