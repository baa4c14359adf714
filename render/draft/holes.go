package draft

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/param/design"
)

// holeCurves returns the edges of the holes in a ball or a post, in stretches that face the
// viewer and others. Those that lie in a joint are hidden by what is welded on, and left out.
func holeCurves(p *fab.Part, proj Projection) (cs []curve) {
	_, _, toward := proj.axes()
	for i := range p.Openings {
		o := &p.Openings[i]
		if o.Hole.Joint != nil {
			continue
		}
		facing := func(q r3.Vec) float64 { return r3.Dot(outOf(p.Part, q), toward) }
		switch near, back, turn := halves(o.Edge, facing); {
		case len(turn) == 2:
			cs = append(cs, curve{path: near}, curve{path: back, back: true})
		default:
			cs = append(cs, curve{path: slices.Clone(o.Edge), closed: true, back: middleFacing(o, facing) < 0})
		}
	}
	return cs
}

func middleFacing(o *flat.Opening, facing func(r3.Vec) float64) (sum float64) {
	for _, q := range o.Edge {
		sum += facing(q)
	}
	return sum
}

// outOf returns the direction out of a ball or a post at a point of its wall.
func outOf(p *design.Part, q r3.Vec) r3.Vec {
	if p.Ball != nil {
		return r3.Sub(q, p.Ball.Center)
	}
	rel := r3.Sub(q, p.Post.Ends[design.Foot].At)
	radial := r3.Unit(r3.Sub(rel, r3.Scale(r3.Dot(rel, p.Post.Direction), p.Post.Direction)))
	return r3.Sub(radial, r3.Scale(p.Post.Slope(), p.Post.Direction))
}
