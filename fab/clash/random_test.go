package clash

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/written"
)

// within tells by plain geometry, without distance functions, whether a point
// lies in a part.
func within(p *design.Part, at r3.Vec) bool {
	switch {
	case p.Ball != nil:
		return inBall(p, at)
	case p.Base != nil:
		b := p.Base
		return at.Z > 0 && at.Z < b.Top && math.Abs(at.X) < b.Width/2 && math.Abs(at.Y) < b.Depth/2
	}
	post := p.Post
	rel := r3.Sub(at, post.Ends[design.Foot].At)
	s := r3.Dot(rel, post.Direction)
	if r3.Norm(r3.Cross(rel, post.Direction)) > post.Ends[design.Foot].Diameter/2 {
		return false
	}
	if post.Ends[design.Foot].Meets == design.OnPlate && at.Z < post.Ends[design.Foot].With.Base.Top {
		return false
	}
	with := post.Ends[design.Foot].With
	if b := with.Ball; b != nil && (s < r3.Dot(r3.Sub(b.Center, post.Ends[design.Foot].At), post.Direction) || inBall(with, at)) {
		return false
	}
	if with = post.Ends[design.Head].With; with == nil {
		return s < post.Length
	}
	b := with.Ball
	return s < r3.Dot(r3.Sub(b.Center, post.Ends[design.Foot].At), post.Direction) && !inBall(with, at)
}

func inBall(p *design.Part, at r3.Vec) bool {
	b := p.Ball
	rel := r3.Sub(at, b.Center)
	z := r3.Dot(rel, b.Pole)
	// Small discs close the poles: flat ones cut them off, dished ones carry lobes on.
	if p.CapIsFlat(design.UpperPole) {
		if mean := b.Radius - p.Metal.Thickness/2; math.Abs(z) >= math.Sqrt(mean*mean-b.Caps*b.Caps/4)+p.Metal.Thickness/2 {
			return false
		}
	}
	if b.Build != design.RolledGores {
		return r3.Norm(rel) < b.Radius
	}
	x, y := r3.Dot(rel, b.Prime), r3.Dot(rel, r3.Cross(b.Pole, b.Prime))
	// The angle from the middle of the nearest gore.
	step := 2 * math.Pi / float64(b.Gores)
	a := math.Atan2(y, x)
	a -= step * math.Round(a/step)
	m := math.Hypot(x, y) * math.Cos(a)
	return m*m+z*z < b.Radius*b.Radius
}

// bramble writes a small design in which parts crowd each other.
func bramble(t *testing.T, rnd *rand.Rand) *design.Design {
	t.Helper()
	between := func(a, b float64) float64 { return a + (b-a)*rnd.Float64() }
	text := written.Metric + "base pad { plate 500 by 400, metal slab }\n"
	made := func() string {
		if rnd.IntN(2) == 0 {
			return fmt.Sprintf("gores %d, pole %.9f rad toward %.9f rad, seam toward %.9f rad", 4+rnd.IntN(9), between(0, 1), between(0, 7), between(0, 7))
		}
		return "halves"
	}
	type host struct {
		name   string
		radius float64
	}
	var hosts []host
	for i := range 3 {
		x, y := between(-150, 150), between(-100, 100)
		if rnd.IntN(3) == 0 {
			h := host{fmt.Sprintf("r%d", i), between(30, 80)}
			text += fmt.Sprintf("ball %s on pad { at (%.9f, %.9f), diameter %.9f, %s, metal skin }\n", h.name, x, y, 2*h.radius, made())
			hosts = append(hosts, h)
			continue
		}
		text += fmt.Sprintf("post p%d on pad { at (%.9f, %.9f), diameter %.9f, length %.9f, lean %.9f deg toward %.9f rad, metal skin }\n",
			i, x, y, between(10, 50), between(100, 300), between(0, 35), between(0, 7))
		if rnd.IntN(4) > 0 {
			h := host{fmt.Sprintf("b%d", i), between(40, 100)}
			text += fmt.Sprintf("ball %s on p%d { diameter %.9f, offset %.9f toward %.9f rad, %s, metal skin }\n", h.name, i, 2*h.radius, between(0, 12), between(0, 7), made())
			hosts = append(hosts, h)
		}
	}
	for i, h := range hosts {
		for k := range 2 {
			r, a := h.radius, between(0, 7)
			off, diameter := between(0, 0.5)*r, between(0.1, 0.5)*r
			// Lean about along the ball's own radius, so that the foot is round.
			text += fmt.Sprintf("post q%d_%d on %s { diameter %.9f, length %.9f, offset %.9f toward %.9f rad, lean %.9f rad toward %.9f rad, metal skin }\n",
				i, k, h.name, diameter, between(60, 250), off, a, max(0, math.Asin(off/r)+between(-0.2, 0.2)), a)
			if rnd.IntN(2) == 0 {
				text += fmt.Sprintf("ball c%d_%d on q%d_%d { diameter %.9f, halves, metal skin }\n", i, k, i, k, diameter*between(1.4, 3))
			}
		}
	}
	return written.Design(t, text)
}

// TestAgainstSampling compares the search with points thrown at random. A
// sphere that is said to lie in both parts must do so; where points of both are
// found with some room about them, an overlap must be reported; and no point may
// have more room than the search found.
func TestAgainstSampling(t *testing.T) {
	rnd := rand.New(rand.NewPCG(21, 22))
	clashing, clean := 0, 0
	for range 60 {
		d := bramble(t, rnd)
		f := newFinder(d, d.Ties(), solid.Bodies(d))
		for i, p := range d.Parts {
			for j, q := range d.Parts[:i] {
				box, ok := overlap(f.bodies[i].Bounds(), f.bodies[j].Bounds())
				if f.joined[pair{j, i}] || !ok {
					continue
				}
				depth, at := deepest(f.bodies[j], f.bodies[i])
				both := func(x r3.Vec) bool { return within(p, x) && within(q, x) }
				// Whether x has r mm of room: all directions from it stay in both.
				room := func(x r3.Vec, r float64) bool {
					for range 2000 {
						if !both(r3.Add(x, r3.Scale(r, someDirection(rnd)))) {
							return false
						}
					}
					return both(x)
				}
				if depth > 0 {
					clashing++
					if !room(at, depth/2*0.999) {
						t.Errorf("%s and %s: no sphere of %v mm across about %v lies in both", q.Name, p.Name, depth, at)
					}
				} else {
					clean++
				}
				for range 4000 {
					x := r3.Vec{
						X: box.Min.X + (box.Max.X-box.Min.X)*rnd.Float64(),
						Y: box.Min.Y + (box.Max.Y-box.Min.Y)*rnd.Float64(),
						Z: box.Min.Z + (box.Max.Z-box.Min.Z)*rnd.Float64(),
					}
					if both(x) && room(x, depth/2*1.02+Tolerance) {
						t.Errorf("%s and %s: %v mm of overlap reported, but about %v there is more", q.Name, p.Name, depth, x)
						break
					}
				}
			}
		}
	}
	if clashing < 50 || clean < 50 {
		t.Errorf("%d pairs clash and %d do not: too few to tell", clashing, clean)
	}
}

// TestDistanceIsGentle holds what the search rests on: the sign of a distance
// function is that of plain geometry, and its value never changes by more than
// the way between two points.
func TestDistanceIsGentle(t *testing.T) {
	rnd := rand.New(rand.NewPCG(23, 24))
	for range 40 {
		d := bramble(t, rnd)
		f := newFinder(d, d.Ties(), solid.Bodies(d))
		for i, p := range d.Parts {
			s := f.bodies[i]
			b := s.Bounds()
			for range 500 {
				x := r3.Vec{
					X: b.Min.X + (b.Max.X-b.Min.X)*(1.2*rnd.Float64()-0.1),
					Y: b.Min.Y + (b.Max.Y-b.Min.Y)*(1.2*rnd.Float64()-0.1),
					Z: b.Min.Z + (b.Max.Z-b.Min.Z)*(1.2*rnd.Float64()-0.1),
				}
				// A rod's edge at a ball is taken at its outside, so that the
				// rod reaches no further than the walls of a tube do.
				if d := s.Distance(x); within(p, x) != (d < 0) && math.Abs(d) > 1e-6 {
					t.Fatalf("%s: distance %v at %v, but within is %v", p.Name, d, x, within(p, x))
				}
				y := r3.Add(x, r3.Scale(20*rnd.Float64(), someDirection(rnd)))
				if d, way := math.Abs(s.Distance(x)-s.Distance(y)), r3.Norm(r3.Sub(x, y)); d > way*(1+1e-9) {
					t.Fatalf("%s: distance changes by %v over %v", p.Name, d, way)
				}
			}
		}
	}
}

func TestClosest(t *testing.T) {
	rnd := rand.New(rand.NewPCG(25, 26))
	for range 300 {
		var p [4]r3.Vec
		for i := range p {
			p[i] = r3.Scale(100*rnd.Float64(), someDirection(rnd))
		}
		switch rnd.IntN(4) {
		case 0:
			p[3] = r3.Add(p[2], r3.Scale(rnd.NormFloat64(), r3.Sub(p[1], p[0]))) // along each other
		case 1:
			p[3] = p[2] // a point
		}
		a, b := closest(p[0], p[1], p[2], p[3])
		got := r3.Norm(r3.Sub(a, b))
		for range 500 {
			s, u := rnd.Float64(), rnd.Float64()
			x := r3.Add(p[0], r3.Scale(s, r3.Sub(p[1], p[0])))
			y := r3.Add(p[2], r3.Scale(u, r3.Sub(p[3], p[2])))
			if d := r3.Norm(r3.Sub(x, y)); d < got-1e-9 {
				t.Fatalf("closest of %v: %v, but %v is nearer", p, got, d)
			}
		}
	}
}

func someDirection(rnd *rand.Rand) r3.Vec {
	return r3.Unit(r3.Vec{X: rnd.NormFloat64(), Y: rnd.NormFloat64(), Z: rnd.NormFloat64()})
}
