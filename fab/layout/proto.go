package layout

import (
	"math"
	"slices"
)

func (s *search) newBoard(kind int) *board {
	var b *board
	if n := len(s.pool); n > 0 {
		b = s.pool[n-1]
		s.pool = s.pool[:n-1]
		b.clear(nil)
		b.kind = kind
	} else {
		b = newBoard(kind)
	}
	return b
}

func (s *search) recost() {
	s.cost = 0
	for k, n := range s.used {
		s.cost += float64(float64(n) * s.stocks[k].cost)
	}
}

// lay puts the piece at the place found last; touched is told of board first.
func (s *search) lay(piece int32, touch func(i int)) {
	pl := s.best
	r := &s.rects[piece]
	w, h := r.w, r.h
	if pl.turn {
		w, h = h, w
	}
	if pl.board == none {
		b := s.newBoard(pl.kind)
		s.boards = append(s.boards, b)
		s.used[pl.kind]++
		s.recost()
		b.join(none, false, piece, w, h, pl.turn)
		return
	}
	if touch != nil {
		touch(pl.board)
	}
	s.boards[pl.board].join(pl.at, pl.row, piece, w, h, pl.turn)
}

type saved struct {
	boards []*board
	left   []int32
}

func (s *search) save() saved {
	var v saved
	for _, b := range s.boards {
		c := newBoard(b.kind)
		c.copyFrom(b)
		v.boards = append(v.boards, c)
	}
	v.left = slices.Clone(s.left)
	return v
}

func (s *search) load(v saved) {
	s.boards = s.boards[:0]
	clear(s.used)
	for _, b := range v.boards {
		c := newBoard(b.kind)
		c.copyFrom(b)
		s.boards = append(s.boards, c)
		s.used[b.kind]++
	}
	s.left = append(s.left[:0], v.left...)
	s.recost()
}

func (s *search) key(mode int, r *rect) int64 {
	switch mode {
	case 0:
		return r.area
	case 1:
		return int64(max(r.w, r.h)) << 20
	case 2:
		return int64(r.w+r.h) << 20
	default:
		return int64(min(r.w, r.h)) << 20
	}
}

var Tune = struct {
	Lambda, Temp float64
	Tastes       []taste
	MaxRuin      int
	Noise        int
}{0.3, 0.02, []taste{{4, 0, 1, 4}, {4, 1, 0, 4}, {2, 2, 1, 4}, {4, 1, 1, 4}, {1, 1, 1, 4}}, 3, 50}

type keyed struct {
	k int64
	p int32
}

func (s *search) sorted(list []int32, mode int, noise int, tmp []keyed) []keyed {
	tmp = tmp[:0]
	for _, p := range list {
		k := s.key(mode, &s.rects[p])
		if noise > 0 {
			k = k / 256 * int64(256-noise/2+s.rnd.below(noise))
		}
		tmp = append(tmp, keyed{k, p})
	}
	slices.SortFunc(tmp, func(a, b keyed) int {
		if a.k != b.k {
			if a.k > b.k {
				return -1
			}
			return 1
		}
		return int(a.p - b.p)
	})
	return tmp
}

func (s *search) construct(mode int, noise int) {
	s.boards = s.boards[:0]
	clear(s.used)
	s.recost()
	s.left = s.left[:0]
	all := make([]int32, len(s.rects))
	for i := range all {
		all[i] = int32(i)
	}
	for _, k := range s.sorted(all, mode, noise, nil) {
		if s.look(k.p) {
			s.lay(k.p, nil)
		} else {
			s.left = append(s.left, k.p)
		}
	}
}

func (s *search) fill(b *board) float64 {
	f := float64(b.area) / float64(s.stocks[b.kind].area)
	return float64(f * f)
}

// Run is the prototype driver.
func (s *search) run(lb float64, budget int64) saved {
	s.limit = math.Inf(1)
	var best saved
	bestCost := math.Inf(1)
	for m := 0; m < 4*len(Tune.Tastes) && bestCost > lb; m++ {
		s.taste = Tune.Tastes[m/4]
		s.construct(m%4, 0)
		if len(s.left) == 0 && s.cost < bestCost {
			bestCost = s.cost
			best = s.save()
		}
		if s.steps > budget/4 {
			break
		}
	}
	for bestCost > lb && s.steps < budget {
		s.load(best)
		s.limit = bestCost - 1e-6*bestCost
		// empty the least filled board
		for s.cost > s.limit {
			low := 0
			for i, b := range s.boards {
				if b.area < s.boards[low].area {
					low = i
				}
			}
			s.dropBoard(low)
		}
		if !s.improve(budget) {
			break
		}
		bestCost = s.cost
		best = s.save()
	}
	return best
}

func (s *search) dropBoard(i int) {
	b := s.boards[i]
	s.left = b.clear(s.left)
	s.used[b.kind]--
	last := len(s.boards) - 1
	s.boards[i] = s.boards[last]
	s.boards = s.boards[:last]
	s.pool = append(s.pool, b)
	s.recost()
}

func (s *search) energy() float64 {
	unit := float64(s.stocks[0].area)
	e := 0.0
	for _, p := range s.left {
		e += float64(s.rects[p].area) / unit
	}
	for _, b := range s.boards {
		e -= float64(Tune.Lambda * s.fill(b))
	}
	return e
}

func (s *search) improve(budget int64) bool {
	var old []int32
	var oldBoards []*board
	var tmp []keyed
	backup := map[int]*board{}
	_ = backup
	energy := s.energy()
	for s.steps < budget {
		if len(s.left) == 0 {
			return true
		}
		old = append(old[:0], s.left...)
		oldBoards = append(oldBoards[:0], s.boards...)
		oldCost := s.cost
		copied := make(map[*board]bool)
		touch := func(i int) {
			b := s.boards[i]
			if copied[b] {
				return
			}
			c := s.newBoard(b.kind)
			c.copyFrom(b)
			s.boards[i] = c
			copied[c] = true
		}
		// ruin
		k := 1 + s.rnd.below(Tune.MaxRuin)
		for range k {
			if len(s.boards) == 0 {
				break
			}
			i := s.rnd.below(len(s.boards))
			touch(i)
			b := s.boards[i]
			switch s.rnd.below(4) {
			case 0:
				s.left = b.clear(s.left)
			default:
				m := 1 + s.rnd.below(3)
				for range m {
					if b.root == none {
						break
					}
					s.left = b.remove(s.pick(b), s.left)
				}
			}
			if b.root == none {
				delete(copied, b)
				s.dropBoardKeep(i)
			}
		}
		s.taste = Tune.Tastes[s.rnd.below(len(Tune.Tastes))]
		tmp = s.sorted(s.left, s.rnd.below(4), Tune.Noise, tmp)
		s.left = s.left[:0]
		for _, k := range tmp {
			if s.look(k.p) {
				if s.best.board == none {
					s.lay(k.p, nil)
					copied[s.boards[len(s.boards)-1]] = true
				} else {
					s.lay(k.p, touch)
				}
			} else {
				s.left = append(s.left, k.p)
			}
		}
		e := s.energy()
		if len(s.left) == 0 || e < energy+Tune.Temp*float64(s.rnd.below(1024))/1024 {
			energy = e
			// old boards that were replaced go to pool
			in := map[*board]bool{}
			for _, b := range s.boards {
				in[b] = true
			}
			for _, b := range oldBoards {
				if !in[b] {
					s.pool = append(s.pool, b)
				}
			}
			continue
		}
		for _, b := range s.boards {
			if copied[b] {
				s.pool = append(s.pool, b)
			}
		}
		s.boards = append(s.boards[:0], oldBoards...)
		s.left = append(s.left[:0], old...)
		clear(s.used)
		for _, b := range s.boards {
			s.used[b.kind]++
		}
		s.cost = oldCost
	}
	return len(s.left) == 0
}

func (s *search) dropBoardKeep(i int) {
	b := s.boards[i]
	s.used[b.kind]--
	last := len(s.boards) - 1
	s.boards[i] = s.boards[last]
	s.boards = s.boards[:last]
	s.recost()
}

// pick a random live node
func (s *search) pick(b *board) int32 {
	n := b.root
	for {
		d := &b.nodes[n]
		if d.a == none {
			return n
		}
		if n != b.root && s.rnd.below(4) == 0 {
			return n
		}
		if s.rnd.next()&1 == 0 {
			n = d.a
		} else {
			n = d.b
		}
	}
}
