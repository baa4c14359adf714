package draft

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/render/ink"
)

// bowlCurves returns a bowl's outline, its rim, and its seams where they are seen: those
// outside, and through its mouth those within.
func bowlCurves(p *design.Part, sh *shell, proj Projection) []curve {
	b := p.Ball
	right, up, toward := proj.axes()
	outer := bowlRim(b, b.Radius)
	all := outer
	for i := range turns {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / turns)
		way := r3.Add(r3.Scale(cos, right), r3.Scale(sin, up))
		all = append(all, r3.Add(b.Center, p.Farthest(way)))
	}
	cs := []curve{{path: hull(all, proj), closed: true}}
	thick := 0.0
	if p.Metal != nil {
		thick = p.Metal.Thickness
	}
	mouth := r3.Dot(b.Pole, toward)
	if mouth > levelMouth {
		cs = append(cs, curve{path: outer, closed: true}, curve{path: bowlRim(b, b.Radius-thick), closed: true})
	}
	// Seams lie on the outside, or seen from above on the inside, a thickness further in.
	within := r3.Scale(-thick, b.Pole)
	seams := slices.Clip(sh.seams)
	for _, e := range sh.edges {
		seams = append(seams, e.path)
	}
	for _, s := range seams {
		cs = append(cs, facingStretches(s, func(q r3.Vec) bool { return r3.Dot(r3.Sub(q, b.Center), toward) > 0 })...)
		if mouth <= levelMouth {
			continue
		}
		for _, c := range facingStretches(s, func(q r3.Vec) bool {
			rel := r3.Sub(r3.Sub(q, within), b.Center)
			// Up the line of sight to the rim's plane.
			t := (b.RimHeight() - r3.Dot(rel, b.Pole)) / mouth
			at := r3.Sub(r3.Add(rel, r3.Scale(t, toward)), r3.Scale(b.RimHeight(), b.Pole))
			return t >= 0 && r3.Norm(at) <= b.RimRadius()-thick && r3.Dot(rel, toward) < 0
		}) {
			c.line = ink.Seam
			cs = append(cs, c)
		}
	}
	return cs
}

// levelMouth is the sine between the rim's plane and the line of sight up to which a mouth
// is seen as a line.
const levelMouth = 1e-3

// bowlRim returns the edge of a bowl's rim at a radius of its ball: with a corner at each
// ridge of rolled gores.
func bowlRim(b *design.Ball, radius float64) []r3.Vec {
	cos := math.Cos(b.Rim)
	middle := r3.Add(b.Center, r3.Scale(b.RimHeight(), b.Pole))
	if !b.IsLobed() {
		return circle(middle, r3.Scale(radius*cos, b.Prime), r3.Scale(radius*cos, r3.Cross(b.Pole, b.Prime)))
	}
	path := make([]r3.Vec, b.Gores)
	for k := range path {
		m := b.Meridian((2*float64(k) + 1) * math.Pi / float64(b.Gores))
		path[k] = r3.Add(middle, r3.Scale(radius*cos/math.Cos(math.Pi/float64(b.Gores)), m))
	}
	return path
}
