package ink

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/golden"
)

// The widths of these letters, in units of an em of 2048, were read from the
// bytes of the typefaces' files by another program: their hmtx tables, and the
// height of a capital, 1480, from OS/2.
func TestWidth(t *testing.T) {
	for _, tt := range []struct {
		text string
		face Face
		want float64 // font units
	}{
		{"", Regular, 0},
		{"A", Regular, 1366},
		{"AA", Regular, 2 * 1366},
		{"0", Regular, 1139},
		{"1234567890", Regular, 10 * 1139},
		{"0", Bold, 1139},
		{"1234567890", Bold, 10 * 1139},
	} {
		want := tt.want * 3.5 / 1480
		if got := Width(tt.text, 3.5, tt.face); math.Abs(got-want) > 1e-12 {
			t.Errorf("Width(%q, 3.5, %v) = %v, want %v", tt.text, tt.face, got, want)
		}
	}
}

// A flat-topped capital is as high as asked for, to the size of its ink.
func TestCapitalHeight(t *testing.T) {
	for _, face := range []Face{Regular, Bold} {
		for _, letter := range "HETIZ" {
			g := face.typeface().of(letter)
			if g.top != face.typeface().capital || g.bottom != 0 {
				t.Errorf("%v %c reaches from %v to %v font units, want 0 to %v", face, letter, g.bottom, g.top, face.typeface().capital)
			}
		}
	}
}

func TestBox(t *testing.T) {
	near := func(a, b r2.Vec) bool { return r2.Norm(r2.Sub(a, b)) < 1e-9 }
	width := Width("HEE", 5, Regular)
	for _, tt := range []struct {
		text Text
		want [2]r2.Vec // first and third corner
	}{
		{Text{At: r2.Vec{X: 10, Y: 20}, Height: 5, Text: "HEE"}, [2]r2.Vec{{X: 10, Y: 20}, {X: 10 + width, Y: 25}}},
		{Text{At: r2.Vec{X: 10, Y: 20}, Height: 5, Anchor: Middle, Text: "HEE"}, [2]r2.Vec{{X: 10 - width/2, Y: 20}, {X: 10 + width/2, Y: 25}}},
		{Text{At: r2.Vec{X: 10, Y: 20}, Height: 5, Anchor: End, Text: "HEE"}, [2]r2.Vec{{X: 10 - width, Y: 20}, {X: 10, Y: 25}}},
		{Text{At: r2.Vec{X: 10, Y: 20}, Height: 5, Angle: math.Pi / 2, Text: "HEE"}, [2]r2.Vec{{X: 10, Y: 20}, {X: 5, Y: 20 + width}}},
	} {
		box := tt.text.Box()
		if len(box) != 4 || !near(box[0], tt.want[0]) || !near(box[2], tt.want[1]) {
			t.Errorf("Box of %v = %v, want %v", &tt.text, box, tt.want)
		}
		if !near(tt.text.Start(), box[0]) {
			t.Errorf("Start of %v = %v, want %v", &tt.text, tt.text.Start(), box[0])
		}
	}
	low := Text{Height: 5, Text: "gy"}
	if got := low.Box()[0].Y; got >= -0.5 || got <= -2 {
		t.Errorf("Box of %v begins at %v, want its descenders", &low, got)
	}
}

func TestMissing(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"", ""},
		{"Ø12 ±0.5° × ½ ¼ ¾ ⅛ ⅜ ⅝ ⅞ − ′ ″ ≤ ≥ √ π ² ³ µ – …", ""},
		{"line\none\ttab", ""},
		{"⌀5 ⌀6 ∠", "⌀∠"},
		{"中央", "中央"},
	} {
		if got := Missing(tt.text); !slices.Equal(got, []rune(tt.want)) {
			t.Errorf("Missing(%q) = %q, want %q", tt.text, string(got), tt.want)
		}
	}
}

func TestLine(t *testing.T) {
	text := Text{Text: "a\nb\tc\u2028d\u00ade\xff"}
	if got, want := text.Line(), "a b c de\ufffd"; got != want {
		t.Errorf("Line() = %q, want %q", got, want)
	}
}

// The table of ISO 128: two widths in the ratio of two to one, and the elements
// of dashed lines in widths.
func TestLines(t *testing.T) {
	if wide, narrow := Outline.Width(), Thin.Width(); wide != 2*narrow {
		t.Errorf("wide to narrow is %v to %v, want 2 to 1", wide, narrow)
	}
	for _, tt := range []struct {
		line Line
		want []float64
	}{
		{Outline, nil},
		{Thin, nil},
		{Hidden, []float64{3, 0.75}},
		{Centre, []float64{6, 0.75, 0.25, 0.75}},
		{Phantom, []float64{6, 0.75, 0.25, 0.75, 0.25, 0.75}},
	} {
		if got := tt.line.Dashes(); !slices.Equal(got, tt.want) {
			t.Errorf("%v.Dashes() = %v, want %v", tt.line, got, tt.want)
		}
	}
	a, b := Hidden.Dashes(), Hidden.Dashes()
	a[0] = -1
	if b[0] == a[0] {
		t.Error("two calls of Dashes share their numbers")
	}
}

func TestString(t *testing.T) {
	s := &Sheet{Name: "01-trial", Title: "Trial", Width: 210, Height: 148.5}
	s.Add(
		&Stroke{Line: Outline, Path: []r2.Vec{{X: 0, Y: 0}, {X: 10, Y: 0}, {X: 10, Y: 5.005}}, Closed: true, Group: "cut"},
		&Stroke{Line: Hidden, Path: []r2.Vec{{X: 1, Y: 2}, {X: -0.001, Y: 4}}},
		Circle(Centre, r2.Vec{X: 50, Y: 50}, 12.5),
		&Arc{Line: Thin, Center: r2.Vec{X: 50, Y: 50}, Radius: 20, From: 0, To: math.Pi / 3, Group: "mark"},
		&Fill{Path: []r2.Vec{{X: 1}, {X: 2}, {Y: 1}}, Shade: 0.5},
		&Text{At: r2.Vec{X: 20, Y: 30}, Height: 3.5, Text: "Ø5-1/4"},
		&Text{At: r2.Vec{X: 20, Y: 30}, Height: 5, Face: Bold, Anchor: Middle, Angle: math.Pi / 2, Halo: true, Text: `a "quoted" word`},
	)
	golden.Text(t, "testdata/trial.golden", s.String())
}

func ExampleWidth() {
	// A figure is 1139 of the em's 2048 units wide and a capital 1480 high:
	// 10 figures 3.5 mm high take 10 x 1139/1480 x 3.5 mm.
	fmt.Printf("%.2f mm\n", Width("1234567890", 3.5, Regular))
	// Output: 26.94 mm
}

func BenchmarkBox(b *testing.B) {
	text := &Text{Height: 2.5, Text: "18 ga low-carbon steel, 5-1/4 in"}
	for b.Loop() {
		text.Box()
	}
}
