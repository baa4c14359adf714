package layout

import (
	"math/rand/v2"
	"slices"
	"testing"
)

// TestRoomy holds what has a place at all to what Solve leaves over.
func TestRoomy(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	sure, scarce, over := 0, 0, 0
	for n := range 600 {
		p := shopProblem(rnd, 1+rnd.IntN(15))
		left, all, err := Roomy(p)
		if err != nil {
			t.Fatalf("%d: %v", n, err)
		}
		plan, err := Solve(p, Options{Steps: 20_000})
		if err != nil {
			t.Fatalf("%d: %v", n, err)
		}
		if !all {
			scarce++
			continue
		}
		sure++
		if len(left) > 0 {
			over++
		}
		if !slices.Equal(left, plan.Left) {
			t.Fatalf("%d: Roomy = %v, but Solve leaves %v\n%+v", n, left, plan.Left, p)
		}
	}
	t.Logf("sure of %d, not of %d, %d with pieces left over", sure, scarce, over)
	if sure == 0 || scarce == 0 || over == 0 {
		t.Error("something never came up")
	}
}
