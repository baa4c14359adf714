package cast

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Cover returns the share, from 0 to 1, of a cone of directions from p about d
// that the solid covers, tan being the tangent of half the cone's angle. The
// solid is convex and p outside of it. It is worked out on the plane square to d
// at the solid's distance, where the cone is a disc and the solid a figure
// between parallel lines: exact far within and far without, and smooth between,
// so that the edge of a shadow has neither noise nor bands.
func (s *Solid) Cover(p, d r3.Vec, tan float64) float64 {
	rel := r3.Sub(s.Middle, p)
	t := r3.Dot(rel, d)
	if t <= -s.Hull {
		return 0
	}
	perp2 := r3.Dot(rel, rel) - t*t
	reach := s.Hull + (t+s.Hull)*tan
	if perp2 >= reach*reach {
		return 0
	}
	switch s.Kind {
	case Tube:
		return s.coverTube(p, d, tan)
	case Box:
		return s.coverBox(p, d, tan)
	}
	if t <= 0 {
		return 0
	}
	w := t * tan
	perp := math.Sqrt(max(0, perp2))
	radius := s.Radius
	if s.Stretch > 0 {
		radius *= min(1, s.Stretch)
	}
	if (s.Kind != Sphere || s.Stretch > 0) && s.Hull-radius > 0.01*w && perp > radius-w {
		radius = perp - s.beside(rel, d, perp)
	}
	return discs(perp, radius, w)
}

// discs returns the share of a disc of radius w that is covered by one of
// radius r at a distance between their centres: of two of a size the lens that
// they share, else as of a straight edge.
func discs(apart, r, w float64) float64 {
	switch {
	case apart >= r+w || r <= 0:
		return 0
	case apart <= r-w:
		return 1
	case apart <= w-r:
		return (r / w) * (r / w)
	case r > 3*w:
		return step((r + w - apart) / (2 * w))
	}
	dd, rr, ww := apart*apart, r*r, w*w
	a := math.Acos(min(max((dd+rr-ww)/(2*apart*r), -1), 1))
	b := math.Acos(min(max((dd+ww-rr)/(2*apart*w), -1), 1))
	kite := math.Sqrt(max(0, (r+w-apart)*(apart+r-w)*(apart-r+w)*(apart+r+w))) / 2
	return (rr*a + ww*b - kite) / (math.Pi * ww)
}

// step rises smoothly from 0 to 1.
func step(x float64) float64 {
	x = min(max(x, 0), 1)
	return x * x * (3 - 2*x)
}

// strip returns the share of a disc of radius w about 0 that lies between two
// parallel lines.
func strip(low, high, w float64) float64 {
	return step(0.5+0.5*high/w) - step(0.5+0.5*low/w)
}

// beside returns how far a line along d passes outside of the outline of a lobed
// or zoned ball, of which rel is the middle seen from it; less than 0 within.
// The outline is convex, so that this is the greatest distance over all
// directions from the middle, and the greatest is near the line's own.
func (s *Solid) beside(rel, d r3.Vec, perp float64) float64 {
	if perp < 1e-9 {
		return -s.Radius
	}
	m := r3.Scale(-1, r3.Sub(rel, r3.Scale(r3.Dot(rel, d), d)))
	x := r3.Scale(1/perp, m)
	y := r3.Cross(d, x)
	lx, ly := s.local(x), s.local(y)
	over := func(a float64) float64 {
		// Sine and cosine of a small angle.
		sin, cos := a*(1-a*a/6), 1-a*a/2
		e := r3.Vec{X: cos*lx.X + sin*ly.X, Y: cos*lx.Y + sin*ly.Y, Z: cos*lx.Z + sin*ly.Z}
		return perp*cos - s.support(e)
	}
	// Steps to either side, halved about the best.
	step := 0.5 * math.Pi / float64(max(len(s.Lobes), len(s.Rings), 4))
	at, best, steps := 0.0, over(0), 4
	if s.Stretch > 0 {
		steps = 7
	}
	for k := 0; k < steps; k++ {
		for _, a := range [2]float64{at - step, at + step} {
			if d := over(a); d > best {
				at, best = a, d
			}
		}
		if k > 0 {
			step /= 2
		}
	}
	return best
}

// support returns how far a lobed or zoned ball reaches from its middle in a
// direction in its own axes. Flats are left out.
func (s *Solid) support(e r3.Vec) float64 {
	if s.Stretch > 0 {
		e.Z *= s.Stretch
		long := norm(e)
		return long * s.roundSupport(r3.Scale(1/long, e))
	}
	return s.roundSupport(e)
}

func (s *Solid) roundSupport(e r3.Vec) float64 {
	if s.Kind == Sphere {
		return s.Radius
	}
	level := math.Sqrt(e.X*e.X + e.Y*e.Y)
	if s.Kind == Lobed {
		// The ridges are ellipses about the pole, half way between the lobes.
		half := math.Pi / float64(len(s.Lobes))
		off := math.Mod(math.Abs(math.Atan2(e.Y, e.X)), 2*half) - half
		ridge := s.hull() * level * math.Cos(off)
		return math.Sqrt(ridge*ridge + s.Radius*s.Radius*e.Z*e.Z)
	}
	// The edges are circles about the pole, half way between the rings.
	latitude := math.Atan2(e.Z, level) + math.Pi/2
	width := math.Pi / float64(len(s.Rings)-1)
	off := math.Mod(latitude, width) - width/2
	return s.hull() * math.Cos(off)
}

// narrow is the tangent up to which a cone is as the sun's, in which a solid is
// or is not.
const narrow = 0.06

func (s *Solid) coverTube(p, d r3.Vec, tan float64) float64 {
	if s.Reach[1]-s.Reach[0] < s.Radius {
		return s.coverDisc(p, d, tan)
	}
	if tan > narrow {
		return s.coverTubeWide(p, d, tan)
	}
	cos := r3.Dot(d, s.Axis)
	n := r3.Cross(d, s.Axis)
	sin := norm(n)
	rel := r3.Sub(s.Center, p)
	if sin < endOn {
		z := s.Reach[0]
		if cos < 0 {
			z = s.Reach[1]
		}
		c := r3.Add(rel, r3.Scale(z, s.Axis))
		t := r3.Dot(c, d)
		if t <= 0 {
			return 0
		}
		return discs(norm(r3.Sub(c, r3.Scale(t, d))), s.Radius+s.Slope*z, t*tan)
	}
	e1 := r3.Scale(1/sin, n)
	e2 := r3.Cross(d, e1) // against the axis as it is seen
	beside, y := r3.Dot(rel, e1), r3.Dot(rel, e2)
	// Where the axis is seen nearest to d.
	z := min(max(y/sin, s.Reach[0]), s.Reach[1])
	t := r3.Dot(rel, d) + z*cos
	if t <= 0 {
		return 0
	}
	w := t * tan
	r := s.Radius + s.Slope*z
	if math.Abs(beside) >= r+w {
		return 0
	}
	a, b := y-s.Reach[0]*sin, y-s.Reach[1]*sin
	// The ends are seen as ellipses.
	bow := beside / r
	over := r * math.Abs(cos) * math.Sqrt(max(0, 1-bow*bow))
	return strip(beside-r, beside+r, w) * strip(min(a, b)-over, max(a, b)+over, w)
}

// endOn is the sine under which a tube is seen end on.
const endOn = 0.02

// coverTubeWide is that of a wide cone, in which one end of the tube may be near
// and the other far: the most that a ball of the tube's radius covers, at some
// places along its axis, drawn out along it where the cone is wider.
func (s *Solid) coverTubeWide(p, d r3.Vec, tan float64) float64 {
	rel := r3.Sub(s.Center, p)
	a, cos := r3.Dot(rel, d), r3.Dot(d, s.Axis)
	c, along := r3.Dot(rel, rel), r3.Dot(rel, s.Axis)
	low, high := s.Reach[0], s.Reach[1]
	if c-along*along < s.Radius*s.Radius && -along > low-s.Radius && -along < high+s.Radius {
		return 0 // p is within the tube, or under its foot
	}
	// The place with the least angle to d is where (a + cos z) / sqrt(c + 2
	// along z + z^2) is greatest.
	least := low
	if q := cos*along - a; math.Abs(q) > 1e-9*s.Hull {
		least = min(max((a*along-cos*c)/q, low), high)
	}
	best := 0.0
	for _, z := range [5]float64{least, min(max(-along, low), high), low, (low + high) / 2, high} {
		t := a + cos*z
		if t <= 0 {
			continue
		}
		// What is nearly abreast of p comes in by degrees.
		square := c + z*(2*along+z)
		front := step((t/math.Sqrt(square) - 0.05) / 0.45)
		if front <= best {
			continue
		}
		r, w := s.Radius+s.Slope*z, t*tan
		share := front * discs(math.Sqrt(max(0, square-t*t)), r, w)
		if r < w {
			share *= w / max(r, 1e-3*w)
		}
		best = max(best, share)
	}
	return best
}

// coverDisc is that of a tube which is wider than long, such as a round plate.
func (s *Solid) coverDisc(p, d r3.Vec, tan float64) float64 {
	half := (s.Reach[1] - s.Reach[0]) / 2
	rel := r3.Sub(s.Middle, p)
	z := -r3.Dot(rel, s.Axis) // of p
	out := r3.Sub(r3.Scale(-z, s.Axis), rel)
	rho := norm(out)
	// Seen from outside of a face, or of the rim, nothing rises over its plane.
	share := 1.0
	if math.Abs(z) > half {
		share = step(0.5 - 0.5*math.Copysign(1, z)*r3.Dot(s.Axis, d)/tan)
	}
	if rho > s.Radius {
		share *= step(0.5 - 0.5*r3.Dot(out, d)/(rho*tan))
	}
	if share == 0 {
		return 0
	}
	t := math.Sqrt(max(0, rho-s.Radius)*max(0, rho-s.Radius)+max(0, math.Abs(z)-half)*max(0, math.Abs(z)-half)) + half
	w := t * tan
	m := r3.Sub(r3.Scale(r3.Dot(rel, d), d), rel)
	perp := norm(m)
	if perp < 1e-9 {
		return share
	}
	// The outline is convex: see beside.
	x := r3.Scale(1/perp, m)
	y := r3.Cross(d, x)
	ax, ay := r3.Dot(x, s.Axis), r3.Dot(y, s.Axis)
	over := func(a float64) float64 {
		sin, cos := math.Sincos(a)
		along := cos*ax + sin*ay
		return perp*cos - s.Radius*math.Sqrt(max(0, 1-along*along)) - half*math.Abs(along)
	}
	at, best := 0.0, over(0)
	for turn := 0.6; turn > 0.05; turn /= 2 {
		for _, a := range [2]float64{at - turn, at + turn} {
			if o := over(a); o > best {
				at, best = a, o
			}
		}
	}
	return share * step(0.5-0.5*best/w)
}

func (s *Solid) coverBox(p, d r3.Vec, tan float64) float64 {
	rel := r3.Sub(s.Center, p)
	h := s.Half
	gap := r3.Vec{X: math.Abs(rel.X) - h.X, Y: math.Abs(rel.Y) - h.Y, Z: math.Abs(rel.Z) - h.Z}
	t := norm(r3.Vec{X: max(gap.X, 0), Y: max(gap.Y, 0), Z: max(gap.Z, 0)}) + min(h.X, h.Y, h.Z)
	w := t * tan
	share := 1.0
	for i := range 3 {
		// Seen from outside of a face nothing of the box rises over its plane.
		var g, toward float64
		var e r3.Vec
		switch i {
		case 0:
			g, toward, e = gap.X, math.Copysign(1, rel.X)*d.X, r3.Vec{Y: d.Z, Z: -d.Y}
		case 1:
			g, toward, e = gap.Y, math.Copysign(1, rel.Y)*d.Y, r3.Vec{X: -d.Z, Z: d.X}
		default:
			g, toward, e = gap.Z, math.Copysign(1, rel.Z)*d.Z, r3.Vec{X: d.Y, Y: -d.X}
		}
		if g > 0 {
			share *= step(0.5 + 0.5*toward/tan)
		}
		if l := norm(e); l > 1e-6 {
			e = r3.Scale(1/l, e)
			o := r3.Dot(rel, e)
			half := h.X*math.Abs(e.X) + h.Y*math.Abs(e.Y) + h.Z*math.Abs(e.Z)
			share *= strip(o-half, o+half, w)
		}
		if share == 0 {
			return 0
		}
	}
	if len(s.Sides) > 0 && share > 0 {
		share *= s.coverSides(p, d, tan)
	}
	return share
}

// coverSides returns the share of a cone that passes within the sides of a plate,
// where its middle passes between its two faces.
func (s *Solid) coverSides(p, d r3.Vec, tan float64) float64 {
	low, high := (s.Low.Z-p.Z)/d.Z, (s.High.Z-p.Z)/d.Z
	if math.Abs(d.Z) < 1e-6 {
		low = r3.Dot(r3.Sub(s.Center, p), d)
		high = low
	}
	t := (max(0, min(low, high)) + max(0, low, high)) / 2
	q := r3.Add(p, r3.Scale(t, d))
	out := -far
	for _, side := range s.Sides {
		out = max(out, r3.Dot(q, side.Normal)-side.Height)
	}
	return step(0.5 - 0.5*out/max(t*tan, 1e-3))
}

// Covers calls tell for each solid, but one, that covers some of a cone, the
// nearer ones about first. It goes on as long as tell returns true.
func (w *World) Covers(p, d r3.Vec, tan float64, but int32, tell func(solid int32, share float64) bool) {
	if len(w.nodes) == 0 {
		return
	}
	var stack [depth]int32
	top := 1
	for top > 0 {
		top--
		at := stack[top]
		n := &w.nodes[at]
		rel := r3.Sub(n.middle, p)
		t := r3.Dot(rel, d)
		if t <= -n.radius {
			continue
		}
		if reach := n.radius + (t+n.radius)*tan; r3.Dot(rel, rel)-t*t >= reach*reach {
			continue
		}
		if n.second != 0 {
			near, later := at+1, n.second
			if r3.Dot(r3.Sub(w.nodes[near].middle, w.nodes[later].middle), d) > 0 {
				near, later = later, near
			}
			stack[top], stack[top+1] = later, near
			top += 2
			continue
		}
		for _, i := range w.order[n.from:n.to] {
			if i == but {
				continue
			}
			if share := w.Solids[i].Cover(p, d, tan); share > 0 && !tell(i, share) {
				return
			}
		}
	}
}
