package strength_test

import (
	"errors"
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/fab/frame/trial"
	"stabile/fab/solid"
	"stabile/fab/strength"
	"stabile/fab/wind"
	"stabile/param/design"
)

// TestSound works out random sculptures under random sites: every figure is
// finite, and what the ground carries is what is laid on.
func TestSound(t *testing.T) {
	for seed := range uint64(60) {
		rnd := rand.New(rand.NewPCG(seed, 21))
		b := trial.Random(rnd, 2+rnd.IntN(40))
		site := &design.Site{}
		switch rnd.IntN(3) {
		case 0:
			site.Wind, site.Method, site.Exposure = 80*rnd.Float64(), design.ASCE7, []string{"B", "C", "D"}[rnd.IntN(3)]
		case 1:
			site.Wind, site.Method, site.Terrain = 60*rnd.Float64(), design.EN1991, []string{"0", "I", "II", "III", "IV"}[rnd.IntN(5)]
		}
		if rnd.IntN(2) == 0 {
			site.Push, site.PushHeight = 900*rnd.Float64(), 3000*rnd.Float64()
		}
		if rnd.IntN(2) == 0 {
			site.Slope = 0.2 * rnd.Float64()
		}
		b.Design.Site = site
		w, err := wind.On(&b.Design, solid.Bodies(&b.Design), wind.Options{})
		require.NoError(t, err)
		s, err := strength.Check(strength.Input{
			Design: &b.Design, Items: b.Items(), Wind: w, Footprint: rectangle(1000, 800),
			Anchors: []r2.Vec{{X: -450, Y: -350}, {X: 450, Y: -350}, {X: 450, Y: 350}, {X: -450, Y: 350}},
		})
		require.NoError(t, err, "seed %d", seed)
		sound(t, s)
	}
}

// TestOdd works out sculptures at the edge of what there is.
func TestOdd(t *testing.T) {
	check := func(b *trial.Builder) (*strength.Strength, error) {
		w, err := wind.On(&b.Design, solid.Bodies(&b.Design), wind.Options{})
		require.NoError(t, err)
		return strength.Check(strength.Input{Design: &b.Design, Items: b.Items(), Wind: w, Footprint: rectangle(300, 300)})
	}
	site := &design.Site{Wind: 50, Method: design.ASCE7, Exposure: "D"}

	// A ball on a plate: it gives at its seat alone.
	b := trial.New(1.5)
	b.Rest(b.Ball("ball", r3.Vec{Z: 110}, 100), b.Plate(300, 300, 10))
	b.Design.Site = site
	s, err := check(b)
	require.NoError(t, err)
	sound(t, s)
	if len(s.Members) != 0 || len(s.Welds) != 1 || len(s.Shells) != 1 || !(s.Worst > 0) || s.Worst != s.Shells[0].Ratio {
		t.Errorf("a ball on a plate: %+v", s)
	}

	// A ball on a ball.
	top := b.Ball("top", r3.Vec{Z: 250}, 60)
	b.Rest(top, b.Design.Part("ball"))
	top.Ball.Seat = 30
	s, err = check(b)
	require.NoError(t, err)
	sound(t, s)
	if len(s.Welds) != 2 || len(s.Shells) != 3 || s.Shells[1].Ball != top || !(s.Shells[1].Ratio > 0) {
		t.Errorf("a ball on a ball: %+v, %+v", s.Welds, s.Shells)
	}

	// A post without a mass; without a site.
	b = trial.New(1.5)
	p := b.Stand("post", b.Plate(300, 300, 10), r3.Vec{Z: 10}, r3.Vec{Z: 900}, 40, 40)
	b.Weigh(p, 0)
	s, err = check(b)
	require.NoError(t, err)
	sound(t, s)

	// A needle that buckles under what it bears.
	b = trial.New(0.5)
	p = b.Stand("needle", b.Plate(300, 300, 10), r3.Vec{Z: 10}, r3.Vec{Z: 6000}, 12, 12)
	b.Weigh(b.Tip("load", p, 200, r3.Vec{}), 40)
	b.Design.Site = site
	s, err = check(b)
	require.NoError(t, err)
	sound(t, s)
	if s.Buckling >= 1 || s.Worst <= 1 || s.Amplification != strength.Buckled {
		t.Errorf("the needle buckles at %v and passes with %v", s.Buckling, s.Worst)
	}

	// A wall that is thinner than the rule covers.
	b = trial.New(0.6)
	b.Stand("drum", b.Plate(600, 600, 10), r3.Vec{Z: 10}, r3.Vec{Z: 900}, 400, 400)
	b.Design.Site = site
	s, err = check(b)
	require.NoError(t, err)
	sound(t, s)
	if len(s.Unchecked) != 1 || s.Unchecked[0].Gap != strength.SlenderWall || s.Unchecked[0].Places[0].Part != "drum" || s.Members[0].Class != strength.Outside {
		t.Errorf("a drum outside the rule: %+v", s.Unchecked)
	}

	// A ball that nothing ties down.
	b.Ball("adrift", r3.Vec{X: 900, Z: 500}, 50)
	var m *frame.MechanismError
	if _, err = check(b); !errors.As(err, &m) || m.Part.Name != "adrift" {
		t.Errorf("a ball adrift: %v", err)
	}
}

// TestHum holds the findings of a slender post with a heavy ball against worked
// case H1: it swings so slowly that everyday wind makes it hum.
func TestHum(t *testing.T) {
	b := trial.New(1.5)
	post := b.Stand("post", b.Plate(300, 300, 10), r3.Vec{Z: 10}, r3.Vec{Z: 1010}, 60, 60)
	ball := b.Ball("tip", r3.Vec{Z: 1010}, 31)
	post.Post.Ends[design.Head].Contact = design.Contact{Meets: design.OnBall, With: ball}
	b.Weigh(ball, 5)
	b.Design.Site = &design.Site{Wind: 26, Method: design.EN1991, Terrain: "II"}
	w, err := wind.On(&b.Design, solid.Bodies(&b.Design), wind.Options{})
	require.NoError(t, err)
	s, err := strength.Check(strength.Input{Design: &b.Design, Items: b.Items(), Wind: w, Footprint: rectangle(300, 300)})
	require.NoError(t, err)
	sh := s.Shedding[0]
	// Shear, and the ball's own inertia, take half a per cent off the worked case's
	// 18.0391 Hz and 6.01303 m/s.
	if sh.Part != post || !near(sh.Frequency, 18.0391, 0.01) || !near(sh.Critical, 6.01303, 0.01) || sh.Of > strength.SheddingLimit {
		t.Errorf("%+v", sh)
	}
	if !near(sh.Design, 18.2231, 1e-5) { // v_m at z_min, worked case F2
		t.Errorf("design wind %v m/s", sh.Design)
	}
}
