package layout

import (
	"fmt"
	"math"
	"slices"
)

// fine, in mm, is how far a number in a plan may be from what it should be: the
// search works in micrometres, so nothing is off by more than a few of them.
const fine = 0.004

func near(a, b float64) bool { return math.Abs(a-b) <= fine }

func alike(a, b Rect) bool {
	return near(a.X, b.X) && near(a.Y, b.Y) && near(a.Width, b.Width) && near(a.Height, b.Height)
}

func overlap(a, b Rect, gap float64) bool {
	return a.X < b.X+b.Width+gap-fine && b.X < a.X+a.Width+gap-fine &&
		a.Y < b.Y+b.Height+gap-fine && b.Y < a.Y+a.Height+gap-fine
}

// fault says what is wrong with a plan, by rules of its own: it shares nothing
// with the search but the types. It returns "" for a sound plan.
func fault(p *Problem, plan *Plan) string {
	got := make([]int, len(p.Pieces))
	used := make([]int, len(p.Sheets))
	for n, l := range plan.Layouts {
		if l.Copies < 1 || len(l.Pieces) == 0 {
			return fmt.Sprintf("layout %d: %d copies of %d pieces", n, l.Copies, len(l.Pieces))
		}
		used[l.Sheet] += l.Copies
		for _, c := range l.Pieces {
			got[c.Piece] += l.Copies
		}
		if f := layoutFault(p, &l); f != "" {
			return fmt.Sprintf("layout %d: %s", n, f)
		}
	}
	for _, l := range plan.Left {
		got[l.Piece] += l.Count
	}
	for i, c := range p.Pieces {
		if got[i] != c.Count {
			return fmt.Sprintf("piece %d: %d laid or left, want %d", i, got[i], c.Count)
		}
	}
	sheets, offcuts, money := 0, 0, 0.0
	for i, s := range p.Sheets {
		if s.Count > 0 && used[i] > s.Count {
			return fmt.Sprintf("sheet %d: %d used of %d", i, used[i], s.Count)
		}
		if s.Offcut {
			offcuts += used[i]
		} else {
			sheets += used[i]
			money += float64(used[i]) * s.Price
		}
	}
	if sheets != plan.Sheets || offcuts != plan.Offcuts || math.Abs(money-plan.Money) > 1e-9*max(1, money) {
		return fmt.Sprintf("says %d sheets, %d offcuts, %g money; has %d, %d, %g", plan.Sheets, plan.Offcuts, plan.Money, sheets, offcuts, money)
	}
	if plan.SheetBound > sheets || plan.MoneyBound > money*(1+1e-9) {
		return fmt.Sprintf("bounds of %d sheets and %g money are above %d and %g", plan.SheetBound, plan.MoneyBound, sheets, money)
	}
	return ""
}

func layoutFault(p *Problem, l *Layout) string {
	s := p.Sheets[l.Sheet]
	var all []Rect
	for i, c := range l.Pieces {
		w, h := p.Pieces[c.Piece].Width, p.Pieces[c.Piece].Height
		if c.Turned {
			w, h = h, w
			if !p.Pieces[c.Piece].Turn {
				return fmt.Sprintf("piece %d is turned", i)
			}
		}
		if c.Width != w || c.Height != h {
			return fmt.Sprintf("piece %d is %g x %g, want %g x %g", i, c.Width, c.Height, w, h)
		}
		all = append(all, c.Rect)
	}
	for i, a := range append(slices.Clone(all), l.Offcuts...) {
		if a.X < s.Trim.Left-fine || a.Y < s.Trim.Bottom-fine ||
			a.X+a.Width > s.Width-s.Trim.Right+fine || a.Y+a.Height > s.Height-s.Trim.Top+fine {
			return fmt.Sprintf("%v leaves the sheet", a)
		}
		for _, b := range append(slices.Clone(all), l.Offcuts...)[:i] {
			if overlap(a, b, p.Kerf) {
				return fmt.Sprintf("%v overlaps %v, the kerf counted", a, b)
			}
		}
	}
	if !separable(all, p.Kerf) {
		return "no edge-to-edge cuts part the pieces"
	}
	return cutsFault(p, l, all)
}

// separable reports whether edge-to-edge cuts of the kerf's width part all the
// rectangles from each other.
func separable(all []Rect, kerf float64) bool {
	if len(all) < 2 {
		return true
	}
	for _, upright := range []bool{true, false} {
		low := func(r Rect) float64 { return r.X }
		high := func(r Rect) float64 { return r.X + r.Width }
		if !upright {
			low = func(r Rect) float64 { return r.Y }
			high = func(r Rect) float64 { return r.Y + r.Height }
		}
		for _, c := range all {
			at := high(c)
			var before, after []Rect
			for _, r := range all {
				if high(r) <= at+fine {
					before = append(before, r)
				} else if low(r) >= at+kerf-fine {
					after = append(after, r)
				}
			}
			if len(after) > 0 && len(before)+len(after) == len(all) {
				return separable(before, kerf) && separable(after, kerf)
			}
		}
	}
	return false
}

// cutsFault makes the cuts one by one on the sheet.
func cutsFault(p *Problem, l *Layout, pieces []Rect) string {
	s := p.Sheets[l.Sheet]
	hands := []Rect{{0, 0, s.Width, s.Height}}
	for n, c := range l.Cuts {
		i := slices.IndexFunc(hands, func(h Rect) bool { return alike(h, c.Hand) })
		if i < 0 {
			return fmt.Sprintf("cut %d: no part %v is in hand", n, c.Hand)
		}
		h := hands[i]
		low, size, from, to := h.Y, h.Height, h.X, h.X+h.Width
		if c.Upright {
			low, size, from, to = h.X, h.Width, h.Y, h.Y+h.Height
		}
		if !near(c.From, from) || !near(c.To, to) {
			return fmt.Sprintf("cut %d: from %g to %g does not go from edge to edge of %v", n, c.From, c.To, h)
		}
		if p.Shear > 0 && c.Length() > p.Shear+fine {
			return fmt.Sprintf("cut %d is %g long, longer than the shear", n, c.Length())
		}
		kerf := p.Kerf
		if c.Trim { // it may hang over the edge
			kerf = min(kerf, trimOf(&s, c))
		}
		high := low + size
		drop, keep := c.At-low, max(high-c.At-kerf, 0)
		if c.High {
			drop, keep = high-c.At, c.At-kerf-low
		}
		if drop < -fine || keep < -fine || !near(drop, c.Stop) {
			return fmt.Sprintf("cut %d: drops %g and keeps %g with the stop at %g", n, drop, keep, c.Stop)
		}
		want := [2]Rect{h, h} // drop and keep
		set := func(r *Rect, at, size float64) {
			if c.Upright {
				r.X, r.Width = at, size
			} else {
				r.Y, r.Height = at, size
			}
		}
		if c.High {
			set(&want[0], c.At, drop)
			set(&want[1], low, keep)
		} else {
			set(&want[0], low, drop)
			set(&want[1], min(c.At+kerf, high), keep)
		}
		for j, r := range []Rect{c.Drop, c.Keep} {
			size := r.Height
			if c.Upright {
				size = r.Width
			}
			if size > fine && !alike(r, want[j]) {
				return fmt.Sprintf("cut %d: leaves %v, want %v", n, r, want[j])
			}
		}
		hands = append(slices.Delete(hands, i, i+1), c.Drop, c.Keep)
	}
	for i, r := range pieces {
		if !slices.ContainsFunc(hands, func(h Rect) bool { return alike(h, r) }) {
			return fmt.Sprintf("piece %d, %v, is not cut free", i, r)
		}
	}
	for _, r := range l.Offcuts { // an edge that the shear cannot trim may stay on one
		if !slices.ContainsFunc(hands, func(h Rect) bool {
			return r.X >= h.X-fine && r.Y >= h.Y-fine && r.X+r.Width <= h.X+h.Width+fine && r.Y+r.Height <= h.Y+h.Height+fine
		}) {
			return fmt.Sprintf("offcut %v is not left whole", r)
		}
	}
	return ""
}

func trimOf(s *Sheet, c Cut) float64 {
	switch {
	case c.Upright && c.High:
		return s.Trim.Right
	case c.Upright:
		return s.Trim.Left
	case c.High:
		return s.Trim.Top
	}
	return s.Trim.Bottom
}
