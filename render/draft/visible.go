package draft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/design"
	"stabile/render/ink"
)

// stride is the greatest distance on paper, in mm, between the points of a
// line at which it is tested for being seen.
const stride = 0.8

// crumb is the length on paper, in mm, under which a stretch of line between
// two changes is not distinguished: shorter than a line is wide.
const crumb = 0.3

// A Scene is the bodies of a design.
type Scene struct {
	parts  []fab.Part
	bodies []body  // for each part
	shells []shell // likewise, of balls
}

// NewScene returns the scene of the given parts.
func NewScene(parts []fab.Part) *Scene {
	s := &Scene{parts, make([]body, len(parts)), make([]shell, len(parts))}
	for i := range parts {
		s.bodies[i] = bodyOf(parts[i].Body)
		if parts[i].Ball != nil {
			s.shells[i] = shellOf(parts[i].Part)
		}
	}
	return s
}

// A Line is a line of a part on paper, all of it seen or all of it hidden.
type Line struct {
	Part   int // its place in the scene's parts
	Kind   ink.Line
	Path   []r2.Vec
	Closed bool
	Hidden bool

	// Center and Radius are of the circle that the path runs along
	// counter-clockwise; the radius is 0 where it is not round.
	Center r2.Vec
	Radius float64
}

// Lines returns the lines of all parts in a view, part by part.
func (s *Scene) Lines(v View) []Line {
	_, _, toward := v.Projection.axes()
	var lines []Line
	for i := range s.parts {
		near := s.along(v.Projection, i)
		for _, c := range curves(&s.parts[i], &s.shells[i], v.Projection) {
			hide := near
			if c.joint {
				hide = append(near[:len(near):len(near)], i)
			}
			for _, l := range s.split(v, toward, i, c, hide) {
				if c.round > 0 {
					l.Center, l.Radius = v.At(c.center), c.round*v.Scale
				}
				lines = append(lines, l)
			}
		}
	}
	return lines
}

// along returns the parts that overlap a part as seen in a projection.
func (s *Scene) along(proj Projection, self int) []int {
	return s.near(proj, s.extent(proj, self), self)
}

// near returns the parts, but for one, that overlap a box as seen in a projection.
func (s *Scene) near(proj Projection, a r2.Box, but int) []int {
	var near []int
	for i := range s.parts {
		if i == but {
			continue
		}
		if b := s.extent(proj, i); a.Min.X <= b.Max.X && b.Min.X <= a.Max.X && a.Min.Y <= b.Max.Y && b.Min.Y <= a.Max.Y {
			near = append(near, i)
		}
	}
	return near
}

// extent returns a box about a part as seen in a projection, at full size.
func (s *Scene) extent(proj Projection, i int) r2.Box {
	p := &s.parts[i]
	if p.Post == nil {
		c, r := proj.Flat(s.bodies[i].center), s.bodies[i].reach
		return r2.Box{Min: r2.Vec{X: c.X - r, Y: c.Y - r}, Max: r2.Vec{X: c.X + r, Y: c.Y + r}}
	}
	box := r2.Box{Min: r2.Vec{X: math.Inf(1), Y: math.Inf(1)}, Max: r2.Vec{X: math.Inf(-1), Y: math.Inf(-1)}}
	r := max(p.Post.Ends[design.Foot].Diameter, p.Post.Ends[design.Head].Diameter) / 2
	for _, end := range p.Post.Ends {
		q := proj.Flat(end.At)
		box.Min = r2.Vec{X: min(box.Min.X, q.X-r), Y: min(box.Min.Y, q.Y-r)}
		box.Max = r2.Vec{X: max(box.Max.X, q.X+r), Y: max(box.Max.Y, q.Y+r)}
	}
	return box
}

// unseen reports whether a point is in the ground, or hidden from the viewer by one of the
// given parts.
func (s *Scene) unseen(p, toward r3.Vec, parts []int) bool {
	return p.Z < -buried || s.behind(p, toward, parts)
}

// behind reports whether a point is hidden from the viewer by one of the given
// parts. The one that hides it is put first: it may well hide the next point too.
func (s *Scene) behind(p, toward r3.Vec, parts []int) bool {
	for k, i := range parts {
		b := &s.bodies[i]
		rel := r3.Sub(b.center, p)
		along := r3.Dot(rel, toward)
		aside := r3.Norm2(rel) - along*along // squared
		around := b.reach*b.reach - aside
		if along < -b.reach || around < 0 {
			continue
		}
		if half := math.Sqrt(around); along+half-max(along-half, 0) <= slack {
			continue // so short is its way through the ball that surrounds the body
		}
		if half := b.core*b.core - aside; half > 0 {
			// The line goes through what is wholly inside.
			if half = math.Sqrt(half); along+half-max(along-half, 0) > slack {
				parts[0], parts[k] = i, parts[0]
				return true
			}
		}
		if b.hides(p, toward) {
			parts[0], parts[k] = i, parts[0]
			return true
		}
	}
	return false
}

// Covered reports whether a point on paper lies within the picture of any part
// but the given ones.
func (s *Scene) Covered(v View, at r2.Vec, but ...int) bool {
	right, up, toward := v.Projection.axes()
	q := r2.Scale(1/v.Scale, r2.Sub(at, v.Origin))
	p := r3.Add(r3.Add(r3.Scale(q.X, right), r3.Scale(q.Y, up)), r3.Scale(-1e7, toward))
	for i := range s.bodies {
		if contains(but, i) {
			continue
		}
		if _, _, ok := s.bodies[i].Span(p, toward); ok {
			return true
		}
	}
	return false
}

func contains(list []int, i int) bool {
	for _, k := range list {
		if k == i {
			return true
		}
	}
	return false
}

// split parts a curve where it passes behind other parts.
func (s *Scene) split(v View, toward r3.Vec, part int, c curve, near []int) []Line {
	if len(c.path) < 2 {
		return nil
	}
	points := refine(c.path, c.closed, stride/v.Scale)
	if c.back {
		return []Line{{Part: part, Kind: c.line, Path: v.path(points), Closed: c.closed, Hidden: true}}
	}
	hidden := make([]bool, len(points))
	for i, p := range points {
		hidden[i] = s.unseen(p, toward, near)
	}
	if c.closed {
		points, hidden = append(points, points[0]), append(hidden, hidden[0])
	}
	var lines []Line
	run := []r3.Vec{points[0]}
	for i := 1; i < len(points); i++ {
		if hidden[i] == hidden[i-1] {
			run = append(run, points[i])
			continue
		}
		// Halve down to the place where it changes.
		a, b := points[i-1], points[i]
		for range 8 {
			m := r3.Scale(0.5, r3.Add(a, b))
			if s.unseen(m, toward, near) == hidden[i-1] {
				a = m
			} else {
				b = m
			}
		}
		lines = append(lines, Line{Part: part, Kind: c.line, Path: v.path(append(run, a)), Hidden: hidden[i-1]})
		run = []r3.Vec{b, points[i]}
	}
	lines = append(lines, Line{Part: part, Kind: c.line, Path: v.path(run), Closed: c.closed && len(lines) == 0, Hidden: hidden[len(hidden)-1]})
	return join(lines, c.closed)
}

// join drops crumbs, and joins the last stretch of a closed curve to its first.
func join(lines []Line, closed bool) []Line {
	if closed && len(lines) > 2 && lines[0].Hidden == lines[len(lines)-1].Hidden {
		last := lines[len(lines)-1]
		lines[0].Path = append(last.Path, lines[0].Path[1:]...)
		lines = lines[:len(lines)-1]
	}
	if len(lines) == 1 {
		if p := lines[0].Path; lines[0].Closed && len(p) > 1 {
			lines[0].Path = p[:len(p)-1]
		}
		return lines
	}
	kept := lines[:0]
	for _, l := range lines {
		if length(l.Path) >= crumb {
			kept = append(kept, l)
		}
	}
	return kept
}

// refine returns the path with points added so that none is farther than step
// from the next.
func refine(path []r3.Vec, closed bool, step float64) []r3.Vec {
	out := make([]r3.Vec, 0, 2*len(path))
	n := len(path)
	for i, p := range path {
		out = append(out, p)
		if i == n-1 && !closed {
			break
		}
		d := r3.Sub(path[(i+1)%n], p)
		k := int(math.Ceil(r3.Norm(d) / step))
		for j := 1; j < k; j++ {
			out = append(out, r3.Add(p, r3.Scale(float64(j)/float64(k), d)))
		}
	}
	return out
}

func (v View) path(points []r3.Vec) []r2.Vec {
	out := make([]r2.Vec, 0, len(points))
	for _, p := range points {
		q := v.At(p)
		if n := len(out); n >= 2 && straight(out[n-2], out[n-1], q) {
			out[n-1] = q
			continue
		}
		out = append(out, q)
	}
	return out
}

// straight reports whether b lies on the line from a to c, between them, to
// within a thousandth of a millimetre on paper.
func straight(a, b, c r2.Vec) bool {
	ab, ac := r2.Sub(b, a), r2.Sub(c, a)
	l := r2.Norm(ac)
	return l > 0 && math.Abs(r2.Cross(ab, ac)) < 1e-3*l && r2.Dot(ab, ac) > 0 && r2.Norm(ab) <= l
}

func length(path []r2.Vec) float64 {
	var sum float64
	for i := 1; i < len(path); i++ {
		sum += r2.Norm(r2.Sub(path[i], path[i-1]))
	}
	return sum
}
