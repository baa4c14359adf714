package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A Radial is the outside of a ball, all of which is seen from its centre.
type Radial interface {
	Surface

	// From returns how far in mm the outside lies from the centre along a unit
	// vector.
	From(d r3.Vec) float64
}

// From implements Radial.
func (s Sphere) From(r3.Vec) float64 { return s.Radius }

// From implements Radial.
func (f Flattened) From(d r3.Vec) float64 {
	z := r3.Dot(d, f.Pole)
	if end := f.end(z); math.Abs(z)*f.Radius > end {
		return end / math.Abs(z)
	}
	return f.Radius
}

// From implements Radial: of the sides of the polygon in the plane through the poles
// it is the one whose middle lies nearest.
func (z Zoned) From(d r3.Vec) float64 {
	s := r3.Dot(d, z.Pole)
	latitude := math.Atan2(s, math.Sqrt(max(0, 1-s*s)))
	return z.Radius / math.Cos(math.Remainder(latitude+math.Pi/2, z.Step()))
}

// From implements Radial. On a lobe (x . g)^2 + (x . p)^2 is the radius squared.
func (b *Lobed) From(d r3.Vec) float64 {
	d = b.local(d)
	most := 0.0
	for _, g := range b.lobes {
		most = max(most, d.X*g.X+d.Y*g.Y)
	}
	up := math.Abs(d.Z)
	flat, dome := b.flat[design.PoleAt(d.Z)], b.dome[design.PoleAt(d.Z)]
	t := b.radius / math.Hypot(most, d.Z)
	switch {
	case t*up > flat:
		return flat / up
	case t*up <= dome:
		return t
	case b.radius*up >= dome:
		return b.radius // on the cap
	}
	return dome / up // on the ledge beside it
}
