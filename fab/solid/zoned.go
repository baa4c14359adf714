package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// A Zoned is the ball that rings of equal latitude make, each a frustum of a
// cone, with a flat disc at each pole. Every ring touches the sphere of its
// radius along the middle of its width and every disc at the pole: in any plane
// through the poles it is the regular polygon of 2 (Zones + 1) sides about the
// circle.
type Zoned struct {
	Center r3.Vec
	Radius float64
	Pole   r3.Vec // unit vector
	Zones  int
}

// Step returns the latitude in rad that each ring takes up.
func (z Zoned) Step() float64 { return math.Pi / float64(z.Zones+1) }

// face returns the face that a point outside the centre stands before: 0 for
// the disc at the lower pole, and on to Zones + 1 for that at the upper.
func (z Zoned) face(q r3.Vec) int {
	s := r3.Dot(q, z.Pole)
	latitude := math.Atan2(s, math.Sqrt(max(0, r3.Norm2(q)-s*s)))
	return min(z.Zones+1, int(math.Round((latitude+math.Pi/2)/z.Step())))
}

// cone returns a face as a body of its own: the side of its cone, or the plane
// of a disc.
func (z Zoned) cone(face int) convex {
	sin, cos := math.Sincos(float64(face)*z.Step() - math.Pi/2)
	if face == 0 || face == z.Zones+1 {
		n := r3.Scale(math.Copysign(1, sin), z.Pole)
		return Plane{Normal: n, Height: r3.Dot(n, z.Center) + z.Radius}
	}
	return Cone{Point: z.Center, Axis: z.Pole, Radius: z.Radius / cos, Slope: -sin / cos}
}

// Leave implements Surface.
func (z Zoned) Leave(o, d r3.Vec) (float64, bool) {
	t, _, _, ok := z.exit(o, d)
	return t, ok
}

// Distance implements Surface.
func (z Zoned) Distance(p r3.Vec) float64 {
	q := r3.Sub(p, z.Center)
	return z.over(q, z.face(q))
}

// exit starts from the face before which the line leaves the sphere, and goes
// on to the face that the exit found stands before, as long as that comes
// nearer.
func (z Zoned) exit(o, d r3.Vec) (t float64, normal r3.Vec, face int, ok bool) {
	rel := r3.Sub(o, z.Center)
	along := r3.Dot(rel, d)
	q := r3.Sub(rel, r3.Scale(along, d))
	if half := z.Radius*z.Radius - r3.Norm2(q); half > 0 {
		q = r3.Add(q, r3.Scale(math.Sqrt(half), d))
	}
	face, t = z.face(q), math.Inf(1)
	for range z.Zones + 2 {
		next, n, _, meets := z.cone(face).exit(o, d)
		if meets && next < t {
			t, normal, ok = next, n, true
			q = r3.Add(rel, r3.Scale(t, d))
		} else {
			break
		}
		before := z.face(q)
		if before == face {
			break
		}
		face = before
	}
	if !ok {
		// The first face may be one that the line never leaves.
		for k := range z.Zones + 2 {
			if next, n, _, meets := z.cone(k).exit(o, d); meets && next < t {
				t, normal, ok = next, n, true
				q = r3.Add(rel, r3.Scale(t, d))
			}
		}
	}
	// A line that misses the ball comes to an end before another face.
	if !ok || z.over(q, z.face(q)) > onSurface*z.Radius {
		return 0, r3.Vec{}, 0, false
	}
	return t, normal, z.face(q), true
}

// over returns how far a point lies outside a face.
func (z Zoned) over(q r3.Vec, face int) float64 {
	sin, cos := math.Sincos(float64(face)*z.Step() - math.Pi/2)
	s := r3.Dot(q, z.Pole)
	return s*sin + math.Sqrt(max(0, r3.Norm2(q)-s*s))*cos - z.Radius
}

// clear measures along the ring's slant to its nearer edge.
func (z Zoned) clear(q r3.Vec, face int) float64 {
	q = r3.Sub(q, z.Center)
	sin, cos := math.Sincos(float64(face)*z.Step() - math.Pi/2)
	s := r3.Dot(q, z.Pole)
	off := s*cos - math.Sqrt(max(0, r3.Norm2(q)-s*s))*sin
	return z.Radius*math.Tan(z.Step()/2) - math.Abs(off)
}

// Meet implements Surface.
func (z Zoned) Meet(t Tube) Contour { return newSided(z, z.Pole, z.Zones+2, t) }
