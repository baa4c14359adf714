package flat

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// TestSubtract takes polygons out of each other, and compares areas with points
// thrown at them.
func TestSubtract(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	star := func(center r2.Vec, size float64) []r2.Vec {
		n := 3 + rng.IntN(30)
		out := make([]r2.Vec, n)
		for i := range out {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			r := size * (0.4 + 0.6*rng.Float64())
			out[i] = r2.Vec{X: center.X + r*cos, Y: center.Y + r*sin}
		}
		return out
	}
	parted := 0
	for n := range 400 {
		a := star(r2.Vec{}, 100)
		b := star(r2.Vec{X: 120 * rng.NormFloat64(), Y: 120 * rng.NormFloat64()}, 20+100*rng.Float64())
		left, hole := subtract(a, b)
		if len(left) > 1 {
			parted++
		}
		area := 0.0
		for _, p := range left {
			if enclosed(p) <= 0 {
				t.Fatalf("%d: a piece of area %v", n, enclosed(p))
			}
			area += enclosed(p)
		}
		if hole {
			area -= enclosed(b)
		}
		want, points := 0, 20000
		for range points {
			p := r2.Vec{X: 200*rng.Float64() - 100, Y: 200*rng.Float64() - 100}
			if within(p, a) && !within(p, b) {
				want++
			}
		}
		// Four standard deviations of the count.
		if w := float64(want) / float64(points) * 40000; math.Abs(area-w) > 4*40000*math.Sqrt(0.25/float64(points)) {
			t.Fatalf("%d: area %v, by points %v", n, area, w)
		}
	}
	if parted < 10 {
		t.Errorf("%d of the polygons are parted: no test", parted)
	}
}
