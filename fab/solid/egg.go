package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// An Egg is the outside of an egg: that of a ball about a sphere, of whatever faces, stretched
// along its pole. Lines stay lines, and what lies within stays within, so that a line is
// followed where the egg is a ball.
type Egg struct {
	Ball    Radial // about the centre, before it is stretched
	center  r3.Vec
	pole    r3.Vec
	profile design.Profile
	stretch float64 // how tall it is for each of what the ball is
	least   float64 // by how much it is shrunk or stretched in the direction in which that is least
}

// newEgg returns a ball stretched to an egg.
func newEgg(b *design.Ball, ball Radial) *Egg {
	k := b.Polar() / b.Radius
	return &Egg{Ball: ball, center: b.Center, pole: b.Pole, profile: b.Profile(), stretch: k, least: min(1, k)}
}

// Smooth reports whether all of the outside is the ellipsoid, without edges.
func (e *Egg) Smooth() bool {
	_, ok := e.Ball.(Sphere)
	return ok
}

// Within returns the ellipsoid that all faces touch from outside.
func (e *Egg) Within() *Egg {
	in := *e
	in.Ball = Sphere{Center: e.center, Radius: e.profile.Across}
	return &in
}

// scaled returns a vector with its part along the pole times a factor.
func (e *Egg) scaled(v r3.Vec, by float64) r3.Vec {
	return r3.Add(v, r3.Scale((by-1)*r3.Dot(v, e.pole), e.pole))
}

// within takes a point into the space of the ball.
func (e *Egg) within(p r3.Vec) r3.Vec {
	return r3.Add(e.center, e.scaled(r3.Sub(p, e.center), 1/e.stretch))
}

// line takes a line into the space of the ball, and returns how long a unit of it is there.
func (e *Egg) line(o, d r3.Vec) (from, way r3.Vec, unit float64) {
	way = e.scaled(d, 1/e.stretch)
	unit = norm(way)
	return e.within(o), r3.Scale(1/unit, way), unit
}

// Leave implements Surface.
func (e *Egg) Leave(o, d r3.Vec) (float64, bool) {
	from, way, unit := e.line(o, d)
	t, ok := e.Ball.Leave(from, way)
	return t / unit, ok
}

// Distance implements Surface: that to the nearest point of the ellipsoid, or of the face that
// is farthest within.
func (e *Egg) Distance(p r3.Vec) float64 {
	rel := r3.Sub(p, e.center)
	up := r3.Dot(rel, e.pole)
	level := math.Sqrt(max(0, r3.Norm2(rel)-up*up))
	near := func(level float64) float64 {
		_, out := e.profile.Nearest(level, up)
		return out
	}
	pole := design.PoleAt(up)
	switch b := e.Ball.(type) {
	case Flattened:
		return max(near(level), math.Abs(up)-b.End[pole]*e.stretch)
	case *Lobed:
		q := b.local(rel)
		_, a := b.outermost(q, b.facing(q, r3.Vec{}))
		return max(near(max(0, a)), math.Abs(up)-b.flat[pole]*e.stretch)
	case Zoned:
		most := math.Inf(-1)
		for face := range b.Zones + 2 {
			sin, cos := math.Sincos(float64(face)*b.Step() - math.Pi/2)
			sin /= e.stretch
			most = max(most, (up*sin+level*cos-b.Radius)/math.Hypot(sin, cos))
		}
		return most
	}
	return near(level)
}

// From implements Radial.
func (e *Egg) From(d r3.Vec) float64 {
	way := e.scaled(d, 1/e.stretch)
	unit := norm(way)
	return e.Ball.From(r3.Scale(1/unit, way)) / unit
}

// exit implements convex: what is square to a face stays so where its part along the pole is
// shrunk as much as the face is stretched.
func (e *Egg) exit(o, d r3.Vec) (t float64, normal r3.Vec, face int, ok bool) {
	from, way, unit := e.line(o, d)
	t, normal, face, ok = e.faces().exit(from, way)
	return t / unit, e.scaled(normal, 1/e.stretch), face, ok
}

// clear implements convex.
func (e *Egg) clear(q r3.Vec, face int) float64 { return e.faces().clear(e.within(q), face) * e.least }

// faces returns the ball by its faces.
func (e *Egg) faces() convex {
	if l, ok := e.Ball.(*Lobed); ok {
		return lobes{l}
	}
	return e.Ball.(convex)
}

// Meet implements Surface.
func (e *Egg) Meet(t Tube) Contour {
	if z, ok := e.Ball.(Zoned); ok {
		return newSided(e, e.pole, z.Zones+2, t)
	}
	return &convexContour{body: e, wall: newWall(t)}
}

// A lobes is a lobed ball without dished round caps by its faces.
type lobes struct{ *Lobed }

func (l lobes) exit(o, d r3.Vec) (float64, r3.Vec, int, bool) {
	o, d = l.local(r3.Sub(o, l.center)), l.local(d)
	t, n, face, ok := l.leave(o, d, l.facing(o, d))
	return t, r3.Add(r3.Scale(n.X, l.x), r3.Add(r3.Scale(n.Y, l.y), r3.Scale(n.Z, l.z))), face, ok
}

func (l lobes) clear(q r3.Vec, face int) float64 {
	q = l.local(r3.Sub(q, l.center))
	if face < len(l.lobes) {
		return l.Lobed.clear(q, face)
	}
	_, a := l.outermost(q, l.facing(q, r3.Vec{}))
	flat := l.flat[design.PoleAt(q.Z)]
	return math.Sqrt(max(0, l.radius*l.radius-flat*flat)) - a
}
