package layout

// keep returns layouts of the same cost with a larger offcut left whole, if it
// finds them within a number of steps. It lays a strip across a sheet, from edge to
// edge, as if it were a piece: wider where that succeeds, narrower where not. A
// strip is what is of most use, and little more than a strip can be left whole
// of a sheet from which anything is cut.
func (s *search) keep(v saved, steps int64) saved {
	s.limit = v.cost * (1 + lower)
	room := -s.total()
	for _, b := range v.boards {
		room += s.stocks[b.kind].area
	}
	best := s.offcut(v)
	tries := int64(2 * len(s.used) * halvings)
	for k := range s.stocks {
		st := &s.stocks[k]
		for _, wide := range []bool{true, false} {
			across, deep := st.w, st.h // of the sheet, along and across the strip
			if !wide {
				across, deep = deep, across
			}
			if across > st.shear {
				continue // the strip cannot be cut off
			}
			low := int32(best / int64(across))
			high := int32(min(room/int64(across), int64(deep)-1))
			for range halvings {
				if high <= low {
					break
				}
				t := low + (high-low+1)/2
				strip := rect{w: across, h: t, of: none}
				if !wide {
					strip.w, strip.h = t, across
				}
				strip.area = area(strip.w, strip.h)
				w, ok := s.with(v, strip, k, s.steps+steps/tries)
				if a := s.offcut(w); ok && a > best {
					v, best = w, a
					low = max(t, int32(best/int64(across)))
				} else {
					high = t - 1
				}
			}
		}
	}
	return v
}

// halvings is how often the width of a strip is halved: to about a thousandth
// of the sheet.
const halvings = 10

// with looks for layouts with room for the strip on a sheet of the kind k.
func (s *search) with(v saved, strip rect, k int, steps int64) (saved, bool) {
	i := s.lowest(v, k)
	if i == none {
		return v, false
	}
	s.load(v)
	s.left = s.own(i).clear(s.left)
	s.shed(i)
	n := int32(len(s.rects))
	strip.like = 64*s.words - 1
	for _, b := range s.boards {
		b.never[s.words-1] &^= 1 << 63 // of another strip
	}
	s.rects = append(s.rects, strip)
	s.left = append(s.left, n)
	ok := s.improve(steps)
	s.rects = s.rects[:n]
	if !ok {
		return v, false
	}
	for i := range s.boards {
		leaf := s.boards[i].find(s.boards[i].root, n)
		if leaf == none {
			continue
		}
		b := s.own(i)
		b.remove(leaf, nil)
		if b.root == none {
			s.shed(i)
		}
		break
	}
	return s.save(), true
}

// lowest returns the least filled board of the kind k, or none.
func (s *search) lowest(v saved, k int) int {
	low := none
	for i, b := range v.boards {
		if b.kind == k && (low == none || b.area < v.boards[low].area) {
			low = i
		}
	}
	return low
}

// offcut returns the area of the largest offcut.
func (s *search) offcut(v saved) int64 {
	var most int64
	var walk func(p *part)
	walk = func(p *part) {
		if p.piece == none && p.parts == nil {
			most = max(most, area(p.w, p.h))
		}
		for _, k := range p.parts {
			walk(k)
		}
	}
	for _, b := range v.boards {
		walk(parts(b, &s.stocks[b.kind]))
	}
	return most
}

// total returns the area of all pieces.
func (s *search) total() int64 {
	var sum int64
	for i := range s.rects {
		sum += s.rects[i].area
	}
	return sum
}
