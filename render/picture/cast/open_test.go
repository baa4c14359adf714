package cast

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// What Before finds is all that Open can meet from anywhere in the ball.
func TestBefore(t *testing.T) {
	sun := unit(r3.Vec{X: -0.5, Y: 0.4, Z: 0.7})
	for name, j := range jobs(t) {
		w := NewWorld(Solids(j.Parts))
		rng := rand.New(rand.NewPCG(1, 2))
		shaded, spared := 0, 0
		for range 300 {
			middle := r3.Vec{X: 4000 * (rng.Float64() - 0.5), Y: 4000 * (rng.Float64() - 0.5)}
			radius := 200 * rng.Float64()
			list := w.Before(middle, radius, sun, 0.02, nil)
			spared += len(w.Solids) - len(list)
			for range 20 {
				a, out := 2*math.Pi*rng.Float64(), radius*rng.Float64()
				p := r3.Add(middle, r3.Vec{X: out * math.Cos(a), Y: out * math.Sin(a)})
				got, want := w.OpenAmong(p, sun, 0.02, list), w.Open(p, sun, 0.02, -1)
				if got != want {
					t.Fatalf("%s: open to the sun at %v = %v, want %v", name, p, got, want)
				}
				if want < 1 {
					shaded++
				}
			}
		}
		if shaded < 20 || spared == 0 {
			t.Errorf("%s: %d places in shade, and %d solids spared", name, shaded, spared)
		}
	}
}

// Close to its edge a plate keeps as much light from the ground as rays over the
// hemisphere find, to within a fortieth of the whole.
func TestPlateHides(t *testing.T) {
	for name, s := range map[string]Solid{
		"rectangle": NewBox(0, r3.Vec{X: -300, Y: -200}, r3.Vec{X: 300, Y: 200, Z: 12}),
		"disc":      NewTube(0, r3.Vec{}, design.Upright, 12, 300, 300),
	} {
		for _, away := range []float64{1, 3, 6, 12, 24, 48, 100, 300} {
			p := r3.Vec{X: 300 + away}
			if got, want := s.Hides(p, design.Upright), hidden(&s, p, design.Upright); math.Abs(got-want) > 0.025 {
				t.Errorf("%s: the light kept from %v mm away = %.3f, want %.3f", name, away, got, want)
			}
		}
	}
}
