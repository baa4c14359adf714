package layout

import "math"

// A rect is one piece to lay, in whole micrometres with the kerf added to both
// sizes: a cut of that width then fits between any two.
type rect struct {
	w, h int32
	area int64
	turn bool
	of   int32 // its index in Problem.Pieces
}

// A stock is a kind of sheet inside its trim, in whole micrometres with the
// kerf added to both sizes, since the last piece needs none beyond it.
type stock struct {
	w, h  int32
	area  int64
	cost  float64
	count int   // math.MaxInt for no limit
	shear int32 // the longest cut, kerf added; math.MaxInt32 for no limit

	// A piece longer than the shear can only come from a sheet as high (or as
	// wide) as itself, so that no long cut is needed; and not if that sheet's
	// long edges must be trimmed first.
	longRow, longStack bool
}

// takes reports whether the shear can free a single piece of w by h.
func (s *stock) takes(w, h int32) bool {
	return (w <= s.shear || h == s.h && s.longRow) && (h <= s.shear || w == s.w && s.longStack)
}

// A search keeps boards with pieces on them and the pieces that are left over.
type search struct {
	rects  []rect
	stocks []stock
	steps  int64 // places looked at so far
	rnd    random

	boards []*board
	used   []int // boards of each kind
	cost   float64
	limit  float64 // of cost, not to be passed
	left   []int32 // pieces without a place
	pool   []*board

	taste taste
	best  place
}

// A taste weighs what a place costs.
type taste struct {
	step, gap, over int64
	open            int64
}

// A place is where a piece may be laid.
type place struct {
	score int64
	board int // none: open a new one of the kind
	kind  int
	at    int32
	row   bool
	turn  bool
}

// look finds the best place for the piece.
func (s *search) look(piece int32) bool {
	r := &s.rects[piece]
	s.best = place{score: math.MaxInt64}
	for i, b := range s.boards {
		st := &s.stocks[b.kind]
		if st.area-b.area < r.area {
			continue
		}
		s.fit(b, i, b.root, st.w, st.h, r, st)
	}
	for k := range s.stocks {
		st := &s.stocks[k]
		if s.used[k] >= st.count || s.cost+st.cost > s.limit {
			continue
		}
		s.steps++
		if r.w <= st.w && r.h <= st.h && st.takes(r.w, r.h) {
			s.open(k, r.w, r.h, false)
		}
		if r.turn && r.h <= st.w && r.w <= st.h && st.takes(r.h, r.w) {
			s.open(k, r.h, r.w, true)
		}
	}
	return s.best.score < math.MaxInt64
}

func (s *search) open(k int, w, h int32, turn bool) {
	st := &s.stocks[k]
	t := &s.taste
	score := t.open*st.area + t.gap*int64(st.w-w)*int64(h) + t.over*int64(st.h-h)*int64(w)
	if score < s.best.score {
		s.best = place{score: score, board: none, kind: k, at: none, turn: turn}
	}
}

// fit weighs the places beside the block n of b and beside all blocks in it.
// The block and all that may join it have the room w by h.
func (s *search) fit(b *board, i int, n, w, h int32, r *rect, st *stock) {
	d := &b.nodes[n]
	if int64(w)*int64(h)-d.area < r.area {
		return
	}
	s.steps++
	some := false
	if r.w <= w && r.h <= h {
		some = true
		s.weigh(d, i, n, w, h, r.w, r.h, false, st)
	}
	if r.turn && r.h <= w && r.w <= h {
		some = true
		s.weigh(d, i, n, w, h, r.h, r.w, true, st)
	}
	if !some || d.a == none {
		return
	}
	p, q := &b.nodes[d.a], &b.nodes[d.b]
	if d.row {
		h = min(h, st.shear)
		s.fit(b, i, d.a, w-q.w, h, r, st)
		s.fit(b, i, d.b, w-p.w, h, r, st)
	} else {
		w = min(w, st.shear)
		s.fit(b, i, d.a, w, h-q.h, r, st)
		s.fit(b, i, d.b, w, h-p.h, r, st)
	}
}

// weigh scores laying a piece of p by q beside the block d, which has the room
// w by h, and keeps the better places.
func (s *search) weigh(d *node, i int, n, w, h, p, q int32, turn bool, st *stock) {
	if !st.takes(p, q) {
		return
	}
	t := &s.taste
	if gap := w - d.w - p; gap >= 0 && max(d.h, q) <= st.shear {
		step := int64(d.h-q) * int64(p)
		over := int64(h-d.h) * int64(p)
		if step < 0 {
			step = int64(q-d.h) * int64(d.w)
			over = int64(h-q) * int64(p)
		}
		score := t.step*step + t.gap*int64(gap)*int64(q) + t.over*over
		if score < s.best.score && s.rnd.next()&63 != 0 {
			s.best = place{score: score, board: i, at: n, row: true, turn: turn}
		}
	}
	if gap := h - d.h - q; gap >= 0 && max(d.w, p) <= st.shear {
		step := int64(d.w-p) * int64(q)
		over := int64(w-d.w) * int64(q)
		if step < 0 {
			step = int64(p-d.w) * int64(d.h)
			over = int64(w-p) * int64(q)
		}
		score := t.step*step + t.gap*int64(gap)*int64(p) + t.over*over
		if score < s.best.score && s.rnd.next()&63 != 0 {
			s.best = place{score: score, board: i, at: n, turn: turn}
		}
	}
}
