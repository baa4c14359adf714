package draft_test

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/draft"
	"stabile/render/ink"
)

func texts(d *draft.Drawing) []*ink.Text {
	var list []*ink.Text
	for _, it := range d.Items {
		if t, ok := it.(*ink.Text); ok {
			list = append(list, t)
		}
	}
	return list
}

// TestStackOrder looks at what a draughtsman does: the shortest dimension
// stands nearest, 10 mm off, and each longer one a step farther out.
func TestStackOrder(t *testing.T) {
	d := draft.New(draft.Millimetre(), r2.Box{Max: r2.Vec{X: 300, Y: 300}})
	from := r2.Vec{X: 100, Y: 50}
	d.Stack(draft.Left, 100, []draft.Dim{
		{From: from, To: r2.Vec{X: 120, Y: 250}, Text: "long"},
		{From: from, To: r2.Vec{X: 120, Y: 100}, Text: "short"},
		{From: from, To: r2.Vec{X: 120, Y: 170}, Text: "middle"},
	})
	want := map[string]float64{"short": 90, "middle": 83, "long": 76}
	for _, text := range texts(d) {
		// The value stands above its line, which it is read from at the right.
		if got := text.At.X + 0.9; math.Abs(got-want[text.Text]) > 1e-9 {
			t.Errorf("%q stands at x = %v, want %v", text.Text, got, want[text.Text])
		}
		if math.Abs(text.Angle-math.Pi/2) > 1e-9 {
			t.Errorf("%q is turned by %v, want pi/2", text.Text, text.Angle)
		}
	}
}

// TestDimensionInLine looks that the line of inch work is broken for its value.
func TestDimensionInLine(t *testing.T) {
	d := draft.New(draft.Inch(), r2.Box{Max: r2.Vec{X: 300, Y: 300}})
	d.Stack(draft.Below, 100, []draft.Dim{{From: r2.Vec{X: 50, Y: 100}, To: r2.Vec{X: 150, Y: 100}, Text: "24-1/2"}})
	text := texts(d)[0]
	box := text.Box()
	for _, it := range d.Items {
		if s, ok := it.(*ink.Stroke); ok && s.Path[0].Y == s.Path[1].Y && s.Path[0].Y == 90 {
			if lo, hi := min(s.Path[0].X, s.Path[1].X), max(s.Path[0].X, s.Path[1].X); lo < box[1].X && hi > box[0].X {
				t.Errorf("the line from %v to %v runs through its value from %v to %v", lo, hi, box[0].X, box[1].X)
			}
		}
	}
}

// TestCallouts places twenty callouts round a circle and looks that none runs
// into another or into the circle.
func TestCallouts(t *testing.T) {
	d := draft.New(draft.Millimetre(), r2.Box{Max: r2.Vec{X: 400, Y: 280}})
	center := r2.Vec{X: 200, Y: 140}
	d.Put(ink.Circle(ink.Outline, center, 40))
	var list []draft.Callout
	for i := range 20 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 20)
		out := r2.Vec{X: cos, Y: sin}
		list = append(list, draft.Callout{
			Number: i + 1, Note: []string{"part", "Ø100 × 1000"},
			Targets: []draft.Target{{At: r2.Add(center, r2.Scale(40, out)), Out: out}},
		})
	}
	bare, lost := d.Callouts(list, nil)
	if len(bare)+len(lost) > 0 {
		t.Errorf("Callouts left %v without a note and %v without a place", bare, lost)
	}
	list2 := texts(d)
	for i, a := range list2 {
		if strings.TrimSpace(a.Text) == "" {
			t.Error("an empty text")
		}
		for _, b := range list2[:i] {
			if boxesMeet(a.Box(), b.Box()) {
				t.Errorf("%q at %v meets %q at %v", a.Text, a.At, b.Text, b.At)
			}
		}
		for _, q := range a.Box() {
			if r2.Norm(r2.Sub(q, center)) < 40 {
				t.Errorf("%q at %v lies in the circle", a.Text, a.At)
			}
		}
	}
}

func boxesMeet(a, b []r2.Vec) bool {
	return a[0].X < b[2].X && b[0].X < a[2].X && a[0].Y < b[2].Y && b[0].Y < a[2].Y
}
