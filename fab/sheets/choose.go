package sheets

import (
	"cmp"
	"slices"

	"stabile/fab/layout"
)

// A manner is how boldly pieces are laid together: up to so many in a block.
// Large blocks take the least metal, small ones find a place more easily, so
// each is tried.
var manners = [...]int{1, 2, 6, mostTogether}

// A bundle is one block that is needed a number of times.
type bundle struct {
	kind  *kind
	block *block
	count int
}

// divide puts the pieces of a kind into single ones and blocks of at most so
// many, such that they take the least area, and of those that do the fewest.
func divide(k *kind, blocks []block, most int, out []bundle) []bundle {
	one := k.single()
	if most > 1 {
		// The least area of a number of pieces, and the block that comes last in it.
		least, last := make([]float64, k.count+1), make([]*block, k.count+1)
		for n := 1; n <= k.count; n++ {
			least[n], last[n] = least[n-1]+one.w*one.h, &one
			for i := range blocks {
				b := &blocks[i]
				m := len(b.pieces)
				if m > n || m > most {
					break // they are in order of their numbers
				}
				if a := least[n-m] + b.w*b.h; a < least[n]*(1+1e-12) {
					least[n], last[n] = a, b
				}
			}
		}
		count := map[*block]int{}
		var order []*block
		for n := k.count; n > 0; n -= len(last[n].pieces) {
			if count[last[n]] == 0 {
				order = append(order, last[n])
			}
			count[last[n]]++
		}
		for _, b := range order {
			out = append(out, bundle{k, b, count[b]})
		}
		return out
	}
	return append(out, bundle{k, &one, k.count})
}

// Steps of the search of package layout for one manner, and for the one that is
// chosen, which also looks for a large offcut: for each rectangle, at least and
// at most.
const (
	trialEach, trialLeast, trialMost = 500, 4_000, 400_000
	finalEach, finalLeast, finalMost = 6_000, 40_000, 10_000_000
)

func steps(rectangles, each, least, most int) int64 {
	return int64(min(max(rectangles*each, least), most))
}

// A solved is a manner with what came of it.
type solved struct {
	bundles []bundle
	problem layout.Problem
	plan    *layout.Plan
	area    float64 // of all blocks
	lost    int     // pieces without a place
}

// single puts every piece of the kinds in a rectangle of its own.
func single(kinds []*kind, p layout.Problem, turn bool) solved {
	s := solved{}
	for _, k := range kinds {
		s.bundles = divide(k, nil, 1, s.bundles)
	}
	s.pose(p, turn)
	return s
}

// pose makes the problem of laying out the bundles.
func (s *solved) pose(p layout.Problem, turn bool) {
	s.problem = p
	s.problem.Pieces = make([]layout.Piece, len(s.bundles))
	for i, b := range s.bundles {
		s.problem.Pieces[i] = layout.Piece{Width: b.block.w, Height: b.block.h, Count: b.count, Turn: turn}
		s.area += b.block.w * b.block.h * float64(b.count)
	}
}

// choose lays the kinds on the sheets in the best manner.
func choose(kinds []*kind, p layout.Problem, gap float64, turn bool) (solved, error) {
	var w, h float64
	for _, s := range p.Sheets {
		t := s.Trim
		w = max(w, s.Width-t.Left-t.Right)
		h = max(h, s.Height-t.Bottom-t.Top)
	}
	if p.Shear > 0 {
		w, h = min(w, p.Shear), min(h, p.Shear)
	}
	blocks := make([][]block, len(kinds))
	some := 1
	for i, k := range kinds {
		found := k.together(gap, w, h, k.count)
		if len(found) == 0 {
			continue
		}
		c := newChecker(k, gap)
		blocks[i] = slices.DeleteFunc(found, func(b block) bool {
			return !c.sound(&b) || !p.Holds(layout.Piece{Width: b.w, Height: b.h, Turn: turn})
		})
		if len(blocks[i]) > 0 {
			some = len(manners)
		}
	}
	var tried []solved
	for _, most := range manners[:some] {
		s := solved{}
		for i, k := range kinds {
			s.bundles = divide(k, blocks[i], most, s.bundles)
		}
		s.pose(p, turn)
		if len(tried) > 0 && s.area >= tried[len(tried)-1].area*(1-1e-9) {
			continue // as the manner before
		}
		if err := s.solve(layout.Options{Steps: steps(s.rectangles(), trialEach, trialLeast, trialMost), AnyOffcut: true}); err != nil {
			return s, err
		}
		tried = append(tried, s)
	}
	// Of those that are as good, the simplest and the one with the least area are
	// worked out. The simplest is kept unless the other leaves a larger offcut.
	better := func(a, b *solved) int {
		return cmp.Or(cmp.Compare(a.lost, b.lost), cmp.Compare(cost(a), cost(b)))
	}
	lead := slices.MinFunc(tried, func(a, b solved) int { return better(&a, &b) })
	var last []solved
	for i := range tried {
		if better(&tried[i], &lead) > 0 {
			continue
		}
		if len(last) == 2 {
			last = last[:1]
		}
		last = append(last, tried[i])
	}
	for i := range last {
		trial := last[i]
		if err := last[i].solve(layout.Options{Steps: steps(last[i].rectangles(), finalEach, finalLeast, finalMost)}); err != nil {
			return trial, err
		}
		// The longer search is the better one, but for chance and where a large
		// offcut leaves strips that cannot be held.
		if cmp.Or(better(&trial, &last[i]), cmp.Compare(trial.narrow(), last[i].narrow()), easier(&trial, &last[i])) < 0 {
			last[i] = trial
		}
	}
	if len(last) == 2 && cmp.Or(better(&last[1], &last[0]), cmp.Compare(last[1].narrow(), last[0].narrow()),
		easier(&last[1], &last[0]), cmp.Compare(larger*last[0].offcut(), last[1].offcut())) < 0 {
		return last[1], nil
	}
	return last[0], nil
}

// larger is by how much a larger offcut must be so to be worth parting pieces by
// hand for; fewer is how few of the cuts and settings of one layout another must take to
// be worth a smaller offcut.
const (
	larger = 1.02
	fewer  = 0.9
)

// easier compares two layouts by how often the stop is set and how many cuts there are:
// a small difference is none.
func easier(a, b *solved) int {
	na, nb := float64(a.work()), float64(b.work())
	switch {
	case na < fewer*nb:
		return -1
	case nb < fewer*na:
		return 1
	}
	return 0
}

// work returns how many settings of the stop and how many cuts the layouts take.
func (s *solved) work() (n int) {
	for _, l := range s.plan.Layouts {
		n += l.Copies*len(l.Cuts) + layout.Settings(l.Cuts)
	}
	return n
}

// rectangles returns how many there are to lay.
func (s *solved) rectangles() (n int) {
	for _, b := range s.bundles {
		n += b.count
	}
	return n
}

// narrow returns how many cuts the shear's hold-downs do not grip.
func (s *solved) narrow() (n int) {
	for _, l := range s.plan.Layouts {
		for _, c := range l.Cuts {
			if !c.Trim && c.Held() < s.problem.Grip-fine {
				n += l.Copies
			}
		}
	}
	return n
}

// offcut returns the area of the largest offcut.
func (s *solved) offcut() (area float64) {
	for _, l := range s.plan.Layouts {
		if len(l.Offcuts) > 0 {
			area = max(area, l.Offcuts[0].Area())
		}
	}
	return area
}

func (s *solved) solve(o layout.Options) error {
	plan, err := layout.Solve(&s.problem, o)
	if err != nil {
		return err
	}
	s.plan, s.lost = plan, 0
	for _, l := range plan.Left {
		s.lost += l.Count * len(s.bundles[l.Piece].block.pieces)
	}
	return nil
}

// cost is what the problem's aim makes least.
func cost(s *solved) float64 {
	if s.problem.Aim == layout.LeastMoney {
		return s.plan.Money
	}
	return float64(s.plan.Sheets)
}
