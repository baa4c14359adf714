package assembly

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// lay turns what is put together for a wall as it lies on the bench, its plate flat: so it is
// built, and it is hung when all is welded. How high holes are stays that of the finished piece.
func (m *maker) lay() {
	base := m.in.Design.Wall()
	if base == nil {
		return
	}
	m.wall = base
	m.in.Design = m.in.Design.Laid()
	m.in.Items = slices.Clone(m.in.Items)
	m.hung = make([]*design.Part, len(m.in.Items))
	own := func(points []r3.Vec) []r3.Vec {
		out := make([]r3.Vec, len(points))
		for i, p := range points {
			out[i] = base.Own(p)
		}
		return out
	}
	for i := range m.in.Items {
		it := &m.in.Items[i]
		m.hung[i] = it.Part
		it.Part, it.CG = m.in.Design.Parts[i], base.Own(it.CG)
		it.Rims = [2][]r3.Vec{own(it.Rims[0]), own(it.Rims[1])}
	}
}

// finished returns a part as it is in the finished piece.
func (m *maker) finished(i int) *design.Part {
	if m.hung != nil {
		return m.hung[i]
	}
	return m.part(i)
}
