package flat

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/written"
)

// TestWrong sees that a part that cannot be made is answered with the reason,
// at the property that is to blame.
func TestWrong(t *testing.T) {
	for _, tt := range []struct{ name, part, at, want string }{
		{"too short", "post mast on pad { diameter 60, length 25, lean 45 deg toward right, metal skin }", "length 25", "too short for its two cut ends"},
		{"wide caps", "ball moon on pad { diameter 200, gores 12, caps 199, metal skin }", "caps 199", "as wide as the ball"},
		{"narrow gores", "ball moon on pad { diameter 20, gores 48, metal skin }", "gores 48", "narrower than"},
	} {
		d := written.Design(t, written.Metric+"base pad { plate 900 by 900, metal slab }\n"+tt.part)
		answered(t, tt.name, d.Parts[1], tt.at, tt.want)
	}
	answered(t, "crowd", pad(t, "plate 200 by 200, anchors 60, anchor_diameter 20, anchor_edge 20"), "anchors 60", "no room for 60")
}

// answered sees that a part cannot be made, for a reason at one of its properties.
func answered(t *testing.T, name string, p *design.Part, at, want string) {
	t.Helper()
	d, wrong := Develop(p)
	if len(wrong) != 1 || !strings.Contains(wrong[0].Text, want) || wrong[0].Span.Text() != at {
		t.Errorf("%s: Develop = %v, want '%s' at %s", name, wrong.Err(), want, at)
	}
	if len(d.Blanks) != 0 || d.Mass != 0 {
		t.Errorf("%s: developed all the same: %+v", name, d)
	}
}

// TestRefused hands over what the language refuses, made by hand: development looks for
// itself.
func TestRefused(t *testing.T) {
	on := func(p *design.Part, foot design.Contact) *design.Part {
		p.Post.Ends[design.Foot].Contact = foot
		return p
	}
	ball := newBall(200, 1.5, design.RolledGores, 12, r3.Vec{})
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
		{"no hollow", "diameter", "has no hollow", newPost(60, 30, 500, r3.Vec{}, design.Upright)},
		{"no length", "length", "has no length", newPost(60, 1.5, 0, r3.Vec{}, design.Upright)},
		{"not a number", "length", "has a size of NaN", newPost(60, 1.5, math.NaN(), r3.Vec{}, design.Upright)},
		{"all gap", "gap", "seam gap", gap},
		{"needle", "diameter", "has no hollow", taper},
		{"unknown build", "ball", "not known", odd},
		{"no metal", "metal", "has no metal", bare},
		{"solid ball", "metal", "has no hollow", newBall(10, 5, design.RolledGores, 6, r3.Vec{})},
		{"few gores", "gores", "cannot be closed", newBall(200, 1, design.DomedGores, 2, r3.Vec{})},
		{"edge", "anchor_edge", "break through", newBase(design.Base{Width: 200, Depth: 200, Anchors: 4, AnchorDiameter: 20, AnchorEdge: 9})},
		{"drill", "anchors", "without a diameter", newBase(design.Base{Width: 200, Depth: 200, Anchors: 4, AnchorEdge: 20})},
		{"small plate", "anchor_edge", "too small", newBase(design.Base{Width: 50, Depth: 200, Anchors: 4, AnchorDiameter: 10, AnchorEdge: 30})},
	} {
		file := source.NewFile("x.stabile", "length offset diameter metal gores lean gap anchor_edge anchors post ball")
		tt.part.Props = make(map[string]source.Span)
		from := 0
		for _, word := range strings.Fields(file.Text) {
			tt.part.Props[word] = source.Span{File: file, From: from, To: from + len(word)}
			from += len(word) + 1
		}
		if tt.property == "offset" {
			delete(tt.part.Props, "lean")
		}
		answered(t, tt.name, tt.part, tt.property, tt.want)
	}
}

// TestEdgeOfReason develops parts near the bounds of what can be made.
func TestEdgeOfReason(t *testing.T) {
	near := func(off float64, ball string) string {
		return fmt.Sprintf("ball moon on pad { diameter 200, %s, metal skin }\npost mast on moon { diameter 60, length 500, offset %v toward right, head open, metal skin }", ball, off)
	}
	many := newPost(60, 1.5, 500, r3.Vec{Z: 100}, design.Upright)
	many.Post.Ends[design.Foot].Contact = onBall(newBall(200, 1.5, design.RolledGores, 96, r3.Vec{})) // by hand: more than the language takes
	list := map[string]*design.Part{"more lobes than steps": many}
	for name, text := range map[string]string{
		"at the rim of a sphere": near(69.999, "halves"),
		"at the rim of lobes":    near(69.999, "gores 4, edge mid"),
		"many lobes":             near(0, "gores 48, edge mid"),
		"odd lobes":              near(40, "gores 5, edge mid"),
		"far over":               "post mast on pad { diameter 60, length 500, lean 80 deg toward 1 rad, head open, metal skin }",
		// A plane at 45 deg cuts a tube of 60 mm off 30 mm up its shortest side.
		"hardly a side": "post mast on pad { diameter 60, length 30.15, lean 45 deg toward right, head open, metal skin }",
	} {
		list[name] = written.Design(t, written.Metric+"base pad { plate 900 by 900, metal slab }\n"+text).Part("mast")
	}
	for name, p := range list {
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
	// By hand: caps of next to nothing and sheet as thick as the ball are refused.
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

// newBase returns a base of sheet 10 mm thick.
func newBase(b design.Base) *design.Part {
	b.Top = 10
	return &design.Part{Name: "pad", Metal: steel(10), Base: &b}
}
