package draft

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// uncrossings is how often the pairs of crossing leaders are gone through.
const uncrossings = 4

// uncross takes up each two callouts whose leaders cross and gives each the
// other's place, which straight leaders then reach without crossing each other;
// or finds both new places, the one after the other. What comes out is kept where
// it is better for the two together.
func (d *Drawing) uncross(list []Callout, spots []*placed, covered func(r2.Vec) bool) {
	for range uncrossings {
		changed := false
		for i := range spots {
			for j := range i {
				if spots[i] != nil && spots[j] != nil && spots[i].crosses(spots[j]) {
					changed = d.exchange(list, spots, i, j, covered) || changed
				}
			}
		}
		if !changed {
			return
		}
	}
}

// leader returns the ends of the leader, less what touches the outline that it
// points at.
func (p *placed) leader() (from, to r2.Vec) {
	u := r2.Unit(r2.Sub(p.center, p.target.At))
	return r2.Add(p.target.At, r2.Scale(leaderStart, u)), r2.Sub(p.center, r2.Scale(balloon, u))
}

func (p *placed) crosses(q *placed) bool {
	a, b := p.leader()
	c, e := q.leader()
	return meet(a, b, c, e)
}

// exchange finds better places for two callouts and reports whether there are
// any.
func (d *Drawing) exchange(list []Callout, spots []*placed, i, j int, covered func(r2.Vec) bool) bool {
	was := [2]*placed{spots[i], spots[j]}
	lift := func(k int) {
		d.Space.lift(calloutOwner + k)
		spots[k] = nil
	}
	put := func(k int, spot *placed) bool {
		if spots[k] = spot; spot == nil {
			return false
		}
		d.takeCallout(&list[k], spot, calloutOwner+k)
		return true
	}
	// What the two cost now is known when each is priced among all others.
	lift(i)
	before := d.priceAt(&list[i], was[0].center, was[0], spots, i, covered)
	put(i, before)
	lift(j)
	other := d.priceAt(&list[j], was[1].center, was[1], spots, j, covered)
	lift(i)
	if before == nil || other == nil {
		put(i, was[0])
		put(j, was[1])
		return false
	}
	cost := before.cost + other.cost
	ways := [...]func() bool{
		func() bool {
			return put(i, d.priceAt(&list[i], was[1].center, nil, spots, i, covered)) &&
				put(j, d.priceAt(&list[j], was[0].center, nil, spots, j, covered))
		},
		func() bool {
			return put(i, d.bestSpot(&list[i], spots, i, covered)) && put(j, d.bestSpot(&list[j], spots, j, covered))
		},
		func() bool {
			return put(j, d.bestSpot(&list[j], spots, j, covered)) && put(i, d.bestSpot(&list[i], spots, i, covered))
		},
	}
	for _, way := range ways {
		if way() && spots[i].cost+spots[j].cost < cost && !spots[i].crosses(spots[j]) {
			return true
		}
		lift(i)
		lift(j)
	}
	put(i, was[0])
	put(j, was[1])
	return false
}

// priceAt returns the cheapest way to stand at a place: like an earlier one with
// its price as it is now, or, without one, with any of the targets and with the
// note on either side.
func (d *Drawing) priceAt(c *Callout, center r2.Vec, like *placed, others []*placed, self int, covered func(r2.Vec) bool) *placed {
	var best *placed
	try := func(spot placed) {
		spot.cost = math.Inf(1)
		if d.price(c, &spot, others, self, covered, best) {
			best = &spot
		}
	}
	if like != nil {
		try(*like)
		return best
	}
	for _, t := range c.Targets {
		try(placed{target: t, center: center, note: len(c.Note) > 0, left: center.X < t.At.X})
	}
	return best
}
