package layout

import "math"

// A taste weighs what is bad about a place, as areas. Which weights serve best
// differs from problem to problem, so the search tries several.
type taste struct {
	step int64 // beside the shorter of the two blocks, where their heights differ
	gap  int64 // between the piece and the end of the room, along the join
	over int64 // between the joined block and the end of the room, across
}

// tastes are the weights that are tried, found by trial on published problems.
var tastes = [...]taste{{4, 0, 1}, {4, 1, 0}, {2, 2, 1}, {4, 1, 1}, {1, 1, 1}}

// shut is what opening a further sheet weighs, against the areas of a taste:
// it is done only where nothing else is left.
const shut = 16

// A place is where a piece may be laid.
type place struct {
	score int64
	board int // none: on a new one of the kind
	kind  int
	at    int32
	row   bool
	turn  bool
}

// boardsPerStep is how many sheets without room for a piece are passed over in
// the time of one step.
const boardsPerStep = 16

// look finds the best place for a piece and reports whether there is one.
func (s *search) look(piece int32) bool {
	r := &s.rects[piece]
	s.best = place{score: math.MaxInt64}
	s.steps += int64(len(s.boards) / boardsPerStep)
	for i, b := range s.boards {
		st := &s.stocks[b.kind]
		if st.area-b.area < r.area || b.never[r.like/64]>>(r.like%64)&1 != 0 {
			continue
		}
		s.fits = false
		s.fit(b, i, b.root, st.w, st.h, r, st)
		if !s.fits {
			b.never[r.like/64] |= 1 << (r.like % 64)
		}
	}
	if s.best.score < math.MaxInt64 {
		return true
	}
	for k := range s.stocks {
		st := &s.stocks[k]
		if s.used[k] >= st.count || s.cost+st.cost > s.limit {
			continue
		}
		s.steps++
		if st.holds(r.w, r.h) {
			s.open(k, r.w, r.h, false)
		}
		if r.turn && st.holds(r.h, r.w) {
			s.open(k, r.h, r.w, true)
		}
	}
	return s.best.score < math.MaxInt64
}

// open weighs laying a piece of w by h on a new sheet of the kind k: first one
// that costs nothing, then one of the kind that has the turn.
func (s *search) open(k int, w, h int32, turn bool) {
	st := &s.stocks[k]
	score := s.taste.gap*int64(st.w-w)*int64(h) + s.taste.over*int64(st.h-h)*int64(w)
	if st.cost > 0 {
		score += shut * st.area
		if k != s.kind {
			score += math.MaxInt64 / 2
		}
	}
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

// blink is how seldom, once in so many, a better place is overlooked, so that
// the same pieces do not always fall the same way. Christiaens and Vanden
// Berghe, "Slack induction by string removals for vehicle routing problems",
// Transportation Science 54 (2020).
const blink = 64

// weigh scores laying a piece of p by q beside the block d, which has the room
// w by h, in a row and in a stack, and keeps the better place.
func (s *search) weigh(d *node, i int, n, w, h, p, q int32, turn bool, st *stock) {
	if !st.takes(p, q) {
		return
	}
	if w-d.w >= p && max(d.h, q) <= st.shear {
		s.fits = true
		score := s.taste.score(d.w, d.h, p, q, w, h)
		if score < s.best.score && s.rnd.next()%blink != 0 {
			s.best = place{score: score, board: i, at: n, row: true, turn: turn}
		}
	}
	if h-d.h >= q && max(d.w, p) <= st.shear {
		s.fits = true
		score := s.taste.score(d.h, d.w, q, p, h, w)
		if score < s.best.score && s.rnd.next()%blink != 0 {
			s.best = place{score: score, board: i, at: n, turn: turn}
		}
	}
}

// score weighs a row of a block of bw by bh and a piece of p by q in the room
// w by h.
func (t *taste) score(bw, bh, p, q, w, h int32) int64 {
	gap := int64(w-bw-p) * int64(q)
	if bh >= q {
		return t.step*int64(bh-q)*int64(p) + t.gap*gap + t.over*int64(h-bh)*int64(p)
	}
	return t.step*int64(q-bh)*int64(bw) + t.gap*gap + t.over*int64(h-q)*int64(p)
}

// lay puts the piece at the place found last.
func (s *search) lay(piece int32) {
	r, at := &s.rects[piece], &s.best
	w, h := r.w, r.h
	if at.turn {
		w, h = h, w
	}
	i := at.board
	if i == none {
		i = s.add(at.kind)
	}
	s.own(i).join(at.at, at.row, piece, w, h, at.turn)
}
