package layout

import (
	"math"
	"math/rand/v2"
	"testing"
)

// An exhaust tries all cuts at whole millimetres. Sizes, trims and the kerf of
// its problems are whole, so other cuts free no more.
type exhaust struct {
	p    *Problem
	trim [4]int // left, right, bottom, top
	memo map[exhausted]bool
}

type exhausted struct {
	w, h int
	edge [4]bool // untrimmed
	set  int     // of pieces, as bits
}

// can reports whether the pieces of the set can all be cut from the part e.
func (x *exhaust) can(e exhausted) bool {
	if e.set == 0 {
		return true
	}
	if e.w <= 0 || e.h <= 0 {
		return false
	}
	if done, ok := x.memo[e]; ok {
		return done
	}
	x.memo[e] = false
	ok := x.try(e)
	x.memo[e] = ok
	return ok
}

func (x *exhaust) try(e exhausted) bool {
	if e.edge == [4]bool{} && e.set&(e.set-1) == 0 {
		for i, c := range x.p.Pieces {
			w, h := int(c.Width), int(c.Height)
			if e.set == 1<<i && (w == e.w && h == e.h || c.Turn && h == e.w && w == e.h) {
				return true
			}
		}
	}
	shear := int(x.p.Shear)
	for side, untrimmed := range e.edge {
		upright := side < 2
		if !untrimmed || upright && shear > 0 && e.h > shear || !upright && shear > 0 && e.w > shear {
			continue
		}
		next := e
		next.edge[side] = false
		if upright {
			next.w -= x.trim[side]
		} else {
			next.h -= x.trim[side]
		}
		if x.can(next) {
			return true
		}
	}
	kerf := int(x.p.Kerf)
	for sub := e.set; ; sub = (sub - 1) & e.set {
		if shear == 0 || e.h <= shear {
			for at := 1; at < e.w; at++ {
				a, b := e, e
				a.w, a.set, a.edge[1] = at, sub, false
				b.w, b.set, b.edge[0] = e.w-at-kerf, e.set&^sub, false
				if x.can(a) && x.can(b) {
					return true
				}
			}
		}
		if shear == 0 || e.w <= shear {
			for at := 1; at < e.h; at++ {
				a, b := e, e
				a.h, a.set, a.edge[3] = at, sub, false
				b.h, b.set, b.edge[2] = e.h-at-kerf, e.set&^sub, false
				if x.can(a) && x.can(b) {
					return true
				}
			}
		}
		if sub == 0 {
			return false
		}
	}
}

// newExhausts returns one for each kind of sheet.
func newExhausts(p *Problem) []*exhaust {
	var xs []*exhaust
	for i := range p.Sheets {
		t := p.Sheets[i].Trim
		xs = append(xs, &exhaust{p, [4]int{int(t.Left), int(t.Right), int(t.Bottom), int(t.Top)}, map[exhausted]bool{}})
	}
	return xs
}

// least returns the least cost of the pieces of the set, with that of each kind
// of sheet given, or infinity.
func least(xs []*exhaust, set int, cost func(*Sheet) float64) float64 {
	if set == 0 {
		return 0
	}
	best := math.Inf(1)
	for k, x := range xs {
		s := &x.p.Sheets[k]
		for sub := set; sub > 0; sub = (sub - 1) & set {
			if sub&(set&-set) == 0 {
				continue // the first piece is on this sheet
			}
			whole := exhausted{int(s.Width), int(s.Height), [4]bool{s.Trim.Left > 0, s.Trim.Right > 0, s.Trim.Bottom > 0, s.Trim.Top > 0}, sub}
			if x.can(whole) {
				best = min(best, cost(s)+least(xs, set&^sub, cost))
			}
		}
	}
	return best
}

// tiny makes a problem of a few pieces in whole millimetres, near the limits of
// its sheets and its shear.
func tiny(rnd *rand.Rand) *Problem {
	p := &Problem{Aim: Aim(rnd.IntN(2))}
	kerf := rnd.IntN(3) == 0
	if kerf {
		p.Kerf = 1
	}
	for range 1 + rnd.IntN(2) {
		s := Sheet{Width: float64(4 + rnd.IntN(5)), Height: float64(4 + rnd.IntN(5)), Price: float64(1 + rnd.IntN(9))}
		if !kerf && rnd.IntN(2) == 0 { // a kerf takes no room in a trim, but would in all cuts tried here
			s.Trim = Trim{float64(rnd.IntN(2)), float64(rnd.IntN(2)), float64(rnd.IntN(2)), float64(rnd.IntN(2))}
		}
		p.Sheets = append(p.Sheets, s)
	}
	s := &p.Sheets[0]
	if rnd.IntN(2) == 0 {
		p.Shear = float64(3 + rnd.IntN(6))
		if rnd.IntN(2) == 0 { // just too narrow
			p.Shear = max(1, max(s.Width, s.Height)-float64(1+rnd.IntN(2)))
		}
	}
	for range 1 + rnd.IntN(4) {
		c := Piece{float64(1 + rnd.IntN(8)), float64(1 + rnd.IntN(5)), 1, rnd.IntN(2) == 0}
		if rnd.IntN(6) == 0 { // as high as the sheet inside its trim
			c.Height = s.Height - s.Trim.Bottom - s.Trim.Top
		}
		if rnd.IntN(6) == 0 {
			c.Width = s.Width - s.Trim.Left - s.Trim.Right
		}
		p.Pieces = append(p.Pieces, c)
	}
	return p
}

// TestExhaustive holds the search against all ways to cut tiny problems: the
// layouts must be the best there are, and what is left must be impossible.
func TestExhaustive(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	left := 0
	for n := range 1500 {
		p := tiny(rnd)
		plan, err := Solve(p, Options{Steps: 20_000})
		if err != nil {
			t.Fatal(err)
		}
		if f := fault(p, plan); f != "" {
			t.Fatalf("%s\n%+v", f, p)
		}
		xs := newExhausts(p)
		each := func(s *Sheet) float64 { return 1 }
		set := 1<<len(p.Pieces) - 1
		for _, l := range plan.Left {
			left++
			set &^= 1 << l.Piece
			if least(xs, 1<<l.Piece, each) == 1 {
				t.Errorf("%d: piece %d is left as %v, but can be cut\n%+v", n, l.Piece, l.Why, p)
			}
		}
		if p.Aim == FewestSheets {
			if got, want := plan.Sheets, least(xs, set, each); float64(got) != want {
				t.Errorf("%d: Solve = %d sheets, want %g\n%+v", n, got, want, p)
			}
		} else if got, want := plan.Money, least(xs, set, func(s *Sheet) float64 { return s.Price }); got != want {
			t.Errorf("%d: Solve = %g money, want %g\n%+v", n, got, want, p)
		}
	}
	if left == 0 {
		t.Error("no problem has a piece that cannot be cut")
	}
}
