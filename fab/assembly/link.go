package assembly

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/flat"
	"stabile/param/design"
)

// A link is a joint of two items.
type link struct {
	joint int // index in the design's joints
	kind  design.JointKind
	post  int // the item whose end is joined, or that goes through a ball; else -1
	end   int // of an end joint: which end of the post
	a, b  int // the two items
	weld  int // index in the plan's welds; -1 where nothing is welded
	at    r3.Vec
}

// other returns the item at the other side of the link.
func (l *link) other(i int) int { return l.a + l.b - i }

// link finds the joints between the items.
func (m *maker) link() {
	m.at = make(map[*design.Part]int, len(m.in.Items))
	for i := range m.in.Items {
		m.at[m.in.Items[i].Part] = i
	}
	m.touches = make([][]int, len(m.in.Items))
	for k, j := range m.in.Design.Joints {
		a, okA := m.at[j.A]
		b, okB := m.at[j.B]
		if !okA || !okB || a == b {
			continue
		}
		l := link{joint: k, kind: j.Kind, post: -1, end: j.End, a: a, b: b, weld: -1, at: j.At}
		if i, ok := m.at[j.Post]; ok && (i == a || i == b) {
			l.post = i
		}
		m.settle(&l)
		m.touches[a] = append(m.touches[a], len(m.links))
		m.touches[b] = append(m.touches[b], len(m.links))
		m.links = append(m.links, l)
	}
}

// settle works out where a link is from the parts themselves.
func (m *maker) settle(l *link) {
	a, b := m.part(l.a), m.part(l.b)
	switch {
	case l.post >= 0 && l.kind == design.EndJoint && m.part(l.post).Post != nil:
		l.at = m.part(l.post).Post.Ends[l.end].At
	case a.Ball != nil && b.Ball != nil:
		l.at, _, _ = flat.SeatCircle(a.Ball, b.Ball)
	case l.kind == design.ThreadJoint && b.Ball != nil:
		l.at = b.Ball.Center
	case l.kind == design.ThreadJoint && a.Ball != nil:
		l.at = a.Ball.Center
	case b.Ball != nil:
		l.at = r3.Sub(b.Ball.Center, r3.Vec{Z: b.Ball.Radius})
	case a.Ball != nil:
		l.at = r3.Sub(a.Ball.Center, r3.Vec{Z: a.Ball.Radius})
	}
}

// welds reports whether a link is the joint of the given end of its post.
func (l *link) welds(end int) bool { return l.kind == design.EndJoint && l.end == end }

func (m *maker) part(i int) *design.Part { return m.in.Items[i].Part }

// is reports whether a joint of an item is the link.
func (m *maker) is(l *link, p *design.Part, j Joint) bool {
	if m.part(l.other(m.at[p])).Name != j.With {
		return false
	}
	switch j.At {
	case "foot", "head":
		return l.post == m.at[p] && l.welds(design.Foot) == (j.At == "foot") && l.kind == design.EndJoint
	case "thread":
		return l.kind == design.ThreadJoint
	case "rest":
		return l.kind == design.RestJoint
	case "seat":
		return l.kind == design.SeatJoint
	}
	return false
}

// ringPoints is the number of points of a joint's ring.
const ringPoints = 12

// ring returns points of the line in which the two sides of a link touch: the
// trimmed rim of a post's end, the circle of a seat, the point of a rest.
func (m *maker) ring(l *link) []r3.Vec {
	a, b := m.part(l.a), m.part(l.b)
	switch {
	case l.kind == design.EndJoint && l.post >= 0:
		it := &m.in.Items[l.post]
		if rim := it.Rims[l.end]; len(rim) > 0 {
			points := make([]r3.Vec, ringPoints)
			for i := range points {
				points[i] = rim[i*len(rim)/ringPoints]
			}
			return points
		}
		p := it.Part.Post
		x, y := design.Tilt(p.Direction)
		return circle(l.at, x, y, p.Ends[l.end].Diameter/2)
	case l.kind == design.SeatJoint && a.Ball != nil && b.Ball != nil:
		center, radius, normal := flat.SeatCircle(a.Ball, b.Ball)
		x, y := design.Tilt(normal)
		return circle(center, x, y, radius)
	}
	return []r3.Vec{l.at}
}

func circle(center, x, y r3.Vec, radius float64) []r3.Vec {
	points := make([]r3.Vec, ringPoints)
	for i := range points {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / ringPoints)
		points[i] = r3.Add(center, r3.Add(r3.Scale(radius*cos, x), r3.Scale(radius*sin, y)))
	}
	return points
}
