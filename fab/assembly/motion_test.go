package assembly

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// cone returns unit normals all round an axis, at an angle from it in degrees:
// those of a ball that rests in the ring of a tube.
func cone(axis r3.Vec, angle float64) []r3.Vec {
	x, y := design.Tilt(axis)
	sin, cos := math.Sincos(angle * math.Pi / 180)
	var list []r3.Vec
	for _, p := range circle(r3.Vec{}, x, y, sin) {
		list = append(list, r3.Add(p, r3.Scale(cos, axis)))
	}
	return list
}

func TestWayOut(t *testing.T) {
	up, across := r3.Vec{Z: 1}, r3.Vec{X: 1}
	for _, tt := range []struct {
		name    string
		normals []r3.Vec
		want    bool
	}{
		{"a ball off one ring", cone(up, 30), true},
		{"a ball off two rings square to each other", append(cone(up, 30), cone(across, 30)...), true},
		{"a ball off two rings that bar each other", append(cone(up, 50), cone(across, 50)...), false},
		{"a post between two fixed balls", append(cone(up, 20), cone(r3.Vec{Z: -1}, 20)...), false},
		// A strut from a plate to a ball over it: its foot slides along the plate if
		// it leans by more than the ball's ring opens.
		{"a strut that leans 40 deg under a ring of 30", append([]r3.Vec{up}, cone(r3.Scale(-1, design.Leaning(40*math.Pi/180, 0)), 30)...), true},
		{"a strut that leans 20 deg under a ring of 30", append([]r3.Vec{up}, cone(r3.Scale(-1, design.Leaning(20*math.Pi/180, 0)), 30)...), false},
		{"nothing touched", nil, true},
	} {
		way, ok := wayOut(tt.normals)
		if ok != tt.want {
			t.Errorf("%s: wayOut = %v, %v, want %v", tt.name, way, ok, tt.want)
		}
	}
}

// TestWayOutAll compares ways out of random normals with a search over 4,000
// ways: what is found clears all normals, and where some way clears them by 5 deg
// one is found.
func TestWayOutAll(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	random := func() r3.Vec { return unit3(r3.Vec{X: rnd.NormFloat64(), Y: rnd.NormFloat64(), Z: rnd.NormFloat64()}) }
	ways := make([]r3.Vec, 4000)
	for i := range ways {
		ways[i] = random()
	}
	found, barred := 0, 0
	for range 400 {
		var normals []r3.Vec
		for range 1 + rnd.IntN(3) {
			normals = append(normals, cone(random(), 5+50*rnd.Float64())...)
		}
		clear := func(w r3.Vec) float64 {
			least := 1.0
			for _, n := range normals {
				least = min(least, r3.Dot(w, n))
			}
			return least
		}
		best := -1.0
		for _, w := range ways {
			best = max(best, clear(w))
		}
		way, ok := wayOut(normals)
		switch {
		case ok && (clear(way) < -1e-6 || math.Abs(r3.Norm(way)-1) > 1e-9):
			t.Errorf("a way out %v runs into a normal by %v", way, clear(way))
		case !ok && best > math.Sin(5*math.Pi/180):
			t.Errorf("no way out found, but one clears all by %v", best)
		}
		if ok {
			found++
		} else {
			barred++
		}
	}
	if found < 50 || barred < 50 {
		t.Errorf("%d ways found, %d barred, want 50 of each", found, barred)
	}
}
