package cast

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/flat"
	"stabile/param/design"
)

// A Bite is a hole through a wall of a hollow solid: by it a ray comes in, and goes out by
// another.
type Bite struct {
	At, Way r3.Vec  // a point of its axis on the outside, and the unit vector out along it
	Half    r3.Vec  // half of the line between the middles of its round ends
	Radius  float64 // mm, of those
	Area    float64 // mm2
}

// bitesOf returns the holes of a part that are seen.
func bitesOf(list []flat.Opening) (bites []Bite) {
	for i := range list {
		o := &list[i]
		if o.Hole.Joint != nil || len(o.Edge) == 0 {
			continue
		}
		b := Bite{Way: o.Way, Area: o.Hole.Area()}
		b.Half, b.Radius = o.Hole.Core()
		for _, q := range o.Edge {
			b.At = r3.Add(b.At, r3.Scale(1/float64(len(o.Edge)), q))
		}
		// Its middle seen along the axis is that of the hole.
		b.At = r3.Add(b.At, b.aside(o.Hole.At))
		bites = append(bites, b)
	}
	return bites
}

// beside returns how far a point lies beside the hole, looked at along its axis; negative
// within, infinite where the point is on the far side of the part.
func (b *Bite) beside(p, middle r3.Vec) float64 {
	if r3.Dot(r3.Sub(p, middle), b.Way) <= 0 {
		return math.Inf(1)
	}
	return norm(b.fromCore(p)) - b.Radius
}

// aside returns the way to a point from the axis, square to it.
func (b *Bite) aside(p r3.Vec) r3.Vec {
	rel := r3.Sub(p, b.At)
	return r3.Sub(rel, r3.Scale(r3.Dot(rel, b.Way), b.Way))
}

// fromCore returns the way to a point, square to the axis, from the nearest point of the
// line between the middles of the round ends.
func (b *Bite) fromCore(p r3.Vec) r3.Vec {
	rel := b.aside(p)
	if n := r3.Dot(b.Half, b.Half); n > 0 {
		u := max(-1, min(1, r3.Dot(rel, b.Half)/n))
		rel = r3.Sub(rel, r3.Scale(u, b.Half))
	}
	return rel
}

// Rim is the face of the edge of the first hole; that of the next is one less.
const Rim = -100

// bitten returns which hole a point of the wall lies in, or -1.
func (s *Solid) bitten(p r3.Vec) int {
	middle := s.Center
	if s.Kind == Tube {
		middle = r3.Add(s.Center, r3.Scale(r3.Dot(r3.Sub(p, s.Center), s.Axis), s.Axis))
	}
	for i := range s.Bites {
		if s.Bites[i].beside(p, middle) < 0 {
			return i
		}
	}
	return -1
}

// into goes on with a ray that meets the solid's outside, or from within its bore: by a hole
// it comes in, to the inside of the wall opposite, or out again by another hole.
func (s *Solid) into(r *Ray, t float64, face int32) (float64, int32, bool) {
	if s.Kind == Tube && (face == Foot || face == Head) {
		return t, face, true
	}
	p := r.At(t)
	i := s.bitten(p)
	switch {
	case i < 0:
		return t, face, true
	case face == Bore:
		if u := t + s.Sheet/max(0.05, -r3.Dot(r.Along, s.Normal(p, face))); s.bitten(r.At(u)) < 0 {
			return t, face, true // into the edge of the sheet
		}
		return 0, 0, false // out by a hole
	}
	// The edge of the sheet, where the ray runs into it.
	depth := s.across(r, t, 1, face)
	bite, middle := &s.Bites[i], r3.Sub(p, r3.Scale(1e3*s.Hull, s.Bites[i].Way))
	if bite.beside(r.At(t+depth), middle) > 0 {
		return edge(t, t+depth, func(u float64) bool { return bite.beside(r.At(u), middle) < 0 }), Rim - int32(i), true
	}
	// On to where it leaves the outside.
	closed := *s
	closed.Open = [2]bool{}
	leave, out, ok := closed.leave(r)
	if !ok {
		return t, face, true
	}
	if s.Kind == Tube && (out == Foot || out == Head) {
		if s.Open[out-Foot] {
			return 0, 0, false
		}
		return leave, Bore, true
	}
	inside := max(t+depth, leave-s.across(r, leave, -1, out))
	i = s.bitten(r.At(inside))
	switch {
	case i < 0:
		return inside, Bore, true
	case s.bitten(r.At(leave)) >= 0:
		return 0, 0, false
	}
	return edge(inside, leave, func(u float64) bool { return s.bitten(r.At(u)) >= 0 }), Rim - int32(i), true
}

// edge returns where a ray that is in a hole at one distance, and in the sheet at another,
// runs into the edge of the sheet.
func edge(hole, sheet float64, open func(float64) bool) float64 {
	for range 12 {
		if m := (hole + sheet) / 2; open(m) {
			hole = m
		} else {
			sheet = m
		}
	}
	return sheet
}

// across returns how far a ray goes through the thickness of the wall from where it meets its
// outside at t: on from there, or back where way is -1. Flat ends count as the sphere.
func (s *Solid) across(r *Ray, t, way float64, face int32) float64 {
	n := s.Normal(r.At(t), face)
	slant := max(0.05, math.Abs(r3.Dot(r.Along, n)))
	depth := s.Sheet / slant
	if s.Kind != Tube && s.Kind != Sphere {
		return depth
	}
	for range 4 {
		rel := r3.Sub(r.At(t+way*depth), s.Center)
		radius := s.Radius
		if s.Kind == Tube {
			z := r3.Dot(rel, s.Axis)
			radius += s.Slope * z
			rel = r3.Sub(rel, r3.Scale(z, s.Axis))
		}
		depth += (s.Sheet - (radius - norm(rel))) / slant
	}
	return max(0, depth)
}

// rimNormal returns the normal of the edge of a hole.
func (s *Solid) rimNormal(p r3.Vec, face int32) r3.Vec {
	return r3.Scale(-1, unit(s.Bites[Rim-face].fromCore(p)))
}

// Lit returns the share of all directions over a point of the inside that holes leave open to
// the light, near enough: each by its area and its slant, and what the wall sends to and fro
// of the light of all of them, of which it sends back a share.
func (s *Solid) Lit(p, normal r3.Vec, back float64) float64 {
	direct, all := 0.0, 0.0
	for i := range s.Bites {
		b := &s.Bites[i]
		to := r3.Sub(b.At, p)
		d := max(norm(to), b.Radius)
		slant := max(0, r3.Dot(to, normal)/d) * math.Abs(r3.Dot(to, b.Way)) / d
		direct += b.Area * slant / (math.Pi*d*d + b.Area)
		all += b.Area
	}
	wall := 4 * math.Pi * s.Radius * s.Radius
	if s.Kind == Tube {
		wall = 2 * math.Pi * s.Radius * s.Length
	}
	open := min(1, all/wall)
	return min(1, direct+open*back/(1-back*(1-open)))
}

// hollow gives the solid the holes of its part.
func (s *Solid) hollow(p *design.Part, list []flat.Opening) {
	if p.Metal != nil {
		s.Sheet = p.Metal.Thickness
	}
	s.Bites = bitesOf(list)
}
