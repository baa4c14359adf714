package draft

import (
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
)

// Callouts that are put where their leaders cross get each other's places.
func TestUncross(t *testing.T) {
	d := New(Millimetre(), r2.Box{Max: r2.Vec{X: 200, Y: 200}})
	up := r2.Vec{Y: 1}
	list := []Callout{
		{Number: 1, Targets: []Target{{At: r2.Vec{X: 90, Y: 100}, Out: up}}},
		{Number: 2, Targets: []Target{{At: r2.Vec{X: 110, Y: 100}, Out: up}}},
	}
	spots := []*placed{
		{target: list[0].Targets[0], center: r2.Vec{X: 110, Y: 125}},
		{target: list[1].Targets[0], center: r2.Vec{X: 90, Y: 125}},
	}
	for i := range spots {
		d.takeCallout(&list[i], spots[i], calloutOwner+i)
	}
	if !spots[0].crosses(spots[1]) {
		t.Fatal("the leaders do not cross to begin with")
	}
	d.uncross(list, spots, nil)
	if spots[0] == nil || spots[1] == nil || spots[0].crosses(spots[1]) {
		t.Errorf("the callouts stand at %+v and %+v", spots[0], spots[1])
	}
}

// In a thicket of targets whose nearest places cross, no two leaders do.
func TestCalloutsDoNotCross(t *testing.T) {
	for seed := range uint64(40) {
		rng := rand.New(rand.NewPCG(seed, 3))
		d := New(Millimetre(), r2.Box{Max: r2.Vec{X: 300, Y: 300}})
		var list []Callout
		for i := range 24 {
			at := r2.Vec{X: 130 + 40*rng.Float64(), Y: 130 + 40*rng.Float64()}
			var targets []Target
			for k := range 6 {
				out := polar(r2.Vec{}, float64(k)*1.05+rng.Float64(), 1)
				targets = append(targets, Target{At: r2.Add(at, r2.Scale(2, out)), Out: out})
			}
			list = append(list, Callout{Number: i + 1, Targets: targets})
		}
		spots := make([]*placed, len(list))
		d.settle(list, spots, nil)
		for i := range spots {
			for j := range i {
				if spots[i] != nil && spots[j] != nil && spots[i].crosses(spots[j]) {
					t.Errorf("seed %d: the leaders of %d and %d cross", seed, j+1, i+1)
				}
			}
		}
	}
}
