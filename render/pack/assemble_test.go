package pack_test

import (
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/render/ink"
	"stabile/render/pack"
)

// A tile is one page of a pattern as read back.
type tile struct {
	piece       string
	row, column int
	turned      bool
	size        r2.Vec // of the paper
	edges       [][]r2.Vec
	level       []float64 // heights of long level thin lines
	marks       map[int]r2.Vec
	at          r2.Vec // where its lower left corner lies when put together
	placed      bool
	out         float64 // mm that is left out of the piece, as is written on it
}

var leftOut = regexp.MustCompile(`^set (?:(\d+)-)?(?:(\d+)/(\d+)|([\d.]+)) (in|mm) apart$`)

// readLeftOut reads how far apart the two ends of a piece are to be set, in mm; 0 where a
// text does not say so.
func readLeftOut(text string) float64 {
	m := leftOut.FindStringSubmatch(text)
	if m == nil {
		return 0
	}
	number := func(s string) float64 {
		x, _ := strconv.ParseFloat(s, 64)
		return x
	}
	x := number(m[1]) + number(m[4])
	if m[3] != "" {
		x += number(m[2]) / number(m[3])
	}
	if m[5] == "in" {
		x *= 25.4
	}
	return x
}

var tileTitle = regexp.MustCompile(`^([A-Z]+)(\d+) of (.*)$`)

// newTile reads a tile from its page, which the printer leaves white for a margin all
// round.
func newTile(t *testing.T, s *ink.Sheet, page []drawn, margin float64) *tile {
	tl := &tile{piece: s.Title, size: r2.Vec{X: s.Width, Y: s.Height}, marks: map[int]r2.Vec{}}
	if m := tileTitle.FindStringSubmatch(s.Title); m != nil {
		tl.piece = m[3]
		for _, r := range m[1] {
			tl.row = tl.row*26 + int(r-'A') + 1
		}
		tl.column, _ = strconv.Atoi(m[2])
	}
	var rings []r2.Vec
	for _, d := range page {
		lo, hi := extent(d.path)
		if lo.X < margin-0.3 || lo.Y < margin-0.3 || hi.X > s.Width-margin+0.3 || hi.Y > s.Height-margin+0.3 {
			t.Errorf("%s: a line leaves what can be printed: %v to %v", s.Name, lo, hi)
		}
		switch {
		case math.Abs(d.width-0.35) < 1e-6:
			tl.edges = append(tl.edges, d.path)
		case len(d.path) > 30 && math.Abs(hi.X-lo.X-4) < 0.01 && math.Abs(hi.Y-lo.Y-4) < 0.01:
			rings = append(rings, r2.Scale(0.5, r2.Add(lo, hi)))
		case len(d.path) == 2 && !d.dashed && hi.Y-lo.Y < 1e-6 && hi.X-lo.X > 0.8*(s.Width-2*margin) && lo.Y > margin+27.5:
			tl.level = append(tl.level, lo.Y)
		}
	}
	// The number of a mark is the nearest text that is one.
	for _, c := range rings {
		best, number := 9.0, 0
		for _, item := range s.Items {
			if x, ok := item.(*ink.Text); ok {
				tl.turned = tl.turned || strings.Contains(x.Text, "piece turned")
				lo, hi := extent(x.Box())
				n, err := strconv.Atoi(x.Text)
				if d := r2.Norm(r2.Sub(r2.Scale(0.5, r2.Add(lo, hi)), c)); err == nil && d < best {
					best, number = d, n
				}
			}
		}
		if number == 0 || tl.marks[number] != (r2.Vec{}) {
			t.Errorf("%s: the mark at %v has number %d", s.Name, c, number)
		}
		tl.marks[number] = c
	}
	for _, item := range s.Items {
		x, ok := item.(*ink.Text)
		if !ok {
			continue
		}
		tl.turned = tl.turned || strings.Contains(x.Text, "piece turned")
		tl.out = max(tl.out, readLeftOut(x.Text))
	}
	return tl
}

// assemble puts the tiles of a piece together and compares what is seen of
// them with the blank. It returns how many points were compared and the
// greatest distance.
func assemble(t *testing.T, name string, tiles []*tile, c *fab.Cut) (points int, worst float64) {
	t.Helper()
	if len(tiles) == 0 {
		t.Errorf("%s has no sheet", name)
		return 0, 0
	}
	tiles[0].placed = true
	for range tiles {
		for _, a := range tiles {
			for _, b := range tiles {
				if !a.placed || b.placed {
					continue
				}
				var shifts []r2.Vec
				for n, at := range a.marks {
					if other, ok := b.marks[n]; ok {
						shifts = append(shifts, r2.Sub(r2.Add(a.at, at), other))
					}
				}
				if len(shifts) == 0 {
					continue
				}
				// A wide overlap has marks of crossing seams in it, too.
				for _, s := range shifts {
					if len(shifts) < 2 || r2.Norm(r2.Sub(shifts[0], s)) > true1to1 {
						t.Errorf("%s: the marks of neighbours do not agree: %v", name, shifts)
					}
				}
				b.at, b.placed = shifts[0], true
			}
		}
	}
	lowest := r2.Vec{X: math.Inf(1), Y: math.Inf(1)}
	for _, a := range tiles {
		if !a.placed {
			t.Errorf("%s: a tile has no marks in common with the others", name)
			return 0, 0
		}
		for _, e := range a.edges {
			lo, _ := extent(e)
			lo = r2.Add(lo, a.at)
			lowest = r2.Vec{X: min(lowest.X, lo.X), Y: min(lowest.Y, lo.Y)}
		}
	}
	out := 0.0
	for _, a := range tiles {
		out = max(out, a.out)
	}
	if out > 0 {
		out -= pack.LeftOutBand
	}
	wanted := trueEdges(&c.Blank, tiles[0].turned, out)
	lo, _ := extent(wanted[0])
	for i := range wanted {
		for j := range wanted[i] {
			wanted[i][j] = r2.Add(wanted[i][j], r2.Sub(lowest, lo))
		}
	}
	// Every point of the blank is drawn on the tile that is seen there.
	onTile := map[*tile]*lines{}
	for _, a := range tiles {
		onTile[a] = newLines(a.edges)
	}
	for _, path := range wanted {
		for i := range path {
			p, q := path[i], path[(i+1)%len(path)]
			for _, u := range [...]float64{0, 0.31, 0.5, 0.83} {
				x := r2.Add(p, r2.Scale(u, r2.Sub(q, p)))
				top := seen(tiles, x)
				if top == nil {
					t.Fatalf("%s: no paper at %v", name, x)
				}
				off := onTile[top].distance(r2.Sub(x, top.at))
				points++
				worst = max(worst, off)
				if off > true1to1 {
					t.Fatalf("%s: tile %d/%d is seen at %v and its line is %v mm away", name, top.row, top.column, x, off)
				}
			}
		}
	}
	// And every point drawn on any tile is on the blank.
	closed := make([][]r2.Vec, len(wanted))
	for i, path := range wanted {
		closed[i] = append(path[:len(path):len(path)], path[0])
	}
	blank := newLines(closed)
	for _, a := range tiles {
		for _, e := range a.edges {
			for _, p := range e {
				off := blank.distance(r2.Add(p, a.at))
				points++
				worst = max(worst, off)
				if off > true1to1 {
					t.Fatalf("%s: tile %d/%d has a line %v mm off the blank", name, a.row, a.column, off)
				}
			}
		}
	}
	return points, worst
}

// seen returns the tile that lies on top at a point, after cutting: rows are
// laid from the lowest up, each from the left.
func seen(tiles []*tile, x r2.Vec) *tile {
	has := map[[2]int]bool{}
	for _, a := range tiles {
		has[[2]int{a.row, a.column}] = true
	}
	var top *tile
	for _, a := range tiles {
		q := r2.Sub(x, a.at)
		left, below := 0.0, 0.0
		if has[[2]int{a.row, a.column - 1}] {
			left = math.Inf(1)
			for n, c := range a.marks {
				for _, b := range tiles {
					if _, ok := b.marks[n]; ok && b.row == a.row && b.column == a.column-1 {
						left = c.X
					}
				}
			}
		}
		if has[[2]int{a.row + 1, a.column - 1}] || has[[2]int{a.row + 1, a.column}] || has[[2]int{a.row + 1, a.column + 1}] {
			below = math.Inf(1) // the line to cut along is the lowest
			for _, y := range a.level {
				below = min(below, y)
			}
		}
		if q.X < left || q.Y < below || q.X > a.size.X || q.Y > a.size.Y {
			continue
		}
		if top == nil || a.row < top.row || a.row == top.row && a.column > top.column {
			top = a
		}
	}
	return top
}

// trueEdges returns the outline of a blank and of its holes, circles in chords
// of a few micrometres, turned as the pattern is, and shorter in its middle by a length.
func trueEdges(b *flat.Blank, turned bool, shorter float64) [][]r2.Vec {
	circle := func(c r2.Vec, d float64) []r2.Vec {
		const n = 1440
		path := make([]r2.Vec, n)
		for i := range path {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / n)
			path[i] = r2.Vec{X: c.X + d/2*cos, Y: c.Y + d/2*sin}
		}
		return path
	}
	edge := append([]r2.Vec(nil), b.Outline...)
	if b.Diameter > 0 {
		edge = circle(r2.Vec{}, b.Diameter)
	}
	all := [][]r2.Vec{edge}
	for _, h := range b.Holes {
		if h.Diameter > 0 {
			all = append(all, circle(h.Center, h.Diameter))
		} else {
			all = append(all, append([]r2.Vec(nil), h.Outline...))
		}
	}
	lo, hi := extent(edge)
	for _, path := range all {
		for i, q := range path {
			if q.Y > (lo.Y+hi.Y)/2 {
				path[i].Y -= shorter
			}
			if turned {
				path[i] = r2.Vec{X: -path[i].Y, Y: q.X}
			}
		}
	}
	return all
}

// lines are the chords of some paths.
type lines struct {
	chords [][2]r2.Vec
	last   int // the chord that the last point was nearest to: the next is near it
}

func newLines(paths [][]r2.Vec) *lines {
	l := &lines{}
	for _, path := range paths {
		for i := 1; i < len(path); i++ {
			l.chords = append(l.chords, [2]r2.Vec{path[i-1], path[i]})
		}
	}
	return l
}

// distance returns how far a point is from the nearest chord.
func (l *lines) distance(x r2.Vec) float64 {
	best, first := math.Inf(1), l.last
	for i := range l.chords {
		n := (first + i) % len(l.chords)
		p, q := l.chords[n][0], l.chords[n][1]
		if min(p.X, q.X)-best > x.X || max(p.X, q.X)+best < x.X || min(p.Y, q.Y)-best > x.Y || max(p.Y, q.Y)+best < x.Y {
			continue
		}
		d := r2.Sub(q, p)
		u := 0.0
		if square := r2.Norm2(d); square > 0 {
			u = min(max(r2.Dot(r2.Sub(x, p), d)/square, 0), 1)
		}
		if off := r2.Norm(r2.Sub(x, r2.Add(p, r2.Scale(u, d)))); off < best {
			best, l.last = off, n
		}
	}
	return best
}
