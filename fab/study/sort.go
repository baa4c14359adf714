package study

import (
	"cmp"
	"slices"
)

// Keep returns the results that can be made and meet the first n of the questions
// asked, which are conditions, as far as they are decided (fab.Condition.Meets).
func Keep(results []Result, n int) []Result {
	kept := make([]Result, 0, len(results))
	for _, r := range results {
		if r.Err == nil && r.meets(n) {
			kept = append(kept, r)
		}
	}
	return kept
}

func (r *Result) meets(n int) bool {
	for _, a := range r.Answers[:n] {
		if !a.Meets() {
			return false
		}
	}
	return true
}

// Sort orders results by the number that question i came to, the least first or
// the greatest. What has no such number comes last; equals keep their order.
func Sort(results []Result, i int, greatest bool) {
	key := func(r *Result) (float64, bool) {
		if r.Err != nil || r.Answers[i].Unchecked {
			return 0, false
		}
		return r.Answers[i].Number.Number, true
	}
	slices.SortStableFunc(results, func(a, b Result) int {
		x, known := key(&a)
		y, other := key(&b)
		switch {
		case known != other && known:
			return -1
		case known != other:
			return 1
		case greatest:
			return cmp.Compare(y, x)
		}
		return cmp.Compare(x, y)
	})
}
