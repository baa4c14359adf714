package finding

import (
	"reflect"
	"slices"
)

// Gather returns findings in the order in which they are read: by concern, life
// first, and within a concern the gravest first. What is said of several parts
// is said once: facts that are equal, or that join, become one finding with all
// their parts. Findings of the same rank keep their order.
func Gather(list []Finding) []Finding {
	sorted := slices.Clone(list)
	slices.SortStableFunc(sorted, func(a, b Finding) int { return rank(a) - rank(b) })
	var out []Finding
	kinds := make(map[reflect.Type][]int) // of the findings in out, by the type of their facts
	for _, f := range sorted {
		f.Parts = slices.Clone(f.Parts)
		kind := reflect.TypeOf(f.Fact)
		if f.Fact == nil || !slices.ContainsFunc(kinds[kind], func(i int) bool { return out[i].take(f) }) {
			kinds[kind] = append(kinds[kind], len(out))
			out = append(out, f)
		}
	}
	return out
}

// take adds what another finding says, where both can be said at once.
func (f *Finding) take(other Finding) bool {
	if rank(*f) != rank(other) || f.Check != other.Check {
		return false
	}
	joined, ok := f.Fact, reflect.DeepEqual(f.Fact, other.Fact)
	if j, joins := f.Fact.(Joiner); !ok && joins {
		joined, ok = j.Join(other.Fact)
	}
	if !ok {
		return false
	}
	f.Fact = joined
	for _, p := range other.Parts {
		if !slices.Contains(f.Parts, p) {
			f.Parts = append(f.Parts, p)
		}
	}
	return true
}

// rank orders findings: concerns, and levels within them.
func rank(f Finding) int {
	return slices.Index(Concerns[:], f.Concern)*len(Levels) + slices.Index(Levels[:], f.Level)
}
