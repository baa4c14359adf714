package flat

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
)

// TestWrong sees that a part that cannot be made is answered with the reason,
// at the property that is to blame.
func TestWrong(t *testing.T) {
	on := func(p *design.Part, foot design.Contact) *design.Part {
		p.Post.Ends[design.Foot].Contact = foot
		return p
	}
	ball := newBall(200, 1.5, design.RolledGores, 12, r3.Vec{})
	capped := func(caps float64) *design.Part {
		p := newBall(200, 1.5, design.RolledGores, 12, r3.Vec{})
		p.Ball.Caps = caps
		return p
	}
	gap := newPost(60, 1.5, 500, r3.Vec{}, design.Upright)
	gap.Post.Gap = 200
	taper := newPost(60, 1.5, 500, r3.Vec{}, design.Upright)
	taper.Post.Ends[design.Head].Diameter = 2
	odd := newBall(200, 1.5, -1, 12, r3.Vec{})
	bare := newPost(60, 1.5, 500, r3.Vec{}, design.Upright)
	bare.Metal = nil
	for _, tt := range []struct {
		name, property, want string
		part                 *design.Part
	}{
		{"past the ball", "offset", "runs past ball 'moon' with its foot", on(newPost(60, 1.5, 500, r3.Vec{X: 80, Z: 60}, design.Upright), onBall(ball))},
		{"past a sphere", "offset", "runs past ball 'moon'", on(newPost(60, 1.5, 500, r3.Vec{X: 70.1, Z: math.Sqrt(100*100 - 70.1*70.1)}, design.Upright), onBall(newBall(200, 1.5, design.Halves, 0, r3.Vec{})))},
		{"lying down", "lean", "leans so far", on(newPost(60, 1.5, 500, r3.Vec{}, r3.Vec{X: 1}), ground)},
		{"too short", "length", "too short for its two cut ends", on(newPost(60, 1.5, 25, r3.Vec{}, design.Leaning(math.Pi/4, 0)), ground)},
		{"no hollow", "diameter", "has no hollow", newPost(60, 30, 500, r3.Vec{}, design.Upright)},
		{"no length", "length", "has no length", newPost(60, 1.5, 0, r3.Vec{}, design.Upright)},
		{"not a number", "length", "has a size of NaN", newPost(60, 1.5, math.NaN(), r3.Vec{}, design.Upright)},
		{"all gap", "gap", "seam gap", gap},
		{"needle", "diameter", "has no hollow", taper},
		{"unknown build", "ball", "not known", odd},
		{"no metal", "metal", "has no metal", bare},
		{"solid ball", "metal", "has no hollow", newBall(10, 5, design.RolledGores, 6, r3.Vec{})},
		{"wide caps", "caps", "as wide as the ball", capped(199)},
		{"narrow gores", "gores", "narrower than", newBall(20, 1, design.RolledGores, 48, r3.Vec{})},
		{"few gores", "gores", "cannot be closed", newBall(200, 1, design.DomedGores, 2, r3.Vec{})},
		{"edge", "anchor_edge", "break through", newBase(design.Base{Width: 200, Depth: 200, Anchors: 4, AnchorDiameter: 20, AnchorEdge: 9})},
		{"crowd", "anchors", "no room for 60", newBase(design.Base{Width: 200, Depth: 200, Anchors: 60, AnchorDiameter: 20, AnchorEdge: 20})},
		{"drill", "anchors", "without a diameter", newBase(design.Base{Width: 200, Depth: 200, Anchors: 4, AnchorEdge: 20})},
		{"small plate", "anchor_edge", "too small", newBase(design.Base{Width: 50, Depth: 200, Anchors: 4, AnchorDiameter: 10, AnchorEdge: 30})},
	} {
		file := source.NewFile("x.stabile", "length offset diameter metal caps gores lean gap anchor_edge anchors post ball")
		tt.part.Props = make(map[string]source.Span)
		from := 0
		for _, word := range strings.Fields(file.Text) {
			tt.part.Props[word] = source.Span{File: file, From: from, To: from + len(word)}
			from += len(word) + 1
		}
		if tt.property == "offset" {
			delete(tt.part.Props, "lean")
		}
		d, wrong := Develop(tt.part)
		if len(wrong) != 1 || !strings.Contains(wrong[0].Text, tt.want) || wrong[0].Span.Text() != tt.property {
			t.Errorf("%s: Develop = %v, want '%s' at %s", tt.name, wrong.Err(), tt.want, tt.property)
		}
		if len(d.Blanks) != 0 || d.Mass != 0 {
			t.Errorf("%s: developed all the same: %+v", tt.name, d)
		}
	}
}

// TestEdgeOfReason develops parts near the bounds of what can be made.
func TestEdgeOfReason(t *testing.T) {
	near := func(off float64, build design.Construction, n int) *design.Part {
		p := newPost(60, 1.5, 500, r3.Vec{X: off, Z: math.Sqrt(100*100 - off*off)}, design.Upright)
		p.Post.Ends[design.Foot].Contact = onBall(newBall(200, 1.5, build, n, r3.Vec{}))
		return p
	}
	leaning := newPost(60, 1.5, 500, r3.Vec{}, design.Leaning(80*math.Pi/180, 1))
	leaning.Post.Ends[design.Foot].Contact = ground
	// A plane at 45 deg cuts a tube of 60 mm off 30 mm up its shortest side.
	scant := newPost(60, 1.5, 30.15, r3.Vec{}, design.Leaning(math.Pi/4, 0))
	scant.Post.Ends[design.Foot].Contact = ground
	for name, p := range map[string]*design.Part{
		"at the rim of a sphere": near(69.999, design.Halves, 0),
		"at the rim of lobes":    near(69.999, design.RolledGores, 4),
		"many lobes":             near(0, design.RolledGores, 48),
		"more lobes than steps":  near(0, design.RolledGores, 96),
		"odd lobes":              near(40, design.RolledGores, 5),
		"far over":               leaning,
		"hardly a side":          scant,
	} {
		d, wrong := Develop(p)
		if wrong.Err() != nil {
			t.Errorf("%s: %v", name, wrong.Err())
			continue
		}
		checkOutline(t, d.Blanks[0])
		checkRolledUp(t, p, d.Blanks[0])
		if len(d.Blanks[0].Outline) > 2000 {
			t.Errorf("%s: outline of %d points", name, len(d.Blanks[0].Outline))
		}
	}
	for _, n := range []int{4, 5, 48} {
		for _, caps := range []float64{0, 0.5, 5, 270} {
			for _, thick := range []float64{0.5, 30, 149} {
				for _, build := range []design.Construction{design.RolledGores, design.DomedGores} {
					p := newBall(300, thick, build, n, r3.Vec{})
					p.Ball.Caps = caps
					d, wrong := Develop(p)
					if wrong.Err() != nil {
						if thick < 30 {
							t.Errorf("%d gores of %v, caps %v: %v", n, thick, caps, wrong.Err())
						}
						continue
					}
					for _, b := range d.Blanks {
						checkOutline(t, b)
						if !(b.Area > 0 && b.Mass > 0) || !quantity.Finite(d.Seam, b.Forming.Stretch, b.Forming.Crown) {
							t.Errorf("%d gores of %v, caps %v: %+v", n, thick, caps, b)
						}
					}
				}
			}
		}
	}
}
