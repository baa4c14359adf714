package assembly

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/flat"
	"stabile/param/design"
)

// A link is a tie of two items, or of an item with the ground.
type link struct {
	design.Tie
	weld int // index in the plan's welds; -1 where nothing is welded
}

// link finds the joints between the items.
func (m *maker) link() {
	m.at = make(map[*design.Part]int, len(m.in.Items))
	for i := range m.in.Items {
		m.at[m.in.Items[i].Part], m.at[m.finished(i)] = i, i
	}
	m.touches = m.in.Ties.Of
	m.links = make([]link, len(m.in.Ties.List))
	for k, t := range m.in.Ties.List {
		m.links[k] = link{t, -1}
		m.settle(&m.links[k])
	}
}

// settle works out where a link is from the parts themselves.
func (m *maker) settle(l *link) {
	a, b := m.part(l.A), m.part(l.B)
	switch {
	case l.Post >= 0 && l.Kind == design.EndJoint && m.part(l.Post).Post != nil:
		l.At = m.part(l.Post).Post.Ends[l.End].At
	case a != nil && a.Ball != nil && b.Ball != nil:
		l.At, _, _ = flat.SeatCircle(a.Ball, b.Ball)
	case l.Kind == design.ThreadJoint && b.Ball != nil:
		l.At = b.Ball.Center
	case l.Kind == design.ThreadJoint && a.Ball != nil:
		l.At = a.Ball.Center
	case b.Post != nil && b.Post.Lies || a != nil && a.Post != nil && a.Post.Lies:
	case b.Base != nil && a == nil:
		l.At = r3.Vec{X: b.Base.At.X, Y: b.Base.At.Y}
	case b.Ball != nil:
		l.At = b.Ball.Bottom()
	case a.Ball != nil:
		l.At = a.Ball.Bottom()
	}
}

// welds reports whether a link is the joint of the given end of its post.
func (l *link) welds(end int) bool { return l.Kind == design.EndJoint && l.End == end }

// ground is what the ground is among the items: the one after the last of them.
func (m *maker) ground() int { return len(m.in.Items) }

// part returns the part of an item; nil for the ground.
func (m *maker) part(i int) *design.Part {
	if i == m.ground() {
		return nil
	}
	return m.in.Items[i].Part
}

// is reports whether a joint of an item is the link.
func (m *maker) is(l *link, p *design.Part, j Joint) bool {
	if other := m.part(l.Other(m.at[p])); other == nil || other.Name != j.With {
		return false
	}
	switch j.At {
	case "foot", "head":
		return l.Post == m.at[p] && l.welds(design.Foot) == (j.At == "foot") && l.Kind == design.EndJoint
	case "thread":
		return l.Kind == design.ThreadJoint
	case "rest", "lies":
		return l.Kind == design.RestJoint
	case "seat":
		return l.Kind == design.SeatJoint
	}
	return false
}

// ringPoints is the number of points of a joint's ring.
const ringPoints = 12

// ring returns points of the line in which the two sides of a link touch: the
// trimmed rim of a post's end, the circle of a seat, the corners of a pad, the point on
// which a ball rests.
func (m *maker) ring(l *link) []r3.Vec {
	a, b := m.part(l.A), m.part(l.B)
	switch {
	case l.Kind == design.EndJoint && l.Post >= 0:
		it := &m.in.Items[l.Post]
		if rim := it.Rims[l.End]; len(rim) > 0 {
			points := make([]r3.Vec, ringPoints)
			for i := range points {
				points[i] = rim[i*len(rim)/ringPoints]
			}
			return points
		}
		p := it.Part.Post
		x, y := design.Tilt(p.Direction)
		return circle(l.At, x, y, p.Ends[l.End].Diameter/2)
	case l.Kind == design.SeatJoint && a.Ball != nil && b.Ball != nil:
		center, radius, normal := flat.SeatCircle(a.Ball, b.Ball)
		x, y := design.Tilt(normal)
		return circle(center, x, y, radius)
	}
	if pad := m.pad(l); pad != nil {
		corners := pad.Outline().Corners
		points := make([]r3.Vec, len(corners))
		for i, c := range corners {
			points[i] = r3.Vec{X: c.X, Y: c.Y, Z: l.At.Z}
		}
		return points
	}
	return []r3.Vec{l.At}
}

// pad returns the pad that lies on the ground by a link; nil where none does.
func (m *maker) pad(l *link) *design.Base {
	if l.Kind != design.RestJoint {
		return nil
	}
	for _, i := range [2]int{l.A, l.B} {
		if p := m.part(i); p != nil && p.Base != nil && p.Base.Pad {
			return p.Base
		}
	}
	return nil
}

func circle(center, x, y r3.Vec, radius float64) []r3.Vec {
	points := make([]r3.Vec, ringPoints)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / ringPoints)
		points[i] = r3.Add(center, r3.Add(r3.Scale(radius*cos, x), r3.Scale(radius*sin, y)))
	}
	return points
}
