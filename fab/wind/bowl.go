package wind

// An open half of a ball is dragged with 1.42 of its area where the wind blows into it and
// with 0.38 where it meets its back: Hoerner, Fluid-Dynamic Drag, 3-17 (from memory). No code
// has a row for bowls.
const (
	// bowlDrag is taken of what is seen of a bowl, from whatever bearing: a bound.
	bowlDrag = 1.42

	// bowlLift is taken of the area of its mouth: a plate is lifted most, by about as much,
	// where it leans into the wind by 40 deg. A bound, common practice, no source.
	bowlLift = 1.0
)

func (it *Item) isBowl() bool { return it.Part.Ball != nil && it.Part.Ball.Bowl }

// open gives a bowl its coefficients.
func (it *Item) open() {
	it.Coefficient, it.Lift, it.Rule.Kind = bowlDrag, bowlLift, OpenBowl
}
