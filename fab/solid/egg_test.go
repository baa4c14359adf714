package solid

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/written"
)

// withinEgg tells by its definition whether a point is within an egg: by the equation of its
// ellipsoid; of gores, by that of each on its own; of rings, by the planes that touch.
func withinEgg(p *design.Part, x r3.Vec) bool {
	b := p.Ball
	q := r3.Sub(x, b.Center)
	z := r3.Dot(q, b.Pole)
	level := r3.Norm(r3.Sub(q, r3.Scale(z, b.Pole)))
	a, c := b.Radius, b.Tall/2
	switch b.Build {
	case design.Zones:
		for k := range b.Zones + 2 {
			sin, cos := math.Sincos(math.Pi * (float64(k)/float64(b.Zones+1) - 0.5))
			if level*cos/a+z*sin/c > 1 {
				return false
			}
		}
		return true
	case design.RolledGores:
		level = 0
		for k := range b.Gores {
			level = max(level, r3.Dot(q, b.Meridian(2*math.Pi*float64(k)/float64(b.Gores))))
		}
	}
	for pole, up := range design.Poles {
		if b.Build != design.Halves && p.CapIsFlat(pole) {
			// The middle of the sheet is as far from the axis as the cap reaches.
			low, high := 0.0, math.Pi/2
			for range 60 {
				m := (low + high) / 2
				sin, cos := math.Sincos(m)
				n := math.Hypot(cos/a, sin/c)
				if a*cos-p.Metal.Thickness/2*cos/a/n > b.CapAt(pole)/2 {
					low = m
				} else {
					high = m
				}
			}
			sin, cos := math.Sincos(low)
			if n := math.Hypot(cos/a, sin/c); up*z > c*sin-p.Metal.Thickness/2*sin/c/n+p.Metal.Thickness/2 {
				return false
			}
		}
	}
	return (level/a)*(level/a)+(z/c)*(z/c) <= 1
}

// TestEggSpan walks lines through eggs of every build and compares where they are inside with
// where Span, Distance, From, Reach and Areas say that they are.
func TestEggSpan(t *testing.T) {
	rng := rand.New(rand.NewPCG(16, 64))
	unit := func() r3.Vec {
		return r3.Unit(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()})
	}
	for n := range 60 {
		wide := 100 + 300*rng.Float64()
		d := written.Design(t, fmt.Sprintf(`units mm
metal skin { alloy low-carbon-steel, thickness %.3f }
metal slab { alloy low-carbon-steel, thickness 10 }
base pad { disc 1500, metal slab }
ball egg on pad { diameter %.3f, tall %.3f, pole %.4f rad toward %.4f rad, %s, metal skin }
`, 0.5+rng.Float64(), wide, wide*(0.55+1.4*rng.Float64()), 3*rng.Float64(), 6*rng.Float64(),
			[]string{"halves", "zones 5", "gores 7", "gores 9, bend domed", "gores 8, caps 30", "gores 8, bend domed, caps 40"}[n%6]))
		p := d.Part("egg")
		body, center := New(p, [2][]r3.Vec{}), p.Ball.Center
		most := 0.0
		way := unit()
		for range 60 {
			u := unit()
			far := body.Outside().From(u)
			if !withinEgg(p, r3.Add(center, r3.Scale(far*(1-1e-9), u))) || withinEgg(p, r3.Add(center, r3.Scale(far*(1+1e-9), u))) {
				t.Fatalf("%d: not the outside at %v along %v", n, far, u)
			}
			most = max(most, r3.Dot(r3.Scale(far, u), way))
			o := r3.Add(center, r3.Scale(0.5*wide, unit()))
			enter, leave, ok := body.Span(o, u)
			if !ok {
				continue
			}
			for _, s := range []struct {
				at float64
				in bool
			}{{enter - 1e-6, false}, {enter + 1e-6, true}, {leave - 1e-6, true}, {leave + 1e-6, false}} {
				x := r3.Add(o, r3.Scale(s.at, u))
				if leave-enter > 1e-3 && withinEgg(p, x) != s.in {
					t.Errorf("%d: within at %v: %v, of %v to %v", n, s.at, !s.in, enter, leave)
				}
				if math.Abs(body.Distance(x)) > 2e-6 {
					t.Errorf("%d: a distance of %v on the outside", n, body.Distance(x))
				}
			}
			// Never steeper than 1, and of the sign of where a point is.
			x, y := r3.Add(center, r3.Scale(wide*rng.Float64(), unit())), r3.Add(center, r3.Scale(wide*rng.Float64(), unit()))
			if math.Abs(body.Distance(x)-body.Distance(y)) > r3.Norm(r3.Sub(x, y))*(1+1e-9) {
				t.Errorf("%d: the distance is steep", n)
			}
			if (body.Distance(x) <= 0) != withinEgg(p, x) {
				t.Errorf("%d: a distance of %v at %v", n, body.Distance(x), x)
			}
		}
		if reach := body.Reach(way) - r3.Dot(center, way); reach < most-1e-9 {
			t.Errorf("%d: reaches %v, but a point is at %v", n, reach, most)
		}
	}
}
