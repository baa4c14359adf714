package sheet

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// The reference border of ISO 5457, in mm: a strip outside the frame, divided
// every 50 mm from the axes of the sheet. What is left over goes to the fields
// at the corners.
const (
	borderWidth = 5
	fieldLength = 50
)

// fieldLetters are those of the fields from the top down: I and O are left out,
// since they read as figures.
const fieldLetters = "ABCDEFGHJKLMNPQRSTUVWXYZ"

// smallest is the long side of a sheet, in mm, up to which it goes without a
// reference border: A4 and letter, which can be taken in at a glance.
const smallest = 297

// drawFrame draws the frame, and round it, on sheets larger than A4, the
// reference border with its letters and figures and the centring marks. A sheet
// that was lengthened past all letters is found by what is written on it.
func drawFrame(s *ink.Sheet, frame r2.Box) {
	s.Add(&ink.Stroke{Line: ink.Frame, Path: corners(frame), Closed: true})
	if max(s.Width, s.Height) <= smallest || s.Height > fieldLength*float64(len(fieldLetters)) {
		return
	}
	outer := Box(frame.Min.X-borderWidth, frame.Min.Y-borderWidth, frame.Max.X+borderWidth, frame.Max.Y+borderWidth)
	s.Add(&ink.Stroke{Line: ink.Thin, Path: corners(outer), Closed: true})

	line := func(kind ink.Line, x0, y0, x1, y1 float64) {
		s.Add(&ink.Stroke{Line: kind, Path: []r2.Vec{{X: x0, Y: y0}, {X: x1, Y: y1}}})
	}
	label := func(text string, x, y float64) {
		s.Add(&ink.Text{At: r2.Vec{X: x, Y: y - Small/2}, Height: Small, Anchor: ink.Middle, Text: text})
	}
	const half = borderWidth / 2.0

	columns, middle := fields(frame.Min.X, frame.Max.X, s.Width/2)
	for i := range len(columns) - 1 {
		if i > 0 {
			kind := ink.Thin
			if i == middle {
				kind = ink.Frame
			}
			line(kind, columns[i], outer.Min.Y, columns[i], frame.Min.Y)
			line(kind, columns[i], frame.Max.Y, columns[i], outer.Max.Y)
		}
		at := (columns[i] + columns[i+1]) / 2
		label(strconv.Itoa(i+1), at, outer.Min.Y+half)
		label(strconv.Itoa(i+1), at, outer.Max.Y-half)
	}
	rows, middle := fields(frame.Min.Y, frame.Max.Y, s.Height/2)
	for i := range len(rows) - 1 {
		if i > 0 {
			kind := ink.Thin
			if i == middle {
				kind = ink.Frame
			}
			line(kind, outer.Min.X, rows[i], frame.Min.X, rows[i])
			line(kind, frame.Max.X, rows[i], outer.Max.X, rows[i])
		}
		at := (rows[i] + rows[i+1]) / 2
		letter := fieldLetters[len(rows)-2-i:][:1] // from the top down
		label(letter, outer.Min.X+half, at)
		label(letter, outer.Max.X-half, at)
	}
}

// fields returns the bounds of the fields between low and high, and which of
// them is the axis.
func fields(low, high, axis float64) (bounds []float64, middle int) {
	before := int(math.Round((axis - low) / fieldLength))
	after := int(math.Round((high - axis) / fieldLength))
	bounds = append(bounds, low)
	for i := 1 - before; i < after; i++ {
		bounds = append(bounds, axis+float64(i)*fieldLength)
	}
	return append(bounds, high), before
}
