package layout

// Options are how hard Solve tries. The zero value suits a shop.
type Options struct {
	// Steps is how many places the search may look at, some ten million to the
	// second; 0 for a number that grows with the pieces.
	Steps int64
}

// The steps of a search without a number of its own: for each piece, at least,
// and at most.
const (
	stepsEach  = 5_000
	stepsLeast = 50_000
	stepsMost  = 5_000_000
)

// least is the share by which a cost must be lower to be taken as lower: above
// the rounding of a sum of prices, below any difference of layouts.
const least = 1e-9

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
	best := s.fewest(0, steps)
	plan := s.plan(p, best)
	plan.Left = append(plan.Left, left...)
	plan.Steps = s.steps
	return plan, nil
}

// fewest returns the cheapest layouts found with as many pieces as have a place.
func (s *search) fewest(bound float64, steps int64) saved {
	best := s.construct(bound, steps/4)
	for len(best.left) > 0 || best.cost > bound {
		s.load(best)
		if len(best.left) == 0 {
			s.limit = best.cost * (1 - least)
			s.empty()
		}
		if !s.improve(steps) {
			break
		}
		best = s.save()
	}
	return best
}
