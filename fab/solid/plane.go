package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// grazing is the least part of a line's direction that must be along a plane's
// normal for the two to be said to meet: at less, the line runs along the plane
// to within a tenth of a millimetre in a hundred kilometres.
const grazing = 1e-9

// A Plane bounds the body of all points p with Normal . p <= Height, such as
// the ground.
type Plane struct {
	Normal r3.Vec // unit vector, out of the body
	Height float64
}

// Level returns the level plane at height z with the body below it.
func Level(z float64) Plane { return Plane{Normal: r3.Vec{Z: 1}, Height: z} }

// Face returns the plane of the outer face of a base plate, with the plate behind it.
func Face(b *design.Base) Plane {
	if out := b.Out(); b.OnWall() {
		return Plane{Normal: out, Height: b.Top}
	}
	return Level(b.Top)
}

// Leave implements Surface.
func (p Plane) Leave(o, d r3.Vec) (float64, bool) {
	rise := r3.Dot(p.Normal, d)
	if rise < grazing {
		return 0, false
	}
	return (p.Height - r3.Dot(p.Normal, o)) / rise, true
}

// Distance implements Surface.
func (p Plane) Distance(q r3.Vec) float64 { return r3.Dot(p.Normal, q) - p.Height }

func (p Plane) exit(o, d r3.Vec) (float64, r3.Vec, int, bool) {
	t, ok := p.Leave(o, d)
	return t, p.Normal, 0, ok
}

func (p Plane) clear(r3.Vec, int) float64 { return math.Inf(1) }

// Meet implements Surface. Heights run straight across the wall, so that one of
// its two edges touches first: Face is 0 for the inner, 1 for the outer.
func (p Plane) Meet(t Tube) Contour {
	if t.Flare != 0 {
		return &convexContour{body: p, wall: newWall(t)}
	}
	axis, ok := p.Leave(t.Origin, t.Along)
	rise := r3.Dot(p.Normal, t.Along)
	return &planeContour{
		axis: axis, meets: ok,
		zero:  -r3.Dot(p.Normal, t.Zero) / rise,
		right: -r3.Dot(p.Normal, t.Right) / rise,
		inner: t.Inner, outer: t.Outer,
	}
}

type planeContour struct {
	axis         float64 // height on the axis
	zero, right  float64 // slopes toward bearings 0 and 90 deg
	inner, outer float64
	meets        bool
}

// Touch implements Contour.
func (c *planeContour) Touch(sin, cos float64) (Contact, bool) {
	across, turn := cos*c.zero+sin*c.right, cos*c.right-sin*c.zero
	r, face := c.outer, 1
	if across < 0 {
		r, face = c.inner, 0
	}
	return Contact{
		At: c.axis + r*across, Slope: r * turn,
		Toe: c.axis + c.outer*across, ToeSlope: c.outer * turn,
		Radius: r, Clear: math.Inf(1), Face: face,
	}, c.meets
}
