package pack

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
	"stabile/render/sheet"
)

// Measures of a tile's page, in mm.
const (
	// trimMargin is kept between an edge that is cut off and what is beyond it,
	// for the outer half of the registration marks.
	trimMargin = 5.0

	// footHeight is that of the strip with the proof bars and the name.
	footHeight = 27.0

	// edgeAir is kept between a pattern's outermost points and the edge of what
	// can be printed: more than half of the widest line.
	edgeAir = 1.0
)

// A tiling is how a tracing is cut into pages. Rows are counted from the top
// and have letters, columns from the left and have numbers. Tiles are stuck
// together from the lower left: each lies over the edges of its neighbours at
// the left and below.
type tiling struct {
	*tracing
	paper         sheet.Paper
	margin        float64 // left free all round, that the printer cannot print on
	rows, columns int
	window        r2.Box // of a tile, on its page
	pitch         r2.Vec // from tile to tile
	overlap       float64
	origin        r2.Vec // lower left corner of the lower left tile, on the tracing
	used          []bool // by row and column: a line of the piece is in it

	pages []*tilePage
	apart bool // both edges of what is left out say how far apart they are to be set
}

// tile returns the tiling of a cut that takes the fewest sheets: the paper
// upright or lying, the piece turned only where that saves some.
func (p *printing) tile(upright, turned *tracing) *tiling {
	var best *tiling
	for _, t := range [2]*tracing{upright, turned} {
		for _, paper := range [2]sheet.Paper{p.paper.Portrait(), p.paper.Landscape()} {
			if p.lap(paper) < p.overlap {
				continue
			}
			if got := newTiling(t, paper, p.margin, p.overlap); best == nil || got.count() < best.count() {
				best = got
			}
		}
	}
	return best
}

// along returns the tiling of a cut on one long page, or on as few as the width
// of the roll and a reader of PDF allow. Of pages as many it is the one that
// takes less of the roll; where the roll's width is not known, the narrower.
func (p *printing) along(upright, turned *tracing) *tiling {
	if p.roll == 0 {
		if turned.width < upright.width {
			upright = turned
		}
		return p.unrolled(upright)
	}
	a, b := p.unrolled(upright), p.unrolled(turned)
	if n, m := a.count(), b.count(); m < n || m == n && b.paper.Height < a.paper.Height {
		return b
	}
	return a
}

// unrolled returns the tiling of a tracing on pages of a roll.
func (p *printing) unrolled(t *tracing) *tiling {
	paper := sheet.Paper{Name: "roll", Width: p.roll}
	if p.roll == 0 {
		paper.Width = math.Ceil(min(max(t.width+2*(edgeAir+p.margin), leastRoll), longest))
	}
	paper.Height = math.Ceil(min(t.height+2*edgeAir+2*p.margin+footHeight, longest))
	return newTiling(t, paper, p.margin, p.overlap)
}

// lap returns the most that tiles on pages of a paper may overlap: half of their size,
// so that no place has more than two in a row. It is negative where the page has no
// room for the strip at the foot.
func (p *printing) lap(paper sheet.Paper) float64 {
	width, height := paper.Width-2*p.margin, paper.Height-2*p.margin-footHeight
	if width < leastFoot {
		return -1
	}
	return (min(width, height) - trimMargin) / 2
}

// longest is the greatest length of a page, in mm: 14,400 units of 1/72 in by
// ISO 32000, annex C, rounded down to whole metres. leastRoll is the least
// width, for the words in the strip.
const (
	longest   = 5000.0
	leastRoll = 210.0
)

// leastFoot is the least width of the strip at the foot: its proof bars, the map, and
// some words between.
const leastFoot = proofWidth + mapWidth + 30

// leastLap is the least overlap that a page must have room for: that of a registration
// mark, and as much again to hold on to.
const leastLap = 2 * crossArm

func newTiling(t *tracing, paper sheet.Paper, margin, overlap float64) *tiling {
	g := &tiling{tracing: t, paper: paper, margin: margin, overlap: overlap}
	g.window = sheet.Box(margin, margin+footHeight, paper.Width-margin, paper.Height-margin)
	width, height := t.width+2*edgeAir, t.height+2*edgeAir
	g.columns, g.rows = 1, 1
	room := r2.Sub(g.window.Max, g.window.Min)
	if width > room.X {
		g.window.Min.X += trimMargin
		room.X -= trimMargin
		g.columns = tilesFor(width, room.X, overlap)
	}
	if height > room.Y {
		g.window.Min.Y += trimMargin
		room.Y -= trimMargin
		g.rows = tilesFor(height, room.Y, overlap)
	}
	g.pitch = r2.Sub(room, r2.Vec{X: overlap, Y: overlap})
	// What is left over is shared by both sides.
	all := r2.Vec{X: room.X + float64(g.columns-1)*g.pitch.X, Y: room.Y + float64(g.rows-1)*g.pitch.Y}
	g.origin = r2.Vec{X: -(all.X - t.width) / 2, Y: -(all.Y - t.height) / 2}
	if g.rows == 1 {
		g.origin.Y = -(all.Y - t.height) * 0.6 // the optical middle
	}
	g.used = make([]bool, g.rows*g.columns)
	for r := range g.rows {
		for c := range g.columns {
			g.used[r*g.columns+c] = g.lined(g.core(r, c))
		}
	}
	g.join()
	return g
}

// tilesFor returns how many tiles of a size cover a length.
func tilesFor(length, size, overlap float64) int {
	return max(1, int(math.Ceil((length-overlap)/(size-overlap))))
}

func (g *tiling) lined(w r2.Box) bool {
	for _, item := range g.lines {
		if len(clipped(item, w)) > 0 {
			return true
		}
	}
	return false
}

// join takes in empty tiles where the others would not hang together without,
// such as round a hole in the middle of a large plate.
func (g *tiling) join() {
	for {
		group := g.groups()
		// The nearest two tiles of different groups, along rows and columns.
		best, from, to := math.MaxInt, 0, 0
		for i, u := range group {
			for j, v := range group {
				if u == 0 || v == 0 || u == v {
					continue
				}
				d := abs(i/g.columns-j/g.columns) + abs(i%g.columns-j%g.columns)
				if d < best {
					best, from, to = d, i, j
				}
			}
		}
		if best == math.MaxInt {
			return
		}
		r, c := from/g.columns, from%g.columns
		for r != to/g.columns || c != to%g.columns {
			switch {
			case r < to/g.columns:
				r++
			case r > to/g.columns:
				r--
			case c < to%g.columns:
				c++
			default:
				c--
			}
			g.used[r*g.columns+c] = true
		}
	}
}

// groups numbers the used tiles by what hangs together, from 1; others are 0.
func (g *tiling) groups() []int {
	group := make([]int, len(g.used))
	n := 0
	var spread func(r, c int)
	spread = func(r, c int) {
		if !g.has(r, c) || group[r*g.columns+c] != 0 {
			return
		}
		group[r*g.columns+c] = n
		spread(r-1, c)
		spread(r+1, c)
		spread(r, c-1)
		spread(r, c+1)
	}
	for i, used := range g.used {
		if used && group[i] == 0 {
			n++
			spread(i/g.columns, i%g.columns)
		}
	}
	return group
}

func abs(n int) int { return max(n, -n) }

// has reports whether there is a tile at a place.
func (g *tiling) has(row, column int) bool {
	return 0 <= row && row < g.rows && 0 <= column && column < g.columns && g.used[row*g.columns+column]
}

// count returns how many tiles there are.
func (g *tiling) count() int {
	n := 0
	for _, used := range g.used {
		if used {
			n++
		}
	}
	return n
}

// box returns what a tile shows of the tracing.
func (g *tiling) box(row, column int) r2.Box {
	lo := r2.Vec{X: g.origin.X + float64(column)*g.pitch.X, Y: g.origin.Y + float64(g.rows-1-row)*g.pitch.Y}
	return r2.Box{Min: lo, Max: r2.Add(lo, r2.Sub(g.window.Max, g.window.Min))}
}

// core returns what is seen of a tile when all are stuck together: its
// neighbours at the right and above lie over it.
func (g *tiling) core(row, column int) r2.Box {
	b := g.box(row, column)
	if column < g.columns-1 {
		b.Max.X -= g.overlap
	}
	if row > 0 {
		b.Max.Y -= g.overlap
	}
	return b
}

// trimmed reports which edges of a tile are cut off, so that none of its paper
// hides a line of another.
func (g *tiling) trimmed(row, column int) (left, below bool) {
	return g.has(row, column-1), g.has(row+1, column-1) || g.has(row+1, column) || g.has(row+1, column+1)
}

// tileName returns what a tile is called: "B3" is in the second row from the
// top and the third column.
func tileName(row, column int) string {
	letters := ""
	for n := row + 1; n > 0; n = (n - 1) / 26 {
		letters = string(rune('A'+(n-1)%26)) + letters
	}
	return fmt.Sprint(letters, column+1)
}

// missing names the tiles that are left out, those side by side together.
func (g *tiling) missing() string {
	var names []string
	for r := range g.rows {
		for c := 0; c < g.columns; c++ {
			first := c
			for c < g.columns && !g.has(r, c) {
				c++
			}
			switch c - first {
			case 0:
			case 1:
				names = append(names, tileName(r, first))
			default:
				names = append(names, tileName(r, first)+" to "+tileName(r, c-1))
			}
		}
	}
	return strings.Join(names, ", ")
}

// A registration is a mark common to two neighbouring tiles, on the line along
// which the one that lies over the other is cut.
type registration struct {
	at     r2.Vec // on the tracing
	number int
}

// crossArm is the length, in mm, of an arm of a registration mark, less than
// trimMargin; crossRing the radius of the ring about its middle.
const (
	crossArm  = 4.0
	crossRing = 2.0
)

// registrations returns the marks of all seams: two on each, as far apart as
// can be, where the lines of the piece are farthest.
func (g *tiling) registrations() []registration {
	var around room
	for _, item := range g.lines {
		around.add(item)
	}
	var all []registration
	mark := func(from, to r2.Vec) {
		const steps = 12
		for _, half := range [2][2]float64{{0.1, 0.42}, {0.9, 0.58}} {
			best, at := -1.0, r2.Vec{}
			for i := range steps + 1 {
				t := half[0] + (half[1]-half[0])*float64(i)/steps
				q := r2.Add(from, r2.Scale(t, r2.Sub(to, from)))
				free := 0.0
				for _, size := range [...]float64{crossArm / 2, crossArm + 1, 2 * crossArm} {
					if around.clear(square(q, size), 0) {
						free = size
					}
				}
				if free > best {
					best, at = free, q
				}
			}
			all = append(all, registration{at, len(all) + 1})
		}
	}
	for r := range g.rows {
		for c := range g.columns {
			if !g.has(r, c) {
				continue
			}
			core := g.core(r, c)
			if g.has(r, c+1) {
				mark(r2.Vec{X: core.Max.X, Y: core.Min.Y}, core.Max)
			}
			if g.has(r-1, c) {
				mark(r2.Vec{X: core.Min.X, Y: core.Max.Y}, core.Max)
			}
		}
	}
	return all
}

// square returns the corners of a square about a point.
func square(c r2.Vec, half float64) []r2.Vec {
	return []r2.Vec{{X: c.X - half, Y: c.Y - half}, {X: c.X + half, Y: c.Y - half}, {X: c.X + half, Y: c.Y + half}, {X: c.X - half, Y: c.Y + half}}
}

// registrationMark draws a mark at a point of a page.
func registrationMark(s *ink.Sheet, at r2.Vec) {
	for _, arm := range [2]r2.Vec{{X: crossArm}, {Y: crossArm}} {
		s.Add(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{r2.Sub(at, arm), r2.Add(at, arm)}, Group: registerGroup})
	}
	ring := ink.Circle(ink.Thin, at, crossRing)
	ring.Group = registerGroup
	s.Add(ring)
}

// registerGroup is the group of the registration marks, proofGroup that of the
// proof bars.
const (
	registerGroup = "register"
	proofGroup    = "proof"
)
