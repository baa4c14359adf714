package layout

import "math"

// A rect is one piece to lay, in whole micrometres with the kerf added to both
// sizes: a cut of that width then fits between any two.
type rect struct {
	w, h int32
	area int64
	turn bool
	of   int // its index in Problem.Pieces; none for room that is to be kept free
	like int // equal pieces have the same number, from 0
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

// holds reports whether a piece of w by h can be cut alone from the sheet.
func (s *stock) holds(w, h int32) bool {
	return w <= s.w && h <= s.h && s.takes(w, h)
}

// takes reports whether the shear can free a piece of w by h.
func (s *stock) takes(w, h int32) bool {
	return (w <= s.shear || h == s.h && s.longRow) && (h <= s.shear || w == s.w && s.longStack)
}

// stocks returns the problem's sheets as the search knows them.
func stocks(p *Problem) []stock {
	kerf := up(p.Kerf)
	list := make([]stock, len(p.Sheets))
	for i, s := range p.Sheets {
		t, in := s.Trim, inside(&s)
		k := stock{
			w:         in.x1 - in.x0 + kerf,
			h:         in.y1 - in.y0 + kerf,
			count:     s.Count,
			shear:     math.MaxInt32,
			longRow:   t.Bottom == 0 && t.Top == 0,
			longStack: t.Left == 0 && t.Right == 0,
		}
		k.area = int64(k.w) * int64(k.h)
		if s.Count == 0 {
			k.count = math.MaxInt
		}
		if shear := down(p.Shear); p.Shear > 0 && shear < max(down(s.Width), down(s.Height)) {
			k.shear = shear + kerf
			if shear < min(down(s.Width), down(s.Height)) {
				k.shear = 0 // not even the first cut can be made
				k.longRow = k.longRow && k.longStack
				k.longStack = k.longRow
			}
		}
		list[i] = k
	}
	price(p, list)
	return list
}

// tie is how much of a sheet's cost is its rank by the other aim and by area,
// which settles between layouts that the aim itself finds alike: small enough
// that all the sheets there can be (most) do not add up to one sheet.
const tie = 1.0 / (4 * most)

// price sets the costs of the sheets, such that the costliest is at most about 1.
func price(p *Problem, list []stock) {
	var dearest, largest float64
	for i, s := range p.Sheets {
		if !s.Offcut {
			dearest = max(dearest, s.Price)
			largest = max(largest, float64(list[i].area))
		}
	}
	for i, s := range p.Sheets {
		if s.Offcut {
			continue
		}
		size := float64(list[i].area) / largest
		money := size
		if dearest > 0 {
			money = s.Price / dearest
		}
		if p.Aim == LeastMoney && dearest > 0 {
			list[i].cost = money + float64(tie*size)
		} else {
			list[i].cost = 1 + float64(tie*money)
		}
	}
}

// rects returns the pieces that some sheet can hold, one by one, and tells the
// others apart.
func rects(p *Problem, list []stock) ([]rect, []Left) {
	kerf := up(p.Kerf)
	var all []rect
	var left []Left
	type shape struct {
		w, h int32
		turn bool
	}
	shapes := map[shape]int{}
	for i, c := range p.Pieces {
		if c.Count == 0 {
			continue
		}
		r := rect{w: up(c.Width) + kerf, h: up(c.Height) + kerf, of: i}
		r.area = int64(r.w) * int64(r.h)
		upright, turned, size := false, false, false
		for k := range list {
			s := &list[k]
			upright = upright || s.holds(r.w, r.h)
			turned = turned || c.Turn && r.w != r.h && s.holds(r.h, r.w)
			size = size || r.w <= s.w && r.h <= s.h || c.Turn && r.h <= s.w && r.w <= s.h
		}
		switch {
		case !upright && !turned && size:
			left = append(left, Left{i, c.Count, TooLong})
			continue
		case !upright && !turned:
			left = append(left, Left{i, c.Count, TooLarge})
			continue
		}
		r.turn = turned
		like, ok := shapes[shape{r.w, r.h, r.turn}]
		if !ok {
			like = len(shapes)
			shapes[shape{r.w, r.h, r.turn}] = like
		}
		r.like = like
		for range c.Count {
			all = append(all, r)
		}
	}
	return all, left
}
