package draft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A Spare knows what is left of an area of paper, to find room for tables and
// figures that may stand anywhere. What is drawn after it was made it does not
// know of, but for what Room gave away.
type Spare struct {
	area   r2.Box
	nx, ny int
	sum    []int32 // of the squares taken, over those to the left and below
	given  []r2.Box
}

// spareCell is the side, in mm, of the squares of paper that a Spare tells apart.
const spareCell = 2.0

// Spare returns what is left when lines, writing and the given boxes are taken.
func (d *Drawing) Spare(but ...r2.Box) *Spare {
	s := &Spare{area: d.Space.area, given: but}
	s.nx = int((s.area.Max.X-s.area.Min.X)/spareCell) + 1
	s.ny = int((s.area.Max.Y-s.area.Min.Y)/spareCell) + 1
	s.sum = make([]int32, (s.nx+1)*(s.ny+1))
	for i := range d.Space.segs {
		g := &d.Space.segs[i]
		if g.owner == lifted {
			continue
		}
		v := r2.Sub(g.b, g.a)
		n := int(2*r2.Norm(v)/spareCell) + 1
		for k := range n + 1 {
			q := r2.Add(g.a, r2.Scale(float64(k)/float64(n), v))
			s.take(r2.Box{Min: q, Max: q})
		}
	}
	for i := range d.Space.boxes {
		if b := &d.Space.boxes[i]; b.owner != lifted {
			s.take(b.Box)
		}
	}
	w := s.nx + 1
	for y := 1; y <= s.ny; y++ {
		for x := 1; x <= s.nx; x++ {
			s.sum[y*w+x] = min(s.sum[y*w+x], 1) + s.sum[y*w+x-1] + s.sum[(y-1)*w+x] - s.sum[(y-1)*w+x-1]
		}
	}
	return s
}

// cells returns the squares that a box touches: from the first to the last of
// each direction. Of a box outside of the area none.
func (s *Spare) cells(b r2.Box) (x0, x1, y0, y1 int) {
	cell := func(x float64) int { return int(math.Floor(x / spareCell)) }
	return max(cell(b.Min.X-s.area.Min.X), 0), min(cell(b.Max.X-s.area.Min.X), s.nx-1),
		max(cell(b.Min.Y-s.area.Min.Y), 0), min(cell(b.Max.Y-s.area.Min.Y), s.ny-1)
}

// take marks the squares of a box, before they are summed.
func (s *Spare) take(b r2.Box) {
	x0, x1, y0, y1 := s.cells(b)
	for y := y0; y <= y1; y++ {
		for x := x0; x <= x1; x++ {
			s.sum[(y+1)*(s.nx+1)+x+1]++
		}
	}
}

// Room gives away a box of a size with a margin all round that is free, which
// may reach over the edge of the area: the one farthest up, of two as high the one
// farthest to the right. It reports false where there is none.
func (s *Spare) Room(width, height, margin float64) (r2.Box, bool) {
	for y := s.area.Max.Y; y-height >= s.area.Min.Y; y -= spareCell {
		for x := s.area.Max.X; x-width >= s.area.Min.X; x -= spareCell {
			b := r2.Box{Min: r2.Vec{X: x - width, Y: y - height}, Max: r2.Vec{X: x, Y: y}}
			if s.free(grow(b, margin)) {
				s.given = append(s.given, b)
				return b, true
			}
		}
	}
	return r2.Box{}, false
}

func (s *Spare) free(b r2.Box) bool {
	x0, x1, y0, y1 := s.cells(b)
	w := s.nx + 1
	if x1 >= x0 && y1 >= y0 && s.sum[(y1+1)*w+x1+1]-s.sum[(y1+1)*w+x0]-s.sum[y0*w+x1+1]+s.sum[y0*w+x0] != 0 {
		return false
	}
	for _, o := range s.given {
		if overlap(b, o) {
			return false
		}
	}
	return true
}

// Return takes back the box that Room gave away last.
func (s *Spare) Return() { s.given = s.given[:len(s.given)-1] }
