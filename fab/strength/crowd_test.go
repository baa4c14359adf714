package strength

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/frame"
	"stabile/fab/people"
	"stabile/param/written"
)

// mast returns a tube of 100 x 3 mm and 1500 mm, upright on a plate of 600 mm with four
// anchors of 18 mm holes 500 mm apart, with more about the base and the site. The input has no wind.
func mast(t *testing.T, base, site string) Input {
	t.Helper()
	d := written.Design(t, `units mm
metal steel { alloy low-carbon-steel, thickness 3, density 7850 kg/m3, yield 250 MPa, modulus 200000 MPa }
metal slab { alloy low-carbon-steel, thickness 20, density 7850 kg/m3, yield 250 MPa, modulus 200000 MPa }
base pad { plate 600 by 600, anchors 4, anchor_diameter 18, anchor_edge 50, metal slab`+base+` }
post mast on pad { diameter 100, length 1500, metal steel }
site { wind 40 m/s, method asce7, exposure C`+site+` }
`)
	pad, post := d.Parts[0], d.Parts[1]
	return Input{
		Design: d, Still: true, AnchorHole: 18, Target: 1,
		Items:     []frame.Item{{Part: pad, Mass: 56.52, CG: r3.Vec{Z: 10}}, {Part: post, Mass: 7.2e-3 * 1500, CG: r3.Vec{Z: 20 + 750}}},
		Footprint: []r2.Vec{{X: -300, Y: -300}, {X: 300, Y: -300}, {X: 300, Y: 300}, {X: -300, Y: 300}},
		Anchors:   []r2.Vec{{X: -250, Y: -250}, {X: 250, Y: -250}, {X: 250, Y: 250}, {X: -250, Y: 250}},
	}
}

// TestCrowded lays people on a mast: leaning on it bends its foot by force times height,
// ASCE 7 4.5.1 on the top of a guard; a weight at its top pushes it alone.
func TestCrowded(t *testing.T) {
	in := mast(t, "", "")
	lean := people.LeaningASCE
	s, err := Check(in.Crowded([]people.Load{lean}))
	if err != nil {
		t.Fatal(err)
	}
	// Weight on the foot is of no account beside the bending: 889.6 N at 1066.8 - 20 mm.
	want := lean.Level * (lean.Height - 20)
	if s.Plate == nil || math.Abs(s.Plate.Foot-want) > 1e-3*want || s.Plate.Case.Kind != check.PeopleLoad {
		t.Errorf("the foot bears %+v, want %v N mm", s.Plate, want)
	}
	if s.Anchors.Moment <= 0 || s.WorstAt.Case.Part != "mast" {
		t.Errorf("anchors %+v, worst at %+v", s.Anchors, s.WorstAt)
	}
	climb := people.ClimbingASCE
	if s, err = Check(in.Crowded([]people.Load{climb})); err != nil {
		t.Fatal(err)
	}
	if s.Anchors.Tension != 0 || s.Plate.Foot > 1e-3*want {
		t.Errorf("a weight over the middle: %+v", s.Anchors)
	}
	// A child at the top: 10 % of its weight, level.
	child, _, _ := people.Children(1)
	if s, err = Check(in.Crowded([]people.Load{climb, child})); err != nil {
		t.Fatal(err)
	}
	if want := child.Level * 1500; math.Abs(s.Plate.Foot-want) > 1e-3*want {
		t.Errorf("a child at the top bends the foot by %v N mm, want %v", s.Plate.Foot, want)
	}
	// In windows, as a piece of thousands of parts is worked out, it comes to the same.
	small := in.Crowded([]people.Load{climb, child, lean})
	whole, err := Check(small)
	if err != nil {
		t.Fatal(err)
	}
	small.room = 1
	parted, err := Check(small)
	if err != nil {
		t.Fatal(err)
	}
	if math.Abs(whole.Worst-parted.Worst) > 1e-9 || math.Abs(whole.Anchors.ForTarget-parted.Anchors.ForTarget) > 1e-6 {
		t.Errorf("%v and %v", whole.Worst, parted.Worst)
	}
	// What is above reach is not loaded.
	high := mast(t, "", "") // by hand: what is written stands on something
	high.Items[1].Part.Post.Ends[0].At.Z, high.Items[1].Part.Post.Ends[1].At.Z = 2600, 4100
	if p := Places(high, []people.Load{climb}); len(p) != 0 {
		t.Errorf("%+v is out of reach", p)
	}
}

// TestShaken: a level force of a share of the weight at its centre of gravity.
func TestShaken(t *testing.T) {
	in := mast(t, "", "")
	s, err := Check(in.Shaken(0.4, 1))
	if err != nil {
		t.Fatal(err)
	}
	want := 0.4 * 9.80665 * in.Items[1].Mass * 750
	if math.Abs(s.Plate.Foot-want) > 1e-2*want {
		t.Errorf("the foot bears %v N mm, want %v", s.Plate.Foot, want)
	}
}

// TestGrip: anchors in concrete by ACI 318, against the same worked out by hand here: four
// anchors pulled, 500 mm apart and far from edges, h_ef 150 mm in 25 MPa. Each cone is
// whole, since 3 h_ef is 450 mm; the pull is off the middle of the group.
func TestGrip(t *testing.T) {
	const set, push = ", concrete 25 MPa, anchor_depth 150", ", push 1000 N at 1200"
	in := mast(t, set, push)
	s, err := Check(in)
	if err != nil {
		t.Fatal(err)
	}
	g := s.Anchors.Grip
	weight := 9.80665 * (in.Items[0].Mass + in.Items[1].Mass)
	tips := 1.6*1000*1200 - 0.9*weight*300
	pull := tips * (2*550 + 2*50) / (2*550*550 + 2*50*50)
	off := 250.0 * (550 - 50) / (550 + 50)
	cone := 0.7 * 4 * 10 * math.Sqrt(25) * math.Pow(150, 1.5) / (1 + 2*off/450)
	if g == nil || math.Abs(g.Breakout-cone) > 1e-3*cone || math.Abs(g.BreakoutUse*g.Breakout-pull) > 1e-3*pull {
		t.Fatalf("%+v, want a cone of %v and a pull of %v", g, cone, pull)
	}
	// A footing under it: by hand, e = M / W.
	in = mast(t, set+", footing 1000 by 1200 by 400, ground 100 kPa", push+", soil sand")
	if s, err = Check(in); err != nil {
		t.Fatal(err)
	}
	b := s.Anchors.Bed
	all := weight + 1.0*1.2*0.4*2400*9.80665
	moment := 1000.0*1200 + 1000*400
	if b == nil || math.Abs(b.Factor-all*500/moment) > 1e-3*b.Factor || b.Case.Kind != check.Push {
		t.Fatalf("%+v, want a factor of %v", b, all*500/moment)
	}
	var ids []check.ID
	for _, c := range s.Checks(in) {
		if c.ID == check.AnchorGround || c.ID == check.Footing {
			ids = append(ids, c.ID)
			if c.Verdict == check.Undecided {
				t.Errorf("%+v", c)
			}
		}
	}
	if len(ids) != 2 {
		t.Errorf("checks %v", ids)
	}
}
