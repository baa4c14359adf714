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
)

// pushedAt is a mast with a ball and a spur with a ball on it, that is pushed at its top.
func pushedAt(push, height float64, change func(moon *design.Part)) strength.Input {
	b := trial.New(1.5)
	plate := b.Plate(800, 800, 12)
	mast := b.Stand("mast", plate, r3.Vec{Z: 12}, r3.Vec{Z: 912}, 90, 90)
	moon := b.Tip("moon", mast, 150, r3.Vec{})
	foot := r3.Add(moon.Ball.Center, r3.Vec{Z: 150})
	spur := b.Stand("spur", moon, foot, r3.Add(foot, r3.Vec{Z: 500}), 60, 60)
	b.Tip("star", spur, 60, r3.Vec{})
	b.Design.Site = &design.Site{Push: push, PushHeight: height}
	change(moon)
	return strength.Input{Design: &b.Design, Items: b.Items(), Footprint: rectangle(800, 800)}
}

func wallOf(t *testing.T, in strength.Input, ball, with string) (*strength.Shell, check.Check) {
	t.Helper()
	s, err := strength.Check(in)
	require.NoError(t, err)
	for i := range s.Shells {
		if sh := &s.Shells[i]; sh.Ball.Name == ball && sh.With.Name == with {
			for _, c := range s.Checks(in) {
				if c.ID == check.BallWall && c.Part == ball && c.With == with {
					return sh, c
				}
			}
		}
	}
	t.Fatalf("no wall of %s at %s", ball, with)
	return nil, check.Check{}
}

// TestBallWall: the wall of a ball under a post is judged by EN 13445-3 16.4 with the
// moment at its foot, which is by statics that of the push over it; a tenth more than it
// carries fails.
func TestBallWall(t *testing.T) {
	const push, height = 100.0, 1700.0
	sh, c := wallOf(t, pushedAt(push, height, func(*design.Part) {}), "moon", "spur")
	arm := height - (sh.Ball.Ball.Center.Z + 150)
	require.Greater(t, arm, 300.0)
	require.InEpsilon(t, push*arm, sh.Load.Moment, 0.02) // the amplification, and the push's own place
	yield, _ := strength.Yield(sh.Ball.Metal)
	j := shell.Joint{Radius: 149.25, Wall: 1.5, Diameter: 58.5, Tube: 1.5, Strength: yield / 1.5}
	limit, err := j.Capacity()
	require.NoError(t, err)
	use := limit.Use(sh.Load).Together
	require.InEpsilon(t, use, c.Found, 1e-9)
	require.Equal(t, check.Holds, c.Verdict)

	// As much more push as brings it just over.
	_, c = wallOf(t, pushedAt(push*1.1/use, height, func(*design.Part) {}), "moon", "spur")
	require.Equal(t, check.Fails, c.Verdict)
	require.InEpsilon(t, 1.1, c.Found, 0.05)
}

// TestBallWallReach: what the rule does not reach is undecided, says why, and is cured by
// what it says.
func TestBallWallReach(t *testing.T) {
	for _, tt := range []struct {
		name   string
		change func(moon *design.Part)
		gap    strength.Gap
	}{
		{"halves", func(*design.Part) {}, ""},
		{"halves, on the seam", func(m *design.Part) { m.Ball.Pole, m.Ball.Prime = r3.Vec{X: 1}, r3.Vec{Z: 1} }, strength.WallOnEquator},
		{"zones", func(m *design.Part) { m.Ball.Build, m.Ball.Zones = design.Zones, 6 }, strength.WallRidges},
		{"points of gores", func(m *design.Part) { m.Ball.Build, m.Ball.Gores = design.DomedGores, 12 }, strength.WallOnSeam},
		{"small caps", func(m *design.Part) { m.Ball.Build, m.Ball.Gores, m.Ball.Caps = design.RolledGores, 12, 60 }, strength.WallOnSeam},
		{"wide caps", func(m *design.Part) { m.Ball.Build, m.Ball.Gores, m.Ball.Caps = design.RolledGores, 12, 125 }, ""},
		{"middle of a domed gore", func(m *design.Part) {
			m.Ball.Build, m.Ball.Gores = design.DomedGores, 6
			m.Ball.Pole, m.Ball.Prime = r3.Vec{X: 1}, r3.Vec{Z: 1}
		}, ""},
		{"middle of a rolled gore", func(m *design.Part) {
			m.Ball.Build, m.Ball.Gores = design.RolledGores, 6
			m.Ball.Pole, m.Ball.Prime = r3.Vec{X: 1}, r3.Vec{Z: 1}
		}, strength.WallRidges},
		{"seam of a domed gore", func(m *design.Part) {
			m.Ball.Build, m.Ball.Gores = design.DomedGores, 6
			m.Ball.Pole, m.Ball.Prime = r3.Vec{X: 1}, r3.Vec{Y: math.Sin(math.Pi / 6), Z: math.Cos(math.Pi / 6)}
		}, strength.WallOnSeam},
		{"bought", func(m *design.Part) { m.Ball.Build = design.Bought }, strength.WallUnknown},
		{"thick", func(m *design.Part) { metal := *m.Metal; metal.Thickness = 20; m.Metal = &metal }, strength.WallRange},
	} {
		sh, c := wallOf(t, pushedAt(50, 1700, tt.change), "moon", "spur")
		require.Equal(t, tt.gap, sh.Gap, tt.name)
		if tt.gap == "" {
			require.Equal(t, check.Holds, c.Verdict, tt.name)
			continue
		}
		require.Equal(t, check.Undecided, c.Verdict, tt.name)
		require.IsType(t, strength.Unchecked{}, c.Why, tt.name)
		if sh.Caps > 0 {
			wider := func(m *design.Part) { tt.change(m); m.Ball.Caps = math.Ceil(sh.Caps) }
			cured, c := wallOf(t, pushedAt(50, 1700, wider), "moon", "spur")
			require.Empty(t, cured.Gap, "%s: caps of %v", tt.name, sh.Caps)
			require.Equal(t, check.Holds, c.Verdict, tt.name)
		}
	}
}
