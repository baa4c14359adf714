package pack

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// Patterns are cut into tiles here, and not by the drawing library's booleans:
// a point of an outline that lies in a tile is kept as it is, bit for bit, and
// one on the tile's edge lies on its segment.

// clipped returns the parts of an item that lie in a window. A text does if it
// does as a whole.
func clipped(item ink.Item, w r2.Box) []ink.Item {
	var parts []ink.Item
	switch it := item.(type) {
	case *ink.Stroke:
		runs, whole := clipPath(it.Path, it.Closed, w)
		for _, run := range runs {
			parts = append(parts, &ink.Stroke{Line: it.Line, Path: run, Closed: whole && it.Closed, Group: it.Group})
		}
	case *ink.Arc:
		for _, span := range clipArc(it, w) {
			a := *it
			a.From, a.To = span[0], span[1]
			parts = append(parts, &a)
		}
	case *ink.Text:
		if !slices.ContainsFunc(it.Box(), func(q r2.Vec) bool { return !within(q, w) }) {
			parts = append(parts, it)
		}
	}
	return parts
}

// clipPath returns the runs of a path that lie in a window, and whether that is
// all of it.
func clipPath(path []r2.Vec, closed bool, w r2.Box) (runs [][]r2.Vec, whole bool) {
	if len(path) < 2 {
		return nil, false
	}
	if !slices.ContainsFunc(path, func(q r2.Vec) bool { return !within(q, w) }) {
		return [][]r2.Vec{path}, true
	}
	n := len(path) - 1
	if closed {
		n = len(path)
	}
	var run []r2.Vec
	end := func() {
		if len(run) > 0 {
			runs = append(runs, run)
		}
		run = nil
	}
	for i := range n {
		p, q := path[i], path[(i+1)%len(path)]
		a, b, ok := clipSegment(p, q, w)
		if !ok {
			end()
			continue
		}
		if a != p {
			end()
		}
		if len(run) == 0 {
			run = append(run, a)
		}
		run = append(run, b)
		if b != q {
			end()
		}
	}
	end()
	// A closed path may start in the middle of a run.
	if last := len(runs) - 1; closed && last > 0 && runs[0][0] == path[0] && runs[last][len(runs[last])-1] == path[0] {
		runs[0] = append(runs[last], runs[0][1:]...)
		runs = runs[:last]
	}
	return runs, false
}

// clipSegment returns the part of a segment that lies in a window, by the
// method of Liang and Barsky. A touch in a point is nothing.
func clipSegment(p, q r2.Vec, w r2.Box) (a, b r2.Vec, ok bool) {
	d := r2.Sub(q, p)
	t0, t1 := 0.0, 1.0
	for _, side := range [4][2]float64{
		{-d.X, p.X - w.Min.X}, {d.X, w.Max.X - p.X},
		{-d.Y, p.Y - w.Min.Y}, {d.Y, w.Max.Y - p.Y},
	} {
		speed, room := side[0], side[1]
		switch {
		case speed == 0 && room < 0:
			return a, b, false
		case speed < 0:
			t0 = max(t0, room/speed)
		case speed > 0:
			t1 = min(t1, room/speed)
		}
	}
	if t0 >= t1 {
		return a, b, false
	}
	a, b = p, q
	if t0 > 0 {
		a = r2.Add(p, r2.Scale(t0, d))
	}
	if t1 < 1 {
		b = r2.Add(p, r2.Scale(t1, d))
	}
	return a, b, a != b
}

// clipArc returns the spans of an arc that lie in a window, in rad.
func clipArc(a *ink.Arc, w r2.Box) [][2]float64 {
	from, to := a.From, a.To
	if a.Whole() {
		to = from + 2*math.Pi
	}
	cuts := []float64{from, to}
	add := func(angle float64) {
		for angle = from + math.Mod(angle-from, 2*math.Pi); angle < to; angle += 2 * math.Pi {
			if angle > from {
				cuts = append(cuts, angle)
			}
		}
	}
	for _, x := range [2]float64{w.Min.X, w.Max.X} {
		if c := (x - a.Center.X) / a.Radius; math.Abs(c) < 1 {
			add(math.Acos(c))
			add(-math.Acos(c))
		}
	}
	for _, y := range [2]float64{w.Min.Y, w.Max.Y} {
		if s := (y - a.Center.Y) / a.Radius; math.Abs(s) < 1 {
			add(math.Asin(s))
			add(math.Pi - math.Asin(s))
		}
	}
	slices.SortFunc(cuts, cmp.Compare[float64])
	var spans [][2]float64
	for i := 1; i < len(cuts); i++ {
		u, v := cuts[i-1], cuts[i]
		if v <= u || !within(a.At((u+v)/2), w) {
			continue
		}
		if n := len(spans); n > 0 && spans[n-1][1] == u {
			spans[n-1][1] = v
		} else {
			spans = append(spans, [2]float64{u, v})
		}
	}
	// A circle may start in the middle of a span.
	if n := len(spans) - 1; a.Whole() && n > 0 && spans[0][0] == from && spans[n][1] == to {
		spans[0] = [2]float64{spans[n][0], spans[0][1] + 2*math.Pi}
		spans = spans[:n]
	}
	return spans
}

func within(q r2.Vec, w r2.Box) bool {
	return w.Min.X <= q.X && q.X <= w.Max.X && w.Min.Y <= q.Y && q.Y <= w.Max.Y
}

// moved returns an item shifted.
func moved(item ink.Item, by r2.Vec) ink.Item {
	switch it := item.(type) {
	case *ink.Stroke:
		s := *it
		s.Path = make([]r2.Vec, len(it.Path))
		for i, q := range it.Path {
			s.Path[i] = r2.Add(q, by)
		}
		return &s
	case *ink.Arc:
		a := *it
		a.Center = r2.Add(a.Center, by)
		return &a
	case *ink.Text:
		t := *it
		t.At = r2.Add(t.At, by)
		return &t
	}
	return item
}
