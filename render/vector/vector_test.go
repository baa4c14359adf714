package vector

import (
	"bytes"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/external"
	"stabile/render/ink"
)

// trial is a sheet with everything on it: a rectangle of known size, arcs, the
// kinds of line, fills and texts.
func trial() *ink.Sheet {
	s := &ink.Sheet{Name: "01-trial", Title: "Trial <sheet> & more", Width: 210, Height: 148}
	s.Add(&ink.Stroke{Line: ink.Outline, Closed: true, Group: "cut", Path: rectangle(20, 30, 120.5, 70.25)})
	s.Add(&ink.Stroke{Line: ink.Thin, Group: "mark", Path: []r2.Vec{{X: 20, Y: 50}, {X: 120.5, Y: 50}}})
	s.Add(ink.Circle(ink.Outline, r2.Vec{X: 160, Y: 80}, 30))
	s.Add(&ink.Arc{Line: ink.Hidden, Center: r2.Vec{X: 160, Y: 80}, Radius: 20, From: -0.5, To: 2.5})
	s.Add(&ink.Arc{Line: ink.Thin, Center: r2.Vec{X: 160, Y: 80}, Radius: 35, From: 0, To: 2*math.Pi - 0.01})
	s.Add(ink.Circle(ink.Centre, r2.Vec{X: 160, Y: 80}, 5))
	s.Add(&ink.Stroke{Line: ink.Phantom, Path: []r2.Vec{{X: 10, Y: 10}, {X: 200, Y: 10}}})
	s.Add(ink.Circle(ink.Outline, r2.Vec{X: 50, Y: 50}, 4))
	s.Items[len(s.Items)-1].(*ink.Arc).Group = "cut"
	s.Add(&ink.Fill{Path: rectangle(150, 10, 170, 20), Shade: 0.5})
	s.Add(&ink.Text{At: r2.Vec{X: 70, Y: 50}, Height: 5, Anchor: ink.Middle, Text: "Ø5-1/4 (±1/32)", Halo: true})
	s.Add(&ink.Text{At: r2.Vec{X: 15, Y: 40}, Height: 3.5, Angle: math.Pi / 2, Text: "upward"})
	s.Add(&ink.Text{At: r2.Vec{X: 200, Y: 140}, Height: 7, Face: ink.Bold, Anchor: ink.End, Text: `Bold "title" \ (two)`})
	return s
}

func rectangle(x0, y0, x1, y1 float64) []r2.Vec {
	return []r2.Vec{{X: x0, Y: y0}, {X: x1, Y: y0}, {X: x1, Y: y1}, {X: x0, Y: y1}}
}

// page is a page as full as they come: 60 lines of text, 200 strokes of 40
// points and 100 circles on A3.
func page() *ink.Sheet {
	s := &ink.Sheet{Name: "full", Width: 420, Height: 297}
	for i := range 60 {
		s.Add(&ink.Text{At: r2.Vec{X: 20, Y: 20 + 4.25*float64(i)}, Height: 2.5,
			Text: "the ball 'moon' is of 18 ga low-carbon steel, 5-1/4 in across, and weighs 12.4 lb"})
	}
	for i := range 200 {
		var path []r2.Vec
		for j := range 40 {
			path = append(path, r2.Vec{X: 200 + 5*float64(j), Y: 20 + float64(i) + 10*math.Sin(float64(j)/6)})
		}
		s.Add(&ink.Stroke{Line: ink.Line(i % 6), Path: path})
	}
	for i := range 100 {
		s.Add(ink.Circle(ink.Thin, r2.Vec{X: 300, Y: 150}, 1+float64(i)))
	}
	return s
}

// run runs an outside program on a file with the given contents, named last,
// and returns what it says.
func run(t *testing.T, data []byte, ending, program string, flags ...string) string {
	t.Helper()
	file := filepath.Join(t.TempDir(), "sheet"+ending)
	if err := os.WriteFile(file, data, 0o644); err != nil {
		t.Fatal(err)
	}
	args := append(flags, file)
	if strings.HasPrefix(program, "pdftotext") {
		args = append(args, "-")
	}
	out, err := exec.Command(external.Tool(t, program), args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", program, err, out)
	}
	return string(out)
}

func TestUndrawable(t *testing.T) {
	nan := math.NaN()
	for _, tt := range []struct {
		name  string
		spoil func(s *ink.Sheet)
	}{
		{"no width", func(s *ink.Sheet) { s.Width = 0 }},
		{"infinite height", func(s *ink.Sheet) { s.Height = math.Inf(1) }},
		{"stroke at nowhere", func(s *ink.Sheet) { s.Add(&ink.Stroke{Path: []r2.Vec{{X: nan}, {}}}) }},
		{"arc of no radius", func(s *ink.Sheet) { s.Add(ink.Circle(ink.Thin, r2.Vec{}, nan)) }},
		{"arc run backward", func(s *ink.Sheet) { s.Add(&ink.Arc{Radius: 1, From: 1}) }},
		{"text of no height", func(s *ink.Sheet) { s.Add(&ink.Text{Text: "a"}) }},
		{"shade over white", func(s *ink.Sheet) { s.Add(&ink.Fill{Shade: 1.1}) }},
		{"nothing", func(s *ink.Sheet) { s.Add(nil) }},
	} {
		s := trial()
		tt.spoil(s)
		if _, err := SVG(s); err == nil {
			t.Errorf("%s: SVG gave no error", tt.name)
		}
		if _, err := PDF([]*ink.Sheet{trial(), s}, Info{}); err == nil {
			t.Errorf("%s: PDF gave no error", tt.name)
		}
	}
	if _, err := PDF(nil, Info{}); err == nil {
		t.Error("PDF of no sheets gave no error")
	}
	if _, err := SVG(nil); err == nil {
		t.Error("SVG of no sheet gave no error")
	}
}

// A sheet may hold things too short to show.
func TestNothingToShow(t *testing.T) {
	s := &ink.Sheet{Width: 100, Height: 100}
	s.Add(
		&ink.Stroke{}, &ink.Stroke{Path: []r2.Vec{{X: 1, Y: 1}}}, &ink.Stroke{Path: []r2.Vec{{X: 1, Y: 1}, {X: 1, Y: 1}}, Closed: true},
		&ink.Arc{}, ink.Circle(ink.Hidden, r2.Vec{}, 0), &ink.Fill{},
		&ink.Text{Height: 1}, &ink.Text{Height: 2, Text: " \n"}, &ink.Text{Height: 2, Text: "中\xff"},
	)
	data, err := PDF([]*ink.Sheet{s}, Info{})
	if err != nil {
		t.Fatal(err)
	}
	run(t, data, ".pdf", "qpdf", "--check")
	if _, err := SVG(s); err != nil {
		t.Fatal(err)
	}
}

// Sheets may be written at the same time: under the race detector this shows
// whether the typefaces are only read.
func TestConcurrent(t *testing.T) {
	want, err := SVG(trial())
	if err != nil {
		t.Fatal(err)
	}
	document := pairPDF(t, Info{})
	var group sync.WaitGroup
	for range 8 {
		group.Go(func() {
			if got, err := SVG(trial()); err != nil || !bytes.Equal(got, want) {
				t.Errorf("an SVG came out otherwise: %v", err)
			}
			if got, err := PDF(pair(), Info{}); err != nil || !bytes.Equal(got, document) {
				t.Errorf("a PDF came out otherwise: %v", err)
			}
		})
	}
	group.Wait()
}

func BenchmarkPDF(b *testing.B) {
	sheets := make([]*ink.Sheet, 10)
	for i := range sheets {
		sheets[i] = page()
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := PDF(sheets, Info{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSVG(b *testing.B) {
	s := page()
	b.ReportAllocs()
	for b.Loop() {
		for range 10 {
			if _, err := SVG(s); err != nil {
				b.Fatal(err)
			}
		}
	}
}
