package layout

// The search for fewer sheets ruins and recreates: it takes pieces off a few
// sheets and lays them again in a blurred order. It works toward a goal, one
// sheet less than the best layout known: the goal's sheets are never passed and
// pieces without a place are left over, fewer and fewer, until there are none.
//
// Schrimpf et al., "Record breaking optimization results using the ruin and
// recreate principle", Journal of Computational Physics 159 (2000); Gardeyn and
// Wauters, "A goal-driven ruin and recreate heuristic for the 2D variable-sized
// bin packing problem with guillotine constraints", European Journal of
// Operational Research 301 (2022). Threshold: Dueck and Scheuer, "Threshold
// accepting", Journal of Computational Physics 90 (1990).

// The search's settings, found by trial on published problems.
const (
	ruined  = 5   // sheets, at most, that are ruined in one round
	torn    = 5   // blocks, at most, that are torn from a sheet that is not cleared
	cleared = 2   // one sheet in so many is cleared
	joined  = 4   // one block torn off in so many is a join, at each step down to a piece
	blur    = 50  // parts of 256 by which the order is blurred
	uneven  = 0.5 // what a full sheet is worth against a sheet's area of pieces left over
	// tolerant is by how much, at most and at first, a layout may be worse than
	// the one before and still be gone on from; at the last it may not.
	tolerant = 0.02
)

// stepsPerRound is how many steps a round takes besides looking for places.
const stepsPerRound = 12

// improve looks for layouts without pieces left over within the limit of cost,
// until the steps are used up. It reports whether it found them; they are then
// on the boards.
func (s *search) improve(steps int64) bool {
	var old saved
	energy := s.energy()
	from := s.steps
	for len(s.left) > 0 {
		if s.steps >= steps {
			return false
		}
		rest := float64(steps-s.steps) / float64(steps-from)
		s.start()
		old.boards = append(old.boards[:0], s.boards...)
		old.left = append(old.left[:0], s.left...)
		s.ruin()
		s.taste = tastes[s.rnd.below(len(tastes))]
		s.kind = s.rnd.below(len(s.stocks))
		s.layAll(measure(s.rnd.below(int(measures))), blur)
		s.steps += stepsPerRound

		e := s.energy()
		if len(s.left) > 0 && e >= energy+float64(tolerant*rest*s.rnd.unit()) {
			s.back(old)
			continue
		}
		s.done()
		energy = e
	}
	return true
}

// energy is what the search makes least: the area of the pieces left over, in
// sheets, less a reward for sheets filled unevenly, which leaves room where it
// is of use.
func (s *search) energy() float64 {
	var area int64
	for _, p := range s.left {
		area += s.rects[p].area
	}
	e := float64(area) / float64(s.stocks[0].area)
	for _, b := range s.boards {
		fill := float64(b.area) / float64(s.stocks[b.kind].area)
		e -= float64(uneven * float64(fill*fill))
	}
	return e
}

// ruin takes pieces off a few sheets chosen at random.
func (s *search) ruin() {
	for range 1 + s.rnd.below(ruined) {
		if len(s.boards) == 0 {
			return
		}
		// of two sheets the emptier one, which has more to give
		i, j := s.rnd.below(len(s.boards)), s.rnd.below(len(s.boards))
		if s.boards[j].area < s.boards[i].area {
			i = j
		}
		b := s.own(i)
		if s.rnd.below(cleared) == 0 {
			s.left = b.clear(s.left)
		} else {
			for range 1 + s.rnd.below(torn) {
				if b.root != none {
					s.left = b.remove(s.pick(b), s.left)
				}
			}
		}
		if b.root == none {
			s.shed(i)
		}
	}
}

// pick returns a block of b chosen at random, more often a single piece than a
// join.
func (s *search) pick(b *board) int32 {
	n := b.root
	for {
		d := &b.nodes[n]
		if d.a == none || n != b.root && s.rnd.below(joined) == 0 {
			return n
		}
		if s.rnd.below(2) == 0 {
			n = d.a
		} else {
			n = d.b
		}
	}
}

// empty takes the pieces off the least filled sheets until the cost is within
// the limit.
func (s *search) empty() {
	for s.cost > s.limit {
		least := none
		for i, b := range s.boards {
			if s.stocks[b.kind].cost > 0 && (least == none || b.area < s.boards[least].area) {
				least = i
			}
		}
		s.left = s.own(least).clear(s.left)
		s.shed(least)
	}
}
