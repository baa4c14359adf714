package draft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/render/ink"
)

// Sizes of a section, in mm on paper.
const (
	leastSection = 1.7  // radius of a revolved one: smaller it reads as a hole
	solidWall    = 1.0  // a wall that is thinner is drawn black, not hatched (ISO 128-3, thin sections)
	sectionRoom  = 0.8  // about it
	hatchPitch   = 1.5  // between the lines of a wall that is wide enough
	onAxis       = 0.25 // how near to the middle a line must pass to be the axis
)

// Section draws the true section of a post on it, revolved into the plane of the
// view: a circle between the post's outlines. It looks along the post for a
// place where the post is seen and that nothing else crosses; it reports false,
// and draws nothing, where there is none.
func (d *Drawing) Section(s *Scene, v View, part int, wall float64) bool {
	_, _, toward := v.Projection.axes()
	post := s.parts[part].Post
	if post == nil || math.Abs(r3.Dot(post.Direction, toward)) > 0.9 {
		return false
	}
	near := s.along(v.Projection, part)
	across := r3.Unit(r3.Cross(post.Direction, toward))
	for _, share := range [...]float64{0.5, 0.45, 0.55, 0.4, 0.6, 0.35, 0.65, 0.3, 0.7, 0.25, 0.75} {
		radius := post.DiameterAt(share*post.Length) / 2
		if radius*v.Scale < leastSection {
			continue
		}
		middle := r3.Add(post.Ends[design.Foot].At, r3.Scale(share*post.Length, post.Direction))
		hidden := false
		for _, side := range [...]float64{-0.9, 0, 0.9} {
			hidden = hidden || s.behind(r3.Add(middle, r3.Scale(side*radius, across)), toward, near)
		}
		if hidden || !d.Space.free(v.At(middle), radius*v.Scale+sectionRoom, part) {
			continue
		}
		d.section(v.At(middle), radius*v.Scale, wall*v.Scale, part)
		return true
	}
	return false
}

// section draws a revolved section: in narrow lines (ISO 128-3), its outer edge on
// the post's outlines.
func (d *Drawing) section(center r2.Vec, radius, wall float64, owner int) {
	// Callouts keep off it as off the outlines.
	var about [16]r2.Vec
	for i := range about {
		about[i] = polar(center, 2*math.Pi*float64(i)/float64(len(about)), radius)
	}
	d.Space.addPath(about[:], true, objectLine, owner)
	d.Items = append(d.Items, ring(ink.Thin, center, radius, wall)...)
}

// RemovedSection draws the section of a tube away from it: in wide lines (ISO
// 128-3), with its centre lines.
func (d *Drawing) RemovedSection(center r2.Vec, radius, wall float64) {
	for _, item := range ring(ink.Outline, center, radius, wall) {
		d.Put(item)
	}
	d.CentreMark(center, radius)
}

// ring returns the cut face of a tube: two circles with hatching between, or
// black where the wall is too thin for that. A wall thinner than the line is as
// wide as the line.
func ring(line ink.Line, center r2.Vec, radius, wall float64) []ink.Item {
	if wall < solidWall {
		// Circles side by side cover the wall, the outer one's outer edge on its
		// outside.
		w := line.Width()
		n := int(math.Ceil(max(wall/w, 1)))
		var items []ink.Item
		for i := range n {
			in := w / 2
			if n > 1 {
				in += float64(i) * (wall - w) / float64(n-1)
			}
			items = append(items, ink.Circle(line, center, radius-in))
		}
		return items
	}
	items := []ink.Item{ink.Circle(line, center, radius), ink.Circle(line, center, radius-wall)}
	// Lines at 45 deg, at heights h over the centre across them.
	for h := hatchPitch*math.Ceil(-radius/hatchPitch) + hatchPitch/2; h < radius; h += hatchPitch {
		half := math.Sqrt(max(radius*radius-h*h, 0))
		gap := math.Sqrt(max((radius-wall)*(radius-wall)-h*h, 0))
		at := func(t float64) r2.Vec {
			return r2.Add(center, r2.Scale(math.Sqrt2/2, r2.Vec{X: t - h, Y: t + h}))
		}
		if gap == 0 {
			items = append(items, &ink.Stroke{Line: ink.Thin, Path: []r2.Vec{at(-half), at(half)}})
			continue
		}
		items = append(items,
			&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{at(-half), at(-gap)}},
			&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{at(gap), at(half)}})
	}
	return items
}

// free reports whether a circle is clear of writing and of all lines but those
// of one owner and an axis through its middle.
func (s *Space) free(center r2.Vec, radius float64, but int) bool {
	box := grow(r2.Box{Min: center, Max: center}, radius)
	if !s.clear(box) {
		return false
	}
	ok := true
	s.buckets(box, func(k int) {
		for _, id := range s.segAt[k] {
			g := &s.segs[id]
			if g.owner == lifted || g.owner == but && g.w == objectLine {
				continue
			}
			if l := offLine(center, g.a, g.b); l < radius && !(g.w == thinLine && l < onAxis) {
				ok = false
			}
		}
	})
	return ok
}

// offLine returns the distance of a point from a segment.
func offLine(p, a, b r2.Vec) float64 {
	v := r2.Sub(b, a)
	t := 0.0
	if l := r2.Norm2(v); l > 0 {
		t = min(max(r2.Dot(r2.Sub(p, a), v)/l, 0), 1)
	}
	return r2.Norm(r2.Sub(p, r2.Add(a, r2.Scale(t, v))))
}
