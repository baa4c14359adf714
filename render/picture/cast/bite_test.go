package cast

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/written"
)

const bitten = `units mm
metal skin { alloy low-carbon-steel, thickness 2 }
base pad { plate 600 by 600, metal skin }
post p on pad { diameter 100, length 400, metal skin }
ball b on p { diameter 300, halves, metal skin }
hole slit in p { at 200 toward 0 deg, slot 30 by 120, through }
hole eye in b { toward 0 deg, diameter 60, through }
hole ear in b { toward 90 deg, diameter 60 }
`

func bittenSolids(t *testing.T) []Solid {
	t.Helper()
	j, wrong := fab.Build(written.Design(t, bitten), 0)
	if err := wrong.Err(); err != nil {
		t.Fatal(err)
	}
	return Solids(j.Parts)
}

// TestSeeThrough looks through holes: straight through both walls to what is behind, by one
// hole at the inside of the wall opposite, and beside them at the outside.
func TestSeeThrough(t *testing.T) {
	solids := bittenSolids(t)
	post, ball := &solids[1], &solids[2]
	level := ball.Center.Z
	look := func(s *Solid, from, along r3.Vec) (float64, int32, bool) {
		return s.Meet(&Ray{from, r3.Unit(along)})
	}
	west := r3.Vec{X: -1}
	if _, _, ok := look(ball, r3.Vec{X: 1000, Z: level}, west); ok {
		t.Error("a ray through both holes of the ball meets it")
	}
	if _, _, ok := look(post, r3.Vec{X: 1000, Y: 9, Z: 240}, west); ok {
		t.Error("a ray through both slots of the post meets it")
	}
	if d, face, ok := look(ball, r3.Vec{Y: 1000, Z: level}, r3.Vec{Y: -1}); !ok || face != Bore || math.Abs(d-(1000+150-2)) > 1e-6 {
		t.Errorf("by its one hole the inside of the ball is met at %v on face %d, %v", d, face, ok)
	}
	if d, face, ok := look(ball, r3.Vec{Y: 1000, Z: level + 40}, r3.Vec{Y: -1}); !ok || face != Side || math.Abs(d-(1000-math.Sqrt(150*150-40*40))) > 1e-6 {
		t.Errorf("beside its hole the ball is met at %v on face %d, %v", d, face, ok)
	}
}

// slant returns the cosine between a ray and the way out of a ball or a post at a point.
func slant(s *Solid, p, along r3.Vec) float64 {
	rel := r3.Sub(p, s.Center)
	if s.Kind == Tube {
		rel = r3.Sub(rel, r3.Scale(r3.Dot(rel, s.Axis), s.Axis))
	}
	return math.Abs(r3.Dot(unit(rel), along))
}

// TestBittenByPoints goes along random rays point by point through the walls of the ball and
// the post: what is met first is where the first point of metal is. Rays that graze the wall
// are left out.
func TestBittenByPoints(t *testing.T) {
	solids := bittenSolids(t)
	rnd := rand.New(rand.NewPCG(16, 16))
	inside, through := 0, 0
	for range 3000 {
		s := &solids[1+rnd.IntN(2)]
		// Aimed near a hole, from all round.
		b := &s.Bites[rnd.IntN(len(s.Bites))]
		any := func(r float64) r3.Vec {
			return r3.Vec{X: r * rnd.NormFloat64(), Y: r * rnd.NormFloat64(), Z: r * rnd.NormFloat64()}
		}
		from := r3.Add(b.At, r3.Scale(900, r3.Unit(r3.Add(b.Way, any(0.4)))))
		ray := Ray{from, r3.Unit(r3.Sub(r3.Add(b.At, any(b.Radius/2)), from))}
		got, face, ok := s.Meet(&ray)
		metal := func(p r3.Vec) bool {
			rel := r3.Sub(p, s.Center)
			out := norm(rel)
			if s.Kind == Tube {
				z := r3.Dot(rel, s.Axis)
				if out = norm(r3.Sub(rel, r3.Scale(z, s.Axis))); z < 0 || z > s.Length {
					return false
				}
			}
			return out < s.Radius && out > s.Radius-s.Sheet && s.bitten(p) < 0
		}
		const step = 0.05
		first := math.Inf(1)
		for d := 400.0; d < 1500; d += step {
			if metal(ray.At(d)) {
				first = d
				break
			}
		}
		switch {
		case s.Kind == Tube && ok && (face == Foot || face == Head || ray.At(got).Z < 5 || ray.At(got).Z > 390):
			continue // by its ends, where the ball and the plate are
		case math.IsInf(first, 1) && s.Kind == Tube:
			continue // out by an end
		case ok && slant(s, ray.At(got), ray.Along) < 0.3:
			continue
		case ok != !math.IsInf(first, 1):
			t.Fatalf("from %v along %v: met %v at %v on face %d, by points %v", ray.From, ray.Along, ok, got, face, first)
		case ok && math.Abs(got-first) > 2*step && slant(s, ray.At(first), ray.Along) > 0.3:
			t.Fatalf("from %v along %v: met at %v on face %d, by points at %v", ray.From, ray.Along, got, face, first)
		case !ok:
			through++
		case face == Bore:
			inside++
		}
	}
	if inside < 300 || through < 50 {
		t.Errorf("only %d rays met the inside and %d went through", inside, through)
	}
}
