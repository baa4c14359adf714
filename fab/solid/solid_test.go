package solid

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// inside reports whether a point relative to the centre lies in a ball of lobes,
// by looking at each of them.
func inside(n int, radius float64, flat, dome [2]float64, pole, prime, x r3.Vec) bool {
	z, third := r3.Dot(x, pole), r3.Cross(pole, prime)
	if z < -flat[0] || z > flat[1] {
		return false
	}
	if z < -dome[0] || z > dome[1] {
		return r3.Norm(x) <= radius
	}
	for k := range n {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		if a := r3.Dot(x, r3.Add(r3.Scale(cos, prime), r3.Scale(sin, third))); a > 0 && a*a+z*z > radius*radius {
			return false
		}
	}
	return true
}

// last finds the end of a line's last stretch in a body by stepping down and
// halving.
func last(in func(t float64) bool, from, step float64) (float64, bool) {
	t := from
	for ; !in(t); t -= step {
		if t < -from {
			return 0, false
		}
	}
	lo, hi := t, t+step
	for range 60 {
		if mid := (lo + hi) / 2; in(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo, true
}

func anyDirection(rng *rand.Rand) r3.Vec {
	return r3.Unit(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()})
}

// A shape is a ball with a way to tell what is inside.
type shape struct {
	surface Surface
	in      func(x r3.Vec) bool
}

func anyShape(rng *rand.Rand) shape {
	const radius = 100
	center := r3.Vec{X: 5, Y: -8, Z: 300}
	pole := anyDirection(rng)
	prime := r3.Unit(r3.Cross(pole, anyDirection(rng)))
	end, other := 60+40*rng.Float64(), 60+40*rng.Float64()
	axial := func(x r3.Vec) (s, q float64) {
		x = r3.Sub(x, center)
		s = r3.Dot(x, pole)
		return s, r3.Norm(r3.Sub(x, r3.Scale(s, pole)))
	}
	switch rng.IntN(9) {
	case 0:
		return shape{Cylinder{Point: center, Axis: pole, Radius: radius}, func(x r3.Vec) bool {
			_, q := axial(x)
			return q <= radius
		}}
	case 1:
		k := 0.8*rng.Float64() - 0.4
		return shape{Cone{Point: center, Axis: pole, Radius: radius, Slope: k}, func(x r3.Vec) bool {
			s, q := axial(x)
			return q <= radius+k*s
		}}
	case 2:
		n := 1 + rng.IntN(20)
		return shape{Zoned{Center: center, Radius: radius, Pole: pole, Zones: n}, func(x r3.Vec) bool {
			s, q := axial(x)
			for i := range n + 2 {
				sin, cos := math.Sincos((float64(i)/float64(n+1) - 0.5) * math.Pi)
				if s*sin+q*cos > radius {
					return false
				}
			}
			return true
		}}
	case 3:
		return shape{
			Flattened{Sphere: Sphere{Center: center, Radius: radius}, Pole: pole, End: [2]float64{end, other}},
			func(x r3.Vec) bool {
				x = r3.Sub(x, center)
				return r3.Norm(x) <= radius && r3.Dot(x, pole) >= -end && r3.Dot(x, pole) <= other
			},
		}
	}
	n := 3 + rng.IntN(30)
	b := NewLobed(center, radius, n, pole, prime)
	flat, dome := [2]float64{radius, radius}, [2]float64{radius, radius}
	for pole, end := range [2]float64{end, other} {
		switch rng.IntN(3) {
		case 0:
			flat[pole] = end
			b.Flatten(pole, end)
		case 1:
			dome[pole] = end
			b.Dome(pole, end)
		}
	}
	return shape{b, func(x r3.Vec) bool { return inside(n, radius, flat, dome, pole, prime, r3.Sub(x, center)) }}
}

func TestLeave(t *testing.T) {
	rng := rand.New(rand.NewPCG(3, 3))
	center := r3.Vec{X: 5, Y: -8, Z: 300}
	hits, misses := 0, 0
	for range 4000 {
		s := anyShape(rng)
		d := anyDirection(rng)
		o := r3.Add(center, r3.Scale(130*rng.Float64(), r3.Unit(r3.Cross(d, anyDirection(rng)))))
		got, ok := s.surface.Leave(o, d)
		switch s.surface.(type) {
		case Cylinder, Cone:
			// They reach as far as anything can go.
			if past := s.in(r3.Add(o, r3.Scale(250, d))); past || got < -250 || got > 250 {
				if ok && past && got < 250 {
					t.Fatalf("%T: Leave(%v, %v) = %v, but it is inside at 250", s.surface, o, d, got)
				}
				continue
			}
		}
		want, in := last(func(t float64) bool { return s.in(r3.Add(o, r3.Scale(t, d))) }, 250, 0.25)
		switch {
		case ok && in && math.Abs(got-want) < 1e-6:
			hits++
		case !ok && !in:
			misses++
		case ok && !in:
			// The steps may pass over a corner: look at the very place.
			if !s.in(r3.Add(o, r3.Scale(got-1e-6, d))) || s.in(r3.Add(o, r3.Scale(got+1e-6, d))) {
				t.Fatalf("%T: Leave(%v, %v) = %v, but the line misses", s.surface, o, d, got)
			}
		default:
			t.Fatalf("%T: Leave(%v, %v) = %v, %v, want %v, %v", s.surface, o, d, got, ok, want, in)
		}
	}
	if hits < 1000 || misses < 100 {
		t.Errorf("%d hits and %d misses are no test", hits, misses)
	}
}

// TestTouch compares contacts with the highest of many radii, and slopes with
// differences.
func TestTouch(t *testing.T) {
	rng := rand.New(rand.NewPCG(4, 4))
	center := r3.Vec{X: 5, Y: -8, Z: 300}
	rough := 0
	for range 3000 {
		s := anyShape(rng)
		tube := Tube{Along: anyDirection(rng), Inner: 20 + 20*rng.Float64()}
		tube.Outer = tube.Inner + 0.2 + 8*rng.Float64()
		tube.Zero = r3.Unit(r3.Cross(tube.Along, anyDirection(rng)))
		tube.Right = r3.Cross(tube.Along, tube.Zero)
		tube.Origin = r3.Add(center, r3.Scale(40*rng.Float64(), tube.Zero))
		if rng.IntN(3) == 0 {
			tube.Flare = 0.4*rng.Float64() - 0.2
		}
		contour := s.surface.Meet(tube)
		bearing := rng.Float64() * 2 * math.Pi
		got, ok := contour.Touch(math.Sincos(bearing))
		if !ok {
			continue // runs past it
		}
		out, _ := tube.radial(math.Sincos(bearing))
		sin, cos := math.Sincos(tube.Flare)
		mid := (tube.Inner + tube.Outer) / 2
		slant := r3.Add(r3.Scale(cos, tube.Along), r3.Scale(sin, out))
		square := r3.Sub(r3.Scale(cos, out), r3.Scale(sin, tube.Along))
		want, at := math.Inf(-1), 0.0
		from, to := tube.Inner, tube.Outer
		for range 8 {
			const radii = 33
			step := (to - from) / (radii - 1)
			for k := range radii {
				r := from + step*float64(k)
				if h, ok := s.surface.Leave(r3.Add(tube.Origin, r3.Add(r3.Scale(mid, out), r3.Scale(r-mid, square))), slant); ok && h > want {
					want, at = h, r
				}
			}
			from, to = max(from, at-step), min(to, at+step)
		}
		if math.Abs(got.At-want) > 1e-5 {
			t.Fatalf("%T: Touch = %+v, want %v", s.surface, got, want)
		}
		if got.Face == Rough {
			rough++
			continue
		}
		const h = 1e-6
		a, _ := contour.Touch(math.Sincos(bearing - h))
		b, _ := contour.Touch(math.Sincos(bearing + h))
		if a.Face != b.Face || a.Radius == tube.Inner != (b.Radius == tube.Inner) {
			continue
		}
		if slope := (b.At - a.At) / (2 * h); math.Abs(got.Slope-slope) > 1e-2*(1+math.Abs(slope)) {
			t.Fatalf("%T: Touch = %+v, slope by differences %v", s.surface, got, slope)
		}
		if slope := (b.Toe - a.Toe) / (2 * h); math.Abs(got.ToeSlope-slope) > 1e-3*(1+math.Abs(slope)) {
			t.Fatalf("%T: Touch = %+v, slope of the toe by differences %v", s.surface, got, slope)
		}
	}
	if rough > 300 {
		t.Errorf("%d of the contacts have no slope", rough)
	}
}

func TestSphereTouch(t *testing.T) {
	// The axis passes 40 mm from the centre; toward it the wall from 45 to 50
	// touches by its inside, at sqrt(100^2 - 5^2).
	s := Sphere{Radius: 100}
	c := s.Meet(Tube{Origin: r3.Vec{X: -40}, Along: r3.Vec{Z: 1}, Zero: r3.Vec{X: 1}, Right: r3.Vec{Y: 1}, Inner: 45, Outer: 50})
	got, ok := c.Touch(0, 1)
	if want := math.Sqrt(100*100 - 5*5); !ok || math.Abs(got.At-want) > 1e-12 || got.Radius != 45 {
		t.Errorf("Touch(0, 1) = %+v, want %v at 45", got, want)
	}
	// A wall from 35 to 50 has the centre's line within it.
	c = s.Meet(Tube{Origin: r3.Vec{X: -40}, Along: r3.Vec{Z: 1}, Zero: r3.Vec{X: 1}, Right: r3.Vec{Y: 1}, Inner: 35, Outer: 50})
	if got, ok := c.Touch(0, 1); !ok || got.At != 100 || got.Radius != 40 {
		t.Errorf("Touch(0, 1) = %+v, want 100 at 40", got)
	}
}

func TestPlaneTouch(t *testing.T) {
	// On a tube that leans by 45 deg heights change as fast as radii.
	up := r3.Unit(r3.Vec{X: 1, Z: 1})
	c := Level(10).Meet(Tube{Origin: r3.Vec{Z: 10}, Along: up, Zero: r3.Unit(r3.Vec{X: 1, Z: -1}), Right: r3.Vec{Y: 1}, Inner: 20, Outer: 25})
	for _, tt := range []struct{ sin, cos, at, radius float64 }{
		{0, 1, 25, 25},
		{0, -1, -20, 20},
		{1, 0, 0, 25},
	} {
		got, ok := c.Touch(tt.sin, tt.cos)
		if !ok || math.Abs(got.At-tt.at) > 1e-12 || got.Radius != tt.radius {
			t.Errorf("Touch(%v, %v) = %+v, want %v at %v", tt.sin, tt.cos, got, tt.at, tt.radius)
		}
	}
	if _, ok := Level(0).Meet(Tube{Along: r3.Vec{X: 1}}).Touch(0, 1); ok {
		t.Error("a level tube touches the ground")
	}
}

func BenchmarkTouch(b *testing.B) {
	contour := NewLobed(r3.Vec{}, 150, 10, r3.Vec{Z: 1}, r3.Vec{X: 1}).Meet(Tube{
		Origin: r3.Vec{X: 40, Z: 140}, Along: r3.Vec{Z: 1}, Zero: r3.Vec{X: 1}, Right: r3.Vec{Y: 1},
		Inner: 43, Outer: 45,
	})
	const step = 2 * math.Pi / 48
	sin, cos := 0.0, 1.0
	turnSin, turnCos := math.Sincos(step)
	for b.Loop() {
		if _, ok := contour.Touch(sin, cos); !ok {
			b.Fatal("misses")
		}
		sin, cos = sin*turnCos+cos*turnSin, cos*turnCos-sin*turnSin
	}
}

// TestConeSquare leaves a wall at 45 deg square to it, where the line is as steep
// as the wall on the other side of the axis, so that it crosses once.
func TestConeSquare(t *testing.T) {
	c := Cone{Axis: r3.Vec{Z: 1}, Radius: math.Sqrt2 * 100, Slope: -1}
	got, ok := c.Leave(r3.Vec{}, r3.Unit(r3.Vec{X: 1, Z: 1}))
	if !ok || math.Abs(got-100) > 1e-9 {
		t.Errorf("leaves at %v, %v; want 100", got, ok)
	}
	if _, ok := c.Leave(r3.Vec{}, r3.Unit(r3.Vec{X: 1, Z: -1})); ok {
		t.Error("a line along the other side of the wall leaves it")
	}
}
