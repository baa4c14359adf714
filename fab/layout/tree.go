package layout

// A layout on one sheet is kept as a tree of joins, not of cuts: a leaf is a
// piece, an inner node sets two smaller blocks side by side (a row) or one
// above the other (a stack). A node knows only the least size that its block
// needs. How the sheet's free space is shared out between the blocks stays
// open, so that a piece may still go beside any block, single or joined, for
// which the slack of the blocks around it makes room. Every such tree can be
// cut apart edge to edge, and every edge-to-edge layout is such a tree.
//
// Trees of pieces joined in rows and stacks: Wang, "Two algorithms for
// constrained two-dimensional cutting stock problems", Operations Research 31
// (1983). Putting pieces one by one into a tree whose blocks keep their slack:
// Fleszar, "Three insertion heuristics and a justification improvement
// heuristic for two-dimensional bin packing with guillotine cuts", Computers &
// Operations Research 40 (2013).

// none stands for no node.
const none = -1

// A node is a block of a sheet.
type node struct {
	w, h  int32 // the least size of the block
	up    int32 // the join that it is part of; none for the root
	a, b  int32 // the blocks joined; none for a leaf
	piece int32 // of a leaf
	row   bool  // a and b lie side by side, else b lies above a
	turn  bool  // of a leaf: laid a quarter turn round
	area  int64 // of the pieces in it
}

// A board is one sheet with the pieces laid on it so far.
type board struct {
	kind  int
	root  int32
	spare int32 // the first unused node, chained by up
	nodes []node
	area  int64 // of the pieces on it
	round int64 // of the search in which it was made

	// never holds the kinds of pieces, as bits, that were found not to fit. More
	// pieces on the board do not change that, fewer do.
	never []uint64
}

// copyFrom makes b equal to from, in b's own memory.
func (b *board) copyFrom(from *board) {
	nodes, never := append(b.nodes[:0], from.nodes...), append(b.never[:0], from.never...)
	*b = *from
	b.nodes, b.never = nodes, never
}

func (b *board) take() int32 {
	if n := b.spare; n != none {
		b.spare = b.nodes[n].up
		return n
	}
	b.nodes = append(b.nodes, node{})
	return int32(len(b.nodes) - 1)
}

func (b *board) drop(n int32) {
	b.nodes[n].up = b.spare
	b.spare = n
}

// clear takes all pieces off and appends them to out.
func (b *board) clear(out []int32) []int32 {
	if b.root != none {
		out = b.pieces(b.root, out)
	}
	b.empty()
	return out
}

func (b *board) empty() {
	b.root, b.spare, b.area = none, none, 0
	b.nodes = b.nodes[:0]
	clear(b.never)
}

// pieces appends the pieces of the block n to out.
func (b *board) pieces(n int32, out []int32) []int32 {
	if b.nodes[n].a == none {
		return append(out, b.nodes[n].piece)
	}
	return b.pieces(b.nodes[n].b, b.pieces(b.nodes[n].a, out))
}

// find returns the leaf of the piece in the block n, or none.
func (b *board) find(n, piece int32) int32 {
	if n == none {
		return none
	}
	d := &b.nodes[n]
	if d.a == none {
		if d.piece == piece {
			return n
		}
		return none
	}
	if at := b.find(d.a, piece); at != none {
		return at
	}
	return b.find(d.b, piece)
}

// join lays a piece of the size w by h beside the block at, in a row with it
// or on top of it. On an empty board at is none.
func (b *board) join(at int32, row bool, piece, w, h int32, turn bool) {
	leaf := b.take()
	area := int64(w) * int64(h)
	b.nodes[leaf] = node{w: w, h: h, up: none, a: none, b: none, piece: piece, turn: turn, area: area}
	b.area += area
	if at == none {
		b.root = leaf
		return
	}
	n := b.take()
	above := b.nodes[at].up
	b.nodes[n] = node{up: above, a: at, b: leaf, row: row}
	b.nodes[at].up, b.nodes[leaf].up = n, n
	b.replace(above, at, n)
	b.resize(n)
}

// remove takes the block n off with all that is in it. Its nodes are freed and
// its pieces appended to out.
func (b *board) remove(n int32, out []int32) []int32 {
	if n == b.root {
		return b.clear(out)
	}
	clear(b.never)
	out = b.pieces(n, out)
	b.area -= b.nodes[n].area
	join := b.nodes[n].up
	other := b.nodes[join].a
	if other == n {
		other = b.nodes[join].b
	}
	above := b.nodes[join].up
	b.nodes[other].up = above
	b.replace(above, join, other)
	b.drop(join)
	b.dropAll(n)
	b.resize(above)
	return out
}

func (b *board) dropAll(n int32) {
	if b.nodes[n].a != none {
		b.dropAll(b.nodes[n].a)
		b.dropAll(b.nodes[n].b)
	}
	b.drop(n)
}

// replace puts the block with in the place of old below the join above.
func (b *board) replace(above, old, with int32) {
	switch {
	case above == none:
		b.root = with
	case b.nodes[above].a == old:
		b.nodes[above].a = with
	default:
		b.nodes[above].b = with
	}
}

// resize works out the sizes of the join n and of all above it.
func (b *board) resize(n int32) {
	for n != none {
		j := &b.nodes[n]
		p, q := &b.nodes[j.a], &b.nodes[j.b]
		if j.row {
			j.w, j.h = p.w+q.w, max(p.h, q.h)
		} else {
			j.w, j.h = max(p.w, q.w), p.h+q.h
		}
		j.area = p.area + q.area
		n = j.up
	}
}
