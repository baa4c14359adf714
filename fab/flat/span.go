package flat

import (
	"cmp"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// A span is a stretch of an edge: of its length in mm, or in rad about the pole.
type span struct{ from, to float64 }

// inside draws a line a little into a piece, by a share of its size, so that it
// does not lie on the outline itself: more than is lost to rounding or to nudge.
const inside = 1 - 1e-6

// pointAt returns the point of a line at a number of its sides.
func pointAt(line []r2.Vec, share float64) r2.Vec {
	i := min(int(share), len(line)-2)
	return r2.Add(line[i], r2.Scale(share-float64(i), r2.Sub(line[i+1], line[i])))
}

// along returns which stretches of a line in the piece's chart are left, by the
// number of its sides.
func (c *cutOut) along(line []r2.Vec) []span {
	all := span{0, float64(len(line) - 1)}
	if !c.changed {
		return []span{all}
	}
	stops := []float64{all.from, all.to}
	for _, polygons := range [2][][]r2.Vec{c.outlines, c.holes} {
		for _, polygon := range polygons {
			stops = stopsAt(stops, line, polygon)
		}
	}
	slices.Sort(stops)
	var left []span
	for i, to := range stops[1:] {
		from := stops[i]
		middle := pointAt(line, (from+to)/2)
		holds := func(polygon []r2.Vec) bool { return within(middle, polygon) }
		switch {
		case !(from < to) || !slices.ContainsFunc(c.outlines, holds) || slices.ContainsFunc(c.holes, holds):
		case len(left) > 0 && left[len(left)-1].to == from:
			left[len(left)-1].to = to
		default:
			left = append(left, span{from, to})
		}
	}
	return left
}

// stopsAt appends where the sides of a polygon cross a line, by the number of the
// line's sides.
func stopsAt(stops []float64, line, polygon []r2.Vec) []float64 {
	low, high := bounds(line)
	for i, r := range polygon {
		q := polygon[(i+1)%len(polygon)]
		if max(r.X, q.X) < low.X || min(r.X, q.X) > high.X || max(r.Y, q.Y) < low.Y || min(r.Y, q.Y) > high.Y {
			continue
		}
		side := r2.Sub(q, r)
		for k, p := range line[1:] {
			along := r2.Sub(p, line[k])
			turn := r2.Cross(along, side)
			if turn == 0 {
				continue
			}
			rel := r2.Sub(r, line[k])
			s, t := r2.Cross(rel, side)/turn, r2.Cross(rel, along)/turn
			if s >= 0 && s < 1 && t >= 0 && t < 1 {
				stops = append(stops, float64(k)+s)
			}
		}
	}
	return stops
}

// turns returns what is left of a line that goes round the pole at an even pace,
// as angles from the one at which it starts, through the angle that it sweeps.
func (c *cutOut) turns(line []r2.Vec, from, sweep float64) []span {
	left := c.along(line)
	for i, s := range left {
		a, b := from+sweep*s.from/float64(len(line)-1), from+sweep*s.to/float64(len(line)-1)
		left[i] = span{min(a, b), max(a, b)}
	}
	return left
}

// rim returns what is left of the edge of a disc, the upper or the lower one, as
// angles about the pole.
func (c *cutOut) rim(outline []r2.Vec, lower bool) []span {
	// A side that is straight is parted, so that turns are even along it, or nearly.
	parts := (holePoints + len(outline) - 1) / len(outline)
	line := make([]r2.Vec, 0, parts*len(outline)+1)
	for i, q := range outline {
		side := r2.Sub(outline[(i+1)%len(outline)], q)
		for k := range parts {
			line = append(line, r2.Scale(inside, r2.Add(q, r2.Scale(float64(k)/float64(parts), side))))
		}
	}
	from, sweep := math.Atan2(outline[0].Y, outline[0].X), 2*math.Pi
	if lower {
		from, sweep = -from, -sweep
	}
	return c.turns(append(line, line[0]), from, sweep)
}

// unwound brings stretches of a circle between 0 and a whole turn, those that go
// over its end in two.
func unwound(spans []span) []span {
	var out []span
	for _, s := range spans {
		turn := 2 * math.Pi * math.Floor(s.from/(2*math.Pi))
		s.from, s.to = s.from-turn, s.to-turn
		if s.to > 2*math.Pi {
			out = append(out, span{0, s.to - 2*math.Pi})
			s.to = 2 * math.Pi
		}
		out = append(out, s)
	}
	return out
}

// common returns the stretches that two lists have in common, in order; those
// less than a least length apart are one.
func common(a, b []span, least float64) []span {
	var all []span
	for _, s := range a {
		for _, t := range b {
			if from, to := max(s.from, t.from), min(s.to, t.to); from < to {
				all = append(all, span{from, to})
			}
		}
	}
	slices.SortFunc(all, func(s, t span) int { return cmp.Compare(s.from, t.from) })
	var runs []span
	for _, s := range all {
		if n := len(runs); n > 0 && s.from-runs[n-1].to <= least {
			runs[n-1].to = max(runs[n-1].to, s.to)
			continue
		}
		runs = append(runs, s)
	}
	return slices.DeleteFunc(runs, func(s span) bool { return s.to-s.from <= least })
}
