package assembly_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"stabile/fab/assembly"
	"stabile/fab/frame/trial"
)

func BenchmarkMake(b *testing.B) {
	for _, n := range []int{30, 300, 3000} {
		in := trialInput(trial.Random(rand.New(rand.NewPCG(3, 4)), n))
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			for b.Loop() {
				assembly.Make(in)
			}
		})
	}
}

// BenchmarkEvery has blanks, rims and every kind of joint.
func BenchmarkEvery(b *testing.B) {
	in := input(build(b, every))
	for b.Loop() {
		assembly.Make(in)
	}
}
