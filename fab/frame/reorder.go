package frame

import (
	"cmp"
	"slices"
)

// muchWork is the cost of elimination, about the multiplications in it, from which
// another order is tried: some tenths of a second. Sculptures of some hundred parts
// are far below.
const muchWork = 1 << 28

// cost returns about how many multiplications elimination takes: the sum of the
// squares of the lengths of the rows.
func (f *Frame) cost() (sum float64) {
	for i, first := range f.profile() {
		sum += float64(i-first) * float64(i-first)
	}
	return sum
}

// reorder renumbers bodies where elimination would take long and goes faster so.
// Depth first is best for trees; many loops in a row, as of a long fence, fill the
// matrix up from each rung to the last. There bodies are numbered in the order of
// their distance from one end (Cuthill and McKee, 1969, turned round), the ground left
// out, so that those that meet have numbers near to each other.
func (f *Frame) reorder(next [][]int) {
	before := f.cost()
	if before < muchWork {
		return
	}
	was := make([]int, len(f.Bodies))
	for i, b := range f.Bodies {
		was[i] = b.First
	}
	seen := make([]int, len(f.Bodies)) // in which walk last
	walk := 0
	// spread returns the bodies that hang together with one, nearest first.
	spread := func(from int) []int {
		walk++
		seen[from] = walk
		list := []int{from}
		for k := 0; k < len(list); k++ {
			first := len(list)
			for _, b := range next[list[k]] {
				if b != 0 && seen[b] != walk {
					seen[b] = walk
					list = append(list, b)
				}
			}
			slices.SortStableFunc(list[first:], func(a, b int) int { return cmp.Compare(len(next[a]), len(next[b])) })
		}
		return list
	}
	at := 0
	for i := range f.Bodies {
		if i == 0 || seen[i] > 0 {
			continue
		}
		list := spread(i)
		for range 2 { // from the one farthest off, and from that again: an end
			list = spread(list[len(list)-1])
		}
		for _, b := range slices.Backward(list) {
			f.Bodies[b].First = at
			at += six
		}
	}
	if f.cost() >= before {
		for i := range f.Bodies {
			f.Bodies[i].First = was[i]
		}
	}
}
