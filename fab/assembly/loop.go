package assembly

import (
	"math"

	"stabile/param/design"
)

// loops finds how many joints each item is away from the base or the ground, and which joints
// are in no loop: those without which the whole falls in two. Items that hang
// together with neither are counted from the lowest of them.
//
// Bridges by depth-first search, after Tarjan (1974).
func (m *maker) loops() {
	n := len(m.touches)
	m.depth = make([]int, n)
	for i := range m.depth {
		m.depth[i] = -1
	}
	m.bridge = make([]bool, len(m.links))
	for _, root := range m.roots() {
		if m.depth[root] >= 0 {
			continue
		}
		m.depth[root] = 0
		for queue := []int{root}; len(queue) > 0; queue = queue[1:] {
			i := queue[0]
			for _, k := range m.touches[i] {
				if o := m.links[k].Other(i); m.depth[o] < 0 {
					m.depth[o] = m.depth[i] + 1
					queue = append(queue, o)
				}
			}
		}
	}
	seen, low := make([]int, n), make([]int, n) // numbers from 1 on
	count := 0
	var visit func(i, by int)
	visit = func(i, by int) {
		count++
		seen[i], low[i] = count, count
		for _, k := range m.touches[i] {
			o := m.links[k].Other(i)
			switch {
			case k == by:
			case seen[o] > 0:
				low[i] = min(low[i], seen[o])
			default:
				visit(o, k)
				low[i] = min(low[i], low[o])
				m.bridge[k] = low[o] > seen[i]
			}
		}
	}
	for i := range n {
		if seen[i] == 0 {
			visit(i, -1)
		}
	}
}

// roots returns the items in the order in which a search may start from them: the
// ground, the base, then from the lowest up.
func (m *maker) roots() []int {
	height := func(i int) float64 {
		p := m.part(i)
		switch {
		case p.Base != nil:
			return math.Inf(-1)
		case p.Post != nil:
			return min(p.Post.Ends[design.Foot].At.Z, p.Post.Ends[design.Head].At.Z)
		}
		return p.Ball.Bottom().Z
	}
	list := make([]int, len(m.in.Items))
	for i := range list {
		list[i] = i
	}
	sortBy(list, height)
	return append([]int{m.ground()}, list...)
}
