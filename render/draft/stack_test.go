package draft_test

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/param/written"
	"stabile/render/draft"
	"stabile/render/ink"
)

// parts returns the parts of a design.
func parts(t *testing.T, text string) []fab.Part {
	t.Helper()
	j, list := fab.Build(written.Design(t, written.Metric+text), 0)
	if err := list.Err(); err != nil {
		t.Fatal(err)
	}
	return j.Parts
}

// TestOutsideValue holds what a dimension whose value does not fit takes of its line:
// to the left of its ends the tail of its arrow, 5 mm, and 1 mm of air; to the right
// another 5 mm and its value with 1.2 mm on both sides. A neighbour that is 1 mm wide
// of its own ends and meets that stands a line farther out, one that just does not
// shares the line.
func TestOutsideValue(t *testing.T) {
	const wide = "20" // fits between its ends
	value := ink.Width("1234.5", 2.5, ink.Regular) + 2*1.2
	if value < 8 {
		t.Fatalf("the value is %v mm wide, and would fit", value)
	}
	for _, tt := range []struct {
		name     string
		from, to float64 // of the neighbour
		shares   bool
	}{
		{"left, clear", 60, 100 - 1 - 5 - 1 - 0.1, true},
		{"left, meets", 60, 100 - 1 - 5 - 1 + 0.1, false},
		{"right, clear", 104 + 5 + value + 1 + 0.1, 160, true},
		{"right, meets", 104 + 5 + value + 1 - 0.1, 160, false},
	} {
		d := draft.New(draft.Millimetre(), r2.Box{Max: r2.Vec{X: 300, Y: 300}})
		d.Stack(draft.Above, 50, []draft.Dim{
			{From: r2.Vec{X: 100, Y: 50}, To: r2.Vec{X: 104, Y: 50}, Text: "1234.5"},
			{From: r2.Vec{X: tt.from, Y: 50}, To: r2.Vec{X: tt.to, Y: 50}, Text: wide},
		})
		want := map[string]float64{"1234.5": 60, wide: 60}
		if !tt.shares {
			want[wide] = 67
		}
		for _, text := range texts(d) {
			if got := text.At.Y - 0.9; got != want[text.Text] {
				t.Errorf("%s: %q stands on the line %v mm up, want %v", tt.name, text.Text, got, want[text.Text])
			}
		}
	}
}

// TestPast holds that what a stack says it reaches past its ends is what is drawn there,
// of values that stand between the ends, beyond them, and clear of other extension lines.
func TestPast(t *testing.T) {
	style := draft.Millimetre()
	for _, lengths := range [][]float64{{60}, {6}, {6, 20}, {6, 14, 60}, {3, 5, 9, 12}} {
		var dims []draft.Dim
		last := 0.0
		for _, l := range lengths {
			dims = append(dims, draft.Dim{To: r2.Vec{Y: l}, Text: "123-11/16"})
			last = max(last, l)
		}
		d := draft.New(style, r2.Box{Max: r2.Vec{X: 400, Y: 300}})
		d.Stack(draft.Left, 0, dims)
		top := last
		for _, it := range d.Items {
			if v, ok := it.(*ink.Text); ok {
				half := ink.Width(v.Text, v.Height, v.Face)
				if v.Anchor == ink.Middle {
					half /= 2
				}
				top = max(top, v.At.Y+half)
			}
		}
		past := style.Past(draft.Left, dims)
		if over := top - last; past < over || past > over+4 {
			t.Errorf("%v: values reach %.2f past the end, Past says %.2f", lengths, over, past)
		}
	}
}
