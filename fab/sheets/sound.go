package sheets

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// A checker finds whether blocks of one kind are sound: every two pieces of a
// block are the gap apart. The search for blocks makes sure of neighbours; this
// makes sure of all.
type checker struct {
	*sides
	w, h  float64
	gap   float64
	known map[pairing]bool
}

// A pairing is how one piece lies to another, in whole micrometres.
type pairing struct {
	first, second int
	x, y          int
}

func newChecker(k *kind, gap float64) *checker {
	return &checker{sides: k.sides(), w: k.w, h: k.h, gap: gap, known: map[pairing]bool{}}
}

func (c *checker) sound(b *block) bool {
	way, at := make([]int, len(b.pieces)), make([]r2.Vec, len(b.pieces))
	for i, q := range b.pieces {
		at[i] = q.at
		if q.angle != 0 {
			way[i], at[i] = 1, r2.Sub(q.at, r2.Vec{X: c.w, Y: c.h})
		}
		for j := range i {
			off := r2.Sub(at[i], at[j])
			if math.Abs(off.X) >= c.w+c.gap || math.Abs(off.Y) >= c.h+c.gap {
				continue
			}
			p := pairing{way[j], way[i], int(math.Round(off.X * 1e3)), int(math.Round(off.Y * 1e3))}
			ok, done := c.known[p]
			if !done {
				ok = c.parted(way[j], way[i], off)
				c.known[p] = ok
			}
			if !ok {
				return false
			}
		}
	}
	return true
}

// within is how much less than the gap, in mm, two pieces may be apart: above
// the rounding of positions, below anything that can be cut.
const within = 1e-3

// parted reports whether the second piece, at off from the first, is wholly on
// one side of it and the gap away.
func (c *checker) parted(first, second int, off r2.Vec) bool {
	return off.X >= spaced(&c.right[first], &c.left[second], off.Y, c.gap)-within ||
		-off.X >= spaced(&c.right[second], &c.left[first], -off.Y, c.gap)-within ||
		off.Y >= spaced(&c.over[first], &c.under[second], off.X, c.gap)-within ||
		-off.Y >= spaced(&c.over[second], &c.under[first], -off.X, c.gap)-within
}
