// Package calculation has the lines of a calculation sheet: what an engineer
// reads to check a result by hand.
package calculation

// A Line is one term of a calculation.
type Line struct {
	Symbol  string  // as the source writes it, such as "q_z"
	Name    string  // in words, such as "velocity pressure at 15 ft"
	Formula string  // in words or symbols; "" for a value that was given or read
	Value   float64 // in Unit
	Unit    string  // "" for a plain number
	Source  string  // standard and clause, "given", or "assumed"
	Varies  bool    // there is no one value: each part has its own
}
