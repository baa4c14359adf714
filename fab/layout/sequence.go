package layout

// A hand is the part in hand in whole micrometres as it is, without kerf, with
// the sheet's untrimmed edges that it still has.
type hand struct {
	x0, y0, x1, y1            int32
	left, right, below, above bool
}

func (h hand) rect() Rect {
	return Rect{mm(h.x0), mm(h.y0), mm(max(h.x1-h.x0, 0)), mm(max(h.y1-h.y0, 0))}
}

func (h hand) empty() bool { return h.x1 <= h.x0 || h.y1 <= h.y0 }

func mm(um int32) float64 { return float64(um) / unit }

// A sequence writes the cuts of one sheet down: all cuts of the part in hand one after
// the other from its low end, then those of each part that dropped. Edges are trimmed as
// soon as the shear takes so long a cut. Those of a shear are then put into the order in
// which its stop is set seldom.
type sequence struct {
	in    hand // the sheet inside its trim
	kerf  int32
	shear int32 // without kerf
	grip  int32
	cuts  []Cut
}

// cuts returns the cuts in order that part the sheet s as root says.
func cuts(p *Problem, s *Sheet, root *part) []Cut {
	q := sequence{kerf: up(p.Kerf), shear: down(p.Shear), grip: down(p.Grip)}
	if p.Shear == 0 {
		q.shear = down(longest)
	}
	q.in = inside(s)
	t := s.Trim
	q.cut(root, hand{0, 0, down(s.Width), down(s.Height), t.Left > 0, t.Right > 0, t.Bottom > 0, t.Top > 0})
	if q.kerf > 0 {
		return q.cuts // by a cutter, which has no stop to set
	}
	return grouped(q.cuts)
}

// inside returns what is left of a sheet inside its trim.
func inside(s *Sheet) hand {
	t := s.Trim
	return hand{x0: up(t.Left), y0: up(t.Bottom), x1: down(s.Width) - up(t.Right), y1: down(s.Height) - up(t.Top)}
}

func (q *sequence) cut(p *part, h hand) {
	if p.piece == none && p.parts == nil {
		return
	}
	q.trim(&h)
	if p.parts == nil {
		return
	}
	stay := q.stays(p)
	drops := make([]hand, len(p.parts))
	for i, k := range p.parts[:stay] {
		drops[i], h = q.low(p.row, k, h)
	}
	for i := len(p.parts) - 1; i > stay; i-- {
		drops[i], h = q.high(p.row, p.parts[i], h)
	}
	drops[stay] = h
	for i, d := range drops {
		q.cut(p.parts[i], d)
	}
}

// stays returns which of the parts of p stays in hand: the last, unless that
// leaves less than the grip and another would not.
func (q *sequence) stays(p *part) int {
	size := func(k *part) int32 {
		if p.row {
			return k.w
		}
		return k.h
	}
	stay := len(p.parts) - 1
	if q.kerf > 0 || size(p.parts[stay]) >= q.grip {
		return stay
	}
	for i, k := range p.parts {
		if size(k) > size(p.parts[stay]) {
			stay = i
		}
	}
	return stay
}

// low cuts the part k off the low end of the part in hand.
func (q *sequence) low(row bool, k *part, h hand) (drop, keep hand) {
	drop, keep = h, h
	if row {
		drop.x1 = q.in.x0 + k.x + k.w - q.kerf
		keep.x0 = drop.x1 + q.kerf
		drop.right, keep.left = false, false
		q.add(Cut{Upright: true, At: mm(drop.x1), Stop: mm(drop.x1 - drop.x0)}, h, drop, keep)
	} else {
		drop.y1 = q.in.y0 + k.y + k.h - q.kerf
		keep.y0 = drop.y1 + q.kerf
		drop.above, keep.below = false, false
		q.add(Cut{At: mm(drop.y1), Stop: mm(drop.y1 - drop.y0)}, h, drop, keep)
	}
	return drop, keep
}

// high cuts the part k off the high end of the part in hand.
func (q *sequence) high(row bool, k *part, h hand) (drop, keep hand) {
	drop, keep = h, h
	if row {
		drop.x0 = q.in.x0 + k.x
		keep.x1 = drop.x0 - q.kerf
		drop.left, keep.right = false, false
		q.add(Cut{Upright: true, At: mm(drop.x0), Stop: mm(drop.x1 - drop.x0), High: true}, h, drop, keep)
	} else {
		drop.y0 = q.in.y0 + k.y
		keep.y1 = drop.y0 - q.kerf
		drop.below, keep.above = false, false
		q.add(Cut{At: mm(drop.y0), Stop: mm(drop.y1 - drop.y0), High: true}, h, drop, keep)
	}
	return drop, keep
}

// trim cuts off the untrimmed edges of the part in hand, those that the shear
// takes. Trimming one pair of edges may bring the other within its width.
func (q *sequence) trim(h *hand) {
	for range 2 {
		if h.y1-h.y0 <= q.shear {
			if h.left {
				drop, keep := *h, *h
				drop.x1, keep.x0 = max(q.in.x0-q.kerf, h.x0), q.in.x0
				keep.left = false
				q.add(Cut{Upright: true, At: mm(drop.x1), Stop: mm(drop.x1 - drop.x0), Trim: true}, *h, drop, keep)
				*h = keep
			}
			if h.right {
				drop, keep := *h, *h
				drop.x0, keep.x1 = min(q.in.x1+q.kerf, h.x1), q.in.x1
				keep.right = false
				q.add(Cut{Upright: true, At: mm(drop.x0), Stop: mm(drop.x1 - drop.x0), High: true, Trim: true}, *h, drop, keep)
				*h = keep
			}
		}
		if h.x1-h.x0 <= q.shear {
			if h.below {
				drop, keep := *h, *h
				drop.y1, keep.y0 = max(q.in.y0-q.kerf, h.y0), q.in.y0
				keep.below = false
				q.add(Cut{At: mm(drop.y1), Stop: mm(drop.y1 - drop.y0), Trim: true}, *h, drop, keep)
				*h = keep
			}
			if h.above {
				drop, keep := *h, *h
				drop.y0, keep.y1 = min(q.in.y1+q.kerf, h.y1), q.in.y1
				keep.above = false
				q.add(Cut{At: mm(drop.y0), Stop: mm(drop.y1 - drop.y0), High: true, Trim: true}, *h, drop, keep)
				*h = keep
			}
		}
	}
}

// add writes down a cut of the part h into drop and keep.
func (q *sequence) add(c Cut, h, drop, keep hand) {
	c.Hand, c.Drop, c.Keep = h.rect(), drop.rect(), keep.rect()
	c.From, c.To = mm(h.x0), mm(h.x1)
	if c.Upright {
		c.From, c.To = mm(h.y0), mm(h.y1)
	}
	q.cuts = append(q.cuts, c)
}
