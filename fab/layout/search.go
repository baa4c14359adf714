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
	words  int // of the bits for kinds of pieces

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
	fits  bool // some place was found, good or not

	// taking back
	round    int64    // boards of an earlier round are copied before they change
	kept     int64    // boards of this round and earlier ones may have been saved
	replaced []*board // in this round
	spare    []*board // memory for new ones
	order    []ranked
}

func newSearch(rects []rect, stocks []stock) *search {
	like := 0
	for i := range rects {
		like = max(like, rects[i].like)
	}
	// One more kind is for a strip to be kept free.
	return &search{rects: rects, stocks: stocks, used: make([]int, len(stocks)), words: (like+1)/64 + 1}
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
	n := len(s.spare)
	if n == 0 {
		return &board{nodes: make([]node, 0, 16), never: make([]uint64, s.words), round: s.round}
	}
	b := s.spare[n-1]
	s.spare = s.spare[:n-1]
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
		s.replaced = append(s.replaced, b)
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
	} else {
		s.replaced = append(s.replaced, b)
	}
	s.count()
}

// count works the cost out again, always in the same order, so that it does not
// drift.
func (s *search) count() {
	s.cost = 0
	for k, n := range s.used {
		s.cost += float64(float64(n) * s.stocks[k].cost)
	}
}

// start begins a round, which is taken back or done as a whole.
func (s *search) start() {
	s.round++
	s.replaced = s.replaced[:0]
}

// done frees the boards that the round replaced.
func (s *search) done() {
	for _, b := range s.replaced {
		if b.round > s.kept {
			s.spare = append(s.spare, b)
		}
	}
}

// back takes the round back to what was saved before it.
func (s *search) back(old saved) {
	for _, b := range s.boards {
		if b.round == s.round {
			s.spare = append(s.spare, b)
		}
	}
	s.set(old)
}

// set puts boards and pieces left over in place of those of the search.
func (s *search) set(v saved) {
	s.boards = append(s.boards[:0], v.boards...)
	s.left = append(s.left[:0], v.left...)
	clear(s.used)
	for _, b := range s.boards {
		s.used[b.kind]++
	}
	s.count()
}

// reset closes all boards and leaves all pieces over.
func (s *search) reset() {
	s.start()
	s.set(saved{})
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
	s.kept = s.round
	s.start()
	return saved{slices.Clone(s.boards), slices.Clone(s.left), s.cost}
}

// load brings saved layouts back.
func (s *search) load(v saved) {
	s.start()
	s.set(v)
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
