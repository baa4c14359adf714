package stand

import "stabile/param/quantity"

// A ByHand is tipping as anybody can work it out with a pencil: on level ground, a level
// load square to the edge that lies nearest under the centre of gravity.
type ByHand struct {
	Weight      float64 // N, ballast included
	Lever       float64 // mm, from the edge in to the centre of gravity
	Push        float64 // N, a push or the wind
	Height      float64 // mm, at which it acts
	Restoring   float64 // N mm, weight times lever
	Overturning float64 // N mm, push times height
	Factor      float64
	Edge        int
}

// ByHand returns the check by hand for a mass in kg, ballast included, and a push in N
// at a height in mm; not ok without a footprint or a push.
func (t *Tipping) ByHand(mass, push, height float64) (h ByHand, ok bool) {
	if len(t.Edges) == 0 || !(push > 0) || !(height > 0) {
		return h, false
	}
	for i := range t.Edges {
		if t.Edges[i].Lever < t.Edges[h.Edge].Lever {
			h.Edge = i
		}
	}
	h.Weight, h.Lever = mass*quantity.Gravity, t.Edges[h.Edge].Lever
	h.Push, h.Height = push, height
	h.Restoring, h.Overturning = h.Weight*h.Lever, push*height
	h.Factor = h.Restoring / h.Overturning
	return h, true
}
