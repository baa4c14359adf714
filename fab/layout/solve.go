package layout

import (
	"cmp"
	"slices"
)

// Options are how hard Solve tries. The zero value suits a shop.
type Options struct {
	// Steps is how many places the search may look at, some twenty million to the
	// second; 0 for a number that grows with the pieces.
	Steps int64
	// AnyOffcut leaves out the search for a large offcut, which takes a fifth
	// as many steps again.
	AnyOffcut bool
}

// The steps of a search without a number of its own: for each piece, at least,
// and at most.
const (
	stepsEach  = 5_000
	stepsLeast = 50_000
	stepsMost  = 5_000_000
)

// lower is the share by which a cost must be lower to be taken as lower: above
// the rounding of a sum of prices, below any difference of layouts.
const lower = 1e-9

// Solve lays out the pieces. Equal problems and options give equal plans. The
// error is that of Problem.Err; pieces without a place are in Plan.Left.
func Solve(p *Problem, o Options) (*Plan, error) {
	if err := p.Err(); err != nil {
		return nil, err
	}
	list := stocks(p)
	pieces, left := rects(p, list)
	steps := o.Steps
	if steps <= 0 {
		steps = min(max(int64(len(pieces))*stepsEach, stepsLeast), stepsMost)
	}
	s := newSearch(pieces, list)
	best, f := s.fewest(p, steps)
	if !o.AnyOffcut && len(best.left) == 0 {
		best = s.keep(best, steps/5)
	}
	plan := s.plan(p, best)
	plan.SheetBound, plan.MoneyBound = f.sheets, f.money
	plan.Left = append(plan.Left, left...)
	slices.SortStableFunc(plan.Left, func(a, b Left) int { return cmp.Compare(a.Piece, b.Piece) })
	plan.Steps = s.steps
	return plan, nil
}

// Holds reports whether a piece has a place on an empty sheet of some size.
func (p *Problem) Holds(c Piece) bool {
	c.Count = 1
	one := Problem{Pieces: []Piece{c}, Sheets: p.Sheets, Kerf: p.Kerf, Shear: p.Shear}
	if one.Err() != nil {
		return false
	}
	_, left := rects(&one, stocks(&one))
	return len(left) == 0
}

// productsPerStep is how many products of the bound take as long as one step of
// the search.
const productsPerStep = 16

// fewest returns the cheapest layouts found of as many pieces as have a place,
// and what no layout can do better than.
func (s *search) fewest(p *Problem, steps int64) (saved, floor) {
	f := s.floor(p, 0, 0)
	best := s.construct(f.cost, steps/4)
	if len(best.left) > 0 {
		s.load(best)
		if s.improve(steps/2) || len(s.left) < len(best.left) {
			best = s.save()
		}
	}
	if len(best.left) > 0 {
		return best, floor{}
	}
	if best.cost > f.cost*(1+lower) {
		f = s.floor(p, s.bought(best), steps/8*productsPerStep)
	}
	for best.cost > f.cost*(1+lower) {
		s.load(best)
		s.limit = best.cost * (1 - lower)
		s.empty()
		if !s.improve(steps) {
			break
		}
		best = s.save()
	}
	return best, f
}

// bought returns the number of sheets that are not offcuts.
func (s *search) bought(v saved) int {
	n := 0
	for _, b := range v.boards {
		if s.stocks[b.kind].cost > 0 {
			n++
		}
	}
	return n
}
