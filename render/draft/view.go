package draft

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A Projection is one of the views of first or third angle projection.
type Projection int

// The projections.
const (
	Front    Projection = iota // looking along +Y: X to the right, Z up
	Side                       // from the right, looking along -X: Y to the right, Z up
	Plan                       // from above: X to the right, Y up
	FromLeft                   // from the left, looking along +X: Y to the left, Z up
)

// String returns the title of the view.
func (p Projection) String() string {
	switch p {
	case Front:
		return "Front elevation"
	case Side:
		return "Right side elevation"
	case FromLeft:
		return "Left side elevation"
	}
	return "Plan"
}

// axes returns the directions in space that point to the right, up, and out of
// the paper at the viewer.
func (p Projection) axes() (right, up, toward r3.Vec) {
	switch p {
	case Front:
		return r3.Vec{X: 1}, r3.Vec{Z: 1}, r3.Vec{Y: -1}
	case Side:
		return r3.Vec{Y: 1}, r3.Vec{Z: 1}, r3.Vec{X: 1}
	case FromLeft:
		return r3.Vec{Y: -1}, r3.Vec{Z: 1}, r3.Vec{X: -1}
	}
	return r3.Vec{X: 1}, r3.Vec{Y: 1}, r3.Vec{Z: 1}
}

// Flat returns where a point of space lies in the plane of the view, at full
// size.
func (p Projection) Flat(v r3.Vec) r2.Vec {
	right, up, _ := p.axes()
	return r2.Vec{X: r3.Dot(v, right), Y: r3.Dot(v, up)}
}

// A View is a projection laid on paper.
type View struct {
	Projection Projection
	Scale      float64 // paper mm for each mm
	Origin     r2.Vec  // where the origin of space lies on paper
}

// At returns where a point of space lies on paper.
func (v View) At(p r3.Vec) r2.Vec {
	return r2.Add(v.Origin, r2.Scale(v.Scale, v.Projection.Flat(p)))
}

// Box returns the box on paper of the box in space with the given corners.
func (v View) Box(lo, hi r3.Vec) r2.Box {
	return boxOf(v.At(lo), v.At(hi))
}
