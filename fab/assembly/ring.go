package assembly

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
)

// ringOf returns the ring of which an item is a tube; nil for others.
func (m *maker) ringOf(i int) *design.Ring {
	if p := m.part(i); p != nil && p.Post != nil {
		return p.Post.Ring
	}
	return nil
}

// ringItems returns the tubes of a ring, in order.
func (m *maker) ringItems(r *design.Ring) []int {
	list := make([]int, 0, len(r.Tubes))
	for _, p := range r.Tubes {
		if i, ok := m.at[p]; ok {
			list = append(list, i)
		}
	}
	return list
}

// inRing returns the ring within which a link joins two tubes; nil for others.
func (m *maker) inRing(k int) *design.Ring {
	l := &m.links[k]
	if r := m.ringOf(l.A); r != nil && r == m.ringOf(l.B) {
		return r
	}
	return nil
}

// ringLinks returns the links within rings, ring by ring.
func (m *maker) ringLinks() []int {
	var list []int
	for k := range m.links {
		if m.inRing(k) != nil {
			list = append(list, k)
		}
	}
	sortBy(list, func(k int) float64 {
		return float64(m.at[m.inRing(k).Tubes[0]])
	})
	return list
}

// lies reports whether links are all of one ring that lies along what is under it, so that
// it is set down on all of them at once.
func (m *maker) lies(links []int) bool {
	var r *design.Ring
	for _, k := range links {
		l := &m.links[k]
		of := m.ringOf(l.A)
		if of == nil {
			of = m.ringOf(l.B)
		}
		if l.Kind != design.RestJoint || of == nil || r != nil && of != r {
			return false
		}
		r = of
	}
	return r != nil
}

// makeRing returns how the tubes of a ring are made, all alike.
func (m *maker) makeRing(r *design.Ring) finding.Fact {
	items := m.ringItems(r)
	switch f := m.makeTube(items[0]).(type) {
	case RollTube:
		f.Post, f.Ring = Named{ringKind, r.Name}, len(items)
		for _, i := range items[1:] {
			f.Seams = append(f.Seams, m.numbers(i, TubeSeam)...)
		}
		return f
	case CutTube:
		f.Post, f.Ring = Named{ringKind, r.Name}, len(items)
		return f
	default:
		return f
	}
}

// ringKind is the kind of what goes by the name of a ring.
const ringKind = "ring"

// makingRing writes how the tubes of a ring are made.
func (w *writer) makingRing(r *design.Ring) {
	items := w.ringItems(r)
	s := Step{Work: MakePart, Parts: w.names(items), Do: w.makeRing(r), Notes: w.makeNotes(items[0])}
	for _, i := range items {
		s.Welds = append(s.Welds, w.seams[i]...)
	}
	made := w.add(s)
	for _, i := range items {
		w.touch(i, made)
	}
}

// benchRing writes how the tubes of a ring are put together, lying on the bench.
func (w *writer) benchRing(r *design.Ring, links []int) {
	items := w.ringItems(r)
	f := CloseRing{Ring: Named{ringKind, r.Name}, Tubes: len(items), Across: r.Across, Turned: r.Tubes[0].Post.Bought == nil, Weld: w.weldOf(links...)}
	s := w.add(Step{Work: Bench, Parts: w.names(items), Do: f})
	w.join(s, links...)
	var sum weight
	for _, i := range items {
		w.addItem(&sum, i)
	}
	for _, k := range links {
		w.addLink(&sum, k)
	}
	s.Lift = w.lift(sum, nil)
}

// namedUnit names what is moved as one: the part by which it stands, and what is on it; the
// tubes of a ring by its name.
func (m *maker) namedUnit(items []int) []Named {
	var list []Named
	for _, i := range items {
		n := named(m.part(i))
		if r := m.ringOf(i); r != nil {
			n = Named{ringKind, r.Name}
		}
		if !slices.Contains(list, n) {
			list = append(list, n)
		}
	}
	return list
}

// aslant is how far, in rad, the axis of a ring must lean on the bench to count as aslant.
const aslant = 1e-3

// ringMeeting returns where a tube of a ring meets what the ring is set on.
func (m *maker) ringMeeting(l *link, r *design.Ring, host *design.Part) Meeting {
	f := Meeting{Kind: RingOnEnd, Host: named(host), End: endName(l.End), Level: r.Flat, Toward: design.BearingOf(r.Axis)}
	if m.wall != nil { // as it lies on the bench, which may be aslant
		axis := r.Axis
		if axis.Z < 0 {
			axis = r3.Scale(-1, axis)
		}
		f.Level = tilt(axis) < aslant
		if !f.Level && tilt(axis) < math.Pi/2-aslant {
			f.Lean = Lean{tilt(axis), design.BearingOf(axis)}
		}
	}
	if f.Level {
		f.Toward = design.BearingOf(r.First)
	}
	if l.Kind == design.RestJoint {
		f.Kind, f.X, f.Y = RingOnBase, r.Center.X, r.Center.Y
	}
	return f
}
