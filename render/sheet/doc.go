// Package sheet lays out sheets of paper: sizes, frame, title block, tables,
// writing and the choice of scale. Lengths are in mm on paper, y up from the
// lower left corner of the sheet.
package sheet

import "gonum.org/v1/gonum/spatial/r2"

// The heights of capitals, in mm, of the series of ISO 3098. Nothing on a sheet
// is smaller than Small: it is all to be read at the bench.
const (
	Small   = 2.5
	Medium  = 3.5
	Large   = 5.0
	Display = 7.0
)

// Box returns the box between two corners.
func Box(x0, y0, x1, y1 float64) r2.Box {
	return r2.Box{Min: r2.Vec{X: x0, Y: y0}, Max: r2.Vec{X: x1, Y: y1}}
}
