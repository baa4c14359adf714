package inspect

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// cell is the side of a grid's cells, in mm: about the height of two lines of
// writing, so that few texts share one.
const cell = 8.0

// A grid finds what lies near a box without looking at all there is.
type grid struct {
	across, down int
	cells        [][]int
	seen         []int // by number: the last look at which it was found
	look         int
}

func newGrid(width, height float64) *grid {
	g := &grid{across: max(1, int(width/cell)+1), down: max(1, int(height/cell)+1)}
	g.cells = make([][]int, g.across*g.down)
	return g
}

// add puts the next number into the cells of its box.
func (g *grid) add(b r2.Box) {
	n := len(g.seen)
	g.seen = append(g.seen, -1)
	g.each(b, func(i int) { g.cells[i] = append(g.cells[i], n) })
}

// near calls do once for each number whose box shares a cell with a box. What
// leaves the paper is in the cells of its edge.
func (g *grid) near(b r2.Box, do func(n int)) {
	g.look++
	g.each(b, func(i int) {
		for _, n := range g.cells[i] {
			if g.seen[n] != g.look {
				g.seen[n] = g.look
				do(n)
			}
		}
	})
}

func (g *grid) each(b r2.Box, do func(i int)) {
	clamp := func(x float64, n int) int { return int(min(max(math.Floor(x/cell), 0), float64(n-1))) }
	x0, x1 := clamp(b.Min.X, g.across), clamp(b.Max.X, g.across)
	for y := clamp(b.Min.Y, g.down); y <= clamp(b.Max.Y, g.down); y++ {
		for x := x0; x <= x1; x++ {
			do(y*g.across + x)
		}
	}
}
