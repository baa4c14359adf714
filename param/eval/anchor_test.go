package eval

import (
	"fmt"
	"testing"
)

// TestAnchorRoom holds how near to what stands on a base an anchor may be. A bolt in
// a hole of 14 mm wants 14 mm for its washer, beside a post of 2 mm another 2 for the
// weld, and is 21 mm tall.
//
// The corners of a plate of 240 mm: a mast of 200 mm wants the hole 116 mm from the
// middle, 82.02 from the axes, so 37.9 mm from the edge. A ball of 300 mm is 2 sqrt(21
// (300 - 21)) = 153.1 mm wide 21 mm up; the hole wants to be 90.5 mm away.
func TestAnchorRoom(t *testing.T) {
	const plate = "units mm\nmetal skin { alloy low-carbon-steel, thickness 2 }\nmetal slab { alloy low-carbon-steel, thickness 5 }\n" +
		"base pad { plate 240 by 240, metal slab, anchors 4, anchor_diameter 14, %s }\n"
	const disc = "units mm\nmetal skin { alloy low-carbon-steel, thickness 2 }\nmetal slab { alloy low-carbon-steel, thickness 5 }\n" +
		"base pad { disc 400, metal slab, anchors 4, anchor_diameter 14, %s }\n"
	const under = "an anchor hole of base 'pad' lies under "
	const none = "an anchor hole of base 'pad' has no room for a washer and a nut beside "
	for _, tt := range []struct {
		name, base, edge, rest, text, hint string
	}{
		{"under a post", plate, "60", "post mast on pad { diameter 200, length 300, metal skin }", under + "post 'mast', where no bolt can go", "reduce 'anchor_edge' to 37.9 mm, or move it away from the hole"},
		{"beside a post", plate, "40", "post mast on pad { diameter 200, length 300, metal skin }", none + "post 'mast': its middle is 13.1 mm from it, and it needs 16 mm", "reduce 'anchor_edge' to 37.9 mm"},
		{"clear of a post", plate, "37.9", "post mast on pad { diameter 200, length 300, metal skin }", "", ""},
		{"flush with the edge", plate, "60", "post mast on pad { diameter 240, length 300, metal skin }", under + "post 'mast', where no bolt can go", "reduce 'anchor_edge' to 23.8 mm"},
		{"a post on a hole", plate, "40", "post one on pad { at (80, 80), diameter 76, length 300, metal skin }", under + "post 'one', where no bolt can go", "move it away from the hole, or make the base larger"},
		{"under a ball", disc, "120", "ball moon on pad { diameter 300, halves, metal skin }", none + "ball 'moon': its middle is 3.5 mm from it, and it needs 14 mm", "reduce 'anchor_edge' to 109.4 mm"},
		{"clear of a ball", disc, "109", "ball moon on pad { diameter 300, halves, metal skin }", "", ""},
		// Leaning 60 deg it is 100 mm along at its foot, and 36.4 mm farther 21 mm up:
		// at (113.1, 113.1) the hole is sqrt(160^2) = 160 mm along, 23.6 mm from it.
		{"clear of a lean", disc, "40", "post mast on pad { diameter 100, length 300, lean 60 deg toward 45 deg, metal skin }", "", ""},
		{"under a lean", disc, "60", "post mast on pad { diameter 100, length 300, lean 60 deg toward 45 deg, metal skin }", none + "post 'mast': its middle is 3.6 mm from it, and it needs 16 mm", "reduce 'anchor_edge' to"},
		{"away from a lean", disc, "60", "post mast on pad { diameter 100, length 300, lean 60 deg toward 0 deg, metal skin }", "", ""},
		{"a head on the base", plate, "60", "ball moon at (0, 0, 300) { diameter 250, halves, metal skin }\npost leg from moon to pad { diameter 200, metal skin }", under + "post 'leg', where no bolt can go", "reduce 'anchor_edge'"},
	} {
		edge, want := "anchor_edge "+tt.edge, []wrong(nil)
		if tt.text != "" {
			edge, want = "«"+edge+"»", []wrong{{tt.text, tt.hint}}
		}
		t.Run(tt.name, func(t *testing.T) { checkMistakes(t, fmt.Sprintf(tt.base, edge)+tt.rest, Options{}, want) })
	}
}
