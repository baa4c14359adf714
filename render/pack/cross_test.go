package pack_test

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// crossings are counts of leaders of balloons and of dimension lines that cross
// other lines. Leaders may not cross each other; the rest is stated, to be brought
// down, not forbidden: in a thicket there may be no way round.
type crossings struct {
	leaders, withLeaders, withOutlines, withThin int
	dimensions, ofDimensions                     int // dimension lines, and where extension lines or other dimension lines cross them
}

func (c *crossings) add(o crossings) {
	c.leaders += o.leaders
	c.withLeaders += o.withLeaders
	c.withOutlines += o.withOutlines
	c.withThin += o.withThin
	c.dimensions += o.dimensions
	c.ofDimensions += o.ofDimensions
}

// crossDimensions counts the lines with an arrowhead that are no leaders, and the
// thin lines that cross them. A quarter of a millimetre at the ends is left out,
// where extension lines meet them.
func (c *crossings) crossDimensions(s *ink.Sheet, leaders [][2]r2.Vec) {
	var tips []r2.Vec
	for _, it := range s.Items {
		if f, ok := it.(*ink.Fill); ok && len(f.Path) == 3 {
			tips = append(tips, f.Path[1])
		}
	}
	pointed := func(p r2.Vec) bool {
		return slices.ContainsFunc(tips, func(t r2.Vec) bool { return r2.Norm(r2.Sub(t, p)) < 1e-6 })
	}
	var thin, lines [][2]r2.Vec
	for _, it := range s.Items {
		l, ok := it.(*ink.Stroke)
		if !ok || l.Line != ink.Thin || len(l.Path) != 2 || r2.Norm(r2.Sub(l.Path[1], l.Path[0])) < 1 {
			continue
		}
		u := r2.Scale(0.25, r2.Unit(r2.Sub(l.Path[1], l.Path[0])))
		seg := [2]r2.Vec{r2.Add(l.Path[0], u), r2.Sub(l.Path[1], u)}
		if slices.ContainsFunc(leaders, func(a [2]r2.Vec) bool { return a[1] == l.Path[1] }) {
			continue
		}
		if pointed(l.Path[0]) || pointed(l.Path[1]) {
			lines = append(lines, seg)
		} else {
			thin = append(thin, seg)
		}
	}
	c.dimensions += len(lines)
	for i, a := range lines {
		for _, b := range lines[:i] {
			c.ofDimensions += count(a, b)
		}
		for _, b := range thin {
			c.ofDimensions += count(a, b)
		}
	}
}

// balloonRadius tells balloons from other circles.
const balloonRadius = 3.4

// cross counts crossings on a sheet. A leader is a thin line that ends on a
// balloon; half a millimetre at its point is left out, where it touches what it
// points at.
func (c *crossings) cross(s *ink.Sheet) {
	var balloons []r2.Vec
	for _, it := range s.Items {
		if a, ok := it.(*ink.Arc); ok && a.Line == ink.Thin && a.Whole() && a.Radius == balloonRadius {
			balloons = append(balloons, a.Center)
		}
	}
	var leaders, outlines, thin [][2]r2.Vec
	for _, it := range s.Items {
		var path []r2.Vec
		var kind ink.Line
		switch it := it.(type) {
		case *ink.Stroke:
			path, kind = it.Path, it.Line
			if it.Closed {
				path = append(path[:len(path):len(path)], path[0])
			}
		case *ink.Arc:
			if it.Radius == balloonRadius {
				continue
			}
			kind = it.Line
			for i := range 49 {
				path = append(path, it.At(it.From+(it.To-it.From)*float64(i)/48))
			}
		default:
			continue
		}
		if kind == ink.Thin && len(path) == 2 {
			leader := false
			for _, b := range balloons {
				if math.Abs(r2.Norm(r2.Sub(path[1], b))-balloonRadius) < 1e-6 {
					leader = true
				}
			}
			if leader {
				u := r2.Unit(r2.Sub(path[1], path[0]))
				leaders = append(leaders, [2]r2.Vec{r2.Add(path[0], r2.Scale(0.5, u)), path[1]})
				continue
			}
		}
		for i := 1; i < len(path); i++ {
			seg := [2]r2.Vec{path[i-1], path[i]}
			switch kind {
			case ink.Outline:
				outlines = append(outlines, seg)
			case ink.Thin, ink.Centre:
				thin = append(thin, seg)
			}
		}
	}
	c.crossDimensions(s, leaders)
	c.leaders += len(leaders)
	for i, a := range leaders {
		for _, b := range leaders[:i] {
			c.withLeaders += count(a, b)
		}
		for _, b := range outlines {
			c.withOutlines += count(a, b)
		}
		for _, b := range thin {
			c.withThin += count(a, b)
		}
	}
}

// count returns 1 where two segments cross, else 0.
func count(a, b [2]r2.Vec) int {
	side := func(p, q, r r2.Vec) float64 { return r2.Cross(r2.Sub(q, p), r2.Sub(r, p)) }
	if side(a[0], a[1], b[0])*side(a[0], a[1], b[1]) < 0 && side(b[0], b[1], a[0])*side(b[0], b[1], a[1]) < 0 {
		return 1
	}
	return 0
}
