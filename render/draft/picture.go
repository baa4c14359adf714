package draft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// seamSpacing is the least distance on paper, in mm, between the seams of a
// ball for them to be drawn: closer they would run together to grey.
const seamSpacing = 1.5

// Picture draws the scene in a view: what is seen, with seams where there is
// room for them, and what is hidden of the outlines where hidden is set.
func (d *Drawing) Picture(s *Scene, v View, hidden bool) []Line {
	lines := s.Lines(v)
	for i := range lines {
		l := &lines[i]
		if l.Hidden && (!hidden || l.Kind != ink.Outline) || l.Kind == ink.Seam && !s.roomForSeams(v, l.Part) {
			continue
		}
		kind := l.Kind
		if l.Hidden {
			kind = ink.Hidden
		}
		d.put(l.item(kind), l.Part)
	}
	return lines
}

func (s *Scene) roomForSeams(v View, part int) bool {
	b := s.parts[part].Ball
	if b == nil || b.Gores == 0 {
		return true
	}
	return 2*math.Pi*b.Radius*v.Scale/float64(b.Gores) >= 2*seamSpacing
}

// item returns the line as an arc where it is round, else as a stroke.
func (l *Line) item(kind ink.Line) ink.Item {
	if l.Radius == 0 {
		return &ink.Stroke{Line: kind, Path: l.Path, Closed: l.Closed}
	}
	if l.Closed {
		return ink.Circle(kind, l.Center, l.Radius)
	}
	angle := func(p r2.Vec) float64 { return math.Atan2(p.Y-l.Center.Y, p.X-l.Center.X) }
	from, to := angle(l.Path[0]), angle(l.Path[len(l.Path)-1])
	if to <= from {
		to += 2 * math.Pi
	}
	return &ink.Arc{Line: kind, Center: l.Center, Radius: l.Radius, From: from, To: to}
}

// Targets returns places for leaders along the outlines of each part that are
// seen, about every spacing mm.
func Targets(lines []Line, parts int, center func(part int, at r2.Vec) r2.Vec, spacing float64) [][]Target {
	out := make([][]Target, parts)
	for i := range lines {
		l := &lines[i]
		if l.Hidden || l.Kind != ink.Outline {
			continue
		}
		path := l.Path
		if l.Closed {
			path = append(path[:len(path):len(path)], path[0])
		}
		total := length(path)
		n := max(int(total/spacing), 1)
		step := total / float64(n)
		next, run := step/2, 0.0
		for k := 1; k < len(path); k++ {
			v := r2.Sub(path[k], path[k-1])
			seg := r2.Norm(v)
			for next <= run+seg && seg > 0 {
				at := r2.Add(path[k-1], r2.Scale((next-run)/seg, v))
				normal := r2.Vec{X: v.Y / seg, Y: -v.X / seg}
				if r2.Dot(normal, r2.Sub(at, center(l.Part, at))) < 0 {
					normal = r2.Scale(-1, normal)
				}
				out[l.Part] = append(out[l.Part], Target{At: at, Out: normal})
				next += step
			}
			run += seg
		}
	}
	return out
}

// Shown returns the lines of a view that Picture draws of what is seen, without
// finding out what is hidden of those that it leaves out.
func (s *Scene) Shown(v View) []Line {
	_, _, toward := v.Projection.axes()
	var lines []Line
	for i := range s.parts {
		near, seams := s.along(v.Projection, i), s.roomForSeams(v, i)
		for _, c := range curves(&s.parts[i], &s.shells[i], v.Projection) {
			if c.back || c.line == ink.Seam && !seams {
				continue
			}
			hide := near
			if c.joint {
				hide = append(near[:len(near):len(near)], i)
			}
			for _, l := range s.split(v, toward, i, c, hide) {
				if l.Hidden {
					continue
				}
				if c.round > 0 {
					l.Center, l.Radius = v.At(c.center), c.round*v.Scale
				}
				lines = append(lines, l)
			}
		}
	}
	return lines
}
