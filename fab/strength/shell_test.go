package strength_test

import (
	"math"
	"strings"
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
	use := limit.Use(sh.Load).Interaction
	require.InEpsilon(t, use, c.Found, 1e-9)
	require.Equal(t, check.Holds, c.Verdict)

	// As much more push as brings it just over.
	_, c = wallOf(t, pushedAt(push*1.1/use, height, func(*design.Part) {}), "moon", "spur")
	require.Equal(t, check.Fails, c.Verdict)
	require.InEpsilon(t, 1.1, c.Found, 0.05)
}

// TestBallWallReach: how the wall is curved at a joint and what seams are beside it decide by
// what rule it is judged; what none reaches is undecided, and says why.
func TestBallWallReach(t *testing.T) {
	level := func(m *design.Part) { m.Ball.Pole, m.Ball.Prime = r3.Vec{X: 1}, r3.Vec{Z: 1} }
	gores := func(how design.Construction, n int, caps float64) func(m *design.Part) {
		return func(m *design.Part) { m.Ball.Build, m.Ball.Gores, m.Ball.Caps = how, n, caps }
	}
	zones := func(m *design.Part) { m.Ball.Build, m.Ball.Zones = design.Zones, 7 }
	for _, tt := range []struct {
		name           string
		change         []func(moon *design.Part)
		gap            strength.Gap
		seamed, single bool
	}{
		{"halves", nil, "", false, false},
		{"halves, on the seam", []func(*design.Part){level}, "", true, false},
		{"zones, at the pole", []func(*design.Part){zones}, strength.WallPole, false, false},
		{"zones, level", []func(*design.Part){zones, level}, "", true, true},
		{"points of gores", []func(*design.Part){gores(design.DomedGores, 12, 0)}, "", true, false},
		{"small caps", []func(*design.Part){gores(design.RolledGores, 12, 60)}, "", true, false},
		{"wide caps", []func(*design.Part){gores(design.RolledGores, 12, 125)}, "", false, false},
		{"middle of a domed gore", []func(*design.Part){gores(design.DomedGores, 6, 0), level}, "", false, false},
		{"middle of a rolled gore", []func(*design.Part){gores(design.RolledGores, 6, 0), level}, "", false, true},
		{"seam of a domed gore", []func(*design.Part){gores(design.DomedGores, 6, 0), func(m *design.Part) {
			m.Ball.Pole, m.Ball.Prime = r3.Vec{X: 1}, r3.Vec{Y: math.Sin(math.Pi / 6), Z: math.Cos(math.Pi / 6)}
		}}, "", true, false},
		{"bought", []func(*design.Part){func(m *design.Part) {
			metal := *m.Metal
			metal.Thickness = 0
			m.Ball.Build, m.Metal = design.Bought, &metal
		}}, strength.WallUnknown, false, false},
		{"thick", []func(*design.Part){func(m *design.Part) { metal := *m.Metal; metal.Thickness = 20; m.Metal = &metal }}, strength.WallRange, false, false},
	} {
		change := func(m *design.Part) {
			for _, c := range tt.change {
				c(m)
			}
		}
		sh, c := wallOf(t, pushedAt(20, 1700, change), "moon", "spur")
		require.Equal(t, tt.gap, sh.Gap, tt.name)
		require.Equal(t, tt.seamed, sh.Seamed, tt.name)
		require.Equal(t, tt.single, sh.Joint.Single, tt.name)
		if tt.gap == "" {
			require.Equal(t, check.Holds, c.Verdict, tt.name)
			require.Equal(t, tt.seamed, strings.Contains(c.Source, "5.6"), tt.name)
			require.Equal(t, tt.single, strings.Contains(c.Source, "16.5"), tt.name)
			continue
		}
		require.Equal(t, check.Undecided, c.Verdict, tt.name)
		require.IsType(t, strength.Unchecked{}, c.Why, tt.name)
	}
}

// TestBallWallSeam: beside a seam the wall carries z times as much, and within caps as much as
// it does without seams.
func TestBallWallSeam(t *testing.T) {
	of := func(caps float64) *strength.Shell {
		sh, _ := wallOf(t, pushedAt(20, 1700, func(m *design.Part) {
			m.Ball.Build, m.Ball.Gores, m.Ball.Caps = design.RolledGores, 12, caps
		}), "moon", "spur")
		return sh
	}
	seamed := of(0)
	require.Positive(t, seamed.Caps)
	clear := of(math.Ceil(seamed.Caps))
	require.False(t, clear.Seamed)
	require.InEpsilon(t, shell.Seam, seamed.Joint.Strength/clear.Joint.Strength, 1e-12)
	require.Less(t, seamed.Capacity.Moment, clear.Capacity.Moment)
}

// TestBallWallRidges: a post on the middle of a rolled gore holds where the wall carries it as
// that of a cylinder, fails where even a sphere's would not, and is undecided between.
func TestBallWallRidges(t *testing.T) {
	middle := func(m *design.Part) {
		m.Ball.Build, m.Ball.Gores = design.RolledGores, 6
		m.Ball.Pole, m.Ball.Prime = r3.Vec{X: 1}, r3.Vec{Z: 1}
	}
	sh, _ := wallOf(t, pushedAt(20, 1700, middle), "moon", "spur")
	share := 20 / sh.Ratio // N that it just carries
	for _, tt := range []struct {
		of      float64
		verdict check.Verdict
	}{{0.9, check.Holds}, {1.5, check.Undecided}, {9, check.Fails}} {
		_, c := wallOf(t, pushedAt(share*tt.of, 1700, middle), "moon", "spur")
		require.Equal(t, tt.verdict, c.Verdict, "%v", tt.of)
	}
}
