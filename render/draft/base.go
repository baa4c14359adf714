package draft

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/design"
)

// baseCurves returns the lines of a base of any kind: its outline in plan, with
// its holes, and in an elevation the near side with the edges that are seen in it.
func baseCurves(p *fab.Part, proj Projection) []curve {
	b := p.Base
	o := b.Outline()
	if b.OnWall() {
		return wallCurves(p, proj)
	}
	var cs []curve
	if k := b.Block; k.Given() {
		o := k.Outline()
		if proj == Plan {
			cs = append(cs, curve{path: level(o.Corners, k.Height), closed: true})
		} else {
			cs = append(cs, standing(o, proj, 0, k.Height)...)
		}
	}
	switch {
	case proj == Plan && o.IsRound():
		center := r3.Vec{Z: b.Top}
		cs = append(cs, curve{path: circle(center, r3.Vec{X: o.Radius}, r3.Vec{Y: o.Radius}), closed: true, center: center, round: o.Radius})
	case proj == Plan:
		cs = append(cs, curve{path: level(o.Corners, b.Top), closed: true})
	default:
		cs = append(cs, standing(o, proj, b.Under(), b.Top)...)
	}
	if proj == Plan {
		for _, blank := range p.Blanks {
			for _, h := range blank.Holes {
				var path []r3.Vec
				for _, q := range h.Outline {
					path = append(path, r3.Vec{X: b.At.X + q.X, Y: b.At.Y + q.Y, Z: b.Top})
				}
				cs = append(cs, curve{path: path, closed: true})
			}
		}
	}
	return cs
}

// standing returns the lines of what stands on an outline between two heights, as an
// elevation shows them.
func standing(o design.Outline, proj Projection, bottom, top float64) []curve {
	near := nearSides(o, proj)
	above := level(near, top)
	slices.Reverse(above)
	cs := []curve{{path: append(level(near, bottom), above...), closed: true}}
	for _, c := range near[1 : len(near)-1] {
		cs = append(cs, curve{path: []r3.Vec{{X: c.X, Y: c.Y, Z: bottom}, {X: c.X, Y: c.Y, Z: top}}})
	}
	return cs
}

// level returns points in plan at a height.
func level(points []r2.Vec, z float64) []r3.Vec {
	path := make([]r3.Vec, len(points))
	for i, p := range points {
		path[i] = r3.Vec{X: p.X, Y: p.Y, Z: z}
	}
	return path
}

// nearSides returns the corners of the sides of a plate that face the viewer of an
// elevation, in order from the front or the left; of a round plate those of the
// square about it.
func nearSides(o design.Outline, proj Projection) []r2.Vec {
	if o.IsRound() {
		o = (&design.Base{Shape: design.Plate, Width: 2 * o.Radius, Depth: 2 * o.Radius}).Outline()
	}
	_, _, toward := proj.axes()
	n := len(o.Corners)
	faces := make([]bool, 0, n)
	for _, out := range o.Sides {
		faces = append(faces, r2.Dot(out, design.Plan(toward)) > 1e-9)
	}
	var near []r2.Vec
	for i := range n {
		if !faces[i] || faces[(i+n-1)%n] {
			continue // not the first of them
		}
		near = append(near, o.Corners[i])
		for k := i; faces[k%n]; k++ {
			near = append(near, o.Corners[(k+1)%n])
		}
		break
	}
	if proj == FromLeft {
		slices.Reverse(near)
	}
	return near
}
