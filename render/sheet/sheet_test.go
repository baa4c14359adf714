package sheet

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/golden"
	"stabile/render/ink"
	"stabile/render/internal/inspect"
)

func block() Block {
	return Block{
		Title: "Harbour Lights", Subtitle: "General arrangement", Document: "Assembly drawing",
		Material: "See parts list", Scale: "1:16", Units: "in", Revision: "3fa91c2",
		Tolerances: "Flats ±1/32, general work ±1/16, angles ±1° unless noted",
		Caution: "Sheared edges cut. Vent every closed part before it is heated or dipped. " +
			"Keep the piece guyed until its anchors hold.",
		DoNotScale: true, Projection: true,
	}
}

func paper(t testing.TB, name string) Paper {
	t.Helper()
	p, ok := LookupPaper(name)
	if !ok {
		t.Fatalf("LookupPaper(%q) found nothing", name)
	}
	return p
}

func bounds(points []r2.Vec) r2.Box {
	b := r2.Box{Min: points[0], Max: points[0]}
	for _, p := range points {
		b.Min = r2.Vec{X: min(b.Min.X, p.X), Y: min(b.Min.Y, p.Y)}
		b.Max = r2.Vec{X: max(b.Max.X, p.X), Y: max(b.Max.Y, p.Y)}
	}
	return b
}

// ascent is how far small letters rise over the capitals on whose tops a box is
// aligned, of the largest writing in a box.
const ascent = 0.1 * Medium

func raised(b r2.Box) r2.Box { return Box(b.Min.X, b.Min.Y, b.Max.X, b.Max.Y+ascent) }

// apart reports whether no point is in both boxes.
func apart(a, b r2.Box) bool {
	return a.Max.X <= b.Min.X || b.Max.X <= a.Min.X || a.Max.Y <= b.Min.Y || b.Max.Y <= a.Min.Y
}

func within(a, b r2.Box) bool {
	const slack = 1e-6 // mm
	return a.Min.X >= b.Min.X-slack && a.Min.Y >= b.Min.Y-slack && a.Max.X <= b.Max.X+slack && a.Max.Y <= b.Max.Y+slack
}

// checkWriting looks at a sheet as at all drawings, but that what is drawn without
// a page has an area in the place of margins.
func checkWriting(t *testing.T, s *ink.Sheet, area r2.Box) {
	t.Helper()
	report, err := inspect.Sheets(s)
	if err != nil {
		t.Error(err)
	}
	framed := slices.ContainsFunc(s.Items, func(item ink.Item) bool {
		l, ok := item.(*ink.Stroke)
		return ok && l.Line == ink.Frame
	})
	for _, f := range report.Faults {
		if framed || f.Kind != inspect.Outside {
			t.Error(f)
		}
	}
	for _, item := range s.Items {
		if text, ok := item.(*ink.Text); ok {
			if box := bounds(text.Box()); !within(box, area) {
				t.Errorf("%s: %v reaches from %v to %v, out of %v", s.Name, text, box.Min, box.Max, area)
			}
		}
	}
}

func TestPages(t *testing.T) {
	long := strings.Repeat("A very long name that no title block was made for ", 2)
	for _, p := range Papers() {
		for _, lying := range []Paper{p.Portrait(), p.Landscape()} {
			full, empty, wide := block(), Block{}, block()
			wide.Title, wide.Subtitle, wide.Document, wide.Material = long, long, long, long
			wide.Tolerances, wide.Caution, wide.Projection = long, long, false
			var pages []*Page
			for i, b := range []Block{full, empty, wide} {
				pages = append(pages, NewPage(lying, fmt.Sprintf("%s %gx%g %d", p.Name, lying.Width, lying.Height, i), b))
			}
			pages = append(pages, NewPage(lying, long, full))
			for i, s := range Finish(pages) {
				checkWriting(t, s, Box(0, 0, lying.Width, lying.Height))
				page := pages[i]
				if !within(page.Free, page.Frame()) || page.Free.Max.Y-page.Free.Min.Y < 0.15*lying.Height {
					t.Errorf("%s: free is %v", s.Name, page.Free)
				}
				for _, item := range s.Items {
					if text, ok := item.(*ink.Text); ok {
						box := bounds(text.Box())
						if !apart(box, page.Free) || !apart(box, page.Beside) {
							t.Errorf("%s: %v lies in the free area", s.Name, text)
						}
					}
				}
			}
		}
	}
}

func TestFinishGolden(t *testing.T) {
	small := NewPage(paper(t, "A4").Portrait(), "harbour-02", block())
	small.Block.Projection, small.Block.Scale, small.Block.Date = false, "", "2026-03-05"
	large := NewPage(paper(t, "A3").Landscape(), "harbour-01", block())
	large.Add(ink.Circle(ink.Outline, r2.Vec{X: 100, Y: 200}, 20))
	var got strings.Builder
	for _, s := range Finish([]*Page{large, small}) {
		got.WriteString(s.String())
	}
	golden.Text(t, "testdata/pages.golden", got.String())
}

func TestFinishAgain(t *testing.T) {
	pages := []*Page{NewPage(paper(t, "A3"), "a", block()), NewPage(paper(t, "A4"), "b", block())}
	pages[0].Add(ink.Circle(ink.Thin, r2.Vec{X: 50, Y: 250}, 3))
	first, second := Finish(pages), Finish(pages)
	for i := range first {
		if first[i].String() != second[i].String() {
			t.Errorf("finishing sheet %d again gave another", i)
		}
	}
}

// The sizes of ISO 5457 for trimmed sheet and drawing space, from memory.
func TestPapers(t *testing.T) {
	for _, tt := range []struct {
		name                    string
		width, height           float64
		frameWidth, frameHeight float64
		columns, rows           int // of the reference border on the lying sheet
		otherNames              string
		hasBorder               bool
	}{
		{name: "A4", width: 210, height: 297, frameWidth: 180, frameHeight: 277, otherNames: "a4"},
		{name: "A3", width: 297, height: 420, frameWidth: 390, frameHeight: 277, columns: 8, rows: 6, hasBorder: true},
		{name: "A2", width: 420, height: 594, frameWidth: 564, frameHeight: 400, columns: 12, rows: 8, hasBorder: true},
		{name: "A1", width: 594, height: 841, frameWidth: 811, frameHeight: 574, columns: 16, rows: 12, hasBorder: true},
		{name: "ANSI A", width: 215.9, height: 279.4, otherNames: "letter ansi-a AnsiA"},
		{name: "ANSI B", width: 279.4, height: 431.8, otherNames: "tabloid ANSI-B"},
		{name: "ANSI C", width: 431.8, height: 558.8},
		{name: "ANSI D", width: 558.8, height: 863.6},
	} {
		p := paper(t, tt.name)
		if math.Abs(p.Width-tt.width) > 1e-9 || math.Abs(p.Height-tt.height) > 1e-9 {
			t.Errorf("%s is %v x %v, want %v x %v", tt.name, p.Width, p.Height, tt.width, tt.height)
		}
		for _, other := range strings.Fields(tt.otherNames) {
			if q := paper(t, other); q != p {
				t.Errorf("LookupPaper(%q) = %v, want %v", other, q, p)
			}
		}
		if tt.frameWidth == 0 {
			continue
		}
		lying := p.Landscape()
		if !tt.hasBorder {
			lying = p.Portrait() // ISO 5457 has A4 upright
		}
		f := (&Page{Paper: lying}).Frame()
		if w, h := f.Max.X-f.Min.X, f.Max.Y-f.Min.Y; w != tt.frameWidth || h != tt.frameHeight {
			t.Errorf("the frame of %s is %v x %v, want %v x %v", tt.name, w, h, tt.frameWidth, tt.frameHeight)
		}
		if tt.hasBorder {
			columns, _ := fields(f.Min.X, f.Max.X, lying.Width/2)
			rows, _ := fields(f.Min.Y, f.Max.Y, lying.Height/2)
			if len(columns)-1 != tt.columns || len(rows)-1 != tt.rows {
				t.Errorf("%s has %d x %d fields, want %d x %d", tt.name, len(columns)-1, len(rows)-1, tt.columns, tt.rows)
			}
		}
	}
	if p, ok := LookupPaper("A9"); ok {
		t.Errorf("LookupPaper(A9) = %v", p)
	}
}

// The symbol of third-angle projection has its circles on the side of the
// cone's small end, that of first angle on the side of the large one: the
// circles are the view from the small end's side (ISO 5456-2).
func TestProjectionSymbol(t *testing.T) {
	for _, first := range []bool{false, true} {
		s := &ink.Sheet{}
		projectionSymbol(s, r2.Vec{}, 6, first)
		eye := s.Items[0].(*ink.Arc)
		cone := s.Items[2].(*ink.Stroke).Path
		small := math.Abs(cone[0].Y - cone[3].Y)
		large := math.Abs(cone[1].Y - cone[2].Y)
		beside := eye.Center.X+eye.Radius < cone[0].X
		if first {
			beside = eye.Center.X-eye.Radius > cone[1].X
		}
		if !beside || cone[0].X >= cone[1].X || small != 3 || large != 6 {
			t.Errorf("first angle %v: circles at %v, the cone %v", first, eye.Center, cone)
		}
	}
}

// A strip says what the block says of its sheet, as wide as the frame, and all of it.
func TestStrip(t *testing.T) {
	paper, _ := LookupPaper("letter")
	b := Block{Title: "Slow Tide", Subtitle: "Variations", Document: "Contact sheet", Units: "in", Scale: "1:20", Revision: "1a2b3c4d", Date: "2026-05-01", DoNotScale: true, Caution: "Sharp edges."}
	whole := NewPage(paper.Landscape(), "a-01", b)
	b.Strip = true
	strip := NewPage(paper.Landscape(), "a-02", b)
	if low := whole.Free.Min.Y - strip.Free.Min.Y; low < 3*rowHeight {
		t.Errorf("a strip leaves %.0f mm more than a block", low)
	}
	said := ""
	for _, i := range Finish([]*Page{strip})[0].Items {
		if w, ok := i.(*ink.Text); ok {
			said += w.Text + "\n"
		}
	}
	for _, want := range []string{"Slow Tide – Variations", "Contact sheet", "in, do not scale", "Scale 1:20", "Revision 1a2b3c4d", "2026-05-01", "Sharp edges.", "a-02", "1/1"} {
		if !strings.Contains(said, want) {
			t.Errorf("a strip does not say %q but %q", want, said)
		}
	}

	b.Subtitle = strings.Repeat("a very long name of a part ", 12)
	long := NewPage(paper.Portrait(), "a-03", b)
	for _, i := range Finish([]*Page{long})[0].Items {
		if w, ok := i.(*ink.Text); ok && strings.Contains(w.Text, "…") {
			t.Errorf("a strip cuts its title: %q", w.Text)
		}
	}
}
