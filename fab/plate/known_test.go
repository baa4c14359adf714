package plate

import (
	"math"
	"slices"
	"sync"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// TestKnown: an answer that was kept is the one that is worked out, for more plates than are
// kept, by several goroutines, and is the caller's own.
func TestKnown(t *testing.T) {
	plate := func(i int) Plate {
		return Plate{
			Outline: []r2.Vec{{X: 0, Y: 0}, {X: 400 + float64(i), Y: 0}, {X: 400 + float64(i), Y: 300}, {X: 0, Y: 300}},
			Anchors: []r2.Vec{{X: 30, Y: 30}, {X: 370, Y: 30}, {X: 370, Y: 270}, {X: 30, Y: 270}},
			Posts:   []Post{{At: r2.Vec{X: 200, Y: 150}, Radius: 40}}, Thickness: 10, Modulus: 200e3,
		}
	}
	var wg sync.WaitGroup
	for range 4 {
		wg.Add(1)
		go func() {
			defer wg.Done()
			for k := range 2 * (keep + 10) {
				p := plate(k % (keep + 10))
				got, err := p.Springs()
				want, _ := p.springs()
				if err != nil || !slices.Equal(got, want) {
					t.Errorf("plate %d: %v and %v, %v", k, got, want, err)
					return
				}
				got[0].Axial = math.NaN()
			}
		}()
	}
	wg.Wait()
	if n := len(known.by); n > keep {
		t.Errorf("%d answers are kept", n)
	}
	other := plate(0)
	other.Thickness = 0
	if _, err := other.Springs(); err == nil {
		t.Error("a plate without thickness has springs")
	}
}
