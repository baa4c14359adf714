package contact_test

import (
	"context"
	"fmt"
	"math"
	"regexp"
	"strings"
	"testing"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/study"
	"stabile/fab/wind"
	"stabile/param"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/render/contact"
	"stabile/render/ink"
	"stabile/render/internal/inspect"
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
		j, err := s.Job(r.Trial, fab.WithPlan)
		if err != nil {
			t.Fatal(err)
		}
		list[i].Job, list[i].Result = j, study.Of(r.Trial, r.Number, j)
	}
	return list
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
				inspect.Check(t, fmt.Sprintf("%s, one page %v", size, one), page)
				for _, item := range page.Items {
					if w, ok := item.(*ink.Text); ok {
						if m := number.FindStringSubmatch(w.Text); m != nil {
							count[m[1]]++
						}
						if strings.HasPrefix(w.Text, "Fails: ") {
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
				if r.Verdict == check.Fails {
					fails++
				}
			}
			if fails == 0 || count["fails"] != fails {
				t.Errorf("%s, one page %v: %d are told to fail, want %d, and more than 0", size, one, count["fails"], fails)
			}
		}
	}
}

// TestTwelve: twelve variations go on a letter page, with every figure whole.
func TestTwelve(t *testing.T) {
	s, d, results := studied(t, "rise step 9 in", "crown values 6")
	letter, _ := sheet.LookupPaper("letter")
	list := entries(t, s, results[:12])
	sheets, err := contact.Sheets(d, list, contact.Options{Paper: letter.Landscape()})
	if err != nil {
		t.Fatal(err)
	}
	if len(sheets) != 1 {
		t.Fatalf("%d pages", len(sheets))
	}
	figures := 0
	for _, item := range sheets[0].Items {
		if w, ok := item.(*ink.Text); ok {
			figures += strings.Count(w.Text, "high")
		}
	}
	made := 0
	for _, e := range list {
		if e.Job != nil {
			made++
		}
	}
	if figures != made {
		t.Errorf("%d heights of %d", figures, made)
	}
}

// TestGrid: few drawings are as large as any number of columns makes them: six
// pictures stand in two rows of three on the usual paper.
func TestGrid(t *testing.T) {
	s, d, results := studied(t, "rise from 30 in to 55 in step 5 in", "crown from 12 in to 12 in")
	list := entries(t, s, results)
	if err := contact.Picture(context.Background(), list, 40, 40, picture.Options{Sketch: true}); err != nil {
		t.Fatal(err)
	}
	rows, columns := map[int]bool{}, map[int]bool{}
	sheets, err := contact.Sheets(d, list, contact.Options{})
	if err != nil || len(sheets) != 1 {
		t.Fatal(len(sheets), err)
	}
	for _, item := range sheets[0].Items {
		if m, ok := item.(*ink.Image); ok {
			rows[int(m.Box.Min.Y)], columns[int(m.Box.Min.X)] = true, true
		}
	}
	if len(rows) != 2 || len(columns) != 3 {
		t.Errorf("%d rows of %d pictures, want 2 of 3", len(rows), len(columns))
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
			cell := int(l.Path[0].X / (sheets[0].Width / 2)) // two cells share the page
			longest[cell] = max(longest[cell], math.Abs(l.Path[1].Y-l.Path[0].Y))
		}
	}
	// What the balls hide of the masts is the same of both.
	if r := longest[1] / longest[0]; math.Abs(r-2) > 0.05 {
		t.Errorf("masts of 30 and 60 in are drawn %v mm and %v mm long", longest[0], longest[1])
	}
}

// written returns all that a sheet says.
func written(s *ink.Sheet) string {
	var all []string
	for _, item := range s.Items {
		if w, ok := item.(*ink.Text); ok {
			all = append(all, w.Text)
		}
	}
	return strings.Join(all, " ")
}

// TestPlotUnchecked: what was not checked is a ring, not a cross nor a full point.
func TestPlotUnchecked(t *testing.T) {
	at := func(x float64) []fab.Answer {
		return []fab.Answer{{Answer: design.Answer{Number: quantity.Quantity{Number: x}}}, {}}
	}
	results := []study.Result{
		{Number: 1, Verdict: check.Holds, Answers: at(0)},
		{Number: 2, Verdict: check.Undecided, Answers: at(1)},
		{Number: 3, Verdict: check.Undecided, Answers: at(2)},
		{Number: 4, Verdict: check.Fails, Answers: at(3)},
		{Number: 5, Answers: []fab.Answer{{Answer: design.Answer{Unchecked: true}, Condition: fab.Condition{Missing: wind.NoWind{}}}, {}}},
	}
	page, err := contact.Plot(&design.Design{Title: "Trial"}, results, contact.Axis{Name: "wind"}, contact.Axis{Name: "weight", Question: 1}, contact.Options{})
	if err != nil {
		t.Fatal(err)
	}
	full, rings := 0, 0
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
	if full != 1+1 || rings != 1+2 {
		t.Errorf("%d points and %d rings, the key's among them, want 2 and 3", full, rings)
	}
	if want := "Not on the plot, 1 of 5: 5 wind was not worked out: wind is not checked: the site gives none"; !strings.Contains(written(page), want) {
		t.Errorf("the plot says %q, not %q", written(page), want)
	}
}

func TestPlot(t *testing.T) {
	_, d, results := studied(t, "rise step 6 in", "crown values 6")
	x, y := contact.NewAxis(d, 1), contact.NewAxis(d, 0)
	page, err := contact.Plot(d, results, x, y, contact.Options{})
	if err != nil {
		t.Fatal(err)
	}
	inspect.Check(t, "plot", page)
	full, rings, crosses := 0, 0, 0
	for _, item := range page.Items {
		switch it := item.(type) {
		case *ink.Fill:
			full++
		case *ink.Arc:
			if it.Radius < 1 {
				rings++
			}
		case *ink.Stroke:
			if len(it.Path) == 2 && it.Path[0].X != it.Path[1].X && it.Path[0].Y != it.Path[1].Y {
				crosses++ // two strokes each
			}
		}
	}
	did := map[check.Verdict]int{}
	unmade := 0
	for _, r := range results {
		if r.Err != nil {
			unmade++
			continue
		}
		did[r.Verdict]++
	}
	// The key has one of each too.
	if full != did[check.Holds]+1 || rings != did[check.Undecided]+1 || crosses != 2*(did[check.Fails]+1) || did[check.Undecided] == 0 || did[check.Fails] == 0 {
		t.Errorf("%d points, %d rings and %d strokes of crosses for %v", full, rings, crosses, did)
	}
	if want := fmt.Sprintf("Not on the plot, %d of %d: ", unmade, len(results)); unmade == 0 || !strings.Contains(written(page), want) {
		t.Errorf("the plot does not say %q", want)
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
		if m, ok := item.(*ink.Image); ok && m.Image.Bounds().Dx() == m.Image.Bounds().Dy() && m.Image.Bounds().Dx() > 60 {
			pictures++ // few share a sheet, so that they are finer
		}
	}
	if pictures != len(results) {
		t.Errorf("%d pictures of %d variations", pictures, len(results))
	}
	if _, err := vector.PDF(sheets, vector.Info{Title: "x"}); err != nil {
		t.Error(err)
	}
}

// TestPlotNumbers: every point of a crowded plot has its number, or the key says
// which have none.
func TestPlotNumbers(t *testing.T) {
	_, d, results := studied(t, "rise step 1 in", "crown values 3")
	page, err := contact.Plot(d, results, contact.NewAxis(d, 0), contact.NewAxis(d, 1), contact.Options{})
	if err != nil {
		t.Fatal(err)
	}
	inspect.Check(t, "crowded plot", page)
	named := map[string]bool{}
	keyed := false
	for _, item := range page.Items {
		if w, ok := item.(*ink.Text); ok {
			named[w.Text] = true
			keyed = keyed || strings.HasPrefix(w.Text, "too close to number: ")
		}
	}
	for _, r := range results {
		if r.Err == nil && !named[fmt.Sprint(r.Number)] && !keyed {
			t.Errorf("point %d has no number", r.Number)
		}
	}
}
