package draft_test

import (
	"math"
	"os"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/golden"
	"stabile/render/draft"
	"stabile/render/ink"
)

// TestDimensionsGolden draws one of each kind of dimension in both customs.
func TestDimensionsGolden(t *testing.T) {
	s := &ink.Sheet{Name: "dimensions", Title: "Kinds of dimension", Width: 297, Height: 210}
	for i, style := range []draft.Style{draft.Millimetre(), draft.Inch()} {
		x := 145 * float64(i)
		d := draft.New(style, r2.Box{Min: r2.Vec{X: x}, Max: r2.Vec{X: x + 145, Y: 210}})
		at := func(px, py float64) r2.Vec { return r2.Vec{X: x + px, Y: py} }
		box := []r2.Vec{at(50, 60), at(110, 60), at(110, 100), at(50, 100)}
		d.Put(&ink.Stroke{Line: ink.Outline, Path: box, Closed: true})
		d.Stack(draft.Left, box[0].X, []draft.Dim{
			{From: box[0], To: box[3], Text: "40"},
			{From: box[0], To: at(50, 64), Text: "4"},
		})
		d.Stack(draft.Below, 60, []draft.Dim{
			{From: box[0], To: box[1], Text: "60"},
			{From: box[0], To: at(70, 60), Text: "20"},
			{From: at(106, 60), To: box[1], Text: "4"},
		})
		d.Aligned(at(60, 180), at(110, 200), -8, "53.9")
		d.Put(ink.Circle(ink.Outline, at(35, 160), 15))
		d.CentreMark(at(35, 160), 15)
		d.Diameter(at(35, 160), 15, math.Pi/4, "Ø30")
		d.Radius(at(35, 160), 15, math.Pi*1.25, "R15")
		d.Put(ink.Circle(ink.Outline, at(95, 85), 3))
		d.Leader(at(95, 85), 3, at(115, 108), "Ø6")
		d.Line(ink.Outline, at(90, 125), at(97, 165))
		if !d.Lean(at(90, 125), math.Atan2(40, 7), 40, "9.9°") {
			t.Error("the lean found no place")
		}
		d.Gravity(at(70, 80), 2)
		d.Ground(x+20, x+130, 20)
		s.Add(d.Items...)
	}
	golden.Text(t, "testdata/dimensions.txt", s.String())
	if dir := os.Getenv("LOOK"); dir != "" {
		look(t, dir, s)
	}
}
