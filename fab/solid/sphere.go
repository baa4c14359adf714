package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A Sphere is a ball without ridges.
type Sphere struct {
	Center r3.Vec
	Radius float64
}

// Leave implements Surface.
func (s Sphere) Leave(o, d r3.Vec) (float64, bool) {
	rel := r3.Sub(s.Center, o)
	along := r3.Dot(rel, d)
	half := s.Radius*s.Radius - r3.Norm2(r3.Sub(rel, r3.Scale(along, d)))
	if half < 0 {
		return 0, false
	}
	return along + math.Sqrt(half), true
}

// Distance implements Surface.
func (s Sphere) Distance(p r3.Vec) float64 { return norm(r3.Sub(p, s.Center)) - s.Radius }

func (s Sphere) exit(o, d r3.Vec) (float64, r3.Vec, int, bool) {
	t, ok := s.Leave(o, d)
	return t, r3.Sub(r3.Add(o, r3.Scale(t, d)), s.Center), 0, ok
}

func (s Sphere) clear(r3.Vec, int) float64 { return math.Inf(1) }

// Meet implements Surface.
func (s Sphere) Meet(t Tube) Contour {
	if t.Flare != 0 {
		return &convexContour{body: s, wall: newWall(t)}
	}
	return s.meet(t)
}

func (s Sphere) meet(t Tube) *sphereContour {
	rel := r3.Sub(s.Center, t.Origin)
	c := &sphereContour{
		along: r3.Dot(rel, t.Along),
		zero:  r3.Dot(rel, t.Zero), right: r3.Dot(rel, t.Right),
		inner: t.Inner, outer: t.Outer,
	}
	c.rest = s.Radius*s.Radius - c.zero*c.zero - c.right*c.right
	return c
}

type sphereContour struct {
	along        float64 // height of the centre
	zero, right  float64 // mm, the centre from the axis toward bearings 0 and 90 deg
	rest         float64 // mm2, radius squared less the centre's distance from the axis squared
	inner, outer float64
}

// Touch implements Contour. A line at a distance q from the centre leaves the
// sphere sqrt(R^2 - q^2) above it. At radius r of a tube whose axis passes e
// from the centre, of which f lies toward the bearing,
//
//	R^2 - q^2 = R^2 - e^2 + 2 r f - r^2 ,
//
// which is greatest at r = f, or at the edge of the wall that is next to it.
func (c *sphereContour) Touch(sin, cos float64) (Contact, bool) {
	f, turn := cos*c.zero+sin*c.right, cos*c.right-sin*c.zero
	toe := c.rest + c.outer*(2*f-c.outer)
	if !(toe > 0) {
		return Contact{}, false
	}
	toe = math.Sqrt(toe)
	r := min(max(f, c.inner), c.outer)
	at := math.Sqrt(c.rest + r*(2*f-r))
	return Contact{
		At: c.along + at, Slope: r * turn / at,
		Toe: c.along + toe, ToeSlope: c.outer * turn / toe,
		Radius: r, Clear: math.Inf(1),
	}, true
}

// A Flattened is a sphere that is cut off square to its pole at its ends, as
// one with flat discs for polar caps is.
type Flattened struct {
	Sphere
	Pole r3.Vec     // unit vector
	End  [2]float64 // mm from the centre to the lower flat end and the upper; the radius for none
}

// end returns how far from the centre the flat end is on whose side a height lies.
func (f *Flattened) end(z float64) float64 { return f.End[design.PoleAt(z)] }

// Leave implements Surface.
func (f Flattened) Leave(o, d r3.Vec) (float64, bool) {
	t, _, _, ok := f.exit(o, d)
	return t, ok
}

// Distance implements Surface.
func (f Flattened) Distance(p r3.Vec) float64 {
	z := r3.Dot(r3.Sub(p, f.Center), f.Pole)
	return max(f.Sphere.Distance(p), math.Abs(z)-f.end(z))
}

// exit gives face 0 on the sphere and 1 on the flats.
func (f Flattened) exit(o, d r3.Vec) (t float64, normal r3.Vec, face int, ok bool) {
	o = r3.Sub(o, f.Center)
	t, ok = Sphere{Radius: f.Radius}.Leave(o, d)
	if !ok {
		return 0, r3.Vec{}, 0, false
	}
	normal = r3.Add(o, r3.Scale(t, d))
	z := r3.Dot(normal, f.Pole)
	if math.Abs(z) <= f.end(z) {
		return t, normal, 0, true
	}
	end := Plane{Normal: r3.Scale(math.Copysign(1, z), f.Pole), Height: f.end(z)}
	if t, ok = end.Leave(o, d); !ok {
		return 0, r3.Vec{}, 0, false
	}
	// A line may pass through nothing but what is cut off.
	ok = r3.Norm2(r3.Add(o, r3.Scale(t, d))) <= f.Radius*f.Radius
	return t, end.Normal, 1, ok
}

// clear measures to the edge of the flats: on the sphere by height alone, which
// is less than the distance.
func (f Flattened) clear(q r3.Vec, face int) float64 {
	q = r3.Sub(q, f.Center)
	z := r3.Dot(q, f.Pole)
	if face == 0 {
		return f.end(z) - math.Abs(z)
	}
	end := f.end(z)
	edge := math.Sqrt(max(0, f.Radius*f.Radius-end*end))
	return edge - math.Sqrt(max(0, r3.Norm2(q)-z*z))
}

// Meet implements Surface.
func (f Flattened) Meet(t Tube) Contour { return &convexContour{body: f, wall: newWall(t)} }
