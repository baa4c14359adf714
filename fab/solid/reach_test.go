package solid

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// TestReach compares how far parts reach with points on them.
func TestReach(t *testing.T) {
	rnd := rand.New(rand.NewPCG(31, 32))
	for range 20 {
		pole := design.Leaning(3*rnd.Float64(), 7*rnd.Float64())
		b := &design.Ball{Radius: 100, Build: design.RolledGores, Gores: 3 + rnd.IntN(12), Pole: pole, Prime: design.Toward(pole, 1)}
		p := &design.Part{Ball: b, Metal: &design.Metal{Thickness: 1}}
		if rnd.IntN(2) == 0 {
			b.Caps = 100 * rnd.Float64()
		}
		limit := math.Pi / 2
		if b.Caps > 0 {
			limit = math.Acos(b.Caps / 2 / 99.5)
		}
		across := r3.Cross(b.Pole, b.Prime)
		for _, way := range []r3.Vec{{X: 1}, {Y: -1}, {Z: 1}, {Z: -1}} {
			want := 100.0
			for k := range b.Gores {
				for i := range 2001 {
					sin, cos := math.Sincos((float64(i)/1000 - 1) * limit)
					a := (float64(k) + 0.5) * 2 * math.Pi / float64(b.Gores)
					out := 100 / math.Cos(math.Pi/float64(b.Gores)) * cos
					at := r3.Add(r3.Scale(100*sin, b.Pole), r3.Add(r3.Scale(out*math.Cos(a), b.Prime), r3.Scale(out*math.Sin(a), across)))
					want = max(want, r3.Dot(at, way))
				}
			}
			if got := New(p, [2][]r3.Vec{}).Reach(way); math.Abs(got-want) > 1e-3 {
				t.Errorf("a ball of %d gores, caps %v, reaches %v along %v, its ridges %v", b.Gores, b.Caps, got, way, want)
			}
		}
	}
	// A ring of few points comes out as the circle that it stands for.
	var rim []r3.Vec
	for i := range 60 {
		sin, cos := math.Sincos(float64(i)*6*math.Pi/180 + 0.03)
		rim = append(rim, r3.Vec{X: 50 * cos, Y: 50 * sin})
	}
	if got := rimReach(rim, r3.Vec{X: 1}); math.Abs(got-50) > 1e-4 {
		t.Errorf("a circle of radius 50 reaches %v", got)
	}
}
