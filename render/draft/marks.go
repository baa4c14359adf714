package draft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/render/ink"
)

// markReach is how far a centre line passes the outline, in mm on paper.
const markReach = 2.0

// leastMarked is the least radius on paper, in mm, of what gets centre lines;
// on smaller things they would hide the outline.
const leastMarked = 2.0

// crossed is the half length, in mm on paper, of the lines that mark the middle
// of the plan where there is no plate.
const crossed = 8.0

// Axes draws the centre lines of balls and the axes of posts where they are
// seen: as if drawn on the side of the part that faces the viewer.
func (d *Drawing) Axes(s *Scene, v View) {
	right, up, toward := v.Projection.axes()
	reach := markReach / v.Scale
	stroke := func(part int, near []int, path ...r3.Vec) {
		for _, l := range s.split(v, toward, part, curve{line: ink.Centre, path: path}, near) {
			if !l.Hidden && length(l.Path) > 2 {
				d.put(&ink.Stroke{Line: ink.Centre, Path: l.Path}, nobody)
			}
		}
	}
	onGround := v.Projection == Plan
	for i := range s.parts {
		onGround = onGround && (s.parts[i].Base == nil || s.parts[i].Base.Pad)
	}
	if onGround {
		near, cross := s.near(Plan, r2.Box{}, -1), crossed/v.Scale
		stroke(-1, near, r3.Vec{X: -cross}, r3.Vec{X: cross})
		stroke(-1, near, r3.Vec{Y: -cross}, r3.Vec{Y: cross})
	}
	for i := range s.parts {
		near := s.along(v.Projection, i)
		draw := func(path ...r3.Vec) { stroke(i, near, path...) }
		switch p := &s.parts[i]; {
		case p.Base != nil:
			if b := p.Base; b.OnWall() && v.Projection == Front {
				x, y := b.Width/2+reach, b.Depth/2+reach
				draw(b.Face(-x, 0), b.Face(x, 0))
				draw(b.Face(0, -y), b.Face(0, y))
			} else if v.Projection == Plan && !p.Base.Pad && !b.OnWall() {
				z, box := p.Base.Top, p.Base.Outline().Box()
				// Where the origin is outside of the plate the lines go on to it.
				draw(r3.Vec{X: min(box.Min.X-reach, 0), Z: z}, r3.Vec{X: max(box.Max.X+reach, 0), Z: z})
				draw(r3.Vec{Y: min(box.Min.Y-reach, 0), Z: z}, r3.Vec{Y: max(box.Max.Y+reach, 0), Z: z})
			}
		case p.Ball != nil && p.Ball.Bowl:
			b := p.Ball
			if r3.Norm(r3.Cross(b.Pole, toward)) > 0.2 {
				off := r3.Scale(b.Radius, toward)
				draw(r3.Add(b.Center, r3.Add(off, r3.Scale(-b.Radius-reach, b.Pole))), r3.Add(b.Mouth(), r3.Add(off, r3.Scale(reach, b.Pole))))
				continue
			}
			for _, a := range [2]r3.Vec{right, up} {
				c, half := r3.Add(b.Mouth(), r3.Scale(b.Radius, toward)), b.RimRadius()+reach
				draw(r3.Sub(c, r3.Scale(half, a)), r3.Add(c, r3.Scale(half, a)))
			}
		case p.Ball != nil:
			r := p.Ball.Radius
			if r*v.Scale < leastMarked {
				continue
			}
			c := r3.Add(p.Ball.Center, r3.Scale(p.Ball.From(toward), toward))
			for _, a := range [2]r3.Vec{right, up} {
				half := p.Ball.Outline(a, toward) + reach
				draw(r3.Sub(c, r3.Scale(half, a)), r3.Add(c, r3.Scale(half, a)))
			}
		case p.Post != nil:
			post := p.Post
			r := max(post.Ends[design.Foot].Diameter, post.Ends[design.Head].Diameter) / 2
			off := r3.Sub(toward, r3.Scale(r3.Dot(toward, post.Direction), post.Direction))
			if r*v.Scale < leastMarked || r3.Norm(off) < 0.2 {
				continue // too thin, or seen nearly end on
			}
			off = r3.Scale(r/r3.Norm(off), off)
			draw(r3.Add(post.Ends[design.Foot].At, off), r3.Add(post.Ends[design.Head].At, off))
		}
	}
}

// Seen reports whether the middle of a part, on the side that faces the
// viewer, is hidden by no other part.
func (s *Scene) Seen(v View, part int) bool {
	_, _, toward := v.Projection.axes()
	p := &s.parts[part]
	var at r3.Vec
	switch {
	case p.Ball != nil:
		at = r3.Add(p.Body.Middle(), r3.Scale(p.Ball.From(toward), toward))
	case p.Post != nil:
		at = r3.Scale(0.5, r3.Add(p.Post.Ends[design.Foot].At, p.Post.Ends[design.Head].At))
	default:
		at = p.Base.Face(p.Base.At.X, p.Base.At.Y)
	}
	return !s.behind(at, toward, s.along(v.Projection, part))
}

// Middle returns the middle of a part nearest to a place on paper: a ball's
// centre, the nearest point of a post's axis.
func (s *Scene) Middle(v View, part int, at r2.Vec) r2.Vec {
	p := &s.parts[part]
	switch {
	case p.Ball != nil:
		return v.At(p.Body.Middle())
	case p.Post != nil:
		a, b := v.At(p.Post.Ends[design.Foot].At), v.At(p.Post.Ends[design.Head].At)
		ab := r2.Sub(b, a)
		l := r2.Norm2(ab)
		if l == 0 {
			return a
		}
		t := math.Min(math.Max(r2.Dot(r2.Sub(at, a), ab)/l, 0), 1)
		return r2.Add(a, r2.Scale(t, ab))
	}
	return v.At(p.Base.InSpace(r3.Vec{X: p.Base.At.X, Y: p.Base.At.Y, Z: (p.Base.Under() + p.Base.Top) / 2}))
}
