package saw

import (
	"math"
	"math/rand/v2"
	"testing"
)

// fewest packs sizes by trying every way, for a few of them.
func fewest(sizes []float64, capacity float64) int {
	best := len(sizes)
	var room []float64
	var place func(i int)
	place = func(i int) {
		if len(room) >= best {
			return
		}
		if i == len(sizes) {
			best = len(room)
			return
		}
		for k := range room {
			if sizes[i] <= room[k]+1e-6 {
				room[k] -= sizes[i]
				place(i + 1)
				room[k] += sizes[i]
			}
		}
		room = append(room, capacity-sizes[i])
		place(i + 1)
		room = room[:len(room)-1]
	}
	place(0)
	return best
}

// checkPacked checks that every size lies in one bin and none is too full.
func checkPacked(t *testing.T, sizes []float64, capacity float64, bins [][]int, bound int) {
	t.Helper()
	seen := make([]int, len(sizes))
	for _, bin := range bins {
		sum := 0.0
		for _, i := range bin {
			seen[i]++
			sum += sizes[i]
		}
		if sum > capacity+1e-5 || len(bin) == 0 {
			t.Fatalf("a bin of %v holds %v", capacity, sum)
		}
	}
	for i, n := range seen {
		if n != 1 {
			t.Fatalf("size %d lies in %d bins", i, n)
		}
	}
	if bound > len(bins) {
		t.Fatalf("the bound is %d, of %d bins", bound, len(bins))
	}
}

// TestPackAllWays holds packings of up to nine sizes against all ways there are.
func TestPackAllWays(t *testing.T) {
	rng := rand.New(rand.NewPCG(7, 7))
	for range 1500 {
		n := 1 + rng.IntN(9)
		sizes := make([]float64, n)
		for i := range sizes {
			sizes[i] = 1 + math.Floor(99*rng.Float64()*rng.Float64())
			if rng.IntN(3) == 0 && i > 0 {
				sizes[i] = sizes[i-1]
			}
		}
		bins, bound := pack(sizes, 100)
		checkPacked(t, sizes, 100, bins, bound)
		if want := fewest(sizes, 100); len(bins) != want || bound != want {
			t.Fatalf("%v: %d bins, bound %d, want %d", sizes, len(bins), bound, want)
		}
	}
}

// TestPackPlanted packs sizes that lengths were cut up into without a rest: as many are
// needed as were cut up, and are found.
func TestPackPlanted(t *testing.T) {
	rng := rand.New(rand.NewPCG(8, 8))
	proven, extra := 0, 0
	const rounds = 60
	for range rounds {
		n := 2 + rng.IntN(9)
		var sizes []float64
		for range n {
			left := 6000.0
			for range 1 + rng.IntN(4) {
				size := math.Round(left * (0.2 + 0.5*rng.Float64()))
				sizes = append(sizes, size)
				left -= size
			}
			sizes = append(sizes, left)
		}
		rng.Shuffle(len(sizes), func(i, j int) { sizes[i], sizes[j] = sizes[j], sizes[i] })
		bins, bound := pack(sizes, 6000)
		checkPacked(t, sizes, 6000, bins, bound)
		if bound != n {
			t.Fatalf("the bound of what %d lengths were cut up into is %d", n, bound)
		}
		if len(bins) == n {
			proven++
		} else {
			extra += len(bins) - n
		}
	}
	t.Logf("%d of %d planted packings found, %d lengths too many in all", proven, rounds, extra)
	if proven < rounds*9/10 {
		t.Errorf("%d of %d were found", proven, rounds)
	}
}

// TestPackBound has sizes of which the sum says too little: five of 51 stand alone, three
// of 34 and more go two by two, and 60 and 41 not at all.
func TestPackBound(t *testing.T) {
	for _, tt := range []struct {
		sizes []float64
		want  int
	}{
		{nil, 0},
		{[]float64{100}, 1},
		{[]float64{51, 51, 51, 51, 51}, 5},
		{[]float64{34, 34, 34}, 2},
		{[]float64{60, 60, 41, 41}, 3},
	} {
		bins, bound := pack(tt.sizes, 100)
		checkPacked(t, tt.sizes, 100, bins, bound)
		if len(bins) != tt.want || bound != tt.want {
			t.Errorf("%v: %d, bound %d, want %d", tt.sizes, len(bins), bound, tt.want)
		}
	}
}

// BenchmarkPack packs 60 pieces of a real mix of lengths.
func BenchmarkPack(b *testing.B) {
	rng := rand.New(rand.NewPCG(9, 9))
	sizes := make([]float64, 60)
	for i := range sizes {
		sizes[i] = 300 + math.Floor(2000*rng.Float64())
	}
	for b.Loop() {
		pack(sizes, 6096)
	}
}
