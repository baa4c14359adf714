package clash

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// wideCells is the number of grid cells above which a box is kept apart and
// tried against every other: a large base plate among small parts.
const wideCells = 64

// A grid finds which of the boxes already in it may meet another. It is
// uniform, with cells of the mean size of the boxes, so that for parts of like
// size the cost of a query does not grow with their number.
type grid struct {
	side  float64 // mm, of a cell
	cells map[[3]int32][]int
	wide  []int
	boxes []r3.Box
	seen  []int // seen[i] is the query, counted from 1, that last came upon box i
	query int
}

// newGrid returns an empty grid for boxes, which are spoken of by their index.
func newGrid(boxes []r3.Box) *grid {
	sum := 0.0
	for _, b := range boxes {
		s := r3.Sub(b.Max, b.Min)
		sum += max(s.X, s.Y, s.Z)
	}
	return &grid{
		side:  max(1, sum/float64(max(1, len(boxes)))),
		cells: make(map[[3]int32][]int, 4*len(boxes)),
		boxes: boxes,
		seen:  make([]int, len(boxes)),
	}
}

// span returns the cells that box i covers; ok is false for a wide one.
func (g *grid) span(i int) (lo, hi [3]int32, ok bool) {
	b := g.boxes[i]
	count := 1.0
	for k, pair := range [3][2]float64{{b.Min.X, b.Max.X}, {b.Min.Y, b.Max.Y}, {b.Min.Z, b.Max.Z}} {
		from, to := math.Floor(pair[0]/g.side), math.Floor(pair[1]/g.side)
		count *= to - from + 1
		if !(math.Abs(from) < math.MaxInt32 && math.Abs(to) < math.MaxInt32) {
			return lo, hi, false
		}
		lo[k], hi[k] = int32(from), int32(to)
	}
	return lo, hi, count <= wideCells
}

// add puts box i into the grid.
func (g *grid) add(i int) {
	lo, hi, ok := g.span(i)
	if !ok {
		g.wide = append(g.wide, i)
		return
	}
	for x := lo[0]; x <= hi[0]; x++ {
		for y := lo[1]; y <= hi[1]; y++ {
			for z := lo[2]; z <= hi[2]; z++ {
				k := [3]int32{x, y, z}
				g.cells[k] = append(g.cells[k], i)
			}
		}
	}
}

// near returns the boxes in the grid that overlap box i, in ascending order.
func (g *grid) near(i int) []int {
	var list []int
	g.query++
	try := func(j int) {
		if g.seen[j] == g.query {
			return
		}
		g.seen[j] = g.query
		if _, ok := overlap(g.boxes[i], g.boxes[j]); ok {
			list = append(list, j)
		}
	}
	lo, hi, ok := g.span(i)
	if !ok {
		// A wide box, tried against all that came before it.
		for j := range i {
			try(j)
		}
		return list
	}
	for _, j := range g.wide {
		try(j)
	}
	for x := lo[0]; x <= hi[0]; x++ {
		for y := lo[1]; y <= hi[1]; y++ {
			for z := lo[2]; z <= hi[2]; z++ {
				for _, j := range g.cells[[3]int32{x, y, z}] {
					try(j)
				}
			}
		}
	}
	slices.Sort(list)
	return list
}
