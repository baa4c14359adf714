package inspect

import (
	"image"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/vector"
)

// sound returns a framed sheet, with reference border, without a fault: writing
// beside a wide, a dashed and a narrow line, an arrowhead, a picture and two
// balloons with their leaders.
func sound(t testing.TB) *ink.Sheet {
	t.Helper()
	a3, ok := sheet.LookupPaper("A3")
	if !ok {
		t.Fatal("no A3")
	}
	p := sheet.NewPage(a3.Landscape(), "trial-01", sheet.Block{Title: "Trial", Document: "Trial", Revision: "1", Caution: "Sheared edges cut."})
	p.Add(
		&ink.Stroke{Line: ink.Outline, Path: []r2.Vec{{X: 100, Y: 200}, {X: 150, Y: 220}}},
		&ink.Stroke{Line: ink.Hidden, Path: []r2.Vec{{X: 100, Y: 180}, {X: 150, Y: 200}}},
		&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: 100, Y: 160}, {X: 150, Y: 180}}},
		&ink.Arc{Line: ink.Outline, Center: r2.Vec{X: 200, Y: 200}, Radius: 20, From: 0.3, To: 2.8},
		ink.Circle(ink.Centre, r2.Vec{X: 300, Y: 200}, 20),
		&ink.Fill{Path: []r2.Vec{{X: 100, Y: 150}, {X: 103, Y: 150.5}, {X: 103, Y: 149.5}}},
		&ink.Fill{Path: []r2.Vec{{X: 40, Y: 240}, {X: 90, Y: 240}, {X: 90, Y: 260}, {X: 40, Y: 260}}, Shade: 0.9},
		&ink.Image{Box: sheet.Box(320, 230, 360, 260), Image: image.NewGray(image.Rect(0, 0, 4, 3)), Words: "Trial"},
		&ink.Text{Text: "written on a tint, 5 gy", At: r2.Vec{X: 45, Y: 250}, Height: 2.5},
		&ink.Text{Text: "turned", At: r2.Vec{X: 60, Y: 180}, Height: 3.5, Face: ink.Bold, Angle: math.Pi / 3},
		&ink.Text{Text: "within a circle", At: r2.Vec{X: 300, Y: 199}, Height: 2.5, Anchor: ink.Middle},
		&ink.Text{Text: "  ", At: r2.Vec{X: 120, Y: 208}, Height: 2.5},
	)
	p.Add(balloon(r2.Vec{X: 60, Y: 100}, r2.Vec{X: 80, Y: 120})...)
	p.Add(balloon(r2.Vec{X: 60, Y: 120}, r2.Vec{X: 80, Y: 140})...)
	return sheet.Finish([]*sheet.Page{p})[0]
}

// balloon returns a balloon with a leader to a point.
func balloon(point, center r2.Vec) []ink.Item {
	u := r2.Unit(r2.Sub(center, point))
	return []ink.Item{
		ink.Circle(ink.Thin, center, balloonRadius),
		&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{point, r2.Sub(center, r2.Scale(balloonRadius, u))}},
	}
}

// found looks at a sheet in the model and as written.
func found(t *testing.T, s *ink.Sheet) (model, written Report) {
	t.Helper()
	data, err := vector.SVG(s)
	if err != nil {
		t.Fatal(err)
	}
	if written, err = SVG(s.Name, data); err != nil {
		t.Fatal(err)
	}
	return Model(s), written
}

func TestSound(t *testing.T) {
	model, written := found(t, sound(t))
	for _, f := range append(model.Faults, written.Faults...) {
		t.Error(f)
	}
	if model.Texts < 20 || model.Texts != written.Texts || written.Bytes == 0 {
		t.Errorf("%d texts in the model, %d in the %d bytes of SVG", model.Texts, written.Texts, written.Bytes)
	}
	if c := model.Crossings; c.Leaders != 2 {
		t.Errorf("%d leaders, want 2", c.Leaders)
	}
	if r := Check(t, "sound", sound(t)); r.Texts != model.Texts+written.Texts {
		t.Errorf("Check looked at %d texts, want %d", r.Texts, model.Texts+written.Texts)
	}
}

// TestPlanted plants one fault of each kind, in each of its forms, on a sound
// sheet: both the model and the SVG must show it, and no fault of another kind.
func TestPlanted(t *testing.T) {
	write := func(text string, x, y float64) *ink.Text {
		return &ink.Text{Text: text, At: r2.Vec{X: x, Y: y}, Height: 2.5}
	}
	for _, tt := range []struct {
		name string
		want Kind
		item []ink.Item
	}{
		{"over level writing", Overlap, []ink.Item{write("over", 50, 251)}},
		{"over turned writing", Overlap, []ink.Item{write("HHHH", 62, 185)}},
		{"turned over writing", Overlap, []ink.Item{&ink.Text{Text: "HHHH", At: r2.Vec{X: 60, Y: 246}, Height: 3.5, Angle: 1}}},
		{"on a wide line", OnWide, []ink.Item{write("on", 125, 209)}},
		{"across a wide line", OnWide, []ink.Item{&ink.Text{Text: "HHHHHH", At: r2.Vec{X: 125, Y: 205}, Height: 2.5, Angle: math.Pi / 2}}},
		{"on a dashed line", OnWide, []ink.Item{write("on", 125, 189)}},
		{"on a narrow line", OnNarrow, []ink.Item{write("on", 125, 169)}},
		{"on an arc", OnWide, []ink.Item{write("HH", 198, 219)}},
		{"on a circle", OnNarrow, []ink.Item{write("HH", 318, 199)}},
		{"on a chain line", OnNarrow, []ink.Item{write("on", 380, 150), &ink.Stroke{Line: ink.Centre, Path: []r2.Vec{{X: 370, Y: 151}, {X: 400, Y: 151.2}}}}},
		{"on a long slanting line", OnWide, []ink.Item{write("HH", 240, 150), &ink.Stroke{Line: ink.Outline, Path: []r2.Vec{{X: 195, Y: 100}, {X: 290, Y: 203}}}}},
		{"on the frame's edge from within", OnWide, []ink.Item{write("HHHHHHH", 24, 120), &ink.Stroke{Line: ink.Outline, Path: []r2.Vec{{X: 30, Y: 110}, {X: 30, Y: 130}}}}},
		{"on an arrowhead", OnMark, []ink.Item{write("HH", 100.5, 149)}},
		{"on a picture", OnPicture, []ink.Item{write("on it", 330, 240)}},
		{"over the rim of a picture", OnPicture, []ink.Item{write("at its rim", 315, 240)}},
		{"off the paper", Outside, []ink.Item{write("out", 430, 150)}},
		{"in the border at the corner's edge", Outside, []ink.Item{write("HHHH", 407, 300)}},
		{"a wide line out of the frame", Outside, []ink.Item{&ink.Stroke{Line: ink.Outline, Path: []r2.Vec{{X: 380, Y: 120}, {X: 412, Y: 121}}}}},
		{"a narrow line out of the frame", Outside, []ink.Item{&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: 380, Y: 120}, {X: 412, Y: 121}}}}},
		{"an arc out of the frame", Outside, []ink.Item{&ink.Arc{Line: ink.Thin, Center: r2.Vec{X: 400, Y: 120}, Radius: 11, From: -1.2, To: 1.2}}},
		{"a wide line in the border", Outside, []ink.Item{&ink.Stroke{Line: ink.Outline, Path: []r2.Vec{{X: 412, Y: 120}, {X: 414, Y: 121}}}}},
		{"an arrowhead out of the frame", Outside, []ink.Item{&ink.Fill{Path: []r2.Vec{{X: 409, Y: 131}, {X: 412, Y: 131.5}, {X: 412, Y: 130.5}}}}},
		{"a picture out of the frame", Outside, []ink.Item{&ink.Image{Box: sheet.Box(395, 270, 410.5, 282), Image: image.NewGray(image.Rect(0, 0, 4, 3)), Words: "x"}}},
		{"small", Small, []ink.Item{&ink.Text{Text: "small print", At: r2.Vec{X: 250, Y: 150}, Height: 2.4}}},
		{"small, bold and turned", Small, []ink.Item{&ink.Text{Text: "small 1/2", At: r2.Vec{X: 250, Y: 150}, Height: 2.4, Face: ink.Bold, Angle: 0.7}}},
		{"letters that no face has", Missing, []ink.Item{write("⌀60", 250, 150)}},
		{"leaders that cross", LeadersCross, balloon(r2.Vec{X: 60, Y: 114}, r2.Vec{X: 90, Y: 102})},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s := sound(t)
			s.Add(tt.item...)
			model, written := found(t, s)
			for where, r := range map[string]Report{"the model": model, "the SVG": written} {
				if r.Count(tt.want) == 0 || r.Count(tt.want) != len(r.Faults) {
					t.Errorf("in %s: %v, want %v alone", where, r.Faults, tt.want)
				}
			}
		})
	}
}

// TestLineHasWidth: writing is on a line where it reaches into the line's width,
// and may stand close beside it.
func TestLineHasWidth(t *testing.T) {
	for _, tt := range []struct {
		above float64 // mm, of the middle of a line 0.5 mm wide
		want  int
	}{{-1, 1}, {0.1, 1}, {0.22, 0}, {0.3, 0}} {
		s := &ink.Sheet{Name: "width", Width: 100, Height: 80}
		s.Add(&ink.Stroke{Line: ink.Outline, Path: []r2.Vec{{X: 10, Y: 40}, {X: 90, Y: 40}}},
			&ink.Text{Text: "HH", At: r2.Vec{X: 50, Y: 40 + tt.above}, Height: 2.5})
		model, written := found(t, s)
		if model.Count(OnWide) != tt.want || written.Count(OnWide) != tt.want {
			t.Errorf("%v mm above a line: %v in the model, %v in the SVG, want %d", tt.above, model.Faults, written.Faults, tt.want)
		}
	}
}

// TestBare: on a page without a frame writing keeps off what printers leave free,
// and lines stay on the paper.
func TestBare(t *testing.T) {
	for _, tt := range []struct {
		name  string
		item  ink.Item
		found bool
	}{
		{"writing", &ink.Text{Text: "in", At: r2.Vec{X: 7, Y: 7}, Height: 2.5}, false},
		{"writing at the edge", &ink.Text{Text: "in", At: r2.Vec{X: 6, Y: 7}, Height: 2.5}, true},
		{"a line at the edge", &ink.Stroke{Path: []r2.Vec{{X: 0, Y: 9}, {X: 50, Y: 9}}}, false},
		{"a line off the paper", &ink.Stroke{Path: []r2.Vec{{X: -1, Y: 9}, {X: 50, Y: 9}}}, true},
	} {
		s := &ink.Sheet{Name: "bare", Width: 100, Height: 80, Items: []ink.Item{tt.item}}
		model, written := found(t, s)
		for where, r := range map[string]Report{"the model": model, "the SVG": written} {
			if (r.Count(Outside) > 0) != tt.found || r.Count(Outside) != len(r.Faults) {
				t.Errorf("%s: in %s: %v, want faults: %v", tt.name, where, r.Faults, tt.found)
			}
		}
	}
}

// TestFrameMoved: a frame that is not at the margins of ISO 5457 is seen.
func TestFrameMoved(t *testing.T) {
	s := &ink.Sheet{Name: "moved", Width: 210, Height: 297}
	s.Add(&ink.Stroke{Line: ink.Frame, Path: corners(sheet.Box(20, 10, 200, 286)), Closed: true})
	model, written := found(t, s)
	if model.Count(Outside) != 1 || written.Count(Outside) != 1 {
		t.Errorf("found %v and %v, want the frame", model.Faults, written.Faults)
	}
}

// TestHeights measures writing of both faces from its outlines, whichever way it
// is turned.
func TestHeights(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 1))
	for range 500 {
		const letters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789 /-.,"
		var label strings.Builder
		label.WriteByte('A')
		for range 1 + rng.IntN(20) {
			label.WriteByte(letters[rng.IntN(len(letters))])
		}
		w := &ink.Text{Text: label.String(), At: r2.Vec{X: 200, Y: 200}, Height: 2 + 5*rng.Float64(), Angle: 7 * rng.Float64(), Face: ink.Face(rng.IntN(2))}
		s := &ink.Sheet{Name: "heights", Width: 400, Height: 400, Items: []ink.Item{w}}
		data, err := vector.SVG(s)
		if err != nil {
			t.Fatal(err)
		}
		p, err := readSVG(data)
		if err != nil {
			t.Fatal(err)
		}
		if got := p.texts[0].height; math.Abs(got-w.Height) > heightError {
			t.Errorf("%v: measured %.3f mm high", w, got)
		}
	}
}

// TestCrossings counts what a leader and a dimension line cross.
func TestCrossings(t *testing.T) {
	s := &ink.Sheet{Name: "crossings", Width: 300, Height: 200}
	s.Add(balloon(r2.Vec{X: 20, Y: 20}, r2.Vec{X: 60, Y: 60})...)
	stroke := func(l ink.Line, x0, y0, x1, y1 float64) {
		s.Add(&ink.Stroke{Line: l, Path: []r2.Vec{{X: x0, Y: y0}, {X: x1, Y: y1}}})
	}
	stroke(ink.Outline, 30, 50, 50, 30)
	stroke(ink.Outline, 20, 19, 20.2, 22) // what the leader points at
	stroke(ink.Centre, 20, 40, 50, 10)
	stroke(ink.Thin, 100, 100, 150, 100)
	s.Add(&ink.Fill{Path: []r2.Vec{{X: 103, Y: 100.5}, {X: 100, Y: 100}, {X: 103, Y: 99.5}}})
	stroke(ink.Thin, 120, 90, 120, 110)
	stroke(ink.Thin, 100.1, 90, 100.1, 102) // its extension line
	want := Crossings{Leaders: 1, WithOutlines: 1, WithNarrow: 1, Dimensions: 1, OfDimensions: 1}
	if got := Model(s).Crossings; got != want {
		t.Errorf("crossings = %+v, want %+v", got, want)
	}
}
