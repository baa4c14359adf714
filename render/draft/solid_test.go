package draft

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

// inside tells by its definition whether a point is within a body.
func inside(s convex, p r3.Vec) bool {
	switch s := s.(type) {
	case shell:
		sphere := s.Surface.(solid.Sphere)
		return r3.Norm(r3.Sub(p, sphere.Center)) <= sphere.Radius
	case prism:
		return s.low <= p.Z && p.Z <= s.top && s.outline.Distance(design.Plan(p)) <= -hair
	case frustum:
		q := r3.Sub(p, s.foot)
		at := r3.Dot(q, s.along)
		return at >= 0 && at <= s.length && r3.Norm(r3.Sub(q, r3.Scale(at, s.along))) <= s.r0+s.slope*at
	case lobes:
		// At the height z each gore's flat is sqrt(R² - z²) from the pole.
		q := r3.Sub(p, s.ball.Center)
		z := r3.Dot(q, s.ball.Pole)
		if math.Abs(z) > s.ball.Radius {
			return false
		}
		for k := range s.ball.Gores {
			if r3.Dot(q, s.ball.Meridian(2*math.Pi*float64(k)/float64(s.ball.Gores))) > math.Sqrt(s.ball.Radius*s.ball.Radius-z*z) {
				return false
			}
		}
		return true
	}
	panic("unknown body")
}

// lobes is the shell of a ball of gores that come to a point.
type lobes struct {
	shell
	ball *design.Ball
}

// kite returns an outline of four sides about the origin.
func kite(size float64) design.Outline {
	return design.Outline{Corners: []r2.Vec{{X: -size, Y: -2}, {X: 1.5, Y: -size}, {X: 1.2 * size, Y: 1}, {X: 0, Y: size}}}
}

// TestSpan walks random lines in small steps and compares where they are
// inside with where span says that they are.
func TestSpan(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	point := func(r float64) r3.Vec {
		return r3.Vec{X: r * (2*rng.Float64() - 1), Y: r * (2*rng.Float64() - 1), Z: r * (2*rng.Float64() - 1)}
	}
	unit := func() r3.Vec { return r3.Unit(point(1)) }
	for range 400 {
		u := unit()
		x, _ := design.Tilt(u)
		ball := &design.Ball{Center: point(5), Radius: 3 + 4*rng.Float64(), Gores: 3 + rng.IntN(10), Pole: u, Prime: x}
		for _, s := range []convex{
			shell{solid.Sphere{Center: point(5), Radius: 2 + 5*rng.Float64()}},
			prism{kite(1 + 5*rng.Float64()), -1 - rng.Float64(), 2 * rng.Float64()},
			frustum{point(5), u, 4 + 6*rng.Float64(), 3, 0},
			frustum{point(5), u, 6, 3, 0.6*rng.Float64() - 0.3},
			lobes{shell{solid.NewLobed(ball.Center, ball.Radius, ball.Gores, ball.Pole, ball.Prime)}, ball},
		} {
			p, d := point(9), unit()
			if rng.IntN(4) == 0 {
				d = r3.Vec{Z: 1} // square to the axes, as the views are
			}
			enter, leave, ok := s.span(p, d)
			if !ok {
				enter, leave = math.Inf(1), math.Inf(-1)
			}
			for at := -30.0; at <= 30; at += 0.05 {
				if math.Abs(at-enter) < 1e-6 || math.Abs(at-leave) < 1e-6 {
					continue
				}
				got, want := enter < at && at < leave, inside(s, r3.Add(p, r3.Scale(at, d)))
				if got != want {
					t.Fatalf("%#v.span(%v, %v) = %v, %v, %v; but inside is %v at %v", s, p, d, enter, leave, ok, want, at)
				}
			}
		}
	}
}
