package assembly

import (
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

// A part that touches others can only be lifted off along a way that leads away
// from all of its touching faces: its product with every unit normal, from the
// other into the part, is not negative. The way back is how it is brought in.

// normals returns, at points of the ring of a link, the unit normals of the face
// that is touched there, out of the other item into the given one.
func (m *maker) normals(l *link, into int) []r3.Vec {
	a, b := m.part(l.A), m.part(l.B)
	sign := 1.0
	var list []r3.Vec
	switch {
	case l.Kind == design.EndJoint && l.Post >= 0:
		if into != l.Post {
			sign = -1
		}
		list = endNormals(m.part(l.Post), l.End, m.ring(l))
	case a != nil && a.Ball != nil && b.Ball != nil:
		if into != l.B {
			sign = -1
		}
		list = []r3.Vec{unit3(r3.Sub(b.Ball.Center, a.Ball.Center))}
	default:
		// A ball on the base or the ground.
		if m.part(into) == nil || m.part(into).Base != nil {
			sign = -1
		}
		list = []r3.Vec{{Z: 1}}
	}
	for i := range list {
		list[i] = r3.Scale(sign, list[i])
	}
	return list
}

// endNormals returns the normals, out of the host, of the face that the end of a
// post touches, at points of it.
func endNormals(p *design.Part, end int, ring []r3.Vec) []r3.Vec {
	e, list := &p.Post.Ends[end], make([]r3.Vec, len(ring))
	met := solid.Met(p, end)
	for i, x := range ring {
		switch s := met.(type) {
		case nil:
			list[i] = p.Post.Inward(end)
		case solid.Plane:
			list[i] = s.Normal
		case solid.Cylinder, solid.Cone:
			rel, u := r3.Sub(x, e.With.Post.Ends[design.Foot].At), e.With.Post.Direction
			list[i] = unit3(r3.Sub(rel, r3.Scale(r3.Dot(rel, u), u)))
		default:
			list[i] = unit3(e.With.Ball.Normal(r3.Sub(x, e.With.Ball.Center)))
		}
	}
	return list
}

// unit3 returns a unit vector, upright for none.
func unit3(v r3.Vec) r3.Vec {
	if n := r3.Norm(v); n > 0 {
		return r3.Scale(1/n, v)
	}
	return design.Upright
}

const (
	// wayTurns is the number of turns in which a way out is looked for. Each
	// turns the way toward the normal that bars it most; where some way clears
	// all normals by a sine of g, at most 1/g2 turns are needed (the bound of
	// Novikoff, 1962, on this method), so that ways are found that clear them by
	// 3 deg or more.
	wayTurns = 400
	// along is what a way may run against a normal and still count as along the
	// face: what is left of rounding.
	along = 1e-9
)

// wayOut returns a unit vector along which what is touched with the given
// normals can be taken away, and false where none is found.
func wayOut(normals []r3.Vec) (r3.Vec, bool) {
	var w r3.Vec
	for _, n := range normals {
		w = r3.Add(w, n)
	}
	if r3.Norm(w) == 0 {
		w = design.Upright
	}
	for range wayTurns {
		worst, barred := -along, -1
		size := r3.Norm(w)
		for i, n := range normals {
			if d := r3.Dot(w, n); d < worst*max(1, size) {
				worst, barred = d/max(1, size), i
			}
		}
		if barred < 0 && size > along {
			return r3.Scale(1/size, w), true
		}
		if barred < 0 {
			barred = 0
		}
		w = r3.Add(w, normals[barred])
	}
	return r3.Vec{}, false
}
