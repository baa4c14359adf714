package syntax

import "slices"

// longList is from where on a list doubles when it is full. The built-in append
// adds a quarter, and copies a list of half a million twice as often.
const longList = 256

// add appends to a list that may become as long as the text.
func add[T any](list []T, x T) []T {
	if n := len(list); n == cap(list) && n >= longList {
		list = slices.Grow(list, n)
	}
	return append(list, x)
}
