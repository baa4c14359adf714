package cast

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// A World is a set of solids in a bounding volume hierarchy: boxes within boxes,
// each half of what the one above holds.
type World struct {
	Solids []Solid
	nodes  []node
	order  []int32 // the solids as the leaves hold them
}

// A node is a box with two others, the first of which follows it in the list, or
// a leaf with solids.
type node struct {
	low, high r3.Vec
	middle    r3.Vec // of the sphere about it
	radius    float64
	second    int32 // the other box; of a leaf 0
	from, to  int32 // of a leaf, its solids in the order
}

// leaf is the number of solids that a leaf holds at most. The sphere about each
// solid is asked before the solid itself, which makes a short list cheap.
const leaf = 3

// depth bounds the stack of a search: halving 10,000 parts takes 14 steps.
const depth = 64

// NewWorld builds the hierarchy over solids, which it keeps.
func NewWorld(solids []Solid) *World {
	w := &World{Solids: solids, order: make([]int32, len(solids))}
	for i := range w.order {
		w.order[i] = int32(i)
	}
	if len(solids) > 0 {
		w.nodes = make([]node, 0, 2*len(solids))
		w.build(0, int32(len(solids)))
	}
	return w
}

// build adds the node over a stretch of the order and returns its place.
func (w *World) build(from, to int32) int32 {
	n := node{from: from, to: to}
	for k := from; k < to; k++ {
		s := &w.Solids[w.order[k]]
		if k == from {
			n.low, n.high = s.Low, s.High
			continue
		}
		n.low = r3.Vec{X: min(n.low.X, s.Low.X), Y: min(n.low.Y, s.Low.Y), Z: min(n.low.Z, s.Low.Z)}
		n.high = r3.Vec{X: max(n.high.X, s.High.X), Y: max(n.high.Y, s.High.Y), Z: max(n.high.Z, s.High.Z)}
	}
	n.middle = r3.Scale(0.5, r3.Add(n.low, n.high))
	n.radius = norm(r3.Sub(n.high, n.middle))
	at := int32(len(w.nodes))
	w.nodes = append(w.nodes, n)
	if to-from <= leaf {
		return at
	}
	// Halve along the longest side, by the solids' middles.
	side := r3.Sub(n.high, n.low)
	along := func(v r3.Vec) float64 { return v.X }
	switch {
	case side.Z >= side.X && side.Z >= side.Y:
		along = func(v r3.Vec) float64 { return v.Z }
	case side.Y >= side.X:
		along = func(v r3.Vec) float64 { return v.Y }
	}
	slices.SortStableFunc(w.order[from:to], func(a, b int32) int {
		return cmp.Compare(along(w.Solids[a].Middle), along(w.Solids[b].Middle))
	})
	mid := (from + to) / 2
	w.build(from, mid)
	second := w.build(mid, to)
	w.nodes[at].second = second
	return at
}

// Box returns the corners of the box about all solids.
func (w *World) Box() (low, high r3.Vec, ok bool) {
	if len(w.nodes) == 0 {
		return low, high, false
	}
	return w.nodes[0].low, w.nodes[0].high, true
}

// Meet returns where a ray first meets a solid.
func (w *World) Meet(r *Ray) Hit {
	hit := Hit{T: far, Solid: -1}
	if len(w.nodes) == 0 {
		return hit
	}
	inv := r3.Vec{X: 1 / r.Along.X, Y: 1 / r.Along.Y, Z: 1 / r.Along.Z}
	var stack [depth]int32
	top := 1
	for top > 0 {
		top--
		at := stack[top]
		n := &w.nodes[at]
		if !n.crossed(r, &inv, hit.T) {
			continue
		}
		if n.second != 0 {
			stack[top], stack[top+1] = n.second, at+1
			top += 2
			continue
		}
		for _, i := range w.order[n.from:n.to] {
			w.try(r, i, &hit)
		}
	}
	return hit
}

// MeetAmong is Meet for the solids of a list alone.
func (w *World) MeetAmong(r *Ray, list []int32) Hit {
	hit := Hit{T: far, Solid: -1}
	for _, i := range list {
		w.try(r, i, &hit)
	}
	return hit
}

// try lets a hit be taken over by a solid that is met nearer. Of two that are
// met at once the first counts, whatever order they are tried in.
func (w *World) try(r *Ray, i int32, hit *Hit) {
	if t, face, ok := w.Solids[i].Meet(r); ok && (t < hit.T || t == hit.T && i < hit.Solid) {
		*hit = Hit{t, i, face}
	}
}

// crossed reports whether a ray crosses the node's box before a distance.
func (n *node) crossed(r *Ray, inv *r3.Vec, before float64) bool {
	a, b := (n.low.X-r.From.X)*inv.X, (n.high.X-r.From.X)*inv.X
	enter, leave := min(a, b), max(a, b)
	a, b = (n.low.Y-r.From.Y)*inv.Y, (n.high.Y-r.From.Y)*inv.Y
	enter, leave = max(enter, min(a, b)), min(leave, max(a, b))
	a, b = (n.low.Z-r.From.Z)*inv.Z, (n.high.Z-r.From.Z)*inv.Z
	enter, leave = max(enter, min(a, b)), min(leave, max(a, b))
	// A ray in the very plane of a side gives no number and is let in.
	return !(enter > leave) && !(leave < 0) && !(enter > before)
}

// A Cone is a bundle of directions about one, from one point.
type Cone struct {
	From, Along r3.Vec
	Sin, Cos    float64 // of half its angle
}

// apart reports whether a sphere lies wholly outside of the cone.
func (c *Cone) apart(middle r3.Vec, radius float64) bool {
	rel := r3.Sub(middle, c.From)
	along := r3.Dot(rel, c.Along)
	if along < -radius {
		return true
	}
	rr := r3.Dot(rel, rel)
	if rr <= radius*radius {
		return false
	}
	// perp cos - along sin > radius
	reach := radius + along*c.Sin
	perp2 := rr - along*along
	return reach < 0 || perp2*c.Cos*c.Cos > reach*reach
}

// Among appends to a list the solids that a cone may meet, in the order in
// which they stand in the world.
func (w *World) Among(c *Cone, list []int32) []int32 {
	if len(w.nodes) == 0 {
		return list
	}
	start := len(list)
	var stack [depth]int32
	top := 1
	for top > 0 {
		top--
		at := stack[top]
		n := &w.nodes[at]
		if c.apart(n.middle, n.radius) {
			continue
		}
		if n.second != 0 {
			stack[top], stack[top+1] = n.second, at+1
			top += 2
			continue
		}
		for _, i := range w.order[n.from:n.to] {
			if s := &w.Solids[i]; !c.apart(s.Middle, s.Hull) {
				list = append(list, i)
			}
		}
	}
	slices.Sort(list[start:])
	return list
}
