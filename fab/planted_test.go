package fab

import (
	"fmt"
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/ground"
	"stabile/fab/strength"
	"stabile/param/design"
	"stabile/param/quantity"
)

const plantedHead = `units mm
metal skin { alloy low-carbon-steel, thickness 3 }
metal slab { alloy low-carbon-steel, thickness 12 }
base ground { feet }
`

// checksOf returns the checks of a job of a kind.
func checksOf(j *Job, id check.ID) (list []check.Check) {
	for _, c := range j.Checks {
		if c.ID == id {
			list = append(list, c)
		}
	}
	return list
}

// TestSunk holds the flat, the weight and what the ground must hold of a post in concrete
// against figures by hand.
func TestSunk(t *testing.T) {
	const site = "site { push 400 N at 1 m, soil sand }\n"
	j := buildWith(t, plantedHead+"post mast on ground { diameter 100, length 2000, sunk 900, footing 400, metal skin }\n"+site, Everything&^WithPlan)
	p := &j.Parts[0]
	if b := p.Blanks[0]; math.Abs(b.Length-2900) > 1e-6 {
		t.Errorf("the blank is %v long, want 2900", b.Length)
	}
	if want := math.Pi * 97 * 3 * 2900 * 7850e-9; math.Abs(p.Mass-want) > 1e-3*want+0.3 {
		t.Errorf("it weighs %v, want %v and its disc", p.Mass, want)
	}
	if j.Size.Height != 2000 || math.Abs(j.Size.Below-900) > 1e-6 || math.Abs(j.Size.Width-100) > 1e-6 {
		t.Errorf("size %+v", j.Size)
	}
	if len(j.Strength.Sunk) != 1 {
		t.Fatalf("%d posts in the ground", len(j.Strength.Sunk))
	}
	s := j.Strength.Sunk[0]
	// A push of 400 N at 1000 mm over the ground.
	if math.Abs(s.Force-400) > 1e-6*400 || math.Abs(s.Moment-400e3) > 1e-6*400e3 {
		t.Errorf("%v N and %v N mm at the ground", s.Force, s.Moment)
	}
	// d3 = 7.02 P (d + 1.09 h) / (s b), IBC 1807.3.2.1.
	grow := ground.Soils[3].Lateral * 1e-6 * 400
	if d := s.Depth; math.Abs(d*d*d-7.02*400*(d+1.09*1000)/grow) > 1e-6*d*d*d {
		t.Errorf("%v deep is none", d)
	}
	if s.Use != s.Depth/900 {
		t.Errorf("use %v of depth %v", s.Use, s.Depth)
	}
	weight := quantity.Gravity * (j.Mass.Total + math.Pi/4*0.4*0.4*0.9*2400)
	if want := weight / (math.Pi / 4 * 400 * 400) * 1e3 / ground.Soils[3].Bearing; math.Abs(s.Bearing-want) > 1e-3*want {
		t.Errorf("bearing %v, want %v", s.Bearing, want)
	}
	for _, id := range []check.ID{check.Balance, check.Tipping, check.Sliding, check.Footing, check.Post} {
		if list := checksOf(j, id); len(list) != 1 || list[0].Verdict != check.Holds {
			t.Errorf("%s: %+v", id, list)
		}
	}
	// Too shallow: all that stands on it fails with it.
	j = buildWith(t, plantedHead+"post mast on ground { diameter 100, length 2000, sunk 300, footing 400, metal skin }\n"+site, WithStrength)
	for _, id := range []check.ID{check.Tipping, check.Footing} {
		if list := checksOf(j, id); len(list) != 1 || list[0].Verdict != check.Fails {
			t.Errorf("%s: %+v", id, list)
		}
	}
	// And without the soil nothing is decided.
	j = buildWith(t, plantedHead+"post mast on ground { diameter 100, length 2000, sunk 900, footing 400, metal skin }\nsite { push 400 N at 1 m }\n", WithStrength)
	if list := checksOf(j, check.Footing); len(list) != 1 || list[0].Why != (strength.SetUnknown{}) {
		t.Errorf("without a soil: %+v", list)
	}
	if list := checksOf(j, check.Tipping); list[0].Verdict != check.Undecided {
		t.Errorf("without a soil: %+v", list)
	}
}

// TestSunkLeans: a leaning tube ends level, as deep as it is sunk, along its axis.
func TestSunkLeans(t *testing.T) {
	j := buildWith(t, plantedHead+"post mast on ground { diameter 100, length 2000, lean 10 deg toward right, sunk 900, footing 500, metal skin }\n", 0)
	post := j.Parts[0].Post
	for _, q := range j.Parts[0].Body.Rims[design.Foot] {
		if q.Z < -900-1e-6 {
			t.Fatalf("the rim reaches to %v", q.Z)
		}
		rel := r3.Sub(q, post.Ends[design.Foot].At)
		out := r3.Norm(r3.Sub(rel, r3.Scale(r3.Dot(rel, post.Direction), post.Direction)))
		if math.Abs(out-50) > 1e-3 {
			t.Fatalf("the rim is %v from the axis", out)
		}
	}
	// The concrete lies about the middle of what is in it.
	if at := post.PierAt(); math.Abs(at.X+450*math.Tan(10*math.Pi/180)) > 1e-6 || at.Y != 0 {
		t.Errorf("the concrete lies at %v", at)
	}
}

// A leg that runs from the ground to a ball may stand on a pad of its own too, under its
// foot where 'at' says; every leg is cut to the upper face of its pad.
func TestPadsOfLegs(t *testing.T) {
	j := buildWith(t, plantedHead+`ball hub at (0, 0, 1200) { diameter 420, gores 12, metal skin }
repeat i from 0 to 2 {
  post leg[i] from ground to hub { at polar(600, 120 deg * i), diameter 50, pad 150 by 150 { metal slab }, metal skin }
}
`, Everything&^WithPlan)
	if got := len(j.Design.Pads()); got != 3 {
		t.Fatalf("%d pads", got)
	}
	for i := range 3 {
		leg, pad := j.Design.Part(fmt.Sprintf("leg[%d]", i)).Post, j.Design.Part(fmt.Sprintf("leg[%d].pad", i))
		at := leg.Ends[design.Foot].At
		sin, cos := math.Sincos(2 * math.Pi / 3 * float64(i))
		if want := (r3.Vec{X: 600 * cos, Y: 600 * sin, Z: pad.Base.Top}); r3.Norm(r3.Sub(at, want)) > 1e-9 || math.Hypot(pad.Base.At.X-at.X, pad.Base.At.Y-at.Y) > 1e-9 {
			t.Errorf("leg %d stands at %v on a pad about %v, want %v", i, at, pad.Base.At, want)
		}
		if leg.Ends[design.Foot].With != pad || leg.Ends[design.Foot].Meets != design.OnPlate {
			t.Errorf("leg %d does not stand on its pad", i)
		}
	}
}

// TestPads: a piece on anchored pads stands as on plates, each checked under its own post.
func TestPads(t *testing.T) {
	const text = plantedHead + `repeat i from 0 to 1 {
  post leg[i] on ground {
    at (600 * i, 100), diameter 80, length 1000, metal skin
    pad 200 by 160 { metal slab, anchors 4, anchor_diameter 14, anchor_edge 25, anchor_depth 100, concrete 25 MPa }
  }
}
post bar from leg[0].head to leg[1].head { diameter 80, metal skin }
site { push 500 N at 0.9 m }
`
	j := buildWith(t, text, Everything&^WithPlan)
	if got := len(j.Design.Pads()); got != 2 || j.Design.Base() != nil || !j.Design.Planted() || j.Design.Sunk() {
		t.Errorf("%d pads", got)
	}
	pad := j.Design.Part("leg[1].pad")
	if pad == nil || math.Abs(pad.Base.At.X-600) > 1e-9 {
		t.Fatalf("pad %+v", pad)
	}
	if b := j.Parts[0].Blanks[0]; b.Width != 200 || b.Length != 160 || len(b.Holes) != 4 || len(b.Feet) != 1 || r3.Norm(r3.Vec{X: b.Feet[0].At.X, Y: b.Feet[0].At.Y}) > 1e-9 {
		t.Errorf("blank %+v", j.Parts[0].Blanks[0])
	}
	if math.Abs(j.Size.Width-800) > 1e-9 || j.Tipping.Anchors != 8 || len(j.Tipping.Edges) != 4 {
		t.Errorf("%+v, %d anchors, %d edges", j.Size, j.Tipping.Anchors, len(j.Tipping.Edges))
	}
	if len(j.Strength.Pads) != 2 {
		t.Fatalf("%d pads were checked", len(j.Strength.Pads))
	}
	for _, id := range []check.ID{check.Plate, check.AnchorSteel, check.AnchorGround} {
		list := checksOf(j, id)
		if len(list) != 2 {
			t.Errorf("%s: %+v", id, list)
		}
		for _, c := range list {
			if c.Verdict != check.Holds || c.Found == 0 {
				t.Errorf("%+v", c)
			}
		}
	}
	// Alike from both sides, but for the seams and the welds of the bar.
	if a, b := j.Strength.Pads[0], j.Strength.Pads[1]; math.Abs(a.Anchors.Tension-b.Anchors.Tension) > 1e-4*a.Anchors.Tension || math.Abs(a.Plate.Ratio-b.Plate.Ratio) > 1e-6 {
		t.Errorf("tension %v and %v, plates %v and %v", a.Anchors.Tension, b.Anchors.Tension, a.Plate.Ratio, b.Plate.Ratio)
	}
}

// TestLonePad: one post on one pad is as a post on a plate of the same size.
func TestLonePad(t *testing.T) {
	const how = "anchors 4, anchor_diameter 14, anchor_edge 40, anchor_depth 100, concrete 25 MPa"
	const rest = "site { push 300 N at 0.8 m }\n"
	a := buildWith(t, plantedHead+"post leg on ground { diameter 80, length 1000, pad 300 by 240 { metal slab, "+how+" }, metal skin }\n"+rest, Everything&^WithPlan)
	b := buildWith(t, `units mm
metal skin { alloy low-carbon-steel, thickness 3 }
metal slab { alloy low-carbon-steel, thickness 12 }
base plate { plate 300 by 240, metal slab, `+how+` }
post leg on plate { diameter 80, length 1000, metal skin }
`+rest, Everything&^WithPlan)
	if math.Abs(a.Mass.Total-b.Mass.Total) > 1e-9 || math.Abs(a.Tipping.Factor-b.Tipping.Factor) > 1e-9 {
		t.Errorf("%v and %v kg, factors %v and %v", a.Mass.Total, b.Mass.Total, a.Tipping.Factor, b.Tipping.Factor)
	}
	// What the pad weighs is left out of what holds it down.
	pad, plate := a.Strength.Pads[0], b.Strength
	if x, y := pad.Anchors.Tension, plate.Anchors.Tension; x < y || x > 1.1*y {
		t.Errorf("tension %v and %v", x, y)
	}
	if x, y := pad.Anchors.Grip.Use, plate.Anchors.Grip.Use; x < y || x > 1.1*y {
		t.Errorf("grip %v and %v", x, y)
	}
	if x, y := pad.Plate.Ratio, plate.Plate.Ratio; math.Abs(x-y) > 1e-6 {
		t.Errorf("plate %v and %v", x, y)
	}
}
