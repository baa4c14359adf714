package pack_test

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// crossings are counts of leaders of balloons that cross other lines. They are
// stated, to be brought down, not forbidden: in a thicket there may be no way
// round.
type crossings struct {
	leaders, withLeaders, withOutlines, withThin int
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
