package layout

// grouped returns the cuts of one sheet in an order in which the stop is set seldom:
// those at the setting in hand come first, whatever strip they are of, and a new setting
// waits until as many cuts at it as can be are ready. A cut comes after the one that makes
// what it cuts. The order is found step by step, without a search.
func grouped(cuts []Cut) []Cut {
	g := newGrouping(cuts)
	out := make([]Cut, 0, len(cuts))
	for last := none; len(out) < len(cuts); {
		i := g.next(last)
		g.take(i)
		out = append(out, cuts[i])
		last = i
	}
	return out
}

// Settings returns how often the stop is set for cuts in their order.
func Settings(cuts []Cut) (n int) {
	for i := range cuts {
		if i == 0 || cuts[i].Stop != cuts[i-1].Stop {
			n++
		}
	}
	return n
}

// A grouping is an order in the making.
type grouping struct {
	cuts  []Cut
	maker []int // of each cut, the one that makes its hand; none for the sheet
	ready []bool
	done  []bool
}

func newGrouping(cuts []Cut) *grouping {
	g := &grouping{cuts: cuts, maker: make([]int, len(cuts)), ready: make([]bool, len(cuts)), done: make([]bool, len(cuts))}
	made := map[Rect]int{}
	for i := range cuts {
		made[cuts[i].Drop], made[cuts[i].Keep] = i, i
	}
	for i := range cuts {
		from, ok := made[cuts[i].Hand]
		if !ok || from == i {
			from = none
		}
		g.maker[i], g.ready[i] = from, from == none
	}
	return g
}

// take makes a cut: what it sets free is ready to be cut.
func (g *grouping) take(i int) {
	g.done[i], g.ready[i] = true, false
	for k, from := range g.maker {
		if from == i && !g.done[k] {
			g.ready[k] = true
		}
	}
}

// next returns the cut to make after the last one: none before the first.
func (g *grouping) next(last int) int {
	best, least := none, 0
	for i := range g.cuts {
		if !g.ready[i] {
			continue
		}
		// What costs a setting, then cuts that come too late for it, then the way to another
		// strip; of equal ones the first.
		cost := 0
		if last == none || g.cuts[i].Stop != g.cuts[last].Stop {
			cost += 2 * (1 + len(g.cuts) - g.alike(i))
			cost += 2 * len(g.cuts) * g.late(g.cuts[i].Stop)
		}
		if last == none || g.cuts[i].Hand != g.cuts[last].Keep {
			cost++
		}
		if best == none || cost < least {
			best, least = i, cost
		}
	}
	return best
}

// alike returns how many cuts are still to be made at the setting of one.
func (g *grouping) alike(i int) (n int) {
	for k := range g.cuts {
		if !g.done[k] && g.cuts[k].Stop == g.cuts[i].Stop {
			n++
		}
	}
	return n
}

// late returns how many cuts at a setting could not be made while the stop stands there
// now: they cut what another setting makes.
func (g *grouping) late(stop float64) (n int) {
	for k := range g.cuts {
		if g.done[k] || g.cuts[k].Stop != stop {
			continue
		}
		for at := k; !g.ready[at]; {
			at = g.maker[at]
			if g.cuts[at].Stop != stop {
				n++
				break
			}
		}
	}
	return n
}
