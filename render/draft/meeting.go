package draft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// ballSolid returns a ball as the solid that its outside encloses, taken smaller
// all round by less.
func ballSolid(b *design.Ball, less float64) (s solid, reach float64) {
	switch {
	case b.Build == design.RolledGores && b.Gores > 0:
		return newLobes(b, b.Radius-less), b.Radius / math.Cos(math.Pi/float64(b.Gores))
	case b.Build == design.Zones && b.Zones > 0:
		return newRings(b, less), b.Radius / math.Cos(zoneStep(b)/2)
	}
	return sphere{b.Center, b.Radius - less}, b.Radius
}

// meetings returns the lines where a ball's shell meets that of the ball which
// it rests on, or the post that it is threaded on.
func meetings(b *design.Ball) []curve {
	own, reach := ballSolid(b, 0)
	var cs []curve
	add := func(other solid, toward r3.Vec) {
		if path := meeting(own, reach, b.Center, other, toward); path != nil {
			cs = append(cs, curve{path: path, closed: true, joint: true})
		}
	}
	if b.On != nil && b.On.Ball != nil {
		other, _ := ballSolid(b.On.Ball, 0)
		if to := r3.Sub(b.On.Ball.Center, b.Center); r3.Norm(to) > 0 {
			add(other, r3.Unit(to))
		}
	}
	if b.Around != nil && b.Around.Post != nil {
		p := b.Around.Post
		f := frustum{foot: p.Ends[design.Foot].At, along: p.Direction, length: p.Length, r0: p.Ends[design.Foot].Diameter / 2, slope: (p.Ends[design.Head].Diameter - p.Ends[design.Foot].Diameter) / 2 / p.Length}
		add(f, p.Direction)
		add(f, r3.Scale(-1, p.Direction))
	}
	return cs
}

// meeting returns the closed line on the surface of a convex body, seen from a
// point within it, that lies on another body's surface: on each half plane
// about toward it is where the surface leaves the other body. It is nil where
// the other body does not hold the surface in the direction of toward, or holds
// the half turned that way.
func meeting(own solid, reach float64, center r3.Vec, other solid, toward r3.Vec) []r3.Vec {
	a, _ := design.Tilt(toward)
	a = r3.Unit(r3.Sub(a, r3.Scale(r3.Dot(a, toward), toward)))
	b := r3.Cross(toward, a)
	path := make([]r3.Vec, turns)
	for i := range path {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / turns)
		side := r3.Add(r3.Scale(cos, a), r3.Scale(sin, b))
		at := func(psi float64) (q r3.Vec, in bool) {
			s, c := math.Sincos(psi)
			d := r3.Add(r3.Scale(c, toward), r3.Scale(s, side))
			_, leave, ok := own.span(center, d)
			if !ok || leave > 2*reach {
				return center, false
			}
			q = r3.Add(center, r3.Scale(leave, d))
			enter, past, ok := other.span(q, d)
			return q, ok && enter <= 0 && past >= 0
		}
		lo, hi := 0.0, math.Pi/2
		if _, in := at(lo); !in {
			return nil
		}
		if _, in := at(hi); in {
			return nil
		}
		for range 40 {
			m := (lo + hi) / 2
			if _, in := at(m); in {
				lo = m
			} else {
				hi = m
			}
		}
		path[i], _ = at(lo)
	}
	return path
}

// zoneStep returns the latitude, in rad, that each ring of a ball of zones takes
// up; the two discs at the poles take up as much together.
func zoneStep(b *design.Ball) float64 { return math.Pi / float64(b.Zones+1) }

// ringAt returns the radius of edge k of the rings of a ball of zones, from the
// lower pole up, and its height along the pole from the centre: the corners of
// the polygon about the sphere.
func ringAt(b *design.Ball, k int) (radius, height float64) {
	step := zoneStep(b)
	sin, cos := math.Sincos(step*(float64(k)+0.5) - math.Pi/2)
	corner := b.Radius / math.Cos(step/2)
	return corner * cos, corner * sin
}

// ringSeams returns the level seams of a ball of zones, from the lower pole up.
func ringSeams(b *design.Ball) [][]r3.Vec {
	side := r3.Cross(b.Pole, b.Prime)
	var seams [][]r3.Vec
	for k := range b.Zones + 1 {
		radius, height := ringAt(b, k)
		c := circle(r3.Add(b.Center, r3.Scale(height, b.Pole)), r3.Scale(radius, b.Prime), r3.Scale(radius, side))
		seams = append(seams, append(c, c[0]))
	}
	return seams
}

// rings is a ball of zones: its rings one on the other.
type rings []frustum

func newRings(b *design.Ball, less float64) rings {
	var r rings
	for k := range b.Zones {
		r0, h0 := ringAt(b, k)
		r1, h1 := ringAt(b, k+1)
		// The lowest and the highest ring end at the discs.
		if k == 0 {
			h0 += less
		}
		if k == b.Zones-1 {
			h1 -= less
		}
		r = append(r, frustum{
			foot: r3.Add(b.Center, r3.Scale(h0, b.Pole)), along: b.Pole,
			length: h1 - h0, r0: r0 - less, slope: (r1 - r0) / (h1 - h0),
		})
	}
	return r
}

// span is from the first ring's to the last's: the ball is convex.
func (r rings) span(p, d r3.Vec) (enter, leave float64, ok bool) {
	enter, leave = math.Inf(1), math.Inf(-1)
	for i := range r {
		if e, l, in := r[i].span(p, d); in {
			enter, leave, ok = min(enter, e), max(leave, l), true
		}
	}
	return enter, leave, ok
}

// zoneCurves returns the outline of a ball of zones and the seams of its rings
// that are seen: those that a ring or disc on either side faces the viewer at.
func zoneCurves(b *design.Ball, proj Projection, seams [][]r3.Vec) []curve {
	_, _, toward := proj.axes()
	var all []r3.Vec
	for _, s := range seams {
		all = append(all, s...)
	}
	cs := []curve{{path: hull(all, proj), closed: true}}
	step := zoneStep(b)
	pole := r3.Dot(b.Pole, toward)
	for k, s := range seams {
		// The middles of the faces below and above the edge, as latitudes.
		below := step*float64(k) - math.Pi/2
		cs = append(cs, facingStretches(s, func(q r3.Vec) bool {
			rel := r3.Sub(q, b.Center)
			out := r3.Dot(r3.Unit(r3.Sub(rel, r3.Scale(r3.Dot(rel, b.Pole), b.Pole))), toward)
			faces := func(latitude float64) bool {
				sin, cos := math.Sincos(latitude)
				return cos*out+sin*pole > 1e-9
			}
			return faces(below) || faces(below+step)
		})...)
	}
	return cs
}
