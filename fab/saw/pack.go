package saw

import (
	"math"
	"slices"
)

// budget is how many places the search tries for the pieces of one size of pipe before
// it stops: a tenth of a second.
const budget = 500_000

// slack is the room, in mm, within which a length counts as full.
const slack = 1e-6

// pack puts sizes into as few bins of a capacity as it finds, each of which holds at
// least one: the bins list the sizes by their index. At least bound bins are needed;
// where that is how many there are, no way with fewer exists. No size may exceed the
// capacity.
//
// This is bin packing. The bound starts as that of Martello and Toth (Discrete Applied
// Mathematics 28, 1990, L2). From there on it is the search that raises it: it tries all
// ways to do with that many bins, the largest size first, and where there is none one
// more is needed. It stops early when its budget is spent.
func pack(sizes []float64, capacity float64) (bins [][]int, bound int) {
	if len(sizes) == 0 {
		return nil, 0
	}
	order := make([]int, len(sizes))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int {
		switch {
		case sizes[a] > sizes[b]:
			return -1
		case sizes[a] < sizes[b]:
			return 1
		}
		return 0
	})
	s := search{capacity: capacity, steps: budget}
	for _, i := range order {
		s.sizes = append(s.sizes, sizes[i])
		s.sum += sizes[i]
	}
	best := s.firstFit()
	bound = s.least()
	for bound < count(best) {
		found, done := s.within(bound)
		if !done {
			break
		}
		if found != nil {
			best = found
			break
		}
		bound++
	}
	bins = make([][]int, count(best))
	for k, bin := range best {
		bins[bin] = append(bins[bin], order[k])
	}
	// The fullest first, so that what is left over comes in one piece at the end.
	fill := func(bin []int) (f float64) {
		for _, i := range bin {
			f += sizes[i]
		}
		return f
	}
	slices.SortStableFunc(bins, func(a, b []int) int {
		switch x, y := fill(a), fill(b); {
		case x > y+slack:
			return -1
		case x < y-slack:
			return 1
		}
		return 0
	})
	return bins, bound
}

// count returns how many bins are in use, of which each size names one.
func count(of []int) int { return slices.Max(of) + 1 }

// A search packs sizes, the largest first.
type search struct {
	sizes    []float64
	sum      float64
	capacity float64
	steps    int // that are left

	of []int // the bin of each size
}

// firstFit puts each size into the first bin with room for it.
func (s *search) firstFit() []int {
	of := make([]int, len(s.sizes))
	var room []float64
	for i, size := range s.sizes {
		k := slices.IndexFunc(room, func(r float64) bool { return size <= r+slack })
		if k < 0 {
			k = len(room)
			room = append(room, s.capacity)
		}
		room[k] -= size
		of[i] = k
	}
	return of
}

// least returns a number of bins that no packing undercuts. For each a up to half the
// capacity: sizes over capacity - a stand alone, those over half of it not together, and
// those from a to half may fill what the latter leave.
func (s *search) least() int {
	most := int(math.Ceil((s.sum - slack) / s.capacity))
	for _, a := range append(slices.Clone(s.sizes), 0) {
		if a > s.capacity/2+slack {
			continue
		}
		alone, pairs := 0, 0
		room, small := 0.0, 0.0
		for _, size := range s.sizes {
			switch {
			case size > s.capacity-a+slack:
				alone++
			case size > s.capacity/2+slack:
				pairs++
				room += s.capacity - size
			case size >= a-slack:
				small += size
			}
		}
		more := 0
		if small > room {
			more = max(0, int(math.Ceil((small-room-slack)/s.capacity)))
		}
		most = max(most, alone+pairs+more)
	}
	return most
}

// within looks for a packing into that many bins. It returns nil where there is none;
// done is false where it stopped before it knew.
//
// One bin is filled after the other, each about the largest size that is left, in every
// way that leaves no more room than may be lost in all (bin completion: Korf, AAAI
// 2002). A filling to which another size could be added need not be tried.
func (s *search) within(bins int) (of []int, done bool) {
	s.of = make([]int, len(s.sizes))
	for i := range s.of {
		s.of[i] = open
	}
	switch s.fill(0, bins, float64(bins)*s.capacity-s.sum) {
	case packed:
		return s.of, true
	case spent:
		return nil, false
	}
	return nil, true
}

// open is the bin of a size that has none yet.
const open = -1

type outcome int

const (
	none outcome = iota
	packed
	spent
)

// fill packs the sizes that are open into the bins from one on; waste is how much of
// their room may stay empty.
func (s *search) fill(bin, bins int, waste float64) outcome {
	first := slices.Index(s.of, open)
	if first < 0 {
		return packed
	}
	if bin == bins || waste < -slack {
		return none
	}
	left := 0.0
	for i := first + 1; i < len(s.sizes); i++ {
		if s.of[i] == open {
			left += s.sizes[i]
		}
	}
	s.of[first] = bin
	found := s.complete(first+1, bin, bins, s.capacity-s.sizes[first], left, waste)
	if found != packed {
		s.of[first] = open
	}
	return found
}

// complete adds to a bin with some room left any of the sizes from i on that are open,
// whose sum is left, and packs the rest.
func (s *search) complete(i, bin, bins int, room, left, waste float64) outcome {
	if s.steps--; s.steps < 0 {
		return spent
	}
	for i < len(s.sizes) && (s.of[i] != open || s.sizes[i] > room+slack) {
		if s.of[i] == open {
			left -= s.sizes[i]
		}
		i++
	}
	if room-left > waste+slack {
		return none // all of them together do not fill it well enough
	}
	if i == len(s.sizes) {
		for k, size := range s.sizes {
			if s.of[k] == open && size <= room+slack {
				return none
			}
		}
		return s.fill(bin+1, bins, waste-max(0, room))
	}
	size := s.sizes[i]
	s.of[i] = bin
	found := s.complete(i+1, bin, bins, room-size, left-size, waste)
	if found != none {
		if found != packed {
			s.of[i] = open
		}
		return found
	}
	s.of[i] = open
	// Without it, and without those that are alike.
	for i < len(s.sizes) && (s.of[i] != open || size-s.sizes[i] <= slack) {
		if s.of[i] == open {
			left -= s.sizes[i]
		}
		i++
	}
	return s.complete(i, bin, bins, room, left, waste)
}
