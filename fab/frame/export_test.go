package frame

// NewSlender makes a frame without what shear and the inertia of turning
// sections do.
func NewSlender(items []Item) (*Frame, error) { return build(items, true) }

// Count returns how many frequencies lie under hz.
func (f *Frame) Count(hz float64) int {
	w := 6.283185307179586 * hz
	return f.sturm(1000 * (1 + sturmGap) / (w * w))
}
