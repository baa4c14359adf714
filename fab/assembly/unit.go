package assembly

import (
	"cmp"
	"slices"

	"stabile/param/design"
)

// OneLift is the most, in kg, that one person should lift in the best posture:
// the load constant of the revised NIOSH lifting equation (1991), 51 lb.
const OneLift = 23.0

// A unit is what is put together on the bench and then set in its place as one:
// posts head to head with the ball on their top, as long as one person can lift
// them, the balls that are threaded on them and rings, whatever they weigh.
type unit struct {
	items []int // as they are joined, the one that stands on the rest of the work first
	inner []int // the links within it, as they are made
	high  float64
}

// unite makes the units. Of a chain that closes a loop each part stays by
// itself, so that the loop can be closed in the order that lets the last one in.
func (m *maker) unite() {
	n := len(m.in.Items)
	m.unitOf = make([]int, n+1)
	of := design.NewSets(n) // those of a unit
	weight := make([]float64, n)
	for i := range of {
		weight[i] = m.in.Items[i].High
		for _, w := range m.seams[i] {
			weight[i] += m.plan.Welds[w].Filler
		}
	}
	var inner []int
	join := func(k int, host, guest int) {
		h, g := of.Root(host), of.Root(guest)
		if h == g {
			return
		}
		of.Join(h, g)
		weight[min(h, g)] = weight[h] + weight[g] + m.filler(k)
		inner = append(inner, k)
	}
	for _, k := range m.threads() {
		l := &m.links[k]
		join(k, l.Post, l.Other(l.Post))
	}
	for _, k := range m.onPads() {
		host, guest := m.hostOf(k)
		join(k, host, guest)
	}
	for _, k := range m.ringLinks() { // whatever it weighs: it comes out true only where it lies on the bench
		if h, g := of.Root(m.links[k].A), of.Root(m.links[k].B); h != g {
			join(k, h, g)
			continue
		}
		weight[of.Root(m.links[k].A)] += m.filler(k)
		inner = append(inner, k)
	}
	for _, k := range m.stems() {
		host, guest := m.hostOf(k)
		if weight[of.Root(host)]+weight[of.Root(guest)]+m.filler(k) <= OneLift {
			join(k, host, guest)
		}
	}
	number := make(map[int]int, n)
	for i := range n {
		r := of.Root(i)
		u, ok := number[r]
		if !ok {
			u = len(m.units)
			number[r] = u
			m.units = append(m.units, unit{high: weight[r]})
		}
		m.unitOf[i] = u
		m.units[u].items = append(m.units[u].items, i)
	}
	for _, k := range inner {
		u := &m.units[m.unitOf[m.links[k].A]]
		u.inner = append(u.inner, k)
	}
	m.unitOf[m.ground()] = len(m.units)
	m.units = append(m.units, unit{items: []int{m.ground()}})
	for i := range m.units {
		slices.SortStableFunc(m.units[i].items, func(a, b int) int { return cmp.Compare(m.depth[a], m.depth[b]) })
	}
}

// filler returns the weld metal in kg of a link.
func (m *maker) filler(k int) float64 {
	if w := m.links[k].weld; w >= 0 {
		return m.plan.Welds[w].Filler
	}
	return 0
}

// hostOf returns the side of a link that is nearer to the base, and the other.
func (m *maker) hostOf(k int) (host, guest int) {
	l := &m.links[k]
	if m.depth[l.B] < m.depth[l.A] {
		return l.B, l.A
	}
	return l.A, l.B
}

// threads returns the links of balls that are threaded on posts, post by post and
// on each the ball that is put on first before the one that follows it.
func (m *maker) threads() []int {
	var list []int
	for k := range m.links {
		if l := &m.links[k]; l.Kind == design.ThreadJoint && l.Post >= 0 && m.part(l.Other(l.Post)).Ball != nil {
			list = append(list, k)
		}
	}
	rank := func(k int) float64 {
		l := &m.links[k]
		a := m.part(l.Other(l.Post)).Ball.Along
		if !fromHead(m.part(l.Post).Post) {
			return -a
		}
		return a
	}
	slices.SortStableFunc(list, func(a, b int) int {
		return cmp.Or(cmp.Compare(m.links[a].Post, m.links[b].Post), cmp.Compare(rank(a), rank(b)))
	})
	return list
}

// onPads returns the links by which posts stand on pads of their own.
func (m *maker) onPads() []int {
	var list []int
	for k := range m.links {
		host, _ := m.hostOf(k)
		if p := m.part(host); m.links[k].Kind == design.EndJoint && p != nil && p.Base != nil && p.Base.Pad {
			list = append(list, k)
		}
	}
	return list
}

// fromHead reports whether balls go on a post over its head: over the slimmer end
// of a taper, since the hole in a ball fits the post where it stays.
func fromHead(p *design.Post) bool {
	return p.Ends[design.Head].Diameter <= p.Ends[design.Foot].Diameter
}

// stems returns the links by which a ball or a post sits on the head of a post
// and that are in no loop, from the base up.
func (m *maker) stems() []int {
	var list []int
	for k := range m.links {
		l := &m.links[k]
		host, guest := m.hostOf(k)
		if l.Kind != design.EndJoint || l.Post < 0 || !m.bridge[k] || m.part(host) == nil || m.part(host).Post == nil {
			continue
		}
		onBall := l.Post == host && l.End == design.Head && (m.part(guest).Ball != nil || m.ringOf(guest) != nil)
		onHead := l.Post == guest && l.End == design.Foot && m.part(guest).Post != nil && m.part(guest).Post.Ends[design.Foot].Meets == design.OnHead
		if onBall || onHead {
			list = append(list, k)
		}
	}
	slices.SortStableFunc(list, func(a, b int) int {
		x, _ := m.hostOf(a)
		y, _ := m.hostOf(b)
		return cmp.Compare(m.depth[x], m.depth[y])
	})
	return list
}

// sortBy sorts numbers by a key, equal ones as they were.
func sortBy(list []int, key func(int) float64) {
	slices.SortStableFunc(list, func(a, b int) int { return cmp.Compare(key(a), key(b)) })
}
