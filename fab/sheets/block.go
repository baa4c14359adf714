package sheets

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
)

// HandGap is what is left, in mm, between two curved edges that are parted by
// hand: the slot of a nibbler, or how far snips may stray from the line on$
// waste. Common practice, no source.
const HandGap = 3.0

// A block is a rectangle with pieces of one kind in it, each at a pose that is
// applied to the kind's laid outline.
type block struct {
	w, h   float64
	pieces []pose
}

// single is the block of one piece in its own rectangle.
func (k *kind) single() block { return block{k.w, k.h, []pose{{}}} }

// full is the share of its rectangle above which a blank is not laid together
// with others: there is too little to gain.
const full = 0.97

// mostTogether is the greatest number of pieces in one block: what one person
// can still handle in one sheet while parting them by hand.
const mostTogether = 24

// together returns the blocks worth considering of up to most pieces within the
// room w by h, the best of each number.
func (k *kind) together(gap, w, h float64, most int) []block {
	if k.sheared || k.area > full*k.w*k.h || most < 2 {
		return nil
	}
	o := &offers{k: k, best: make([]block, min(most, mostTogether)+1), w: w, h: h}
	for _, swapped := range []bool{false, true} {
		n := newNest(k, gap, swapped)
		n.chains(o)
		n.lattices(o)
	}
	return slices.DeleteFunc(o.best, func(b block) bool { return len(b.pieces) < 2 })
}

// offers keeps the best block of each number of pieces.
type offers struct {
	k    *kind
	best []block
	w, h float64
}

// wanted reports whether a block of n pieces and that size is worth making.
func (o *offers) wanted(n int, w, h float64) bool {
	if n < 2 || n >= len(o.best) || w > o.w || h > o.h || w*h > float64(n)*o.k.w*o.k.h*(1-worth) {
		return false
	}
	b := &o.best[n]
	return b.pieces == nil || w*h < b.w*b.h*(1-1e-9)
}

// exchanged returns an outline with x and y exchanged.
func exchanged(points []r2.Vec) []r2.Vec {
	out := make([]r2.Vec, len(points))
	for i, p := range points {
		out[len(points)-1-i] = r2.Vec{X: p.Y, Y: p.X}
	}
	return out
}
