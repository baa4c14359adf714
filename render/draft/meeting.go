package draft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

// meetings returns the lines where a ball's shell meets that of the ball which
// it rests on, or the post that it is threaded on.
func meetings(p *design.Part) []curve {
	b := p.Ball
	none := [2][]r3.Vec{}
	own := solid.New(p, none)
	var cs []curve
	add := func(other *design.Part, toward r3.Vec) {
		if path := meeting(own, solid.New(other, none), toward); path != nil {
			cs = append(cs, curve{path: path, closed: true, joint: true})
		}
	}
	if b.On != nil && b.On.Ball != nil {
		if to := r3.Sub(b.On.Ball.Center, b.Center); r3.Norm(to) > 0 {
			add(b.On, r3.Unit(to))
		}
	}
	if b.Around != nil && b.Around.Post != nil {
		u := b.Around.Post.Direction
		add(b.Around, u)
		add(b.Around, r3.Scale(-1, u))
	}
	return cs
}

// meeting returns the closed line on the surface of a ball, seen from its centre,
// that lies on another body's surface: on each half plane
// about toward it is where the surface leaves the other body. It is nil where
// the other body does not hold the surface in the direction of toward, or holds
// the half turned that way.
func meeting(own, other *solid.Body, toward r3.Vec) []r3.Vec {
	center, hull := own.Part.Ball.Center, own.Part.Ball.Hull()
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
			_, leave, ok := own.Span(center, d)
			if !ok || leave > 2*hull {
				return center, false
			}
			q = r3.Add(center, r3.Scale(leave, d))
			enter, past, ok := other.Span(q, d)
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

// ringSeams returns the level seams of a ball of zones, from the lower pole up.
func ringSeams(b *design.Ball) [][]r3.Vec {
	side := r3.Cross(b.Pole, b.Prime)
	var seams [][]r3.Vec
	for k := range b.Zones + 1 {
		radius, height := b.RingEdge(k)
		c := circle(r3.Add(b.Center, r3.Scale(height, b.Pole)), r3.Scale(radius, b.Prime), r3.Scale(radius, side))
		seams = append(seams, append(c, c[0]))
	}
	return seams
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
	pole := r3.Dot(b.Pole, toward)
	for k, s := range seams {
		// Which way the faces below and above the edge lean, as latitudes.
		below, above := b.RingLatitude(k-1), b.RingLatitude(k)
		cs = append(cs, facingStretches(s, func(q r3.Vec) bool {
			rel := r3.Sub(q, b.Center)
			out := r3.Dot(r3.Unit(r3.Sub(rel, r3.Scale(r3.Dot(rel, b.Pole), b.Pole))), toward)
			faces := func(latitude float64) bool {
				sin, cos := math.Sincos(latitude)
				return cos*out+sin*pole > 1e-9
			}
			return faces(below) || faces(above)
		})...)
	}
	return cs
}
