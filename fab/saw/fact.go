package saw

// TooLong says that a piece is longer than the pipe or tube that it is cut from.
type TooLong struct {
	Length, Stock float64 // mm
}

// Fact marks the type.
func (TooLong) Fact() {}
