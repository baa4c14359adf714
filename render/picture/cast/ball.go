package cast

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

// meetLobed finds where a ray comes into a ball of rolled gores. The ball is
// what the convex bodies of its lobes have in common, each the front of a
// cylinder with everything behind it. A ray that has come into one lobe's body
// goes on to the lobe that stands out farthest there; no step can pass the true
// entry, and each comes nearer, so that no lobe comes twice.
func (s *Solid) meetLobed(r *Ray) (float64, int32, bool) {
	o, d := s.local(r3.Sub(r.From, s.Center)), s.local(r.Along)
	// Start from where the ray comes into the sphere about the ridges.
	b := r3.Dot(o, d)
	disc := b*b - r3.Dot(o, o) + s.hull()*s.hull()
	if disc <= 0 {
		return 0, 0, false
	}
	t := -b - math.Sqrt(disc)
	k, _ := s.outermost(o.X+t*d.X, o.Y+t*d.Y)
	var q r3.Vec
	var a float64
	for range len(s.Lobes) + 1 {
		var ok bool
		if t, ok = s.enterLobe(o, d, s.Lobes[k]); !ok {
			return 0, 0, false
		}
		q = r3.Vec{X: o.X + t*d.X, Y: o.Y + t*d.Y, Z: o.Z + t*d.Z}
		next, out := s.climb(q.X, q.Y, k)
		a = out
		if next == k {
			break
		}
		k = next
	}
	// A line that misses the ball may come to an end in front of no lobe.
	if !(a*a+q.Z*q.Z <= s.Radius*s.Radius*(1+1e-9)) {
		return 0, 0, false
	}
	z, pole := math.Abs(q.Z), design.PoleAt(q.Z)
	switch flat, dome := s.Flat[pole], s.Dome[pole]; {
	case z > flat:
		return s.enterEnd(o, d, math.Copysign(flat, q.Z))
	case z > dome:
		b, c := r3.Dot(o, d), r3.Dot(o, o)-s.Radius*s.Radius
		if disc := b*b - c; disc > 0 {
			t := -b - math.Sqrt(disc)
			if p := o.Z + t*d.Z; math.Abs(p) >= dome && p*q.Z > 0 {
				return t, Cap, true
			}
		}
		return s.enterEnd(o, d, math.Copysign(dome, q.Z))
	}
	return t, int32(k), true
}

// enterLobe finds where a line comes into the body of one lobe alone.
func (s *Solid) enterLobe(o, d r3.Vec, g r2.Vec) (float64, bool) {
	a, da := o.X*g.X+o.Y*g.Y, d.X*g.X+d.Y*g.Y
	square := da*da + d.Z*d.Z
	half := a*da + o.Z*d.Z
	if square > 1e-18 {
		if disc := half*half - square*(a*a+o.Z*o.Z-s.Radius*s.Radius); disc >= 0 {
			if t := (-half - math.Sqrt(disc)) / square; a+t*da >= 0 {
				return t, true
			}
		} else if a-half/square*da > 0 {
			return 0, false // passes in front
		}
	}
	// Behind the axis the other lobes bound the ball.
	if math.Abs(d.Z) < 1e-9 {
		return -4*s.Radius - norm(o), true
	}
	return max(-4*s.Radius-norm(o), (-math.Copysign(s.Radius, d.Z)-o.Z)/d.Z), true
}

// enterEnd finds where a line comes in by the plane of one end, if that lies
// within the lobes.
func (s *Solid) enterEnd(o, d r3.Vec, height float64) (float64, int32, bool) {
	if d.Z*height > -1e-12 {
		return 0, 0, false
	}
	t := (height - o.Z) / d.Z
	_, a := s.outermost(o.X+t*d.X, o.Y+t*d.Y)
	face := int32(Upper)
	if height < 0 {
		face = Lower
	}
	return t, face, a*a+height*height <= s.Radius*s.Radius
}

// outermost returns the lobe along which a point lies farthest out, and how far.
func (s *Solid) outermost(x, y float64) (int, float64) {
	n := len(s.Lobes)
	k := int(math.Round(math.Atan2(y, x)*float64(n)*(1/(2*math.Pi)))) % n
	if k < 0 {
		k += n
	}
	return k, x*s.Lobes[k].X + y*s.Lobes[k].Y
}

// climb is outermost from a lobe that is near. How far a point lies along the
// lobes rises and falls once round the ball, so that neighbours suffice.
func (s *Solid) climb(x, y float64, k int) (int, float64) {
	n := len(s.Lobes)
	tie := 1e-12 * s.Radius
	a := x*s.Lobes[k].X + y*s.Lobes[k].Y
	for _, step := range [2]int{1, n - 1} {
		for moved := false; ; moved = true {
			next := k + step
			if next >= n {
				next -= n
			}
			g := s.Lobes[next]
			c := x*g.X + y*g.Y
			if c <= a+tie {
				if moved {
					return k, a
				}
				break
			}
			k, a = next, c
		}
	}
	return k, a
}

// meetZoned finds where a ray comes into a ball of rings: what the solid cones
// of its rings and the two half spaces of its discs have in common.
func (s *Solid) meetZoned(r *Ray) (float64, int32, bool) {
	rel := r3.Sub(r.From, s.Center)
	z, dz := r3.Dot(rel, s.Axis), r3.Dot(r.Along, s.Axis)
	qq, qd, dd := r3.Dot(rel, rel)-z*z, r3.Dot(rel, r.Along)-z*dz, 1-dz*dz
	last := int32(len(s.Rings) - 1)
	enter, leave, face, ok := between(z, dz, -s.Radius, s.Radius)
	if !ok {
		return 0, 0, false
	}
	if face == Upper {
		face = last
	} else {
		face = 0
	}
	for k := int32(1); k < last; k++ {
		g := s.Rings[k]
		lo, hi, in := solid.ConeSpan(qq, qd, dd, z, dz, s.Radius/g.X, -g.Y/g.X)
		if !in {
			return 0, 0, false
		}
		if lo > enter {
			enter, face = lo, k
		}
		if leave = min(leave, hi); enter >= leave {
			return 0, 0, false
		}
	}
	return enter, face, true
}
