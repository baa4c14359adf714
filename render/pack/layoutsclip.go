package pack

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// spiral returns places in a square of two by two about the origin, from its
// middle out.
func spiral(n int) []r2.Vec {
	var list []r2.Vec
	for i := -n; i <= n; i++ {
		for k := -n; k <= n; k++ {
			list = append(list, r2.Vec{X: float64(i) / float64(n), Y: float64(k) / float64(n)})
		}
	}
	slices.SortStableFunc(list, func(a, b r2.Vec) int {
		switch x, y := r2.Norm2(a), r2.Norm2(b); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	return list
}

// insidePath reports whether a box lies within a closed path.
func insidePath(path []r2.Vec, b r2.Box) bool {
	for i, p := range path {
		if _, _, cut := through(p, path[(i+1)%len(path)], b); cut {
			return false
		}
	}
	return inPolygon(r2.Scale(0.5, r2.Add(b.Min, b.Max)), path)
}

// through returns the part of the line from p to q that lies in a box, as shares
// of the line, and reports whether there is one (Liang and Barsky's clipping).
func through(p, q r2.Vec, b r2.Box) (t0, t1 float64, ok bool) {
	if max(p.X, q.X) < b.Min.X || min(p.X, q.X) > b.Max.X || max(p.Y, q.Y) < b.Min.Y || min(p.Y, q.Y) > b.Max.Y {
		return 0, 0, false
	}
	t0, t1 = 0, 1
	v := r2.Sub(q, p)
	for _, e := range [4][2]float64{{-v.X, p.X - b.Min.X}, {v.X, b.Max.X - p.X}, {-v.Y, p.Y - b.Min.Y}, {v.Y, b.Max.Y - p.Y}} {
		switch {
		case e[0] == 0:
			if e[1] <= 0 {
				return 0, 0, false
			}
		case e[0] < 0:
			t0 = max(t0, e[1]/e[0])
		default:
			t1 = min(t1, e[1]/e[0])
		}
	}
	return t0, t1, t0 < t1
}

func touches(l *cutLine, b r2.Box) bool {
	return l.lo.X <= b.Max.X && b.Min.X <= l.hi.X && l.lo.Y <= b.Max.Y && b.Min.Y <= l.hi.Y
}

// broken returns what is left of a path outside boxes.
func broken(path []r2.Vec, boxes []r2.Box) [][]r2.Vec {
	if len(boxes) == 0 {
		return [][]r2.Vec{path}
	}
	var list [][]r2.Vec
	part := []r2.Vec{path[0]}
	flush := func() {
		if len(part) > 1 {
			list = append(list, part)
		}
		part = nil
	}
	for i := 1; i < len(path); i++ {
		p, q := path[i-1], path[i]
		v := r2.Sub(q, p)
		var gaps [][2]float64
		for _, b := range boxes {
			if t0, t1, ok := through(p, q, b); ok {
				gaps = append(gaps, [2]float64{t0, t1})
			}
		}
		slices.SortFunc(gaps, func(a, b [2]float64) int { return cmp.Compare(a[0], b[0]) })
		at := 0.0
		for _, g := range gaps {
			if g[0] > at {
				if part == nil {
					part = []r2.Vec{r2.Add(p, r2.Scale(at, v))}
				}
				part = append(part, r2.Add(p, r2.Scale(g[0], v)))
			}
			flush()
			at = max(at, g[1])
		}
		if at < 1 {
			if part == nil {
				part = []r2.Vec{r2.Add(p, r2.Scale(at, v))}
			}
			part = append(part, q)
		}
	}
	flush()
	return list
}
