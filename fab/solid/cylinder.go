package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// A Cylinder is a post's side, without ends.
type Cylinder struct {
	Point, Axis r3.Vec // on the axis, and the unit vector along it
	Radius      float64
}

// beyond is how far outside a cylinder, as a share of its radius, a line may
// pass and still be said to touch it: rounding, of a branch as wide as the post
// that it stands on.
const beyond = 1e-12

// across returns the directions square to the axis in which a line along d goes
// away from it (x) and passes beside it (y), and how much of d is square to the
// axis. It reports false for a line along the axis.
func (c Cylinder) across(d r3.Vec) (x, y r3.Vec, sin float64, ok bool) {
	x = r3.Sub(d, r3.Scale(r3.Dot(d, c.Axis), c.Axis))
	sin = r3.Norm(x)
	if sin < grazing {
		return x, y, 0, false
	}
	x = r3.Scale(1/sin, x)
	return x, r3.Cross(c.Axis, x), sin, true
}

// depth returns how deep the cylinder is at y beside its axis. It reports false
// where it is passed by.
func (c Cylinder) depth(y float64) (float64, bool) {
	square := (c.Radius - y) * (c.Radius + y)
	return math.Sqrt(max(0, square)), square >= -beyond*c.Radius*c.Radius
}

// Leave implements Surface.
func (c Cylinder) Leave(o, d r3.Vec) (float64, bool) {
	t, _, _, ok := c.exit(o, d)
	return t, ok
}

// Distance implements Surface.
func (c Cylinder) Distance(p r3.Vec) float64 {
	rel := r3.Sub(p, c.Point)
	return norm(r3.Sub(rel, r3.Scale(r3.Dot(rel, c.Axis), c.Axis))) - c.Radius
}

func (c Cylinder) exit(o, d r3.Vec) (float64, r3.Vec, int, bool) {
	x, y, sin, ok := c.across(d)
	if !ok {
		return 0, r3.Vec{}, 0, false
	}
	rel := r3.Sub(o, c.Point)
	beside := r3.Dot(rel, y)
	depth, ok := c.depth(beside)
	return (depth - r3.Dot(rel, x)) / sin, r3.Add(r3.Scale(depth, x), r3.Scale(beside, y)), 0, ok
}

func (c Cylinder) clear(r3.Vec, int) float64 { return math.Inf(1) }

// Meet implements Surface.
func (c Cylinder) Meet(t Tube) Contour {
	if t.Flare != 0 {
		return newSided(c, c.Axis, 1, t)
	}
	x, y, sin, ok := c.across(t.Along)
	rel := r3.Sub(t.Origin, c.Point)
	return &cylinderContour{
		body: c, sin: sin, meets: ok,
		x: r3.Dot(rel, x), xZero: r3.Dot(t.Zero, x), xRight: r3.Dot(t.Right, x),
		y: r3.Dot(rel, y), yZero: r3.Dot(t.Zero, y), yRight: r3.Dot(t.Right, y),
		inner: t.Inner, outer: t.Outer,
	}
}

type cylinderContour struct {
	body         Cylinder
	sin          float64 // of the angle between tube and cylinder
	x, y         float64 // mm, where the tube's axis starts, away from the cylinder's and beside it
	xZero, yZero float64 // of the direction of bearing 0
	xRight       float64 // of that of bearing 90 deg
	yRight       float64
	inner, outer float64
	meets        bool
}

// Touch implements Contour. A line along the tube that starts at x and y leaves
// the cylinder at
//
//	t = (sqrt(R^2 - y^2) - x) / sin .
//
// Across the wall x and y grow by a and b for each mm of radius, and t is
// greatest where a sqrt(R^2 - y^2) = -b y, which is y = -R a / sqrt(a^2 + b^2)
// with the sign of b, or at the edge of the wall that is next to it. Where b
// changes its sign it may leap from one edge to the other: Face is 1 where b is
// negative.
func (c *cylinderContour) Touch(sin, cos float64) (Contact, bool) {
	a, aTurn := cos*c.xZero+sin*c.xRight, cos*c.xRight-sin*c.xZero
	b, bTurn := cos*c.yZero+sin*c.yRight, cos*c.yRight-sin*c.yZero
	at := func(r float64) (t, turn float64, ok bool) {
		y := c.y + r*b
		depth, ok := c.body.depth(y)
		t = (depth - c.x - r*a) / c.sin
		if depth > beyond*c.body.Radius {
			turn = -r * (y*bTurn/depth + aTurn) / c.sin
		}
		return t, turn, ok
	}
	toe, toeSlope, ok := at(c.outer)
	if !ok || !c.meets {
		return Contact{}, false
	}
	r := c.inner
	switch {
	case b != 0:
		y := -math.Copysign(c.body.Radius, b) * a / math.Hypot(a, b)
		r = min(max((y-c.y)/b, c.inner), c.outer)
	case a < 0:
		r = c.outer
	}
	t, slope, _ := at(r)
	face := 0
	if b < 0 {
		face = 1
	}
	return Contact{At: t, Slope: slope, Toe: toe, ToeSlope: toeSlope, Radius: r, Clear: math.Inf(1), Face: face}, true
}

// A sidedContour is a convexContour on a body that is round about an axis. Next to
// the two bearings along the axis the touch may move all across the wall and leap
// back, with a kink: Face tells the sides of the axis apart.
type sidedContour struct {
	convexContour
	faces       int     // of the body
	zero, right float64 // how much of bearings 0 and 90 deg leads away from the axis
}

func newSided(body convex, axis r3.Vec, faces int, t Tube) *sidedContour {
	beside := r3.Cross(axis, t.Along)
	return &sidedContour{
		convexContour: convexContour{body: body, wall: newWall(t)},
		faces:         faces,
		zero:          r3.Dot(beside, t.Zero), right: r3.Dot(beside, t.Right),
	}
}

// Touch implements Contour.
func (c *sidedContour) Touch(sin, cos float64) (Contact, bool) {
	made, ok := c.convexContour.Touch(sin, cos)
	if ok && cos*c.zero+sin*c.right < 0 {
		made.Face += c.faces
	}
	return made, ok
}

// A Cone is a taper's side, without ends: all points whose distance from the
// axis is at most Radius and Slope for each mm along it. Its point ends it.
type Cone struct {
	Point, Axis r3.Vec  // on the axis, and the unit vector along it
	Radius      float64 // mm, at Point
	Slope       float64 // mm of radius for each mm along the axis
}

// Leave implements Surface.
func (c Cone) Leave(o, d r3.Vec) (float64, bool) {
	t, _, _, ok := c.exit(o, d)
	return t, ok
}

// Distance implements Surface.
func (c Cone) Distance(p r3.Vec) float64 {
	rel := r3.Sub(p, c.Point)
	s := r3.Dot(rel, c.Axis)
	return (norm(r3.Sub(rel, r3.Scale(s, c.Axis))) - c.Radius - c.Slope*s) / math.Sqrt(1+c.Slope*c.Slope)
}

// exit solves distance^2 = (Radius + Slope s)^2 along the line. Of the two
// roots only those on this side of the point count. A line nearer to the axis
// than the slope leaves where it runs toward the point, else not at all.
func (c Cone) exit(o, d r3.Vec) (float64, r3.Vec, int, bool) {
	rel := r3.Sub(o, c.Point)
	s, rise := r3.Dot(rel, c.Axis), r3.Dot(d, c.Axis)
	wide := c.Radius + c.Slope*s
	qa := (1-rise)*(1+rise) - c.Slope*c.Slope*rise*rise
	qb := r3.Dot(rel, d) - s*rise - c.Slope*rise*wide
	qc := r3.Norm2(rel) - s*s - wide*wide
	disc := qb*qb - qa*qc
	if disc < 0 || qa < grazing && c.Slope*rise >= 0 {
		return 0, r3.Vec{}, 0, false
	}
	root := math.Sqrt(disc)
	roots := [2]float64{(root - qb) / qa, (-root - qb) / qa}
	if math.Abs(qa) < grazing {
		// As steep as the wall on its other side, such as square to a wall at 45 deg:
		// the line crosses once.
		if math.Abs(qb) < grazing {
			return 0, r3.Vec{}, 0, false
		}
		roots[0], roots[1] = -qc/(2*qb), -qc/(2*qb)
	}
	for _, t := range roots {
		along := s + t*rise
		if c.Radius+c.Slope*along <= 0 {
			continue
		}
		out := r3.Sub(r3.Add(rel, r3.Scale(t, d)), r3.Scale(along, c.Axis))
		normal := r3.Sub(r3.Unit(out), r3.Scale(c.Slope, c.Axis))
		if r3.Dot(normal, d) < grazing {
			continue // comes in here
		}
		return t, normal, 0, true
	}
	return 0, r3.Vec{}, 0, false
}

func (c Cone) clear(r3.Vec, int) float64 { return math.Inf(1) }

// Meet implements Surface.
func (c Cone) Meet(t Tube) Contour { return newSided(c, c.Axis, 1, t) }

// beyondAll is further than any line need be followed, in mm.
const beyondAll = 1e15

// ConeSpan returns between which distances a line is within rho - slope s <=
// radius, one nap of a cone: rho is the distance from the axis and s the height
// along it. The line starts at the height s with the offset q from the axis and
// goes on by ds and dq: qq, qd and dd are q . q, q . dq and dq . dq.
func ConeSpan(qq, qd, dd, s, ds, radius, slope float64) (enter, leave float64, ok bool) {
	wide, dw := radius+slope*s, slope*ds
	a := dd - dw*dw
	b := qd - wide*dw
	c := qq - wide*wide
	disc := b*b - a*c
	switch {
	case math.Abs(a) < 1e-13:
		// Along the axis of a tube, or along a taper's wall.
		switch t := -c / (2 * b); {
		case b > 1e-12:
			return -beyondAll, t, true
		case b < -1e-12:
			return t, beyondAll, true
		}
		return -beyondAll, beyondAll, c < 0 && wide > 0
	case a > 0:
		if disc <= 0 {
			return 0, 0, false
		}
		root := math.Sqrt(disc)
		enter, leave = (-b-root)/a, (-b+root)/a
		// Both points are on one nap, for the line is flatter than the wall.
		return enter, leave, wide+dw*enter > 0 || wide+dw*leave > 0
	case disc <= 0:
		return -beyondAll, beyondAll, wide > 0
	}
	// Steeper than the wall: within the nap of which the radius is positive.
	root := math.Sqrt(disc)
	if dw > 0 {
		return (-b - root) / a, beyondAll, true
	}
	return -beyondAll, (-b + root) / a, true
}
