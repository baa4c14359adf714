package design

// Sets are disjoint sets of numbers from 0 on, such as the indices of parts that
// are joined to each other. The least number of a set is its root.
type Sets []int

// NewSets returns n sets of one number each.
func NewSets(n int) Sets {
	s := make(Sets, n)
	for i := range s {
		s[i] = i
	}
	return s
}

// Root returns the least number of the set that a number is in.
func (s Sets) Root(i int) int {
	for s[i] != i {
		s[i] = s[s[i]]
		i = s[i]
	}
	return i
}

// Join makes one set of those that two numbers are in.
func (s Sets) Join(i, j int) {
	i, j = s.Root(i), s.Root(j)
	s[max(i, j)] = min(i, j)
}
