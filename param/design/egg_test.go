package design

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// drawnProfile returns points of the ellipse with the half axes a and c, a depth within it, and
// the latitudes of the lines square to it there, drawn by an angle from the equator to the pole.
func drawnProfile(a, c, depth float64, steps int) (r, z, latitude []float64) {
	for k := range steps + 1 {
		sin, cos := math.Sincos(math.Pi / 2 * float64(k) / float64(steps))
		nr, nz := cos/a, sin/c
		n := math.Hypot(nr, nz)
		r = append(r, a*cos-depth*nr/n)
		z = append(z, c*sin-depth*nz/n)
		latitude = append(latitude, math.Atan2(nz, nr))
	}
	return r, z, latitude
}

// TestProfile compares what is worked out of an egg's profile with the same ellipse drawn in
// 20,000 chords.
func TestProfile(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 61))
	for range 60 {
		a := 20 + 400*rnd.Float64()
		c := a * math.Exp(math.Log(FlattestEgg)+rnd.Float64()*math.Log(LongestEgg/FlattestEgg))
		p := Profile{Across: a, Along: c}
		depth := p.Tightest() * 0.4 * rnd.Float64()
		const steps = 20000
		r, z, latitude := drawnProfile(a, c, depth, steps)
		long, area := 0.0, 0.0
		total := 0.0
		for k := range steps {
			total += math.Pi * (r[k] + r[k+1]) * math.Hypot(r[k+1]-r[k], z[k+1]-z[k])
		}
		for k := 1; k <= steps; k++ {
			chord := math.Hypot(r[k]-r[k-1], z[k]-z[k-1])
			long += chord
			area += math.Pi * (r[k] + r[k-1]) * chord
			if k%1777 != 0 && k != steps {
				continue
			}
			near := func(what string, got, want, room float64) {
				t.Helper()
				if math.Abs(got-want) > room {
					t.Errorf("%v by %v, %v deep, at %v: %s is %v, want %v", a, c, depth, latitude[k], what, got, want)
				}
			}
			radius, height := p.At(latitude[k], depth)
			near("the radius", radius, r[k], 1e-9*a)
			near("the height", height, z[k], 1e-9*a)
			near("the arc", p.Arc(latitude[k], depth), long, 1e-6*a)
			near("the latitude", p.Latitude(p.Arc(latitude[k], depth), depth), latitude[k], 1e-9)
			near("the arc to the south", p.Arc(-latitude[k], depth), -long, 1e-6*a)
			near("the cap", p.Cap(latitude[k], depth), total-area, 1e-6*a*a)
			near("the rest", p.Cap(-latitude[k], depth), total+area, 1e-6*a*a)
			if k == steps {
				continue
			}
			near("the latitude by the radius", p.AtRadius(r[k], depth), latitude[k], 1e-7)
			near("the dish", p.Dish(latitude[k], depth), math.Sqrt((total-area)/math.Pi), 1e-5*a)
			near("the dish undone", p.Dished(p.Dish(latitude[k], depth), depth), latitude[k], 1e-8)
			// Three neighbours tell the bend.
			bend := func(i int) float64 {
				turn := latitude[i+1] - latitude[i-1]
				return math.Hypot(r[i+1]-r[i-1], z[i+1]-z[i-1]) / turn
			}
			along, across := p.Bends(latitude[k])
			near("the bend", along-depth, bend(k), 1e-5*a)
			near("the bend across", across-depth, r[k]/math.Cos(latitude[k]), 1e-7*a)
		}
	}
}

// TestNearest compares the nearest point of a profile with the nearest of many.
func TestNearest(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 62))
	for n := range 400 {
		a := 20 + 400*rnd.Float64()
		c := a * math.Exp(math.Log(FlattestEgg)+rnd.Float64()*math.Log(LongestEgg/FlattestEgg))
		p := Profile{Across: a, Along: c}
		x, y := 1.5*a*rnd.Float64(), 1.5*c*(2*rnd.Float64()-1)
		switch n % 8 {
		case 0:
			x = 0
		case 1:
			y = 0
		}
		best := math.Inf(1)
		for k := range 20001 {
			sin, cos := math.Sincos(math.Pi * (float64(k)/20000 - 0.5))
			best = min(best, math.Hypot(x-a*cos, y-c*sin))
		}
		if math.Hypot(x/a, y/c) < 1 {
			best = -best
		}
		latitude, out := p.Nearest(x, y)
		if math.Abs(out-best) > 1e-4*a {
			t.Errorf("%v, %v: %v outside of %v by %v, want %v", x, y, out, a, c, best)
		}
		if r, z := p.At(latitude, -out); math.Abs(r-x) > 1e-6*a || math.Abs(z-y) > 1e-6*a {
			t.Errorf("%v, %v: the line square to %v by %v leads to %v, %v", x, y, a, c, r, z)
		}
	}
}

// TestEggFarthest looks at what an egg shows and how far it reaches by its points.
func TestEggFarthest(t *testing.T) {
	rnd := rand.New(rand.NewPCG(16, 63))
	unit := func() r3.Vec {
		return r3.Unit(r3.Vec{X: rnd.NormFloat64(), Y: rnd.NormFloat64(), Z: rnd.NormFloat64()})
	}
	for range 30 {
		b := &Ball{Radius: 100, Tall: 100 + 300*rnd.Float64(), Pole: unit(), Build: Halves}
		b.Prime, _ = Tilt(b.Pole)
		way := unit()
		x, y := Tilt(way)
		reach, least := 0.0, math.Inf(1)
		var side [2]float64
		for i := range 400 {
			for k := range 400 {
				sin, cos := math.Sincos(math.Pi * ((float64(i)+0.5)/400 - 0.5))
				q := r3.Add(r3.Scale(b.Radius*cos, b.Meridian(2*math.Pi*float64(k)/400)), r3.Scale(b.Polar()*sin, b.Pole))
				reach = max(reach, r3.Dot(q, way))
				side[0], side[1] = max(side[0], r3.Dot(q, x)), max(side[1], r3.Dot(q, y))
				if out := r3.Norm(r3.Sub(q, r3.Scale(r3.Dot(q, way), way))); math.Abs(r3.Dot(r3.Unit(b.Normal(q)), way)) < 0.01 {
					least = min(least, out)
				}
			}
		}
		if got := b.Reach(way); math.Abs(got-reach) > 0.05 || math.Abs(r3.Dot(b.Far(way), way)-got) > 1e-9 {
			t.Errorf("reaches %v, want %v", got, reach)
		}
		if got := b.Reach(x); math.Abs(got-side[0]) > 0.05 {
			t.Errorf("reaches %v to the side, want %v", got, side[0])
		}
		if got := b.Beside(way); math.Abs(got-least) > 0.5 {
			t.Errorf("is %v beside the line, want %v", got, least)
		}
		if far := (&Part{Ball: b}).Farthest(way); r3.Norm(r3.Sub(far, b.Far(way))) > 1e-9 {
			t.Errorf("farthest at %v, want %v", far, b.Far(way))
		}
		// The area of an ellipse is pi times its half axes: of which the outline's radii at
		// right angles give 1 / (ab)^2 by what they are with their product.
		n, sum := 720, 0.0
		for k := range n {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
			o := b.Outline(r3.Add(r3.Scale(cos, x), r3.Scale(sin, y)), way)
			sum += o * o / 2 * 2 * math.Pi / float64(n)
		}
		if got := b.Shadow(way); math.Abs(got-sum) > 1e-6*sum {
			t.Errorf("shows %v, want %v", got, sum)
		}
		at := r3.Add(r3.Scale(20, x), r3.Scale(-30, y))
		if l, ok := b.Leave(at, way); !ok || math.Abs(b.From(r3.Unit(r3.Add(at, r3.Scale(l, way))))-r3.Norm(r3.Add(at, r3.Scale(l, way)))) > 1e-9 {
			t.Errorf("left at %v, %v", l, ok)
		}
	}
}
