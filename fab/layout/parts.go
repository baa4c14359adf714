package layout

import (
	"cmp"
	"slices"
)

// A part is a rectangle in hand while a sheet is cut up: it is a piece, or it
// is left whole, or edge-to-edge cuts part it into smaller ones. Sizes are
// whole micrometres with the kerf added, as in the search.
type part struct {
	x, y, w, h int32
	piece      int32 // none for an offcut or a part to be cut further
	turn       bool
	row        bool    // its parts lie side by side, else one above the other
	parts      []*part // from left to right or from below; none for a piece or an offcut
}

// A cutter shares out the free space of a sheet and so turns joins into cuts.
type cutter struct {
	b  *board
	st *stock
}

// parts returns the sheet b cut into its pieces and offcuts.
func parts(b *board, st *stock) *part {
	c := cutter{b, st}
	root := rest(st.w, st.h)
	if b.root != none {
		root = c.block(b.root, st.w, st.h)
	}
	root.move(0, 0)
	return root
}

// rest returns a part that is left whole.
func rest(w, h int32) *part { return &part{w: w, h: h, piece: none} }

// split returns a part of w by h that is cut into those given, leaving out what
// has no size. A single part of the whole size is returned as it is.
func split(row bool, w, h int32, parts ...*part) *part {
	parts = slices.DeleteFunc(parts, func(p *part) bool { return p.w <= 0 || p.h <= 0 })
	if len(parts) == 1 {
		return parts[0]
	}
	return &part{w: w, h: h, piece: none, row: row, parts: parts}
}

// block returns a part of w by h cut into the pieces of the block n. The free
// space beside the block comes off in one of two ways: first, in one length, or
// after the block's own cuts, shared out between them. The one with the larger
// offcut is taken, if the shear takes its cuts.
func (c *cutter) block(n, w, h int32) *part {
	d := &c.b.nodes[n]
	if d.a == none {
		return c.leaf(d, w, h)
	}
	along, across, long, deep := w, h, d.w, d.h
	if !d.row {
		along, across, long, deep = h, w, d.h, d.w
	}
	kids := c.kids(n, d.row, nil)
	free := func(across int32) int64 { // the largest offcut where the kids are as deep as that
		most := area(along-long, across)
		for _, k := range kids {
			a, b := c.sizes(k, d.row)
			most = max(most, area(a, across-b))
		}
		return most
	}
	over := across - deep
	first := over > 0 && along <= c.st.shear && (across > c.st.shear || max(area(along, over), free(deep)) > free(across))
	if first {
		across = deep
	}
	cut := func(n, along, across int32) *part {
		if d.row {
			return c.block(n, along, across)
		}
		return c.block(n, across, along)
	}
	var list []*part
	for _, k := range kids {
		a, _ := c.sizes(k, d.row)
		list = append(list, cut(k, a, across))
	}
	if d.row {
		inner := split(true, w, across, append(list, rest(along-long, across))...)
		if first {
			return split(false, w, h, inner, rest(w, over))
		}
		return inner
	}
	inner := split(false, across, h, append(list, rest(across, along-long))...)
	if first {
		return split(true, w, h, inner, rest(over, h))
	}
	return inner
}

// leaf returns a part of w by h cut down to the piece d.
func (c *cutter) leaf(d *node, w, h int32) *part {
	p := &part{w: d.w, h: d.h, piece: d.piece, turn: d.turn}
	right, above := w-d.w, h-d.h
	shear := c.st.shear
	row := (right == 0 || h <= shear) && (above == 0 || d.w <= shear) // the cut along y first
	stack := (above == 0 || w <= shear) && (right == 0 || d.h <= shear)
	if row && (!stack || max(area(right, h), area(d.w, above)) >= max(area(w, above), area(right, d.h))) {
		return split(true, w, h, split(false, d.w, h, p, rest(d.w, above)), rest(right, h))
	}
	return split(false, w, h, split(true, w, d.h, p, rest(right, d.h)), rest(w, above))
}

func area(w, h int32) int64 { return int64(w) * int64(h) }

// sizes returns the sizes of the block n along and across a row or a stack.
func (c *cutter) sizes(n int32, row bool) (along, across int32) {
	d := &c.b.nodes[n]
	if row {
		return d.w, d.h
	}
	return d.h, d.w
}

// kids returns the blocks that the join n and the joins of its own direction in
// it set side by side, the longest along it first, so that equal settings of
// the stop follow each other.
func (c *cutter) kids(n int32, row bool, out []int32) []int32 {
	root := out == nil
	for _, k := range []int32{c.b.nodes[n].a, c.b.nodes[n].b} {
		if d := &c.b.nodes[k]; d.a != none && d.row == row {
			out = c.kids(k, row, out)
		} else {
			out = append(out, k)
		}
	}
	if root {
		slices.SortStableFunc(out, func(k, l int32) int {
			ka, kb := c.sizes(k, row)
			la, lb := c.sizes(l, row)
			return cmp.Or(cmp.Compare(la, ka), cmp.Compare(lb, kb), cmp.Compare(c.b.nodes[k].piece, c.b.nodes[l].piece))
		})
	}
	return out
}

// move places the part and all parts in it.
func (p *part) move(x, y int32) {
	p.x, p.y = x, y
	for _, k := range p.parts {
		k.move(x, y)
		if p.row {
			x += k.w
		} else {
			y += k.h
		}
	}
}
