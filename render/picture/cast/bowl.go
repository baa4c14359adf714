package cast

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// open opens a ball above a plane across its axis, at a height from its centre, and makes
// it a shell of the given thickness.
func (s *Solid) open(height, thick float64) {
	s.Bowl, s.Rim, s.Wall = true, height, thick
}

// shrunk returns the solid whose outside is the inside of a bowl's wall.
func (s *Solid) shrunk() Solid {
	in := *s
	in.Radius -= s.Wall
	for pole := range in.Flat {
		in.Flat[pole], in.Dome[pole] = min(in.Radius, s.Flat[pole]-s.Wall), s.Dome[pole]-s.Wall
		if s.Dome[pole] >= s.Radius {
			in.Dome[pole] = in.Radius
		}
	}
	return in
}

// meetBowl returns where a ray first meets a bowl after a start: its outside below the rim,
// the edge of the rim, or through the mouth its inside. The ray runs as for the methods in
// meet.go.
func (s *Solid) meetBowl(r *Ray, start float64) (float64, int32, bool) {
	rise, z := r3.Dot(r.Along, s.Axis), r3.Dot(r3.Sub(r.From, s.Center), s.Axis)
	below := func(t float64) bool { return z+t*rise <= s.Rim }
	in := s.shrunk()
	enter, face, ok := s.meetWhole(r, start)
	if !ok {
		return 0, 0, false
	}
	if enter > start && below(enter) {
		return enter, face, true
	}
	from, _, hollow := in.meetWhole(r, start)
	past, inner, _ := in.leave(r)
	if rise < -1e-14 {
		leave, _, _ := s.leave(r)
		if mouth := (s.Rim - z) / rise; mouth > start && mouth >= enter && mouth <= leave && (!hollow || mouth < from || mouth > past) {
			return mouth, Upper, true // the edge of the wall
		}
	}
	if hollow && past > start && below(past) {
		return past, Within + inner, true
	}
	return 0, 0, false
}

// Within is added to the faces of a bowl's inside.
const Within = 1 << 12

// normalOfBowl returns the unit normal of a face of a bowl at a point on it.
func (s *Solid) normalOfBowl(p r3.Vec, face int32) r3.Vec {
	if face == Upper && r3.Dot(r3.Sub(p, s.Center), s.Axis) > s.Rim-math.Max(1e-6, 1e-9*s.Radius) {
		return s.Axis
	}
	closed := *s
	closed.Bowl = false
	if face < Within+Cap {
		return closed.Normal(p, face)
	}
	return r3.Scale(-1, closed.Normal(p, face-Within))
}

// ontoBowl lets an end of a tube end within the wall of a bowl: on the plane of the circle
// in which the two would meet where the tube stood square on the ball.
func (s *Solid) ontoBowl(i int, end design.End, bowl *design.Part) {
	b := bowl.Ball
	out := r3.Sub(end.At, b.Center)
	if norm(out) == 0 {
		return
	}
	out = unit(out)
	r, wall := end.Diameter/2, 0.0
	if bowl.Metal != nil {
		wall = bowl.Metal.Thickness
	}
	n := r3.Scale(-1, out)
	s.End(i, Plane{n, r3.Dot(n, b.Center) - math.Sqrt(max(0, b.Radius*b.Radius-r*r)) + wall/2})
}
