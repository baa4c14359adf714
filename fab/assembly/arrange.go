package assembly

import (
	"cmp"
	"container/heap"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// A placing is a unit set in its place.
type placing struct {
	unit  int
	links []int // to what stands already; none for what the whole stands on
	// closes says that it closes a loop; way is then the unit vector along which
	// it comes in, and tight that none was found: something must give.
	closes bool
	way    r3.Vec
	tight  bool
}

// arrange finds the order in which the units are set in place, by taking the
// whole apart: the highest that hangs by one joint first, and where only loops
// are left, one without which the rest still hangs together and which can be
// drawn out of all its joints at once. Backwards that is an order in which
// everything is set on what stands already.
func (m *maker) arrange() {
	a := apart{maker: m, out: make([]bool, len(m.units)), tried: make([]way, len(m.units))}
	a.begin()
	for a.left > 0 {
		u, ok := a.leaf()
		if !ok {
			u = a.loose()
		}
		a.remove(u)
	}
	for i := range m.units {
		if !a.out[i] && i != m.unitOf[m.ground()] {
			m.order = append(m.order, placing{unit: i})
		}
	}
	sortPlacings(m.order, func(p placing) int { return m.units[p.unit].items[0] })
	slices.Reverse(a.removed)
	m.order = append(m.order, a.removed...)
}

func sortPlacings(list []placing, key func(placing) int) {
	slices.SortStableFunc(list, func(a, b placing) int { return cmp.Compare(key(a), key(b)) })
}

// apart is the whole as it is taken apart.
type apart struct {
	*maker
	links   [][]int // of each unit, those to other units
	stays   []bool  // what the whole stands on
	out     []bool  // taken away
	degree  []int   // links to units that are left
	left    int     // units that are to be taken away yet
	leaves  leaves
	tried   []way
	removed []placing
}

// A way is whether a unit can be drawn out, worked out when it had a number of
// links left.
type way struct {
	links  int // 0 for never
	free   bool
	toward r3.Vec
}

// begin finds the links between units and the units that stay: in each set that
// hangs together, the one that the others stand on.
func (a *apart) begin() {
	n := len(a.units)
	a.links, a.stays, a.degree = make([][]int, n), make([]bool, n), make([]int, n)
	for k := range a.maker.links {
		l := &a.maker.links[k]
		if u, v := a.unitOf[l.A], a.unitOf[l.B]; u != v {
			a.links[u], a.links[v] = append(a.links[u], k), append(a.links[v], k)
			a.degree[u]++
			a.degree[v]++
		}
	}
	a.left = n
	for i := range a.depth {
		if a.depth[i] == 0 {
			if u := a.unitOf[i]; !a.stays[u] {
				a.stays[u] = true
				a.left--
			}
		}
	}
	for u := range n {
		a.see(u)
	}
}

// see enters a unit that hangs by one joint.
func (a *apart) see(u int) {
	if !a.out[u] && !a.stays[u] && a.degree[u] == 1 {
		heap.Push(&a.leaves, leaf{unit: u, height: a.height(u), first: a.units[u].items[0]})
	}
}

// height returns the height of the highest joint by which a unit still hangs, in
// thousandths of a mm.
func (a *apart) height(u int) float64 {
	high := 0.0
	for i, k := range a.hanging(u) {
		if z := thousandths(a.maker.links[k].At.Z); i == 0 || z > high {
			high = z
		}
	}
	return high
}

// middle returns the height of the centre of gravity of a unit, in thousandths of
// a mm.
func (a *apart) middle(u int) float64 {
	var w weight
	for _, i := range a.units[u].items {
		a.addItem(&w, i)
	}
	return thousandths(w.cg().Z)
}

// thousandths rounds a height in mm to a thousandth, so that what is level but for
// rounding counts as level.
func thousandths(z float64) float64 { return math.Round(z * 1e3) }

// hanging returns the links of a unit to those that are left.
func (a *apart) hanging(u int) []int {
	var list []int
	for _, k := range a.links[u] {
		if !a.out[a.far(u, k)] {
			list = append(list, k)
		}
	}
	return list
}

// far returns the unit at the other side of a link.
func (a *apart) far(u, k int) int {
	l := &a.maker.links[k]
	return a.unitOf[l.A] + a.unitOf[l.B] - u
}

// leaf returns the highest unit that hangs by one joint.
func (a *apart) leaf() (int, bool) {
	for a.leaves.Len() > 0 {
		if u := heap.Pop(&a.leaves).(leaf).unit; !a.out[u] && a.degree[u] == 1 {
			return u, true
		}
	}
	return 0, false
}

// loose returns the unit that is best taken out of a loop: one that can be drawn
// out before one that cannot, then the highest, then the last in the design.
func (a *apart) loose() int {
	cut := a.cuts()
	best := -1
	better := func(u, v int) bool {
		if f, g := a.try(u).free, a.try(v).free; f != g {
			return f
		}
		return cmp.Or(cmp.Compare(a.middle(u), a.middle(v)), cmp.Compare(a.units[u].items[0], a.units[v].items[0])) > 0
	}
	for u := range a.units {
		if !a.out[u] && !a.stays[u] && !cut[u] && (best < 0 || better(u, best)) {
			best = u
		}
	}
	return best
}

// try works out whether a unit can be drawn out of what is left.
func (a *apart) try(u int) *way {
	t := &a.tried[u]
	if t.links != a.degree[u] {
		var normals []r3.Vec
		for _, k := range a.hanging(u) {
			l := &a.maker.links[k]
			into := l.A
			if a.unitOf[l.B] == u {
				into = l.B
			}
			normals = append(normals, a.normals(l, into)...)
		}
		t.links = a.degree[u]
		t.toward, t.free = wayOut(normals)
	}
	return t
}

// cuts returns the units without which what is left falls apart.
func (a *apart) cuts() []bool {
	n := len(a.units)
	cut, seen, low := make([]bool, n), make([]int, n), make([]int, n)
	count := 0
	var visit func(u, from int)
	visit = func(u, from int) {
		count++
		seen[u], low[u] = count, count
		branches := 0
		for _, k := range a.links[u] {
			v := a.far(u, k)
			switch {
			case a.out[v] || v == from:
			case seen[v] > 0:
				low[u] = min(low[u], seen[v])
			default:
				branches++
				visit(v, u)
				low[u] = min(low[u], low[v])
				cut[u] = cut[u] || from >= 0 && low[v] >= seen[u]
			}
		}
		cut[u] = cut[u] || from < 0 && branches > 1
	}
	for u := range n {
		if !a.out[u] && seen[u] == 0 {
			visit(u, -1)
		}
	}
	return cut
}

// remove takes a unit away.
func (a *apart) remove(u int) {
	p := placing{unit: u, links: a.hanging(u)}
	if len(p.links) > 1 && !a.lies(p.links) {
		t := a.try(u)
		p.closes, p.tight, p.way = true, !t.free, r3.Scale(-1, t.toward)
	}
	a.removed = append(a.removed, p)
	a.out[u] = true
	a.left--
	for _, k := range p.links {
		v := a.far(u, k)
		a.degree[v]--
		a.see(v)
	}
}

// leaves are units that hang by one joint, the highest first, of equal ones the
// last in the design.
type leaves []leaf

type leaf struct {
	unit   int
	height float64
	first  int
}

func (l leaves) Len() int      { return len(l) }
func (l leaves) Swap(i, j int) { l[i], l[j] = l[j], l[i] }
func (l leaves) Less(i, j int) bool {
	return cmp.Or(cmp.Compare(l[j].height, l[i].height), cmp.Compare(l[j].first, l[i].first)) < 0
}
func (l *leaves) Push(x any) { *l = append(*l, x.(leaf)) }
func (l *leaves) Pop() any {
	last := (*l)[len(*l)-1]
	*l = (*l)[:len(*l)-1]
	return last
}
