package draft

import (
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
)

// A weight reports how bad it is to draw across a line.
type weight int

// The weights: writing and leaders may cross neither, but when there is no
// room they cross a line of an object before a dimension's.
const (
	objectLine weight = iota
	thinLine          // of a dimension, an axis or a table
	leaderLine
)

// bucket is the side, in mm, of the squares of paper in which what is taken is
// looked up.
const bucket = 8.0

// A Space keeps what is already taken of an area of paper, in mm: lines, and
// the boxes of writing. It answers what a new line or box would run into.
type Space struct {
	area  r2.Box
	nx    int
	ny    int
	segs  []segment
	boxes []area
	segAt [][]int32 // by bucket, indices of segs
	boxAt [][]int32
	seen  []int32 // the query in which a segment was last met
	query int32
}

type segment struct {
	a, b  r2.Vec
	w     weight
	owner int
}

type area struct {
	r2.Box
	core  r2.Box // what no line may run through; the rest is room about it
	owner int
}

// NewSpace returns an empty space for the given area.
func NewSpace(a r2.Box) *Space {
	nx := int((a.Max.X-a.Min.X)/bucket) + 1
	ny := int((a.Max.Y-a.Min.Y)/bucket) + 1
	return &Space{area: a, nx: nx, ny: ny, segAt: make([][]int32, nx*ny), boxAt: make([][]int32, nx*ny)}
}

// buckets calls f with each bucket that a box touches.
func (s *Space) buckets(b r2.Box, f func(int)) {
	x0, x1, y0, y1 := s.squares(b)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			f(y*s.nx + x)
		}
	}
}

// squares returns the first and the last bucket that a box touches, each way.
func (s *Space) squares(b r2.Box) (x0, x1, y0, y1 int) {
	clamp := func(x float64, n int) int { return min(max(int(x/bucket), 0), n-1) }
	return clamp(b.Min.X-s.area.Min.X, s.nx), clamp(b.Max.X-s.area.Min.X, s.nx),
		clamp(b.Min.Y-s.area.Min.Y, s.ny), clamp(b.Max.Y-s.area.Min.Y, s.ny)
}

// addPath takes the paper along a path.
func (s *Space) addPath(path []r2.Vec, closed bool, w weight, owner int) {
	for i := range path {
		j := i + 1
		if j == len(path) {
			if !closed {
				break
			}
			j = 0
		}
		id := int32(len(s.segs))
		s.segs = append(s.segs, segment{path[i], path[j], w, owner})
		s.seen = append(s.seen, 0)
		// A long segment is entered piece by piece, so that a slanting one
		// does not fill its whole box.
		n := int(r2.Norm(r2.Sub(path[j], path[i]))/bucket) + 1
		for k := range n {
			p := r2.Add(path[i], r2.Scale(float64(k)/float64(n), r2.Sub(path[j], path[i])))
			q := r2.Add(path[i], r2.Scale(float64(k+1)/float64(n), r2.Sub(path[j], path[i])))
			s.buckets(boxOf(p, q), func(b int) {
				if l := s.segAt[b]; len(l) == 0 || l[len(l)-1] != id {
					s.segAt[b] = append(l, id)
				}
			})
		}
	}
}

// addBox takes a box.
func (s *Space) addBox(b r2.Box, owner int) {
	s.addArea(b, b, owner)
}

// addArea takes a box of which lines keep off the core within it alone.
func (s *Space) addArea(b, core r2.Box, owner int) {
	id := int32(len(s.boxes))
	s.boxes = append(s.boxes, area{b, core, owner})
	s.buckets(b, func(k int) { s.boxAt[k] = append(s.boxAt[k], id) })
}

// lift leaves out, from now on, all that the owner has taken.
func (s *Space) lift(owner int) {
	for i := range s.segs {
		if s.segs[i].owner == owner {
			s.segs[i].owner = lifted
		}
	}
	for i := range s.boxes {
		if s.boxes[i].owner == owner {
			s.boxes[i].owner = lifted
		}
	}
}

// Owners that are not parts.
const (
	nobody = -1
	lifted = -2
)

// clear reports whether a box runs into no other box, and leaves the area
// nowhere.
func (s *Space) clear(b r2.Box) bool {
	if b.Min.X < s.area.Min.X || b.Min.Y < s.area.Min.Y || b.Max.X > s.area.Max.X || b.Max.Y > s.area.Max.Y {
		return false
	}
	x0, x1, y0, y1 := s.squares(b)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			for _, id := range s.boxAt[y*s.nx+x] {
				if t := &s.boxes[id]; t.owner != lifted && overlap(t.Box, b) {
					return false
				}
			}
		}
	}
	return true
}

// crossed reports whether any line runs through a box.
func (s *Space) crossed(b r2.Box) bool {
	x0, x1, y0, y1 := s.squares(b)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			for _, id := range s.segAt[y*s.nx+x] {
				if g := &s.segs[id]; g.owner != lifted && through(b, g.a, g.b) {
					return true
				}
			}
		}
	}
	return false
}

// cross counts the lines that a line from a to b crosses, by weight, and reports
// whether it runs through writing.
func (s *Space) cross(a, b r2.Vec) (n [3]int, written bool) {
	s.query++
	box := boxOf(a, b)
	x0, x1, y0, y1 := s.squares(box)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			k := y*s.nx + x
			for _, id := range s.segAt[k] {
				if g := &s.segs[id]; s.seen[id] != s.query && g.owner != lifted {
					s.seen[id] = s.query
					if meet(a, b, g.a, g.b) {
						n[g.w]++
					}
				}
			}
			for _, id := range s.boxAt[k] {
				t := &s.boxes[id]
				written = written || t.owner != lifted && overlap(t.core, box) && through(t.core, a, b)
			}
		}
	}
	return n, written
}

func boxOf(points ...r2.Vec) r2.Box { return design.Bounds(points) }

// grow returns the box with a margin all round.
func grow(b r2.Box, by float64) r2.Box {
	m := r2.Vec{X: by, Y: by}
	return r2.Box{Min: r2.Sub(b.Min, m), Max: r2.Add(b.Max, m)}
}

func overlap(a, b r2.Box) bool {
	return a.Min.X < b.Max.X && b.Min.X < a.Max.X && a.Min.Y < b.Max.Y && b.Min.Y < a.Max.Y
}

// through reports whether the segment pq enters the box (Liang and Barsky).
func through(b r2.Box, p, q r2.Vec) bool {
	if p.X < b.Min.X && q.X < b.Min.X || p.X > b.Max.X && q.X > b.Max.X || p.Y < b.Min.Y && q.Y < b.Min.Y || p.Y > b.Max.Y && q.Y > b.Max.Y {
		return false
	}
	t0, t1 := 0.0, 1.0
	d := r2.Sub(q, p)
	for _, e := range [4][2]float64{{-d.X, p.X - b.Min.X}, {d.X, b.Max.X - p.X}, {-d.Y, p.Y - b.Min.Y}, {d.Y, b.Max.Y - p.Y}} {
		switch {
		case e[0] == 0:
			if e[1] < 0 {
				return false
			}
		case e[0] < 0:
			t0 = max(t0, e[1]/e[0])
		default:
			t1 = min(t1, e[1]/e[0])
		}
	}
	return t0 < t1
}

// meet reports whether the segments ab and cd cross.
func meet(a, b, c, d r2.Vec) bool {
	side := func(p, q, r r2.Vec) float64 { return r2.Cross(r2.Sub(q, p), r2.Sub(r, p)) }
	return side(a, b, c)*side(a, b, d) <= 0 && side(c, d, a)*side(c, d, b) <= 0 && (a != b)
}
