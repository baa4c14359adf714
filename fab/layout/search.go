package layout

import (
	"cmp"
	"slices"
)

// A search keeps boards with pieces on them, the pieces that are left over, and
// what it needs to change them and to take changes back.
type search struct {
	// the problem
	rects  []rect
	stocks []stock

	// the layouts so far
	boards []*board
	left   []int32 // pieces without a place
	used   []int   // boards of each kind
	cost   float64 // of the boards
	limit  float64 // of cost, not to be passed

	// the search
	steps int64 // places looked at so far
	rnd   random
	taste taste
	kind  int // of the sheets to open next
	best  place

	// taking back
	round int64 // boards of an earlier round are copied before they change
	spare []*board
	order []ranked
}

func newSearch(rects []rect, stocks []stock) *search {
	return &search{rects: rects, stocks: stocks, used: make([]int, len(stocks))}
}

// add opens a board of the kind and returns its index.
func (s *search) add(kind int) int {
	b := s.fresh()
	b.empty()
	b.kind = kind
	s.boards = append(s.boards, b)
	s.used[kind]++
	s.count()
	return len(s.boards) - 1
}

// fresh returns a board of this round whose memory may be used.
func (s *search) fresh() *board {
	b := &board{}
	if n := len(s.spare); n > 0 {
		b = s.spare[n-1]
		s.spare = s.spare[:n-1]
	}
	b.round = s.round
	return b
}

// own returns the board i for changing: itself, or where it is of an earlier
// round its copy, which takes its place.
func (s *search) own(i int) *board {
	b := s.boards[i]
	if b.round != s.round {
		c := s.fresh()
		c.copyFrom(b)
		c.round = s.round
		s.boards[i] = c
	}
	return s.boards[i]
}

// shed closes the empty board i.
func (s *search) shed(i int) {
	last := len(s.boards) - 1
	b := s.boards[i]
	s.used[b.kind]--
	s.boards[i] = s.boards[last]
	s.boards = s.boards[:last]
	if b.round == s.round {
		s.spare = append(s.spare, b)
	}
	s.count()
}

// count works the cost out anew, always in the same order, so that it does not
// drift.
func (s *search) count() {
	s.cost = 0
	for k, n := range s.used {
		s.cost += float64(float64(n) * s.stocks[k].cost)
	}
}

// reset closes all boards and leaves all pieces over.
func (s *search) reset() {
	s.round++
	s.boards = s.boards[:0]
	clear(s.used)
	s.count()
	s.left = s.left[:0]
	for i := range s.rects {
		s.left = append(s.left, int32(i))
	}
}

// A saved is a search's layouts at one time.
type saved struct {
	boards []*board
	left   []int32
	cost   float64
}

// save returns the layouts. Their boards are kept as they are from now on.
func (s *search) save() saved {
	s.round++
	return saved{slices.Clone(s.boards), slices.Clone(s.left), s.cost}
}

// load brings saved layouts back.
func (s *search) load(v saved) {
	s.round++
	s.boards = append(s.boards[:0], v.boards...)
	s.left = append(s.left[:0], v.left...)
	clear(s.used)
	for _, b := range s.boards {
		s.used[b.kind]++
	}
	s.count()
}

// A measure is what pieces are sorted by before they are laid, the largest
// first.
type measure int

const (
	byArea measure = iota
	byLong
	bySum
	byShort
	measures
)

func (r *rect) by(m measure) int64 {
	switch m {
	case byArea:
		return r.area
	case byLong:
		return int64(max(r.w, r.h)) << 20
	case bySum:
		return int64(r.w+r.h) << 20
	default:
		return int64(min(r.w, r.h)) << 20
	}
}

// A ranked is a piece with what it is sorted by.
type ranked struct {
	key   int64
	piece int32
}

// layAll lays the pieces left over, as far as there is room, in the order of
// the measure blurred by up to blur parts of 256.
func (s *search) layAll(m measure, blur int) {
	s.order = s.order[:0]
	for _, p := range s.left {
		key := s.rects[p].by(m)
		if blur > 0 {
			key = key >> 8 * int64(256-s.rnd.below(blur))
		}
		s.order = append(s.order, ranked{key, p})
	}
	slices.SortFunc(s.order, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(b.key, a.key), cmp.Compare(a.piece, b.piece))
	})
	s.left = s.left[:0]
	for _, o := range s.order {
		if s.look(o.piece) {
			s.lay(o.piece)
		} else {
			s.left = append(s.left, o.piece)
		}
	}
}
