package frame

import "slices"

// A group is bodies that hang together without the ground: what one of them does no
// other group feels. The rows of its unknowns follow each other, so that its matrices
// are squares on the diagonals of those of the whole.
type group struct {
	from, to int   // its rows
	bodies   []int // indices in Frame.Bodies
	stiff    *skyline
	factors  *sparse // of the stiffness
}

// split returns the groups of the frame, in the order of their rows.
func (f *Frame) split() []group {
	if f.groups != nil {
		return f.groups
	}
	n := f.Unknowns
	body := make([]int, n/six)
	for i, b := range f.Bodies {
		if b.First >= 0 {
			body[b.First/six] = i
		}
	}
	reach := n // the first column of the rows from here on
	for to, i := n, n-1; i >= 0; i-- {
		if reach = min(reach, f.stiff.first[i]); reach == i {
			f.groups = append(f.groups, group{from: i, to: to, bodies: body[i/six : to/six]})
			to, reach = i, n
		}
	}
	slices.Reverse(f.groups)
	for i := range f.groups {
		g := &f.groups[i]
		g.stiff, g.factors = f.stiff.part(g.from, g.to), f.factors.part(g.from, g.to)
	}
	return f.groups
}

// part returns the square on the diagonal from one row up to another, which nothing
// ties to the others. It shares their values.
func (s *skyline) part(from, to int) *skyline {
	if from == 0 && to == len(s.first) {
		return s
	}
	p := &skyline{first: make([]int, to-from), start: make([]int, to-from+1), value: s.value[s.start[from]:s.start[to]]}
	for i := range p.first {
		p.first[i] = s.first[from+i] - from
	}
	for i := range p.start {
		p.start[i] = s.start[from+i] - s.start[from]
	}
	return p
}

// part is part of a skyline.
func (s *sparse) part(from, to int) *sparse {
	if from == 0 && to == len(s.own) {
		return s
	}
	first, last := s.start[from], s.start[to]
	p := &sparse{own: s.own[from:to], start: make([]int, to-from+1), column: make([]int, last-first), value: s.value[first:last]}
	for i := range p.start {
		p.start[i] = s.start[from+i] - first
	}
	for i := range p.column {
		p.column[i] = s.column[first+i] - from
	}
	return p
}
