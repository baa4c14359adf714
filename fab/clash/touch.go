package clash

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

// A Touch is a free end of a post that ends on another part without being joined to it:
// all of them are numbered in the order of the design's parts.
type Touch struct {
	Post, End int
	With      int
	AtHead    bool // where With is a post, that end lies at its head, which is free too
}

// Touching returns the free ends that are as near to another part as their sheet is
// thick, so that they look joined in a drawing and are not: of each end the nearest part.
// Two free ends that face each other are one touch, of the later post.
func Touching(d *design.Design, ties *design.Ties, bodies []*solid.Body) []Touch {
	var list []Touch
	boxes := make([]r3.Box, len(bodies), 2*len(bodies))
	for i, p := range d.Parts {
		boxes[i] = bodies[i].Bounds()
		if p.Post == nil || p.Metal == nil {
			continue
		}
		for k := range p.Post.Ends {
			if p.Post.Ends[k].Meets == design.Free {
				list = append(list, Touch{Post: i, End: k})
			}
		}
	}
	if len(list) == 0 {
		return nil
	}
	points := make([][]r3.Vec, len(list))
	for n, t := range list {
		p := d.Parts[t.Post]
		points[n] = spots(p, t.End, bodies[t.Post])
		boxes = append(boxes, about(points[n], p.Metal.Thickness))
	}
	g := newGrid(boxes)
	for i := range bodies {
		g.add(i)
	}
	found := list[:0]
	met := make(map[pair]bool)
	for n, t := range list {
		p := d.Parts[t.Post]
		t.With = -1
		best := p.Metal.Thickness
		for _, i := range g.near(len(bodies) + n) {
			if i == t.Post || tied(ties, i, t.Post) {
				continue
			}
			for _, q := range points[n] {
				if far := bodies[i].Distance(q); far < best {
					best, t.With = far, i
				}
			}
		}
		if t.With < 0 || met[pair{t.With, t.Post}] {
			continue
		}
		if with := d.Parts[t.With].Post; with != nil {
			head := with.Ends[design.Head]
			t.AtHead = head.Meets == design.Free && r3.Norm(r3.Sub(head.At, p.Post.Ends[t.End].At)) < head.Diameter
		}
		met[pair{t.Post, t.With}] = true
		found = append(found, t)
	}
	return found
}

// tied reports whether two parts are joined to each other.
func tied(ties *design.Ties, a, b int) bool {
	for _, k := range ties.Of[a] {
		if ties.List[k].Other(a) == b {
			return true
		}
	}
	return false
}

// about returns the box that reaches a number of mm beyond some points.
func about(points []r3.Vec, by float64) r3.Box {
	box := r3.Box{Min: points[0], Max: points[0]}
	for _, q := range points[1:] {
		box.Min = r3.Vec{X: min(box.Min.X, q.X), Y: min(box.Min.Y, q.Y), Z: min(box.Min.Z, q.Z)}
		box.Max = r3.Vec{X: max(box.Max.X, q.X), Y: max(box.Max.Y, q.Y), Z: max(box.Max.Z, q.Z)}
	}
	reach := r3.Vec{X: by, Y: by, Z: by}
	return r3.Box{Min: r3.Sub(box.Min, reach), Max: r3.Add(box.Max, reach)}
}

// spots returns points spread over an end of a post: its middle, and rings of which the
// last is its rim.
func spots(p *design.Part, end int, b *solid.Body) []r3.Vec {
	const round, rings = 24, 3
	middle, rim := p.Post.Ends[end].At, b.Rims[end]
	if len(rim) == 0 {
		x, y := design.Tilt(p.Post.Direction)
		for k := range round {
			sin, cos := math.Sincos(2 * math.Pi * float64(k) / round)
			rim = append(rim, r3.Add(middle, r3.Scale(p.Post.Ends[end].Diameter/2, r3.Add(r3.Scale(cos, x), r3.Scale(sin, y)))))
		}
	}
	points := []r3.Vec{middle}
	step := max(1, len(rim)/round)
	for i := 0; i < len(rim); i += step {
		for k := 1; k <= rings; k++ {
			points = append(points, r3.Add(middle, r3.Scale(float64(k)/rings, r3.Sub(rim[i], middle))))
		}
	}
	return points
}
