package sheets

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"stabile/fab/finding"
)

// TestPlaces: what has a place is the same whether or not good layouts are looked for.
func TestPlaces(t *testing.T) {
	left, laid := 0, 0
	for n := range 300 {
		rnd := rand.New(rand.NewPCG(uint64(n), 11))
		in := anyInput(rnd, 1+rnd.IntN(12))
		whole := Make(in)
		in.Places = true
		rough := Make(in)
		if !reflect.DeepEqual(rough.Checks, whole.Checks) {
			t.Fatalf("%d: checks\n%+v\n%+v", n, rough.Checks, whole.Checks)
		}
		if got, want := but(rough.Findings), but(whole.Findings); !reflect.DeepEqual(got, want) {
			t.Fatalf("%d: findings\n%+v\n%+v", n, got, want)
		}
		if rough.Complete() != whole.Complete() || !reflect.DeepEqual(rough.Orders, whole.Orders) {
			t.Fatalf("%d: complete %v, %v", n, rough.Complete(), whole.Complete())
		}
		for _, st := range rough.Stacks {
			left += len(st.Left)
			laid += len(st.Sheets)
		}
	}
	t.Logf("%d without a place, %d layouts", left, laid)
	if left == 0 || laid == 0 {
		t.Error("something never came up")
	}
}

// but returns findings without those on single cuts.
func but(list []finding.Finding) []finding.Finding {
	return slices.DeleteFunc(slices.Clone(list), func(f finding.Finding) bool { _, narrow := f.Fact.(Narrow); return narrow })
}

// BenchmarkPlaces is BenchmarkMake without good layouts.
func BenchmarkPlaces(b *testing.B) {
	in := anyInput(rand.New(rand.NewPCG(1, 1)), 100)
	in.Places = true
	for b.Loop() {
		Make(in)
	}
}
