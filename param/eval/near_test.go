package eval

import "math"

// near compares numbers that are worked out in different ways: a millionth part
// of a micrometre in a metre, far above rounding.
func near(a, b float64) bool {
	return math.Abs(a-b) <= 1e-9*max(1, math.Abs(a), math.Abs(b))
}
