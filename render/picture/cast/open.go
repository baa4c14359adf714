package cast

import "gonum.org/v1/gonum/spatial/r3"

// Open returns the share of a cone of directions from p about d that no solid
// but one covers, tan being the tangent of half the cone's angle.
func (w *World) Open(p, d r3.Vec, tan float64, but int32) float64 {
	open := 1.0
	if len(w.nodes) == 0 {
		return open
	}
	var stack [depth]int32
	top := 1
	for top > 0 {
		top--
		at := stack[top]
		n := &w.nodes[at]
		if !reaches(n.middle, n.radius, p, 0, d, tan) {
			continue
		}
		if n.second != 0 {
			stack[top], stack[top+1] = n.second, at+1
			top += 2
			continue
		}
		for _, i := range w.order[n.from:n.to] {
			if i == but {
				continue
			}
			if open *= 1 - w.Solids[i].Cover(p, d, tan); open < dim {
				return 0
			}
		}
	}
	return open
}

// dim is the share of light that is as good as none.
const dim = 1e-3

// OpenAmong is Open for the solids of a list alone.
func (w *World) OpenAmong(p, d r3.Vec, tan float64, list []int32) float64 {
	open := 1.0
	for _, i := range list {
		if open *= 1 - w.Solids[i].Cover(p, d, tan); open < dim {
			return 0
		}
	}
	return open
}

// Before appends to a list the solids that may cover some of a cone of
// directions about d from any point of a ball, in the order in which Open asks
// them.
func (w *World) Before(middle r3.Vec, radius float64, d r3.Vec, tan float64, list []int32) []int32 {
	if len(w.nodes) == 0 {
		return list
	}
	var stack [depth]int32
	top := 1
	for top > 0 {
		top--
		at := stack[top]
		n := &w.nodes[at]
		if !reaches(n.middle, n.radius, middle, radius, d, tan) {
			continue
		}
		if n.second != 0 {
			stack[top], stack[top+1] = n.second, at+1
			top += 2
			continue
		}
		for _, i := range w.order[n.from:n.to] {
			if s := &w.Solids[i]; reaches(s.Middle, s.Hull, middle, radius, d, tan) {
				list = append(list, i)
			}
		}
	}
	return list
}

// reaches reports whether a sphere may be seen from some point of a ball about p
// within a cone of directions about d.
func reaches(middle r3.Vec, radius float64, p r3.Vec, ball float64, d r3.Vec, tan float64) bool {
	rel := r3.Sub(middle, p)
	t := r3.Dot(rel, d)
	wide := radius + ball
	if t <= -wide {
		return false
	}
	reach := wide + (t+wide)*tan
	return r3.Dot(rel, rel)-t*t < reach*reach
}
