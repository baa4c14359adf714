package words

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/stand"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/param/design"
	"stabile/param/quantity"
)

// TestSentences holds the sentences of findings.
func TestSentences(t *testing.T) {
	push := check.Case{Kind: check.Push, Bearing: 1.5 * math.Pi}
	gust := check.Case{Kind: check.WindLoad, Speed: 40, Least: true}
	for _, tt := range []struct {
		units quantity.System
		fact  finding.Fact
		want  string
	}{
		{quantity.Millimetre, stand.FallsOver{Outside: 40, Counterweight: 3.42},
			"falls over by itself: its centre of gravity lies 40 mm outside the footprint toward 0 deg; more than 4.00 kg at the middle of the footprint is needed to bring it back; widen the footprint or bring the weight back over it"},
		{quantity.Millimetre, stand.EasilyKnocked{TipAngle: 8 * math.Pi / 180, Least: stand.BarelyStands, Feet: true},
			"falls over when it is tilted by 8 deg: under 10 deg a knock or soft ground does that; widen the footprint, bring the weight down or anchor it by a plate"},
		{quantity.Millimetre, stand.TipsEasily{Factor: 0.979, Target: 1.5, Case: push, Ballast: 13.2},
			"tips too easily: factor 0.97, target 1.50, under a push from 270 deg; 14.0 kg of ballast at the middle of the footprint reaches it"},
		{quantity.Inch, stand.TipsEasily{Factor: 0.5, Target: 1.5, Case: push, BallastFails: true},
			"tips too easily: factor 0.50, target 1.50, under a push from 270 deg; no ballast at the middle of the footprint reaches it, so widen the footprint, bring the weight down or anchor it"},
		{quantity.Millimetre, stand.HeldByAnchors{Factor: 0.18, Target: 1.5, Case: check.Case{Kind: check.Slope}, Ballast: 2, Anchors: 4},
			"stands by its anchors: without them the factor against tipping is 0.18, target 1.50, under ground sloping down toward 0 deg, and 2.00 kg of ballast at the middle of the footprint reaches it. The 4 anchors must hold it down"},
		{quantity.Millimetre, stand.Slides{Factor: 0.05, Target: 1.5, Holding: 13.1, Driving: 248, Case: check.Case{Kind: check.Slope, Around: true}},
			"slides under sloping ground: friction, 0.3 of the weight for steel on concrete (common practice, no source), holds 13.1 N of 248 N, factor 0.05, under the target against tipping, 1.50; anchor it or lay more ballast"},
		{quantity.Inch, wind.NoWind{},
			"wind is not checked: the site gives none. Out of doors a licensed engineer and the local code decide; to check it write a site, such as site { wind 100 mph, method asce7, exposure C }"},
		{quantity.Millimetre, strength.OverLimit{Weld: true, Where: check.Foot, Case: gust, Ratio: 2.301, Advice: strength.Advised, Cures: []strength.Cure{{Gauge: 14, Thickness: 1.9, Ratio: 0.991}, {Diameter: 80, Ratio: 0.9}}},
			"the weld at its foot: 2.31 of its limit in wind from 0 deg (least design force); 14 gauge brings 1.00, 80 mm across brings 0.90"},
		{quantity.Millimetre, strength.OverLimit{Where: check.Joint, Joint: "spur", Case: check.Case{Kind: check.Push, Part: "mast", Where: check.Inside, Along: 0.5}, Ratio: 1.2, Several: true},
			"at spur: up to 1.20 of its limit in a push on mast at 50 % of its length from 0 deg"},
		{quantity.Millimetre, strength.AnchorTension{ForTarget: 1000, Target: 1.5, Bolt: 10, Ratio: 0.5},
			"no anchor is in tension under these loads; at the target factor 1.50 against tipping: 1000 N, 0.50 of what the steel of a bolt of 10 mm carries (the weakest in use, A307 or 4.6); the anchor's hold in the ground is not checked: give anchor_depth and concrete, and have the anchors chosen for this tension"},
		{quantity.Millimetre, strength.Unchecked{Gap: strength.WallRidges, Places: []strength.Place{{Part: "moon", With: "spur", End: check.Foot}}},
			"not checked, no rule here covers it: wall of a ball at a joint on rolled gores or on rings: too weak if it is taken as a cylinder, not if as a sphere (foot of spur); wider caps, 'bend domed' or halves make it a sphere there; or run the post through it with 'around', if it is round"},
		{quantity.Millimetre, strength.Unchecked{Gap: strength.SlenderWall, Places: []strength.Place{{Part: "a", Slenderness: 400, Limit: 300}, {Part: "b", Slenderness: 410, Limit: 300}}},
			"not checked, no rule here covers it: wall thinner than the rule for round tubes covers (a: D/t 400, the rule ends at 300, b: D/t 410, the rule ends at 300); thicker sheet or a narrower post brings it under the rule"},
		{quantity.Millimetre, strength.ModeShape{Part: "moon", Way: strength.Level, With: []string{"a[1]", "a[2]", "a[3]"}},
			"moon moves most, toward 0 deg and back; with it a[1] to a[3]"},
		{quantity.Millimetre, fab.RequirementFails{Text: "weight <= 1 kg", Why: "for the crane", Sides: []design.Side{{Result: "weight", Quantity: quantity.Quantity{Number: 2, Dim: quantity.Mass}}}}, "requirement not met: weight <= 1 kg (for the crane); it is 2.00 kg"},
	} {
		require.Equal(t, tt.want, In(tt.units).Fact(tt.fact))
	}
}

// TestJoined holds that what is said of several parts is said once, with all their
// names and the greatest figure.
func TestJoined(t *testing.T) {
	list := In(quantity.Millimetre).Remarks([]finding.Finding{
		{Level: finding.Caution, Concern: finding.Life, Parts: []string{"a"}, Fact: fab.Heavy{Mass: 30}},
		{Level: finding.Caution, Concern: finding.Life, Parts: []string{"b"}, Fact: fab.Heavy{Mass: 40}},
		{Level: finding.Note, Concern: finding.Life, Parts: []string{"c"}, Fact: wind.Lifted{Uplift: 5}},
	})
	require.Len(t, list, 2)
	require.Equal(t, []string{"a", "b"}, list[0].Parts)
	require.Contains(t, list[0].Text, "weighs up to 40.0 kg")
	require.Equal(t, []string{"c"}, list[1].Parts)
}
