package layout

import "math"

// construct lays all pieces from nothing in the order of each measure with each
// taste and each kind of sheet in turn, and returns the cheapest of the layouts:
// among equal ones the first. It stops early at a cost of enough.
func (s *search) construct(enough float64, steps int64) saved {
	best := saved{cost: math.Inf(1)}
	s.limit = math.Inf(1)
	fewest := math.MaxInt
	for _, t := range tastes {
		for m := range measures {
			for k := range s.stocks {
				s.taste, s.kind = t, k
				s.reset()
				s.layAll(m, 0)
				if len(s.left) < fewest || len(s.left) == fewest && s.cost < best.cost {
					fewest = len(s.left)
					best = s.save()
				}
				if s.steps >= steps || fewest == 0 && best.cost <= enough {
					return best
				}
			}
		}
	}
	return best
}
