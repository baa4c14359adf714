package solid

import (
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r3"
)

// TestFrom takes points just within and just beyond the outside of bodies of every
// kind, as plain geometry knows them.
func TestFrom(t *testing.T) {
	rng := rand.New(rand.NewPCG(15, 1))
	center := r3.Vec{X: 5, Y: -8, Z: 300}
	looked := 0
	for range 4000 {
		s := anyShape(rng)
		b, ok := s.surface.(Radial)
		if !ok {
			continue
		}
		d := anyDirection(rng)
		far := b.From(d)
		if !s.in(r3.Add(center, r3.Scale(far-1e-6, d))) || s.in(r3.Add(center, r3.Scale(far+1e-6, d))) {
			t.Fatalf("%T: From(%v) = %v is not on the outside", b, d, far)
		}
		looked++
	}
	if looked < 1000 {
		t.Errorf("only %d were looked at", looked)
	}
}
