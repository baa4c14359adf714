package eval

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

const wallHead = `units mm
metal skin { alloy low-carbon-steel, gauge 18 }
metal slab { alloy low-carbon-steel, thickness 10 }
base plate { wall 400 by 500 at 1600, metal slab, anchors 4, anchor_diameter 12, anchor_edge 30 }
`

// TestOnWall: posts come out of a plate on a wall square to it, or as they lean from upright;
// what they carry is as everywhere.
func TestOnWall(t *testing.T) {
	d := mustEvaluate(t, wallHead+`post arm on plate { at (30, 100), diameter 50, length 300, metal skin }
post riser on arm { diameter 50, length 400, lean 0 deg, metal skin }
post on_ward on riser { diameter 40, length 100, metal skin }
post spray on plate { at (-90, -100), diameter 40, length 300, lean 60 deg toward front, metal skin }
post drop on plate { at (100, -120), diameter 40, length 200, lean 150 deg toward front, metal skin }
ball star on spray { diameter 120, halves, metal skin }
post tie from plate to star { at (-110, 60), diameter 30, metal skin }
hole way in plate { at (150, 150), diameter 20 }
require plate.top >= 1850 mm and plate.centre.y <= -10 mm and plate.depth >= 500 mm`)
	at := func(name string, end int) r3.Vec { return d.Part(name).Post.Ends[end].At }
	for _, c := range []struct {
		name string
		got  r3.Vec
		want r3.Vec
	}{
		{"the foot of the arm", at("arm", design.Foot), r3.Vec{X: 30, Y: -10, Z: 1700}},
		{"its head", at("arm", design.Head), r3.Vec{X: 30, Y: -310, Z: 1700}},
		{"the head of the riser", at("riser", design.Head), r3.Vec{X: 30, Y: -310, Z: 2100}},
		{"that of the next", at("on_ward", design.Head), r3.Vec{X: 30, Y: -310, Z: 2200}},
		{"that of the spray", at("spray", design.Head), r3.Vec{X: -90, Y: -10 - 300*math.Sin(math.Pi/3), Z: 1500 + 150}},
		{"that of the drop", at("drop", design.Head), r3.Vec{X: 100, Y: -10 - 100, Z: 1480 - 200*math.Sqrt(3)/2}},
		{"the foot of the tie", at("tie", design.Foot), r3.Vec{X: -110, Y: -10, Z: 1660}},
		{"the hole", d.Part("plate").Holes[0].At, r3.Vec{X: 150, Y: -10, Z: 1750}},
		{"its way", d.Part("plate").Holes[0].Way, r3.Vec{Y: -1}},
	} {
		if r3.Norm(r3.Sub(c.got, c.want)) > 1e-9 {
			t.Errorf("%s is at %v, want %v", c.name, c.got, c.want)
		}
	}
	arm := d.Part("arm")
	if !arm.StraightOut() || d.Part("spray").StraightOut() || arm.Post.Lean != math.Pi/2 {
		t.Errorf("the arm leans %v", arm.Post.Lean)
	}
	base := d.Part("plate").Base
	if d.Wall() != base || !base.AnchorsDrilled || d.Part("plate").Top() != 1850 {
		t.Errorf("%+v", base)
	}
	if d := mustEvaluate(t, "units mm\nmetal slab { alloy low-carbon-steel, thickness 10 }\nbase pad { plate 400 by 500, metal slab, anchors 4, anchor_diameter 12, anchor_edge 30 }"); d.Wall() != nil || d.Parts[0].Base.AnchorsDrilled {
		t.Error("a plate on the ground is on a wall, or its anchors are drilled")
	}
}
