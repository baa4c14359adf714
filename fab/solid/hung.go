package solid

import (
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A hung is a plate on a wall: a slab in the plate's own frame.
type hung struct {
	plate slab
	base  *design.Base
}

func (h hung) Distance(p r3.Vec) float64 { return h.plate.Distance(h.base.Own(p)) }

func (h hung) Span(p, d r3.Vec) (enter, leave float64, ok bool) {
	return h.plate.Span(h.base.Own(p), h.base.OwnWay(d))
}

func (h hung) Bounds() r3.Box {
	b := h.plate.Bounds()
	p, q := h.base.InSpace(b.Min), h.base.InSpace(b.Max)
	return r3.Box{
		Min: r3.Vec{X: min(p.X, q.X), Y: min(p.Y, q.Y), Z: min(p.Z, q.Z)},
		Max: r3.Vec{X: max(p.X, q.X), Y: max(p.Y, q.Y), Z: max(p.Z, q.Z)},
	}
}

func (h hung) Spine() (from, to r3.Vec, radius float64) {
	from, to, radius = h.plate.Spine()
	return h.base.InSpace(from), h.base.InSpace(to), radius
}

func (h hung) less(by float64) form { return hung{h.plate.less(by).(slab), h.base} }
