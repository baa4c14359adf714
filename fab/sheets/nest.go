package sheets

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A nest looks for blocks of one kind in which pieces reach between each other.
// It works along x; for columns the outline is given with x and y exchanged.
type nest struct {
	w, h    float64
	gap     float64
	swapped bool
	right   *[2]edge // of a piece upright, and of one by half a turn, both in the same box
	left    *[2]edge
	rough   [2][2]edge // the right and the left edges thinned out
	ways    []int      // the ways round of every second piece that are worth trying: 0 upright, 1 by half a turn
	inRow   float64    // from one piece to the next of the same way round, side by side
	overRow float64    // the same, one above the other
}

// roughly is how many slabs an edge has while the search looks around.
const roughly = 24

func newNest(k *kind, gap float64, swapped bool) *nest {
	n := &nest{w: k.w, h: k.h, gap: gap, swapped: swapped}
	all := k.sides()
	n.right, n.left = &all.right, &all.left
	over, under := &all.over[0], &all.under[0]
	if swapped {
		n.w, n.h = k.h, k.w
		n.right, n.left = &all.over, &all.under
		over, under = &all.right[0], &all.left[0]
	}
	for i := range n.right {
		n.rough[0][i], n.rough[1][i] = thinned(n.right[i], roughly), thinned(n.left[i], roughly)
	}
	n.overRow = spaced(over, under, 0, gap)
	n.ways = []int{0}
	if differ(n.right[0].slabs, n.right[1].slabs) || differ(n.left[0].slabs, n.left[1].slabs) {
		n.ways = []int{0, 1}
	}
	n.inRow = n.set(0, 0, 0)
	return n
}

// differ reports whether two edges are apart by more than cutting can tell.
func differ(a, b []slab) bool {
	if len(a) != len(b) {
		return true
	}
	for i := range a {
		if math.Abs(a[i].x0-b[i].x0)+math.Abs(a[i].x1-b[i].x1)+math.Abs(a[i].y0-b[i].y0) > alike {
			return true
		}
	}
	return false
}

// set returns how far right of a piece the next must be set, raised by d, each
// of them upright or by half a turn.
func (n *nest) set(first, next int, d float64) float64 {
	return max(spaced(&n.right[first], &n.left[next], d, n.gap), 0)
}

// guess is set, near enough to look around with.
func (n *nest) guess(first, next int, d float64) float64 {
	return max(spaced(&n.rough[0][first], &n.rough[1][next], d, n.gap), 0)
}

// A spot is where a piece of a block is: the corner of its box, and which way
// round it lies.
type spot struct {
	r2.Vec
	way int
}

// wanted reports whether a block of a number of pieces is worth making.
func (n *nest) wanted(o *offers, pieces int, w, h float64) bool {
	if n.swapped {
		w, h = h, w
	}
	return o.wanted(pieces, w, h)
}

// offer makes a block of pieces at spots where it is worth it.
func (n *nest) offer(o *offers, w, h float64, spots []spot) {
	if !n.wanted(o, len(spots), w, h) {
		return
	}
	if n.swapped {
		w, h = h, w
	}
	low := math.Inf(1)
	for _, p := range spots {
		low = min(low, p.Y)
	}
	b := block{w: w, h: h}
	for _, p := range spots {
		at := r2.Vec{X: p.X, Y: p.Y - low}
		if n.swapped {
			at.X, at.Y = at.Y, at.X
		}
		q := pose{at: at}
		if p.way == 1 {
			q = pose{math.Pi, r2.Add(at, r2.Vec{X: o.k.w, Y: o.k.h})}
		}
		b.pieces = append(b.pieces, q)
	}
	o.best[len(spots)] = b
}

// setOffs is how many heights, from level to clear of each other, every second
// piece of a chain is tried at.
const setOffs = 10

// chains offers rows of pieces, every second one set off by some height.
func (n *nest) chains(o *offers) {
	spots := make([]spot, 0, len(o.best))
	for _, odd := range n.ways {
		for i := -setOffs + 1; i < setOffs; i++ {
			if len(n.ways) == 1 && i < 0 {
				continue // the same upside down
			}
			d := n.h * float64(i) / setOffs
			tall := n.h + math.Abs(d)
			there, back := n.guess(0, odd, d), n.guess(odd, 0, -d)
			// Not worth making sure of where neither a pair nor a long row gains.
			enough := n.w * n.h * (1 - worth)
			if tall*max(there+back, n.inRow)/2 > enough && tall*(there+n.w)/2 > enough {
				continue
			}
			there, back = n.set(0, odd, d), n.set(odd, 0, -d)
			spots = append(spots[:0], spot{})
			for k := 1; k+1 < len(o.best); k++ {
				p := spot{r2.Vec{X: spots[k-1].X + there, Y: d}, odd}
				if k%2 == 0 {
					p = spot{r2.Vec{X: spots[k-1].X + back}, 0}
				}
				if k >= 2 {
					p.X = max(p.X, spots[k-2].X+n.inRow)
				}
				spots = append(spots, p)
				n.offer(o, p.X+n.w, tall, spots)
			}
		}
	}
}

// rises is how often the step from row to row of a lattice is halved: to less
// than a thousandth of the height.
const rises = 10

// lattices offers rows above each other, every second row set off to the side so
// that its pieces reach between those of the next: the way discs and gores lie
// closest.
func (n *nest) lattices(o *offers) {
	for _, odd := range n.ways {
		// beside returns how far an odd row must be set off at a rise d, and how
		// far from there the next even piece must be.
		beside := func(d float64, set func(int, int, float64) float64) (lo, hi float64) {
			return max(set(0, odd, d), set(0, odd, -d)), max(set(odd, 0, -d), set(odd, 0, d))
		}
		low, rise := n.overRow/2, n.h+n.gap
		fits := func(d float64) bool {
			lo, hi := beside(d, n.guess)
			return lo+hi <= n.inRow
		}
		if fits(low) {
			rise = low
		}
		for range rises {
			if rise <= low {
				break
			}
			if mid := (low + rise) / 2; fits(mid) {
				rise = mid
			} else {
				low = mid
			}
		}
		lo, hi := beside(rise, n.set)
		pitch := max(n.inRow, lo+hi)
		if pitch*rise > n.w*n.h*(1-worth) {
			continue
		}
		most := len(o.best) - 1
		for rows := 2; rows <= most; rows++ {
			for across := 1; across*rows-rows/2 <= most; across++ {
				// The last piece of an odd row may be left out, which makes the
				// block narrower.
				for less := 0; less <= 1 && less < across; less++ {
					w, h := max(float64(across-1)*pitch, lo+float64(across-less-1)*pitch)+n.w, float64(rows-1)*rise+n.h
					if n.wanted(o, across*rows-less*(rows/2), w, h) {
						n.offer(o, w, h, rowsOf(rows, across, less, pitch, rise, lo, odd))
					}
				}
			}
		}
	}
}

// rowsOf returns the spots of rows of a number of pieces across, less in odd rows.
func rowsOf(rows, across, less int, pitch, rise, off float64, odd int) []spot {
	var spots []spot
	for r := range rows {
		m, x, way := across, 0.0, 0
		if r%2 == 1 {
			m, x, way = across-less, off, odd
		}
		for c := range m {
			spots = append(spots, spot{r2.Vec{X: x + float64(c)*pitch, Y: float64(r) * rise}, way})
		}
	}
	return spots
}
