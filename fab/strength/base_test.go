package strength_test

import (
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/frame/trial"
	"stabile/fab/strength"
	"stabile/param/design"
	"stabile/param/quantity"
)

// masted is a mast of 76 x 3 x 1500 mm on a plate of 10 mm, pushed with 300 N at
// 1000 mm from the ground: 300 N x 990 mm = 297 000 N mm at its foot.
func masted(width, depth float64, at r2.Vec) (*trial.Builder, strength.Input) {
	b := trial.New(3)
	foot := r3.Vec{X: at.X, Y: at.Y, Z: 10}
	b.Stand("mast", b.Plate(width, depth, 10), foot, r3.Add(foot, r3.Vec{Z: 1500}), 76, 76)
	b.Design.Site = &design.Site{Push: 300, PushHeight: 1000}
	return b, strength.Input{Design: &b.Design, Items: b.Items(), Footprint: rectangle(width, depth)}
}

// corners are anchors at the corners of a rectangle.
func corners(x, y float64) []r2.Vec {
	return []r2.Vec{{X: -x, Y: -y}, {X: x, Y: -y}, {X: x, Y: y}, {X: -x, Y: y}}
}

// disc is a regular polygon that stands for a round plate.
func disc(radius float64) []r2.Vec {
	list := make([]r2.Vec, 72)
	for i := range list {
		sin, cos := math.Sincos((float64(i) - 0.5) * math.Pi / 36)
		list[i] = r2.Vec{X: radius * cos, Y: radius * sin}
	}
	return list
}

// TestPlateByHand holds the bending of the plate against figures worked out by
// hand: a strip in bending, M_n = Fy Z with Z = b t2 / 4, over 1.67 (AISC 360 F11),
// so that b = 80 mm, t = 10 mm and 230 MPa carry 230 x 2000 / 1.67 = 275 449 N mm,
// 3443.1 N mm for each mm of width.
func TestPlateByHand(t *testing.T) {
	const each = 230 * 10 * 10 / 4 / 1.67 // N mm for each mm
	for _, tt := range []struct {
		name                        string
		width, depth                float64
		at                          r2.Vec
		footprint                   []r2.Vec // of the rectangle where nil
		anchors                     []r2.Vec
		ballast                     float64
		force, lever, strip, moment float64 // 0 for not known by hand
		how                         strength.BentBy
		toward                      float64 // deg; below 0 for any
	}{
		// The edge 600 mm away: 297 000 / 600 = 495 N, 562 mm from the face. The strip
		// would be 1124 mm wide, of which the plate has 80.
		{"narrow", 1200, 80, r2.Vec{}, nil, nil, 0, 495, 562, 80, 278190, strength.MomentOnEdge, 0},
		// Anchors at (570, 10): 570.088 mm away, 520.97 N, 532.088 mm from the face.
		// That comes to 277 203 N mm, but 80.012 mm of the strip lie on the plate, askew
		// as it is: the edge is worse by half a percent.
		{"narrow, anchored", 1200, 80, r2.Vec{}, nil, corners(570, 10), 0, 495, 562, 80, 278190, strength.MomentOnEdge, 0},
		// 200 kg of ballast on the same: the whole weight is more than 495 N.
		{"narrow, ballasted", 1200, 80, r2.Vec{}, nil, nil, 200, 0, 562, 80, 0, strength.WholeOnEdge, 0},
		// One anchor: 297 000 / 100 N, 62 mm from the face, spread to 124 mm, all of it on
		// the plate, 1485 N mm for each mm. The edges: 297 000 / 500 N by 462 mm on 600
		// mm, 457, and 297 000 / 300 by 262 on 524 mm, 495.
		{"one anchor", 1000, 600, r2.Vec{}, nil, []r2.Vec{{X: 100}}, 0, 2970, 62, 124, 184140, strength.MomentOnAnchor, 0},
		// An anchor whose middle is 2 mm from the face: 297 000 / 40 N by 2 mm on 4 mm,
		// 3712.5 N mm for each mm, and not nothing.
		{"anchor at the post", 1000, 600, r2.Vec{}, nil, []r2.Vec{{Y: -40}}, 0, 7425, 2, 4, 14850, strength.MomentOnAnchor, 270},
		// Off the middle the edge 60 mm away is the worst, 297 000 / 60 N by 22 mm on the
		// width of the mast, 1433 N mm for each mm. The one 938 mm away carries the whole
		// weight, 357 N, by 900 mm on 300 mm, 1070.
		{"off the middle", 1200, 300, r2.Vec{X: 338, Y: 90}, nil, nil, 0, 4950, 22, 76, 108900, strength.MomentOnEdge, 90},
		// A disc of 300 mm: at the face, 38 mm off the middle, it is 2 sqrt(300^2 -
		// 38^2) = 595.2 mm wide, but the strip is 2 (300 - 38) = 524 mm: within a
		// thousandth for the polygon. 297 000 / 300 = 990 N.
		{"round", 600, 600, r2.Vec{}, disc(300), nil, 0, 990, 262, 524, 259380, strength.MomentOnEdge, -1},
	} {
		b, in := masted(tt.width, tt.depth, tt.at)
		in.Anchors, in.Ballast, in.BallastAt = tt.anchors, tt.ballast, r3.Vec{Z: 10}
		if tt.footprint != nil {
			in.Footprint = tt.footprint
		}
		s, err := strength.Check(in)
		require.NoError(t, err)
		p := s.Plate
		require.NotNil(t, p, tt.name)
		if tt.ballast > 0 {
			mass := tt.ballast
			for _, it := range b.Items() {
				mass += it.Mass
			}
			tt.force = mass * quantity.Gravity
			tt.moment = tt.force * tt.lever
		}
		share := 1e-9
		if tt.footprint != nil {
			share = 2e-3
		}
		for _, f := range []struct {
			name      string
			got, want float64
		}{
			{"force", p.Force, tt.force}, {"lever", p.Lever, tt.lever}, {"width", p.Width, tt.strip}, {"moment", p.Moment, tt.moment},
			{"ratio", p.Ratio, tt.moment / (each * tt.strip)},
		} {
			if f.want > 0 && !near(f.got, f.want, share) {
				t.Errorf("%s: %s %v, want %v", tt.name, f.name, f.got, f.want)
			}
		}
		toward := p.How.Toward * 180 / math.Pi
		if p.How.By != tt.how || tt.toward >= 0 && math.Abs(toward-tt.toward) > 1e-9 || p.Foot > 297e3*(1+1e-9) {
			t.Errorf("%s: %+v, of %v N mm; want %s toward %v", tt.name, p.How, p.Foot, tt.how, tt.toward)
		}
		if want := p.Force * p.Lever / (each * p.Width); !near(p.Ratio, want, 1e-9) || !near(p.Stress, 6*p.Moment/(p.Width*100), 1e-9) {
			t.Errorf("%s: ratio %v of %v MPa, want %v", tt.name, p.Ratio, p.Stress, want)
		}
		found := false
		for _, f := range s.Findings(in) {
			_, bends := f.Fact.(strength.PlateBends)
			found = found || bends && f.Level == finding.Danger
		}
		if found != (p.Ratio > 1) {
			t.Errorf("%s: a ratio of %v is found: %v", tt.name, p.Ratio, found)
		}
	}
}

// TestPlatePosts holds that of two posts on one plate each is checked for what it
// carries itself: a long plate bends by the one at its end that is pushed, at the near
// edge, and does not carry the weight of the other all along.
func TestPlatePosts(t *testing.T) {
	b, in := masted(4000, 400, r2.Vec{X: 1900})
	far := b.Stand("far", b.Design.Parts[0], r3.Vec{X: -1900, Z: 10}, r3.Vec{X: -1900, Z: 500}, 76, 76)
	b.Weigh(far, 1000)
	in.Items = b.Items()
	s, err := strength.Check(in)
	require.NoError(t, err)
	p := s.Plate
	// Of the mast toward 180 deg: its own weight and the plate's, by 3900 - 38 mm on
	// 400 mm. The plate is 4000 x 400 x 10 mm, the mast pi x 73 x 3 x 1500 mm. The far
	// post of 1000 kg: 9806.65 N and the plate's, by 3862 mm the other way.
	plate := 7850e-9 * 4000 * 400 * 10 * 9.80665
	if force := 1000*9.80665 + plate; p.Post != far || !near(p.Force, force, 1e-6) || !near(p.Width, 400, 1e-12) || !near(p.Lever, 3862, 1e-12) {
		t.Errorf("%s: %v N by %v on %v mm, %+v; want %v N", p.Post.Name, p.Force, p.Lever, p.Width, p.How, force)
	}
	if p.How.By != strength.RockedOnEdge {
		t.Errorf("bent by %+v", p.How)
	}
	b.Weigh(far, 1)
	in.Items = b.Items()
	s, err = strength.Check(in)
	require.NoError(t, err)
	mast := 7850e-9 * math.Pi * 73 * 3 * 1500 * 9.80665
	if p := s.Plate; p.Post.Name != "mast" || !near(p.Force, mast+plate, 1e-6) || !near(p.Lever, 3862, 1e-12) {
		t.Errorf("%s: %v N by %v mm, want %v", p.Post.Name, p.Force, p.Lever, mast+plate)
	}
}

// TestPlateHeads holds that a post whose head is on the plate bends it as one whose
// foot is.
func TestPlateHeads(t *testing.T) {
	var ratios [2]float64
	for i := range ratios {
		b := trial.New(3)
		plate := b.Plate(600, 600, 10)
		ball := b.Ball("ball", r3.Vec{Z: 1200}, 150)
		if i == 0 {
			b.Tie("leg", plate, ball, r3.Vec{Z: 10}, r3.Vec{}, 76)
		} else {
			b.Tie("leg", ball, plate, r3.Vec{}, r3.Vec{Z: 10}, 76)
		}
		b.Design.Site = &design.Site{Push: 300, PushHeight: 1200}
		s, err := strength.Check(strength.Input{Design: &b.Design, Items: b.Items(), Footprint: rectangle(600, 600)})
		require.NoError(t, err)
		require.NotNil(t, s.Plate)
		ratios[i] = s.Plate.Ratio
		if head := i == 1; s.Plate.How.Head != head || !near(s.Plate.Foot, 300*1190, 1e-6) {
			t.Errorf("%v N mm, %+v", s.Plate.Foot, s.Plate.How)
		}
	}
	if !near(ratios[0], ratios[1], 1e-9) {
		t.Errorf("standing on its foot %v, on its head %v", ratios[0], ratios[1])
	}
}

// TestAnchorUnderPost holds that an anchor under a post does not pass for a plate
// that nothing bends: the edges still bend it, and the anchor is reported.
func TestAnchorUnderPost(t *testing.T) {
	_, in := masted(600, 600, r2.Vec{})
	free, err := strength.Check(in)
	require.NoError(t, err)
	in.Anchors = corners(20, 20)
	s, err := strength.Check(in)
	require.NoError(t, err)
	if !(s.Plate.Ratio > 0) || s.Plate.Ratio != free.Plate.Ratio || !slices.ContainsFunc(s.Unchecked, func(u strength.Unchecked) bool {
		return u.Gap == strength.PlateAtAnchor && slices.Equal(u.Places, []strength.Place{{Part: "plate", With: "mast"}})
	}) {
		t.Errorf("ratio %v, without anchors %v; not covered: %+v", s.Plate.Ratio, free.Plate.Ratio, s.Unchecked)
	}
}

// TestAnchorShear holds the shear of the anchors by hand: a push of 30 kN at 150 mm
// on a heavy plate with 4 anchors of 4 mm in holes of 6. Two carry it, times 1.5:
// 22 500 N, of 186 MPa x 12.566 mm2 / 2 = 1168.7 N by AISC 360 J3.6 (27 ksi, A307).
func TestAnchorShear(t *testing.T) {
	for _, tt := range []struct {
		push, hole, want float64
		fails            bool
	}{
		{30e3, 6, 22500 / 1168.672467, true},
		{30e3, 26, 22500 / 42072.2088, false},
		{1500, 6, 1125 / 1168.672467, false},
		{1600, 6, 1200 / 1168.672467, true},
	} {
		b := trial.New(6)
		b.Stand("mast", b.Plate(1500, 1500, 20), r3.Vec{Z: 20}, r3.Vec{Z: 320}, 200, 200)
		b.Design.Site = &design.Site{Push: tt.push, PushHeight: 150}
		in := strength.Input{
			Design: &b.Design, Items: b.Items(), Footprint: rectangle(1500, 1500), Target: 1.5,
			Anchors: corners(700, 700), AnchorHole: tt.hole, Ballast: 900, BallastAt: r3.Vec{Z: 20},
		}
		s, err := strength.Check(in)
		require.NoError(t, err)
		a := s.Anchors
		if a.ForTarget != 0 || a.Ratio != 0 || a.Sharing != 2 || !near(a.ShearForTarget, tt.push*1.5/2, 1e-9) || !near(a.ShearRatio, tt.want, 1e-6) || !near(a.Interaction, tt.want, 1e-6) || a.Worst() != a.Interaction {
			t.Errorf("%+v: %+v, want a ratio of %v", tt, a, tt.want)
		}
		found := false
		for _, f := range s.Findings(in) {
			_, sheared := f.Fact.(strength.AnchorShear)
			found = found || sheared && f.Level == finding.Danger
		}
		if found != tt.fails {
			t.Errorf("%+v: found %v", tt, found)
		}
		steel := verdictsOf(s.Checks(in), check.AnchorSteel)
		if want := (check.Fails); tt.fails && !slices.Contains(steel, want) || !tt.fails && slices.Contains(steel, want) {
			t.Errorf("%+v: %v", tt, steel)
		}
	}
}

// TestAnchorTwist holds the shear of anchors that a push turns, by hand: 300 N on
// the end of an arm of 800 mm, on anchors at (300, 400), 500 mm from the middle.
// Square to the arm the twist is 240 000 N mm: 120 N on each and 75 N of the push.
// The direction of the twist's share at (300, 400) is (-0.8, 0.6), or its reverse, so
// that together they are at most |(-96, 72) + (0, 75)| = 175.5 N from the push along y,
// of four; two carry it. Pushes askew twist less but may add up to more.
func TestAnchorTwist(t *testing.T) {
	b := trial.New(3)
	mast := b.Stand("mast", b.Plate(700, 900, 10), r3.Vec{Z: 10}, r3.Vec{Z: 1000}, 76, 76)
	b.Stand("arm", mast, r3.Vec{X: 38, Z: 800}, r3.Vec{X: 800, Z: 801}, 30, 30)
	b.Design.Site = &design.Site{Push: 300, PushHeight: 801}
	in := strength.Input{Design: &b.Design, Items: b.Items(), Footprint: rectangle(700, 900), Anchors: corners(300, 400), AnchorHole: 14}
	s, err := strength.Check(in)
	require.NoError(t, err)
	want := 0.0
	for k := range 72 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / 72)
		for _, at := range in.Anchors {
			twist := 800 * 300 * sin / 500 / 4
			want = max(want, math.Hypot(75*cos-twist*at.Y/500, 75*sin+twist*at.X/500))
		}
	}
	if want *= 2; want < 2*175.5 || !near(s.Anchors.ShearForTarget, want, 1e-9) || !near(s.Anchors.Shear, 75, 1e-9) || s.Anchors.ShearCase.Part != "arm" {
		t.Errorf("shear %v in %+v, want %v", s.Anchors.ShearForTarget, s.Anchors.ShearCase, want)
	}
}

// TestTogether holds AISC 360 (J3-3b) as the specification writes it: F'nt = 1.3 Fnt
// - 2 Fnt / Fnv f, at most Fnt, with A307's 310 and 186 MPa.
func TestTogether(t *testing.T) {
	for _, f := range []float64{0, 10, 27, 28, 50, 80, 92} { // MPa of shear
		tensile := min(310, 1.3*310-2*310/186.0*f)
		// A bolt that carries just that.
		d := 12.0
		area := math.Pi / 4 * d * d
		_, pull := strength.Bolt(d + 2)
		if got := strength.Interaction(tensile*area/2/pull, f*area/strength.BoltShear(d)); !near(got, 1, 1e-12) {
			t.Errorf("at %v MPa of shear %v MPa of pull take up %v, want 1", f, tensile/2, got)
		}
	}
	if got := strength.Interaction(0.2, 1.1); got != 1.1 {
		t.Errorf("sheared through: %v", got)
	}
}

// TestAnchorBoth holds the finding of anchors that carry pull and shear alone, but not
// both: 2400 N at 700 mm on a plate of 400 mm, bolts of 6 mm.
func TestAnchorBoth(t *testing.T) {
	b := trial.New(3)
	b.Stand("mast", b.Plate(400, 400, 12), r3.Vec{Z: 12}, r3.Vec{Z: 1012}, 76, 76)
	b.Design.Site = &design.Site{Push: 2400, PushHeight: 700}
	in := strength.Input{Design: &b.Design, Items: b.Items(), Footprint: rectangle(400, 400), Target: 1.5, Anchors: corners(160, 160), AnchorHole: 8}
	s, err := strength.Check(in)
	require.NoError(t, err)
	mass := 0.0
	for _, it := range in.Items {
		mass += it.Mass
	}
	// The push square to an edge is the worst of both: pull 360 M / (2 (40^2 + 360^2)).
	pull := (1.5*2400*700 - mass*9.80665*200) * 360 / (2 * (40*40 + 360*360))
	shear := 1.5 * 2400 / 2.0
	area := math.Pi / 4 * 36
	both := (pull/(155*area) + shear/(93*area)) / 1.3
	a := s.Anchors
	if a.Ratio > 1 || a.ShearRatio > 1 || both <= 1 || !near(a.Interaction, both, 1e-6) {
		t.Errorf("%+v, want %v together", a, both)
	}
	found := false
	for _, f := range s.Findings(in) {
		_, both := f.Fact.(strength.AnchorInteraction)
		found = found || both && f.Level == finding.Danger
	}
	if !found {
		t.Error("it is not found")
	}
}

// verdictsOf returns the verdicts of the checks of a kind.
func verdictsOf(list []check.Check, id check.ID) []check.Verdict {
	var verdicts []check.Verdict
	for _, c := range list {
		if c.ID == id {
			verdicts = append(verdicts, c.Verdict)
		}
	}
	return verdicts
}
