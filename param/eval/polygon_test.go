package eval

import (
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
)

// TestPolygon reads a plate of five sides, given either way round and over more
// than one line.
func TestPolygon(t *testing.T) {
	const rest = "\n metal slab, anchors 5, anchor_diameter 14, anchor_edge 40 }\npost mast on pad { at (10, 20), diameter 60, length 800, metal skin }\n"
	want := []r2.Vec{{X: -300, Y: -200}, {X: 280, Y: -220}, {X: 340, Y: 90}, {X: 40, Y: 260}, {X: -250, Y: 170}}
	for _, text := range []string{
		"(-300, -200), (280, -220), (340, 90), (40, 260), (-250, 170)",
		"(-300, -200), (280, -220),\n  (340, 90),\n  (40, 260), (-250, 170)",
		"(-300, -200), (-250, 170), (40, 260), (340, 90), (280, -220)",
	} {
		d := mustEvaluate(t, "units mm\nmetal skin { alloy low-carbon-steel, thickness 2 }\nmetal slab { alloy low-carbon-steel, thickness 8 }\nbase pad { plate polygon "+text+rest)
		b := d.Base().Base
		if b.Shape != design.Polygon || len(b.Corners) != 5 || b.Width != 640 || b.Depth != 480 {
			t.Fatalf("%s: base %+v", text, *b)
		}
		for i, c := range b.Corners {
			if c != want[i] {
				t.Errorf("%s: corner %d is %v, want %v", text, i, c, want[i])
			}
		}
	}
}
