package draft

import (
	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/render/ink"
)

// wallCurves returns the lines of a plate on a wall: its face with its holes from the front,
// and its near edge from elsewhere.
func wallCurves(p *fab.Part, proj Projection) []curve {
	b := p.Base
	face := func(outline []r2.Vec) (path []r3.Vec) {
		for _, q := range outline {
			path = append(path, b.Face(q.X, q.Y))
		}
		return path
	}
	if proj == Front {
		cs := []curve{{path: face(b.Outline().Corners), closed: true}}
		for _, blank := range p.Blanks {
			for _, h := range blank.Holes {
				cs = append(cs, curve{path: face(h.Outline), closed: true})
			}
		}
		return cs
	}
	x, y := b.Width/2, b.Depth/2
	at := func(x, y, out float64) r3.Vec { return b.InSpace(r3.Vec{X: x, Y: y, Z: out}) }
	switch proj {
	case Plan:
		return []curve{{path: []r3.Vec{at(-x, y, 0), at(x, y, 0), at(x, y, b.Top), at(-x, y, b.Top)}, closed: true}}
	case FromLeft:
		x = -x
	}
	return []curve{{path: []r3.Vec{at(x, -y, 0), at(x, -y, b.Top), at(x, y, b.Top), at(x, y, 0)}, closed: true}}
}

// Wall draws the face of a wall between two points, hatched on the far side of it from the
// piece, which the unit vector into the wall says.
func (d *Drawing) Wall(a, b, into r2.Vec) {
	const pitch, depth = 3.0, 2.2
	d.Line(ink.Outline, a, b)
	along := r2.Unit(r2.Sub(b, a))
	for s := 0.0; s <= r2.Norm(r2.Sub(b, a))-depth; s += pitch {
		from := r2.Add(a, r2.Scale(s, along))
		to := r2.Add(from, r2.Scale(depth, r2.Add(into, along)))
		d.Items = append(d.Items, &ink.Stroke{Line: ink.Thin, Path: []r2.Vec{from, to}})
	}
	d.Space.addBox(boxOf(a, r2.Add(b, r2.Scale(depth, into))), nobody)
}

// Break draws a long break line between two points on a level: what is beyond it is drawn
// nearer than it is.
func (d *Drawing) Break(from, to r2.Vec) {
	const zig, high = 1.2, 1.8
	middle := r2.Scale(0.5, r2.Add(from, to))
	at := func(x, y float64) r2.Vec { return r2.Vec{X: middle.X + x, Y: middle.Y + y} }
	d.stroke(ink.Thin, thinLine, nobody, from, at(-zig, 0), at(-zig/3, high), at(zig/3, -high), at(zig, 0), to)
}
