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

// holds tells by its definition whether a point is within a part taken smaller by
// a number of mm.
func holds(p *design.Part, by float64, x r3.Vec) bool {
	switch {
	case p.Base != nil:
		o := p.Base.Outline()
		return by <= x.Z && x.Z <= p.Base.Top-by && o.Distance(design.Plan(x)) <= -by
	case p.Post != nil:
		q := r3.Sub(x, p.Post.Ends[design.Foot].At)
		at := r3.Dot(q, p.Post.Direction)
		off := (p.Post.DiameterAt(at)/2 - r3.Norm(r3.Sub(q, r3.Scale(at, p.Post.Direction)))) / math.Hypot(1, p.Post.Slope())
		if p.Post.Ends[design.Foot].Meets == design.OnPlate && p.Post.Lean > 0 {
			return x.Z >= p.Post.Ends[design.Foot].At.Z && at <= p.Post.Length-by && off >= by
		}
		return at >= by && at <= p.Post.Length-by && off >= by
	}
	b := p.Ball
	if b.Bowl && r3.Dot(r3.Sub(x, b.Mouth()), b.Pole) > 0 {
		return false
	}
	q, radius := r3.Sub(x, b.Center), b.Radius-by
	if b.Build == design.Halves {
		return r3.Norm(q) <= radius
	}
	// At the height z each gore's flat is sqrt(R² - z²) from the pole. The small discs
	// at the poles stay flat, or carry the lobes on.
	z := r3.Dot(q, b.Pole)
	if math.Abs(z) > radius {
		return false
	}
	if mean := b.Radius - p.Metal.Thickness/2; p.CapIsFlat(design.UpperPole) && math.Abs(z) > math.Sqrt(mean*mean-b.Caps*b.Caps/4)+p.Metal.Thickness/2 {
		return false
	}
	for k := range b.Gores {
		if r3.Dot(q, b.Meridian(2*math.Pi*float64(k)/float64(b.Gores))) > math.Sqrt(radius*radius-z*z) {
			return false
		}
	}
	return true
}

// TestSpan walks random lines in small steps and compares where they are inside with
// where Span and Distance say that they are.
func TestSpan(t *testing.T) {
	rng := rand.New(rand.NewPCG(1, 2))
	point := func(r float64) r3.Vec {
		return r3.Vec{X: r * (2*rng.Float64() - 1), Y: r * (2*rng.Float64() - 1), Z: r * (2*rng.Float64() - 1)}
	}
	unit := func() r3.Vec { return r3.Unit(point(1)) }
	for range 400 {
		size := 50 + 250*rng.Float64()
		head := fmt.Sprintf("units mm\nmetal skin { alloy low-carbon-steel, thickness %.3f }\nmetal slab { alloy low-carbon-steel, thickness %.3f }\n", 0.5+rng.Float64(), 10+90*rng.Float64())
		kite := written.Design(t, head+fmt.Sprintf("base pad { plate polygon (%.3f, -100), (75, %.3f), (%.3f, 50), (0, %.3f), metal slab }", -size, -size, 1.2*size, size))
		rest := written.Design(t, head+fmt.Sprintf(`base pad { disc %.3f, metal slab }
ball moon on pad { diameter %.3f, halves, metal skin }
ball star on pad { diameter %.3f, gores %d, pole %.6f rad toward %.6f rad, seam toward %.6f rad, metal skin }
bowl dish on pad { diameter 500, depth 190, gores 7, tilt 0.3 rad toward 1 rad, metal skin }
bowl cup on pad { diameter 400, depth 200, dished, metal skin }
post mast on pad { diameter 300 to %.3f, length %.3f, metal skin }
post bent on pad { diameter 300, length %.3f, lean %.6f rad toward %.6f rad, metal skin }
`, 1000+2*size, 200+500*rng.Float64(), 300+400*rng.Float64(), 4+rng.IntN(9), 3*rng.Float64(), 6*rng.Float64(), 6*rng.Float64(),
			150+450*rng.Float64(), 200+300*rng.Float64(), 400+300*rng.Float64(), 0.1+0.4*rng.Float64(), 6*rng.Float64()))
		parts := []*design.Part{kite.Base(), rest.Base(), rest.Part("moon"), rest.Part("star"), rest.Part("dish"), rest.Part("cup"), rest.Part("mast"), rest.Part("bent")}
		// By hand: a post that is cut square at any attitude stands on nothing.
		u := unit()
		free := &design.Post{Direction: u, Length: 200 + 300*rng.Float64()}
		free.Ends[design.Foot] = design.End{At: point(250), Diameter: 300}
		free.Ends[design.Head] = design.End{At: r3.Add(free.Ends[design.Foot].At, r3.Scale(free.Length, u)), Diameter: 150 + 300*rng.Float64()}
		for _, p := range append(parts, &design.Part{Post: free}) {
			by := 20 * rng.Float64()
			center := r3.Vec{}
			switch {
			case p.Base != nil:
				by = min(by, p.Base.Top/2)
			case p.Ball != nil:
				center = p.Ball.Center
			case p.Post.Lean > 0:
				by, center = 0, p.Post.Ends[design.Foot].At // what it is cut to stays as it is
			}
			if b := p.Ball; b != nil && (b.Build == design.RolledGores || b.Bowl) {
				by = 0 // the discs at its poles would go with it
			}
			body := New(p, [2][]r3.Vec{}).Less(by)
			q, d := r3.Add(center, point(450)), unit()
			if rng.IntN(4) == 0 {
				d = r3.Vec{Z: 1} // square to the axes, as the views are
			}
			enter, leave, ok := body.Span(q, d)
			if !ok {
				enter, leave = math.Inf(1), math.Inf(-1)
			}
			for at := -1500.0; at <= 1500; at += 2.5 {
				if math.Abs(at-enter) < 1e-4 || math.Abs(at-leave) < 1e-4 {
					continue
				}
				x := r3.Add(q, r3.Scale(at, d))
				want := holds(p, by, x)
				if got := enter < at && at < leave; got != want {
					t.Fatalf("%+v less %v: Span(%v, %v) = %v, %v, %v; but inside is %v at %v", p, by, q, d, enter, leave, ok, want, at)
				}
				if off := body.Distance(x); (off < 0) != want && math.Abs(off) > 1e-4 {
					t.Fatalf("%+v less %v: Distance(%v) = %v; but inside is %v", p, by, x, off, want)
				}
			}
		}
	}
}
