// Package layout lays rectangles on sheets such that cuts from edge to edge, as
// a shear makes them, free every one: how many sheets of which size, where each
// piece lies, in what order to cut and where to set the stop.
//
// Solve aims first at the fewest sheets or the least money, offcuts on hand
// being free, then at leaving the largest single offcut whole. No number of
// stages is assumed: a part may be cut along and across as often as it takes.
// Beside the result stands a proven bound that no layout goes below.
//
// The way: pieces are put one by one into trees of joins (tree.go, place.go),
// first in several fixed orders (construct.go), then by taking some off and
// laying them again, over and over (improve.go), until the bound (bound.go,
// feasible.go) proves the layouts best or the steps allowed are used up. Strips
// are then kept free (offcut.go), the free space is shared out (parts.go) and
// the cuts are put in order (sequence.go).
//
// Effort is counted in steps, never by the clock: equal problems give equal
// plans, on every machine.
package layout
