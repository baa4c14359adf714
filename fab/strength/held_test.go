package strength_test

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/frame/trial"
	"stabile/fab/solid"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/param/design"
)

// TestAnchors holds the pull on anchors, by hand, of a post that is pushed on a
// plate: about the edge away from the push, M = F h - W d; of four anchors the two
// far ones carry M y / sum of y2. For a factor of 1.5 the push counts 1.5 times.
// Ballast at the middle takes its weight times half the plate off.
func TestAnchors(t *testing.T) {
	const push, height, half, edge = 300.0, 900.0, 200.0, 40.0
	for _, tt := range []struct{ ballast, hole float64 }{{0, 14}, {30, 14}, {0, 5}, {0, 0}, {200, 14}} {
		b := trial.New(2)
		b.Stand("mast", b.Plate(2*half, 2*half, 12), r3.Vec{Z: 12}, r3.Vec{Z: 1012}, 60, 60)
		b.Design.Site = &design.Site{Push: push, PushHeight: height}
		in := strength.Input{
			Design: &b.Design, Items: b.Items(), Footprint: rectangle(2*half, 2*half), Target: 1.5, AnchorHole: tt.hole,
			Ballast: tt.ballast, BallastAt: r3.Vec{Z: 12},
		}
		mass := tt.ballast
		for _, it := range in.Items {
			mass += it.Mass
		}
		at := half - edge
		in.Anchors = []r2.Vec{{X: -at, Y: -at}, {X: at, Y: -at}, {X: at, Y: at}, {X: -at, Y: at}}
		s, err := strength.Check(in)
		require.NoError(t, err)
		near, far := edge, 2*half-edge
		pull := func(factor float64) float64 {
			moment := factor*push*height - mass*9.80665*half
			return max(0, moment) * far / (2*near*near + 2*far*far)
		}
		a := s.Anchors
		if math.Abs(a.Tension-pull(1)) > 1e-6*push || math.Abs(a.ForTarget-pull(1.5)) > 1e-6*push {
			t.Errorf("%+v: pull %v, %v for the target; want %v, %v", tt, a.Tension, a.ForTarget, pull(1), pull(1.5))
		}
		if math.Abs(a.Shear-push/4) > 1e-6*push {
			t.Errorf("%+v: shear %v, want %v", tt, a.Shear, push/4)
		}
		var got *strength.AnchorTension
		var level finding.Level
		for _, f := range s.Findings(in) {
			if fact, ok := f.Fact.(strength.AnchorTension); ok {
				got, level = &fact, f.Level
			}
		}
		if ground := verdictsOf(s.Checks(in), check.AnchorGround); len(ground) != 1 || ground[0] != check.Undecided {
			t.Errorf("%+v: the ground: %v", tt, ground)
		}
		switch {
		case pull(1.5) == 0:
			if got != nil || a.Ratio != 0 {
				t.Errorf("%+v: held by weight, and found %+v", tt, got)
			}
		case tt.hole == 0:
			steel := verdictsOf(s.Checks(in), check.AnchorSteel)
			if got == nil || level != finding.Caution || got.Bolt != 0 || slices.Contains(steel, check.Holds) {
				t.Errorf("%+v: %s: %+v, %v", tt, level, got, steel)
			}
		default:
			d := tt.hole - 2
			allowed := 310.0 / 2 * math.Pi / 4 * d * d
			if math.Abs(a.Ratio-pull(1.5)/allowed) > 1e-9 || a.Bolt != d {
				t.Errorf("%+v: ratio %v of a bolt of %v, want %v of %v", tt, a.Ratio, a.Bolt, pull(1.5)/allowed, d)
			}
			want := finding.Caution
			if a.Ratio > 1 {
				want = finding.Danger
			}
			if got == nil || level != want || got.ForTarget != a.ForTarget || got.Ratio != a.Ratio || got.Target != 1.5 {
				t.Errorf("%+v: %s: %+v", tt, level, got)
			}
		}
	}
}

// TestShedding holds that parts that may vibrate are in one finding for posts and one
// for balls, every one by its name, with the range of speeds; and that what vibrates
// only in more than 1.25 of the design wind is not.
func TestShedding(t *testing.T) {
	b := trial.New(1.5)
	plate := b.Plate(900, 900, 12)
	for i := range 4 {
		foot := r3.Vec{X: -300 + 200*float64(i), Z: 12}
		post := b.Stand(fmt.Sprintf("reed[%d]", i+1), plate, foot, r3.Add(foot, r3.Vec{Z: 1500 - 100*float64(i)}), 30, 30)
		if i == 0 {
			b.Tip("seed", post, 60, r3.Vec{})
		}
	}
	b.Stand("stub", plate, r3.Vec{Y: 300, Z: 12}, r3.Vec{Y: 300, Z: 90}, 80, 80)
	b.Design.Site = &design.Site{Wind: 30, Method: design.ASCE7, Exposure: "B", Push: 50, PushHeight: 1200}
	w, err := wind.On(&b.Design, solid.Bodies(&b.Design), wind.Options{})
	require.NoError(t, err)
	in := strength.Input{Design: &b.Design, Items: b.Items(), Wind: w, Footprint: rectangle(900, 900)}
	s, err := strength.Check(in)
	require.NoError(t, err)
	var shed []finding.Finding
	var unpushed finding.Finding
	for _, f := range s.Findings(in) {
		switch f.Fact.(type) {
		case strength.Vibrates:
			shed = append(shed, f)
		case strength.NotPushed:
			unpushed = f
		}
	}
	// One finding has every post that tires the welds, and each of those fails.
	least, most, parts := math.Inf(1), 0.0, []string(nil)
	for _, sh := range s.Shedding {
		if sh.Tiring != nil && !sh.Tiring.Fatigue.Harmless() {
			least, most, parts = min(least, sh.Tiring.Critical), max(most, sh.Tiring.Critical), append(parts, sh.Part.Name)
		}
	}
	if len(shed) != min(1, len(parts)) {
		t.Fatalf("%d findings: %+v", len(shed), shed)
	}
	for _, f := range shed {
		if fact := f.Fact.(strength.Vibrates); fact.Least != least || fact.Most != most || !slices.Equal(f.Parts, parts) || slices.Contains(parts, "stub") {
			t.Errorf("%+v, want %v m/s to %v of %q", f, least, most, parts)
		}
	}
	fails := 0
	for _, c := range s.Checks(in) {
		if c.ID == check.Shedding && c.Verdict == check.Fails {
			fails++
		}
	}
	if fails != len(parts) {
		t.Errorf("%d parts tire the welds; the checks are %v", len(parts), verdictsOf(s.Checks(in), check.Shedding))
	}
	for _, sh := range s.Shedding {
		// Balls and posts at the heights of this piece have the mean wind of the lowest height.
		if of := sh.Critical / sh.Design; sh.Design >= 30 || math.Abs(sh.Of-of) > 1e-12 {
			t.Errorf("%s: %v of the design wind, want %v", sh.Part.Name, sh.Of, of)
		}
	}
	if unpushed.Fact != (strength.NotPushed{Wind: true}) || !slices.Equal(unpushed.Parts, []string{"stub"}) {
		t.Errorf("of the push: %+v", unpushed)
	}
	if len(s.Unpushed) != 1 || s.Unpushed[0].Name != "stub" {
		t.Errorf("not pushed: %v", s.Unpushed)
	}
}

// TestShape holds the shape of a mode: of a mast with a ball on it
// both move, and a short post beside it does not.
func TestShape(t *testing.T) {
	b := trial.New(1.5)
	plate := b.Plate(900, 900, 12)
	mast := b.Stand("mast", plate, r3.Vec{Z: 12}, r3.Vec{Z: 1500}, 50, 50)
	b.Tip("moon", mast, 120, r3.Vec{})
	b.Stand("stub", plate, r3.Vec{X: 300, Z: 12}, r3.Vec{X: 300, Z: 200}, 50, 50)
	s, err := strength.Check(strength.Input{Design: &b.Design, Items: b.Items(), Footprint: rectangle(900, 900)})
	require.NoError(t, err)
	got := s.Shape(&s.Modes[0])
	if got.Part != "moon" || got.Way != strength.Level || !slices.Equal(got.With, []string{"mast"}) || got.Against != nil {
		t.Errorf("shape %+v", got)
	}
}
