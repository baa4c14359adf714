package solid

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
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
		return at >= by && at <= p.Post.Length-by && off >= by
	}
	b := p.Ball
	q, radius := r3.Sub(x, b.Center), b.Radius-by
	if b.Build == design.Halves {
		return r3.Norm(q) <= radius
	}
	// At the height z each gore's flat is sqrt(R² - z²) from the pole.
	z := r3.Dot(q, b.Pole)
	if math.Abs(z) > radius {
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
		u := unit()
		x, _ := design.Tilt(u)
		post := func(head float64) *design.Part {
			p := &design.Post{Direction: u, Length: 4 + 6*rng.Float64()}
			p.Ends[design.Foot] = design.End{At: point(5), Diameter: 6}
			p.Ends[design.Head] = design.End{At: r3.Add(p.Ends[design.Foot].At, r3.Scale(p.Length, u)), Diameter: head}
			return &design.Part{Post: p}
		}
		size := 1 + 5*rng.Float64()
		kite := []r2.Vec{{X: -size, Y: -2}, {X: 1.5, Y: -size}, {X: 1.2 * size, Y: 1}, {X: 0, Y: size}}
		for _, p := range []*design.Part{
			{Ball: &design.Ball{Center: point(5), Radius: 2 + 5*rng.Float64(), Build: design.Halves}},
			{Base: &design.Base{Shape: design.Polygon, Corners: kite, Top: 2 * rng.Float64()}},
			{Base: &design.Base{Shape: design.Disc, Width: 2 * size, Top: 2 * rng.Float64()}},
			post(6), post(3 + 6*rng.Float64()),
			{Ball: &design.Ball{Center: point(5), Radius: 3 + 4*rng.Float64(), Gores: 3 + rng.IntN(10), Pole: u, Prime: x}},
		} {
			by := 0.4 * rng.Float64()
			body := New(p, [2][]r3.Vec{})
			if b := p.Ball; b != nil && b.Build == design.RolledGores {
				// Its metal not being known it would be a sphere: of gores that come to a point.
				by = 0
				body.form = round{p, NewLobed(b.Center, b.Radius, b.Gores, b.Pole, b.Prime)}
			} else {
				body = body.Less(by)
			}
			if p.Base != nil {
				by = min(by, p.Base.Top/2)
				body = New(p, [2][]r3.Vec{}).Less(by)
			}
			q, d := point(9), unit()
			if rng.IntN(4) == 0 {
				d = r3.Vec{Z: 1} // square to the axes, as the views are
			}
			enter, leave, ok := body.Span(q, d)
			if !ok {
				enter, leave = math.Inf(1), math.Inf(-1)
			}
			for at := -30.0; at <= 30; at += 0.05 {
				if math.Abs(at-enter) < 1e-6 || math.Abs(at-leave) < 1e-6 {
					continue
				}
				x := r3.Add(q, r3.Scale(at, d))
				want := holds(p, by, x)
				if got := enter < at && at < leave; got != want {
					t.Fatalf("%+v less %v: Span(%v, %v) = %v, %v, %v; but inside is %v at %v", p, by, q, d, enter, leave, ok, want, at)
				}
				if off := body.Distance(x); (off < 0) != want && math.Abs(off) > 1e-6 {
					t.Fatalf("%+v less %v: Distance(%v) = %v; but inside is %v", p, by, x, off, want)
				}
			}
		}
	}
}
