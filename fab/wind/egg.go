package wind

import "math"

// No code has a row for eggs. They lie between a ball and what they come near as they grow
// flatter or longer: a disc across the wind, which is dragged with 1.17 of its area, and a
// cylinder, with 1.2 below the drop of drag (Hoerner, Fluid-Dynamic Drag, 3-16; EN 1991-1-4
// Fig. 7.28; both from memory).
const (
	// eggDrag is taken of what is seen of an egg, from whatever bearing: a bound.
	eggDrag = 1.2

	// eggLift is taken of what is seen of an egg from above, where its pole is neither upright
	// nor level: as of a plate that leans into the wind. A bound, common practice, no source.
	eggLift = 1.0

	// eggUpright is how far the pole may lean from upright or from level, as a sine, for the
	// wind to find the egg alike above and below.
	eggUpright = 1e-6
)

func (it *Item) isEgg() bool { return it.Part.Ball != nil && it.Part.Ball.IsEgg() }

// egg gives an egg its coefficients. Near the ground it is treated as a ball there.
func (it *Item) egg() {
	it.Coefficient, it.Rule.Kind = eggDrag, EggBound
	up := math.Abs(it.Part.Ball.Pole.Z)
	if math.Min(up, math.Sqrt(math.Max(0, 1-up*up))) > eggUpright {
		it.Lift = eggLift
	}
	if it.nearGround() {
		it.Coefficient *= groundEffect
		it.Lift = math.Max(it.Lift, euLift)
		it.Rule.NearGround = true
	}
}
