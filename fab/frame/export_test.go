package frame

// NewSlender makes a frame without what shear and the inertia of turning
// sections do.
func NewSlender(items []Item) (*Frame, error) { return build(items, true) }

// MuchWork is muchWork.
const MuchWork = muchWork

// Cost is cost.
func (f *Frame) Cost() float64 { return f.cost() }
