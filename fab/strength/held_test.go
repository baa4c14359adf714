package strength_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/frame/trial"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/param/design"
	"stabile/param/quantity"
)

// TestAnchors holds the pull on anchors, by hand, of a post that is pushed on a
// plate: about the edge away from the push, M = F h - W d; of four anchors the two
// far ones bear M y / sum of y2. For a factor of 1.5 the push counts 1.5 times.
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
		var text string
		var level finding.Level
		for _, f := range s.Findings(in, quantity.Millimetre) {
			if strings.Contains(f.Text, "an anchor") {
				text, level = f.Text, f.Level
			}
		}
		switch {
		case pull(1.5) == 0:
			if text != "" || a.Ratio != 0 {
				t.Errorf("%+v: held by weight, and told %q", tt, text)
			}
		case tt.hole == 0:
			if level != finding.Caution || !strings.Contains(text, "its bolt was not checked") {
				t.Errorf("%+v: %s: %q", tt, level, text)
			}
		default:
			d := tt.hole - 2
			allowed := 310.0 / 2 * math.Pi / 4 * d * d
			if math.Abs(a.Ratio-pull(1.5)/allowed) > 1e-9 || a.Bolt != d {
				t.Errorf("%+v: ratio %v of a bolt of %v, want %v of %v", tt, a.Ratio, a.Bolt, pull(1.5)/allowed, d)
			}
			want := finding.Caution
			if a.Ratio > 1 {
				want = finding.Fault
			}
			if level != want || !strings.Contains(text, "Not checked: the anchor's hold in its ground") {
				t.Errorf("%+v: %s: %q", tt, level, text)
			}
		}
	}
}

// TestHums holds that parts that may hum are told in one finding for posts and one
// for balls, every one by its name, with the range of speeds; and that what hums
// only in more than 1.25 of the design wind is not.
func TestHums(t *testing.T) {
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
	w, err := wind.On(&b.Design, wind.Options{})
	require.NoError(t, err)
	in := strength.Input{Design: &b.Design, Items: b.Items(), Wind: w, Footprint: rectangle(900, 900)}
	s, err := strength.Check(in)
	require.NoError(t, err)
	var hums []string
	var note string
	for _, f := range s.Findings(in, quantity.Millimetre) {
		if strings.Contains(f.Text, "hum") {
			hums = append(hums, f.Text)
		}
		if strings.Contains(f.Text, "the push does not reach") {
			note = f.Text
		}
	}
	if len(hums) != 2 || strings.Contains(strings.Join(hums, ""), "stub") || !strings.Contains(hums[0], "posts reed[1] to reed[") || !strings.Contains(hums[1], "ball seed") {
		t.Errorf("%d findings: %q", len(hums), hums)
	}
	for _, sh := range s.Shedding {
		if of := sh.Critical / 30; math.Abs(sh.Of-of) > 1e-12 {
			t.Errorf("%s: %v of the design wind, want %v", sh.Part.Name, sh.Of, of)
		}
	}
	if !strings.HasPrefix(note, "the push does not reach stub: checked for their own weight and the wind alone") {
		t.Errorf("of the push: %q", note)
	}
	if len(s.Unpushed) != 1 || s.Unpushed[0].Name != "stub" {
		t.Errorf("not pushed: %v", s.Unpushed)
	}
}

// TestWords holds the words for the shape of a mode: of a mast with a ball on it
// both move, and a short post beside it does not.
func TestWords(t *testing.T) {
	b := trial.New(1.5)
	plate := b.Plate(900, 900, 12)
	mast := b.Stand("mast", plate, r3.Vec{Z: 12}, r3.Vec{Z: 1500}, 50, 50)
	b.Tip("moon", mast, 120, r3.Vec{})
	b.Stand("stub", plate, r3.Vec{X: 300, Z: 12}, r3.Vec{X: 300, Z: 200}, 50, 50)
	s, err := strength.Check(strength.Input{Design: &b.Design, Items: b.Items(), Footprint: rectangle(900, 900)})
	require.NoError(t, err)
	if got := s.Words(&s.Modes[0]); !strings.HasPrefix(got, "moon moves most, toward ") || !strings.HasSuffix(got, " and back; with it mast") {
		t.Errorf("words %q", got)
	}
}
