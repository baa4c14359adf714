package cast

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

// A Hit is where a ray first meets a solid.
type Hit struct {
	T     float64
	Solid int32 // by its place in the world; -1 for none
	Face  int32 // of the solid: see the constants, and the numbers of lobes and rings
}

// Faces of solids. The sides of lobed and zoned balls count their lobes and
// rings from 0, and a box has its six from 0.
const (
	Side  = 0
	Upper = -1 // the flat end of a ball toward its pole, and
	Lower = -2 // the other
	Cap   = -3 // a dished cap
	Head  = -4 // the cut ends of a tube
	Foot  = -5
	Bore  = -6 // the inside of a tube's wall
)

// far is beyond every scene, in mm.
const far = 1e15

// Meet returns the distance at which a ray first meets the solid from outside,
// and on which face. It reports false for one that misses it, and for one that
// starts within it; but the bore of an open tube is outside.
func (s *Solid) Meet(r *Ray) (t float64, face int32, ok bool) {
	// First the sphere about it.
	rel := r3.Sub(r.From, s.Middle)
	b := r3.Dot(rel, r.Along)
	c := r3.Dot(rel, rel) - s.Hull*s.Hull
	if b*b < c || (b > 0 && c > 0) {
		return 0, 0, false
	}
	// Then the solid, from where the ray passes its middle: far off, where the
	// ray starts, the squares below would lose what is small beside them.
	m := Ray{r.At(-b), r.Along}
	if s.Bowl {
		t, face, ok = s.meetBowl(&m, b)
		return t - b, face, ok && t > b
	}
	t, face, ok = s.meetWhole(&m, b)
	if ok && len(s.Bites) > 0 {
		t, face, ok = s.into(&m, t, face)
	}
	return t - b, face, ok && t > b
}

// The methods below take a ray that starts abreast of the solid's middle, and
// count distances from there, negative ones too; whether that is in front of the
// true start is asked above.

// meetWhole meets the solid as if it had no holes and no mouth. The bore of an open tube
// needs the true start.
func (s *Solid) meetWhole(r *Ray, start float64) (float64, int32, bool) {
	if s.Stretch > 0 {
		return s.meetEgg(r)
	}
	switch s.Kind {
	case Sphere:
		return s.meetSphere(r)
	case Lobed:
		return s.meetLobed(r)
	case Zoned:
		return s.meetZoned(r)
	case Tube:
		return s.meetTube(r, start)
	}
	return s.meetBox(r)
}

// leave returns where a ray leaves the whole solid, and by which face: where the ray turned
// round comes in.
func (s *Solid) leave(r *Ray) (float64, int32, bool) {
	back := Ray{r.From, r3.Scale(-1, r.Along)}
	t, face, ok := s.meetWhole(&back, -far)
	return -t, face, ok
}

func (s *Solid) meetSphere(r *Ray) (float64, int32, bool) {
	rel := r3.Sub(r.From, s.Center)
	b := r3.Dot(rel, r.Along)
	disc := b*b - r3.Dot(rel, rel) + s.Radius*s.Radius
	if disc <= 0 {
		return 0, 0, false
	}
	root := math.Sqrt(disc)
	t, leave, face := -b-root, -b+root, int32(Side)
	if min(s.Flat[design.LowerPole], s.Flat[design.UpperPole]) < s.Radius {
		z, dz := r3.Dot(rel, s.Axis), r3.Dot(r.Along, s.Axis)
		lo, hi, end, ok := between(z, dz, -s.Flat[design.LowerPole], s.Flat[design.UpperPole])
		if !ok || max(lo, t) >= min(hi, leave) {
			return 0, 0, false
		}
		if lo > t {
			t, face = lo, end
		}
	}
	return t, face, true
}

// between returns between which distances the value z + t dz lies in [low,
// high], and by which end it comes in.
func between(z, dz, low, high float64) (enter, leave float64, face int32, ok bool) {
	if math.Abs(dz) < 1e-14 {
		return -far, far, Upper, low < z && z < high
	}
	if inv := 1 / dz; dz > 0 {
		return (low - z) * inv, (high - z) * inv, Lower, true
	} else {
		return (high - z) * inv, (low - z) * inv, Upper, true
	}
}

func (s *Solid) meetTube(r *Ray, start float64) (float64, int32, bool) {
	rel := r3.Sub(r.From, s.Center)
	z, dz := r3.Dot(rel, s.Axis), r3.Dot(r.Along, s.Axis)
	qq, qd, dd := r3.Dot(rel, rel)-z*z, r3.Dot(rel, r.Along)-z*dz, 1-dz*dz
	enter, leave, ok := solid.ConeSpan(qq, qd, dd, z, dz, s.Radius, s.Slope)
	if !ok || leave <= start {
		return 0, 0, false
	}
	face := int32(Side)
	from, to := -far, far // between the ends
	var out int32         // the end that it leaves by
	for i := range s.Ends {
		p := &s.Ends[i]
		d, gap := r3.Dot(p.Normal, r.Along), p.Height-r3.Dot(p.Normal, r.From)
		switch {
		case d > 1e-14:
			if t := gap / d; t < to {
				to, out = t, int32(Foot+i)
			}
		case d < -1e-14:
			if t := gap / d; t > from {
				from = t
				if t > enter {
					enter, face = t, int32(Foot+i)
				}
			}
		case gap < 0:
			return 0, 0, false
		}
	}
	if enter >= leave || enter >= to {
		return 0, 0, false
	}
	if !s.Open[0] && !s.Open[1] {
		return enter, face, true
	}
	if face == Side {
		if enter > start {
			return enter, face, true
		}
	} else if !s.Open[face-Foot] {
		return enter, face, true
	}
	// In by an open end, or from within: the bore is outside.
	in, through, hollow := solid.ConeSpan(qq, qd, dd, z, dz, s.bore(), s.Slope)
	if !hollow || in > enter || through < enter {
		return enter, face, true // on the edge of the wall
	}
	if through < to {
		return through, Bore, true
	}
	if to < far && out != Side && !s.Open[out-Foot] {
		return to, out, true
	}
	return 0, 0, false
}

// bore returns the inside radius at the foot.
func (s *Solid) bore() float64 {
	return max(0, s.Radius-s.Wall*math.Sqrt(1+s.Slope*s.Slope))
}

func (s *Solid) meetBox(r *Ray) (float64, int32, bool) {
	rel := r3.Sub(r.From, s.Center)
	enter, leave := -far, far
	var face int32
	for i, c := range [3][3]float64{{rel.X, r.Along.X, s.Half.X}, {rel.Y, r.Along.Y, s.Half.Y}, {rel.Z, r.Along.Z, s.Half.Z}} {
		lo, hi, end, ok := between(c[0], c[1], -c[2], c[2])
		if !ok {
			return 0, 0, false
		}
		if lo > enter {
			enter, face = lo, int32(2*i)
			if end == Upper {
				face++
			}
		}
		leave = min(leave, hi)
	}
	for i, side := range s.Sides {
		lo, hi, _, ok := between(r3.Dot(r.From, side.Normal)-side.Height, r3.Dot(r.Along, side.Normal), -far, 0)
		if !ok {
			return 0, 0, false
		}
		if lo > enter {
			enter, face = lo, firstSide+int32(i)
		}
		leave = min(leave, hi)
	}
	return enter, face, enter < leave
}

// firstSide is the face of the first of a plate's Sides.
const firstSide = 6

// Normal returns the unit normal of a face at a point on it.
func (s *Solid) Normal(p r3.Vec, face int32) r3.Vec {
	rel := r3.Sub(p, s.Center)
	if face <= Rim {
		return s.rimNormal(p, face)
	}
	if s.Bowl {
		return s.normalOfBowl(p, face)
	}
	if s.Stretch > 0 {
		n := s.roundNormal(s.squash(rel), face)
		return unit(s.squash(n))
	}
	switch s.Kind {
	case Box:
		if face >= firstSide {
			return s.Sides[face-firstSide].Normal
		}
		sign := float64(2*(face&1) - 1)
		switch face / 2 {
		case 0:
			return r3.Vec{X: sign}
		case 1:
			return r3.Vec{Y: sign}
		}
		return r3.Vec{Z: sign}
	case Tube:
		switch face {
		case Foot, Head:
			n := s.Ends[face-Foot].Normal
			if r3.Dot(n, s.Axis)*float64(2*(face-Foot)-1) < 0 {
				n = r3.Scale(-1, n)
			}
			return n
		}
		z := r3.Dot(rel, s.Axis)
		out := r3.Sub(rel, r3.Scale(z, s.Axis))
		n := unit(r3.Sub(r3.Scale(1/max(norm(out), 1e-12), out), r3.Scale(s.Slope, s.Axis)))
		if face == Bore {
			return r3.Scale(-1, n)
		}
		return n
	}
	return s.roundNormal(rel, face)
}

// roundNormal is Normal of a ball at a point from its middle.
func (s *Solid) roundNormal(rel r3.Vec, face int32) r3.Vec {
	switch face {
	case Upper:
		return s.Axis
	case Lower:
		return r3.Scale(-1, s.Axis)
	case Cap:
		return unit(rel)
	case Bore:
		return r3.Scale(-1, unit(rel))
	}
	switch s.Kind {
	case Lobed:
		g := s.Lobes[face]
		x, y, z := r3.Dot(rel, s.Zero), r3.Dot(rel, s.Right), r3.Dot(rel, s.Axis)
		a := x*g.X + y*g.Y
		return unit(s.global(r3.Vec{X: a * g.X, Y: a * g.Y, Z: z}))
	case Zoned:
		g := s.Rings[face]
		z := r3.Dot(rel, s.Axis)
		out := r3.Sub(rel, r3.Scale(z, s.Axis))
		return unit(r3.Add(r3.Scale(g.X/max(norm(out), 1e-12), out), r3.Scale(g.Y, s.Axis)))
	}
	return r3.Scale(1/s.Radius, rel)
}
