package cast

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// stretch makes an egg of a ball, as tall along its pole as is said for each of what it is.
func (s *Solid) stretch(by float64) {
	s.Stretch, s.Round = by, s.Hull
	s.bound(s.Center, max(s.Hull, s.Hull*by))
}

// hull returns the radius of the sphere about a ball that holds all of it, before it is
// stretched.
func (s *Solid) hull() float64 {
	if s.Stretch > 0 {
		return s.Round
	}
	return s.Hull
}

// scaled returns a vector with its part along the pole times a factor.
func (s *Solid) scaled(v r3.Vec, by float64) r3.Vec {
	return r3.Add(v, r3.Scale((by-1)*r3.Dot(v, s.Axis), s.Axis))
}

// squash takes a vector from an egg to the ball that it was. What is square to a face of the
// ball leads, squashed once more, square to that of the egg.
func (s *Solid) squash(v r3.Vec) r3.Vec { return s.scaled(v, 1/s.Stretch) }

// meetEgg meets the ball that the egg was, by a ray squashed as that is.
func (s *Solid) meetEgg(r *Ray) (float64, int32, bool) {
	way := s.squash(r.Along)
	long := norm(way)
	in := Ray{r3.Add(s.Center, s.squash(r3.Sub(r.From, s.Center))), r3.Scale(1/long, way)}
	var t float64
	var face int32
	var ok bool
	switch s.Kind {
	case Lobed:
		t, face, ok = s.meetLobed(&in)
	case Zoned:
		t, face, ok = s.meetZoned(&in)
	default:
		t, face, ok = s.meetSphere(&in)
	}
	return t / long, face, ok
}

// awayEgg is Away of an egg, at a point from its middle: what the point is off by in the ball
// over how fast that grows in the egg.
func (s *Solid) awayEgg(rel r3.Vec) float64 {
	q := s.squash(rel)
	x, y, z := r3.Dot(q, s.Zero), r3.Dot(q, s.Right), r3.Dot(q, s.Axis)
	switch s.Kind {
	case Lobed:
		_, a := s.outermost(x, y)
		far := math.Sqrt(a*a + z*z)
		return (far - s.Radius) * far / math.Hypot(a, z/s.Stretch)
	case Zoned:
		d, rho := -far, math.Sqrt(x*x+y*y)
		for _, g := range s.Rings {
			d = max(d, (rho*g.X+z*g.Y-s.Radius)/math.Hypot(g.X, g.Y/s.Stretch))
		}
		return d
	}
	out := norm(q)
	return (out - s.Radius) * out / max(math.Hypot(math.Sqrt(x*x+y*y), z/s.Stretch), 1e-9)
}
