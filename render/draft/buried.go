package draft

import (
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/render/ink"
)

// buried is how far under the ground, in mm, a point counts as in it, where nobody sees
// it.
const buried = 0.01

// inGround returns the lines of what of a part lies in the ground: a footing under a base,
// the concrete about a post and the tube in it.
func inGround(p *design.Part, proj Projection) []curve {
	switch {
	case p.Base != nil && p.Base.Footing.Given():
		k := p.Base.Footing
		if proj == Plan {
			return []curve{{path: level(k.Outline().Corners, 0), closed: true}}
		}
		return standing(k.Outline(), proj, -k.Height, 0)
	case p.Post != nil && p.Post.Sunk > 0:
		post := p.Post
		c, r := post.PierAt(), post.Pier/2
		if proj == Plan {
			at := r3.Vec{X: c.X, Y: c.Y}
			return []curve{{path: circle(at, r3.Vec{X: r}, r3.Vec{Y: r}), closed: true, center: at, round: r}}
		}
		right, _, _ := proj.axes()
		side := func(at r3.Vec, r, z float64) r3.Vec {
			q := r3.Add(at, r3.Scale(r, right))
			q.Z = z
			return q
		}
		around := r3.Vec{X: c.X, Y: c.Y}
		out := []curve{{path: []r3.Vec{side(around, -r, 0), side(around, -r, -post.Sunk), side(around, r, -post.Sunk), side(around, r, 0)}}}
		foot := post.Ends[design.Foot].At
		deep := r3.Sub(foot, r3.Scale(post.Sunk/post.Direction.Z, post.Direction))
		top := post.Ends[design.Foot].Diameter / 2
		under := post.DiameterAt(-post.Sunk/post.Direction.Z) / 2
		for _, way := range [2]float64{-1, 1} {
			out = append(out, curve{path: []r3.Vec{side(foot, way*top, 0), side(deep, way*under, -post.Sunk)}})
		}
		return out
	}
	return nil
}

// InGround draws what lies in the ground, by hidden lines.
func (d *Drawing) InGround(s *Scene, v View) {
	for i := range s.parts {
		for _, c := range inGround(s.parts[i].Part, v.Projection) {
			l := Line{Part: i, Path: v.path(c.path), Closed: c.closed, Center: v.At(c.center), Radius: c.round * v.Scale}
			d.put(l.item(ink.Hidden), i)
		}
	}
}
