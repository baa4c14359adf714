package strength_test

import (
	"math"
	"testing"

	"github.com/stretchr/testify/require"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/frame/trial"
	"stabile/fab/shell"
	"stabile/fab/strength"
	"stabile/param/design"
	"stabile/param/quantity"
)

// TestPostWall: the wall of a post under a level branch is judged by EN 13445-3 16.5 with the
// moment of the branch's own weight and that of the ball at its end, by statics; with as much more
// weight as brings it over, it fails.
func TestPostWall(t *testing.T) {
	at := func(mass float64) (*strength.Shell, check.Check, float64) {
		b := trial.New(1.5)
		plate := b.Plate(800, 800, 12)
		mast := b.Stand("mast", plate, r3.Vec{Z: 12}, r3.Vec{Z: 1512}, 100, 100)
		foot := r3.Vec{X: 50, Z: 1000}
		arm := b.Stand("arm", mast, foot, r3.Vec{X: 450, Z: 1000}, 50, 50)
		bud := b.Tip("bud", arm, 60, r3.Vec{})
		b.Weigh(bud, mass)
		items := b.Items()
		own := 0.0
		for _, it := range items {
			if it.Part == arm {
				own = it.Mass
			}
		}
		statics := quantity.Gravity * (own*(200) + mass*(bud.Ball.Center.X-50))
		sh, c := wallAt(t, strength.Input{Design: &b.Design, Items: items, Footprint: rectangle(800, 800)}, check.PostWall, "mast", "arm")
		return sh, c, statics
	}
	sh, c, statics := at(1)
	require.InEpsilon(t, statics, sh.Load.Moment, 0.01)
	require.Equal(t, check.Holds, c.Verdict)
	yield, _ := strength.Yield(sh.Ball.Metal)
	j := shell.Joint{Radius: 49.25, Wall: 1.5, Diameter: 48.5, Tube: 1.5, Strength: yield / 1.5, Single: true}
	if sh.Seamed {
		j.Strength *= shell.Seam
	}
	limit, err := j.Capacity()
	require.NoError(t, err)
	require.InEpsilon(t, limit.Use(sh.Load).Interaction, c.Found, 1e-9)
	// Half as wide as the mast, lambda_C is 48.5 / sqrt(98.5 x 1.5) = 3.99 and C2 6.21.
	l := 48.5 / math.Sqrt(98.5*1.5)
	c2 := 4.526315 + 0.064021889*l + 0.15887638*l*l - 0.021419298*l*l*l + 0.0010350407*l*l*l*l
	require.InDelta(t, 6.21, c2, 0.01)
	require.InEpsilon(t, j.Strength*2.25*48.5/4*c2, limit.Moment, 1e-9)
	_, c, _ = at(3 / c.Found)
	require.Equal(t, check.Fails, c.Verdict)
}

func wallAt(t *testing.T, in strength.Input, id check.ID, of, with string) (*strength.Shell, check.Check) {
	t.Helper()
	s, err := strength.Check(in)
	require.NoError(t, err)
	for i := range s.Shells {
		if sh := &s.Shells[i]; sh.Ball.Name == of && sh.With.Name == with {
			for _, c := range s.Checks(in) {
				if c.ID == id && c.Part == of && c.With == with {
					return sh, c
				}
			}
		}
	}
	t.Fatalf("no wall of %s at %s", of, with)
	return nil, check.Check{}
}

// TestThread: a ball around a post hands on its own weight, or the push on it, through either
// ring; it is decided, and one far too heavy fails.
func TestThread(t *testing.T) {
	at := func(mass, push float64) (*strength.Shell, check.Check) {
		b := trial.New(1.5)
		plate := b.Plate(800, 800, 12)
		mast := b.Stand("mast", plate, r3.Vec{Z: 12}, r3.Vec{Z: 1512}, 60, 60)
		bead := b.Thread("bead", mast, 988, 120)
		b.Weigh(bead, mass)
		b.Design.Site = &design.Site{Push: push, PushHeight: 1000}
		return wallAt(t, strength.Input{Design: &b.Design, Items: b.Items(), Footprint: rectangle(800, 800)}, check.BallWall, "bead", "mast")
	}
	sh, c := at(3, 0)
	require.Equal(t, check.Holds, c.Verdict)
	require.InEpsilon(t, 3*quantity.Gravity, -sh.Load.Force, 1e-9)
	sh, _ = at(3, 40)
	require.InEpsilon(t, math.Hypot(3*quantity.Gravity, 40), sh.Load.Shear, 1e-9)
	_, c = at(1.1*3/c.Found, 0)
	require.Equal(t, check.Fails, c.Verdict)
}
