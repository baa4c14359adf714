package draft

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A capEdge is the edge of a cap that closes the gores of a ball.
type capEdge struct {
	pole   int
	out    r3.Vec // unit vector along the pole to this cap
	height float64
	path   []r3.Vec // closed, its first point the last again
}

// capEdges returns the edges of a ball's two caps, or of the one of a bowl, or none.
func capEdges(p *design.Part) []capEdge {
	b := p.Ball
	if b.Caps <= 0 || b.Gores == 0 || b.Build != design.RolledGores && b.Build != design.DomedGores {
		return nil
	}
	side := r3.Cross(b.Pole, b.Prime)
	var edges []capEdge
	for pole, sign := range design.Poles {
		if b.Bowl && pole == design.UpperPole {
			continue // open there
		}
		sin, cos := math.Sincos(b.Profile().Drawn(p.CapLatitude(pole)))
		e := capEdge{pole: pole, out: r3.Scale(sign, b.Pole), height: b.Polar() * sin}
		c := circle(r3.Add(b.Center, r3.Scale(e.height, e.out)), r3.Scale(b.Radius*cos, b.Prime), r3.Scale(b.Radius*cos, side))
		if b.Straight {
			c = c[:0]
			for k := range b.Gores {
				m := b.Meridian((2*float64(k) + 1) * math.Pi / float64(b.Gores))
				c = append(c, r3.Add(r3.Add(b.Center, r3.Scale(e.height, e.out)), r3.Scale(b.Ridge()*cos, m)))
			}
		}
		e.path = append(c, c[0])
		edges = append(edges, e)
	}
	return edges
}

// capCurves returns the seams round a ball's caps where they are seen. A cap is
// dished to the sphere, so that its edge faces the way that the sphere does there.
func capCurves(p *design.Part, sh *shell, proj Projection) []curve {
	_, _, toward := proj.axes()
	var cs []curve
	for _, e := range sh.edges {
		cs = append(cs, facingStretches(e.path, func(q r3.Vec) bool {
			return r3.Dot(p.Ball.Normal(r3.Sub(q, p.Ball.Center)), toward) > 0
		})...)
	}
	return cs
}

// domed returns points of a dished cap's edge, and of its silhouette in a view:
// the part of the sphere's that lies beyond the edge.
func domed(b *design.Ball, e capEdge, proj Projection) []r3.Vec {
	right, up, _ := proj.axes()
	points := slices.Clip(e.path)
	for _, q := range circle(b.Center, r3.Scale(b.Radius, right), r3.Scale(b.Radius, up)) {
		if r3.Dot(r3.Sub(q, b.Center), e.out) > e.height {
			points = append(points, q)
		}
	}
	return points
}

// lobedCap returns points of the ridges that a cap with straight sides carries on to the
// pole, or to where it is flat.
func lobedCap(p *design.Part, e capEdge) []r3.Vec {
	b := p.Ball
	points := slices.Clip(e.path)
	from, to := b.Profile().Drawn(p.CapLatitude(e.pole)), p.RidgeLatitude(e.pole)
	const steps = 8
	for k := range b.Gores {
		m := b.Meridian((2*float64(k) + 1) * math.Pi / float64(b.Gores))
		for i := 1; i <= steps; i++ {
			sin, cos := math.Sincos(from + (to-from)*float64(i)/steps)
			points = append(points, r3.Add(b.Center, r3.Add(r3.Scale(b.Ridge()*cos, m), r3.Scale(b.Polar()*sin, e.out))))
		}
	}
	return points
}
