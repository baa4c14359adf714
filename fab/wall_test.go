package fab

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/assembly"
	"stabile/fab/check"
	"stabile/fab/ground"
	"stabile/fab/stand"
	"stabile/fab/wind"
	"stabile/param/quantity"
)

// lamp is a ball on an arm that comes out of a plate on a wall.
const lamp = `units mm
metal skin { alloy low-carbon-steel, thickness 2 mm }
metal slab { alloy low-carbon-steel, thickness 10 mm }
base plate { wall 300 mm by 400 mm at 1600 mm, metal slab, anchors 4, anchor_diameter 14 mm, anchor_edge 40 mm MORE }
post arm on plate { at (0, 50 mm), diameter 60 mm, length 600 mm, metal skin }
ball moon on arm { diameter 300 mm, gores 8, metal skin, vent 6 mm }
`

func hung(more string) string { return strings.Replace(lamp, " MORE", more, 1) }

// hangs builds a design whole.
func hangs(t *testing.T, text string) *Job {
	t.Helper()
	return buildWith(t, text, Everything)
}

// decided returns the worst check of a kind.
func decided(t *testing.T, j *Job, id check.ID) (worst check.Check) {
	t.Helper()
	for _, c := range j.Checks {
		if c.ID == id && (worst.ID == "" || c.Verdict == check.Worst([]check.Check{worst, c}) && c.Verdict != worst.Verdict) {
			worst = c
		}
	}
	if worst.ID == "" {
		t.Fatalf("there is no check of %s", id)
	}
	return worst
}

// TestWallOwnWeight: under its own weight alone the anchors carry what statics says of a stiff
// plate that turns about its lower edge, and a quarter of the weight each.
func TestWallOwnWeight(t *testing.T) {
	j := hangs(t, hung(""))
	a := j.Strength.Anchors
	if a == nil || !j.Tipping.Hung || len(j.Tipping.Edges) > 0 {
		t.Fatal("it is not on a wall")
	}
	weight := quantity.Gravity * j.Mass.Total
	moment := weight * -j.CG.Y // about the back of the plate
	// The anchors are 40 and 360 mm above the lower edge.
	want := moment * 360 / (2 * (40*40 + 360*360))
	if math.Abs(a.Tension-want) > 1e-6*want || a.Case.Kind != check.OwnWeight || a.Lift > 1e-9*weight {
		t.Errorf("tension %v N in %v, by hand %v", a.Tension, a.Case.Kind, want)
	}
	if math.Abs(a.Shear-weight/4) > 1e-6*weight {
		t.Errorf("shear %v N, by hand %v", a.Shear, weight/4)
	}
	// With play two of them carry it; the centre of gravity is in the middle, so there is no twist.
	if math.Abs(a.ShearForTarget-weight/2) > 1e-6*weight {
		t.Errorf("shear of two %v N, by hand %v", a.ShearForTarget, weight/2)
	}
	if a.ForTarget != a.Tension {
		t.Errorf("the tension is taken %v times", a.ForTarget/a.Tension)
	}
}

// TestWallTwist: a weight to one side twists the group of anchors, by the elastic method.
func TestWallTwist(t *testing.T) {
	j := hangs(t, strings.Replace(hung(""), "at (0, 50 mm)", "at (90 mm, 50 mm)", 1))
	a := j.Strength.Anchors
	weight, twist := quantity.Gravity*j.Mass.Total, quantity.Gravity*j.Mass.Total*j.CG.X
	square := 4 * (110.0*110 + 160*160)
	// The one at the right: both shares of the twist, and a quarter of the weight.
	want := math.Hypot(twist/square*160, weight/4+twist/square*110) * 2
	if math.Abs(a.ShearForTarget-want) > 1e-6*want {
		t.Errorf("shear of two %v N, by hand %v", a.ShearForTarget, want)
	}
}

// TestWallConcrete: what the concrete of a wall holds is ACI 318's for the factored loads, made
// up by hand here: 1.4 times the weight, by 2.3.1 of ASCE 7, on drilled anchors.
func TestWallConcrete(t *testing.T) {
	text := strings.Replace(hung(", anchor_depth 80 mm, concrete 25 MPa"), "units mm", "units inch", 1)
	text = strings.NewReplacer("(0, 50 mm)", "(0 mm, 50 mm)").Replace(text)
	j := hangs(t, text)
	g := j.Strength.Anchors.Grip
	if g == nil || !g.Drilled || !g.Edgeless {
		t.Fatalf("%+v", g)
	}
	weight := 1.4 * quantity.Gravity * j.Mass.Total
	moment := weight * -j.CG.Y
	sum := 2 * (40.0*40 + 360*360)
	low, high := moment*40/sum, moment*360/sum
	shank := math.Pi / 4 * 12 * 12
	hold, err := ground.ACI(
		ground.Anchor{Kind: ground.PostInstalled, Diameter: 12, Stress: 0.75 * shank, Ultimate: 400, Yield: 240, Embedment: 80},
		ground.Concrete{Strength: 25, Cracked: true, Depth: 240},
		ground.Loads{
			At:      []r2.Vec{{X: -110, Y: -160}, {X: 110, Y: -160}, {X: 110, Y: 160}, {X: -110, Y: 160}},
			Tension: []float64{low, low, high, high}, Shear: r2.Vec{Y: -weight},
		})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		name      string
		got, want float64
	}{
		{"steel", g.SteelUse, hold.SteelUse}, {"breakout", g.BreakoutUse, hold.BreakoutUse},
		{"shear of steel", g.ShearSteelUse, hold.ShearSteelUse}, {"pry-out", g.PryOutUse, hold.PryOutUse}, {"both", g.Interaction, hold.Interaction},
	} {
		if math.Abs(c.got-c.want) > 1e-6*c.want || c.want == 0 {
			t.Errorf("%s: %v of it, by hand %v", c.name, c.got, c.want)
		}
	}
	// The makers' approval decides about pull-out.
	if c := decided(t, j, check.AnchorGround); c.Verdict != check.Undecided {
		t.Errorf("the hold of drilled anchors is %v", c.Verdict)
	}
	j = hangs(t, strings.Replace(text, "concrete 25 MPa", "concrete 25 MPa, anchor_kind headed", 1))
	if c := decided(t, j, check.AnchorGround); c.Verdict != check.Holds || !(c.Found > 0) {
		t.Errorf("the hold of headed anchors is %+v", c)
	}
}

// TestWallPull: anchors that a wind pulls straight out hold together what it pulls, and what the
// moment adds turns about an edge.
func TestWallPull(t *testing.T) {
	j := hangs(t, strings.Replace(hung(""), "at (0, 50 mm), ", "", 1)+"site { wind 60 m/s, method en1991, terrain 0 }\n")
	out := windFrom(t, j, math.Pi/2) // from behind: out of the wall
	a := j.Strength.Anchors
	if !(a.Lift > 0) {
		t.Fatalf("nothing pulls: %+v", a)
	}
	weight := quantity.Gravity * j.Mass.Total
	pull := -out.Force.Y
	if a.Lift > pull*(1+1e-9) {
		t.Errorf("the anchors share %v N, and the wind pulls with %v", a.Lift, pull)
	}
	// The greatest tension is at least that of the weight with what all of them share.
	if least := weight*-j.CG.Y*360/(2*(40*40+360*360)) + a.Lift/4; a.Tension < least*(1-1e-9) && a.Case.Bearing == math.Pi/2 {
		t.Errorf("tension %v N, at least %v", a.Tension, least)
	}
}

// windFrom returns the wind from a bearing.
func windFrom(t *testing.T, j *Job, from float64) *wind.Bearing {
	t.Helper()
	for i := range j.Wind.Bearings {
		if math.Abs(j.Wind.Bearings[i].From-from) < 1e-9 {
			return &j.Wind.Bearings[i]
		}
	}
	t.Fatal("no wind from there")
	return nil
}

// TestWallUnknown: without a word of the wall it is not decided what the anchors hold, the last
// word says so, and no check of tipping stands in for it.
func TestWallUnknown(t *testing.T) {
	j := hangs(t, hung("")+"site { push 100 N at 1.6 m, people none, seismic 0, ice 0 mm, wind 20 m/s, terrain III }\nrequire tipping >= 1.5\n")
	c := decided(t, j, check.AnchorGround)
	if c.Verdict != check.Undecided {
		t.Errorf("the hold of the anchors is %v", c.Verdict)
	}
	for _, c := range j.Checks {
		if c.ID == check.Tipping || c.ID == check.Balance || c.ID == check.Sliding {
			t.Errorf("there is a check of %s", c.ID)
		}
	}
	if j.Verdict == check.Holds || j.Requirements[0].Verdict != check.Undecided {
		t.Errorf("the whole %v, the requirement %v", j.Verdict, j.Requirements[0].Verdict)
	}
	if _, why := j.Result("tipping"); why != (stand.OnWall{}) {
		t.Errorf("tipping: %v", why)
	}
}

// TestWallQuake: an earthquake takes nothing off the weight, which pulls at the anchors as much.
func TestWallQuake(t *testing.T) {
	j := hangs(t, hung(", anchor_depth 80 mm, concrete 25 MPa, anchor_kind headed")+"site { seismic 0.1 }\n")
	if c := decided(t, j, check.Earthquake); c.Verdict == check.Undecided || !(c.Found > decided(t, j, check.AnchorGround).Found) {
		t.Errorf("%+v", c)
	}
	strong := hangs(t, hung("")+"site { seismic 2 }\n")
	if c := decided(t, strong, check.Earthquake); c.Verdict != check.Undecided {
		t.Errorf("a strong one: %v", c.Verdict)
	}
}

// TestWallGaps: a post along the wall, 150 mm before it, holds a head that gets in; one 400 mm
// out does not.
func TestWallGaps(t *testing.T) {
	for _, c := range []struct {
		out  string
		trap bool
	}{{"200 mm", true}, {"500 mm", false}} {
		text := strings.NewReplacer("length 600 mm", "length "+c.out, "ball moon on arm { diameter 300 mm, gores 8, metal skin, vent 6 mm }", "post riser on arm { diameter 60 mm, length 500 mm, lean 0 deg, metal skin }").Replace(hung(""))
		j := hangs(t, text+"site { people leaning }\n")
		k := decided(t, j, check.Entrapment)
		if got := k.Verdict == check.Undecided; got != c.trap {
			t.Errorf("%s out: %+v", c.out, k)
		}
	}
}

// TestWallAssembly: it is put together with its plate flat on the bench, and hung at the end.
func TestWallAssembly(t *testing.T) {
	j := hangs(t, hung(""))
	steps := j.Plan.Assembly.Steps
	var top assembly.Top
	for _, s := range steps {
		if f, ok := s.Do.(assembly.SetUnit); ok {
			top = f.Top
			if f.Meeting.X != 0 || math.Abs(f.Meeting.Y-50) > 1e-9 || f.Meeting.Lean.Angle > 1e-9 {
				t.Errorf("it is set at (%v, %v), leaning %v", f.Meeting.X, f.Meeting.Y, f.Meeting.Lean.Angle)
			}
		}
	}
	moon := j.Design.Part("moon").Ball.Center
	if !top.Flat || math.Abs(top.Z+moon.Y) > 1e-9 || math.Abs(top.Y-50) > 1e-9 {
		t.Errorf("the ball is at %+v on the bench, and at %v on the wall", top, moon)
	}
	if last, ok := steps[len(steps)-1].Do.(assembly.FinishAll); !ok || last.Wall != 1600 {
		t.Errorf("it ends with %+v", steps[len(steps)-1].Do)
	}
}

// TestWallFlat: the blank of the plate has its feet and holes as they are seen from the front.
func TestWallFlat(t *testing.T) {
	j := hangs(t, hung("")+"hole way in plate { at (-80 mm, -120 mm), diameter 20 mm }\n")
	b := &j.Parts[0].Blanks[0]
	if len(b.Feet) != 1 || r2.Norm(r2.Sub(b.Feet[0].At, r2.Vec{Y: 50})) > 1e-9 {
		t.Errorf("feet %+v", b.Feet)
	}
	if h := b.Holes[len(b.Holes)-1]; r2.Norm(r2.Sub(h.Center, r2.Vec{X: -80, Y: -120})) > 1e-9 {
		t.Errorf("the hole is at %v", h.Center)
	}
	for _, q := range b.Feet[0].Outline {
		if math.Abs(r2.Norm(r2.Sub(q, r2.Vec{Y: 50}))-30) > 1e-6 {
			t.Fatalf("the foot of the arm is not round: %v", q)
		}
	}
	if s := j.Size; s.Max.Y != 0 || math.Abs(s.Min.Z-1400) > 1e-9 {
		t.Errorf("it reaches from %v to %v", s.Min, s.Max)
	}
	plate := &j.Parts[0]
	if want := (r3.Vec{X: 0, Y: -5, Z: 1600}); math.Abs(plate.CG.Y-want.Y) > 1e-9 || math.Abs(plate.CG.Z-want.Z) > 1 {
		t.Errorf("the plate's centre of gravity is %v", plate.CG)
	}
}
