package layout

import "math"

// Roomy tells apart the pieces that no sheet has a place for, as Solve does, and
// reports whether all others have one: it is sure where each of them goes on a sheet
// of which there are as many as are needed, and where the first layout holds them. Where
// it is not sure Solve tells. The error is that of Problem.Err.
func Roomy(p *Problem) (left []Left, sure bool, err error) {
	if err := p.Err(); err != nil {
		return nil, false, err
	}
	list := stocks(p)
	pieces, left := rects(p, list)
	endless := list[:0:0]
	for _, s := range list {
		if s.count == math.MaxInt {
			endless = append(endless, s)
		}
	}
	for i := range pieces {
		if !held(&pieces[i], endless) {
			s := newSearch(pieces, list)
			return left, len(s.construct(math.Inf(1), 1).left) == 0, nil
		}
	}
	return left, true, nil
}

// held reports whether some sheet holds a piece alone.
func held(r *rect, list []stock) bool {
	for k := range list {
		if s := &list[k]; s.holds(r.w, r.h) || r.turn && s.holds(r.h, r.w) {
			return true
		}
	}
	return false
}
