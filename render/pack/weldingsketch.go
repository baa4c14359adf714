package pack

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
	"stabile/render/sheet"
)

// Measures of the sketch of the order of tacks, in mm.
const (
	tackTall   = 33.0
	tackRadius = 7.5
	tackDot    = 0.9
)

// tackSketch shows in a cell the order of tacks round a ring, along a seam and along a
// gore's edge. It is to no scale.
func tackSketch(s *ink.Sheet, cell r2.Box) {
	add := func(q r2.Vec, height float64, anchor ink.Anchor, face ink.Face, text string) {
		s.Add(&ink.Text{At: r2.Vec{X: q.X, Y: q.Y - height/2}, Height: height, Anchor: anchor, Face: face, Text: text})
	}
	spot := func(q r2.Vec) { s.Add(&ink.Fill{Path: disc(q, tackDot)}) }

	ring := r2.Vec{X: cell.Min.X + tackRadius + 5, Y: cell.Max.Y - tackRadius - 5}
	s.Add(ink.Circle(ink.Outline, ring, tackRadius))
	// Opposite points one after the other, each pair half way between.
	for i, turn := range [...]float64{0, 4, 2, 6, 1, 5, 3, 7} {
		sin, cos := math.Sincos(turn * math.Pi / 4)
		out := r2.Vec{X: cos, Y: sin}
		spot(r2.Add(ring, r2.Scale(tackRadius, out)))
		add(r2.Add(ring, r2.Scale(tackRadius+3.2, out)), sheet.Small, ink.Middle, ink.Bold, strconv.Itoa(i+1))
	}
	seam := func(down float64, name string, order ...float64) {
		a := r2.Vec{X: ring.X + tackRadius + 9, Y: cell.Max.Y - down}
		length := cell.Max.X - a.X - 2
		s.Add(&ink.Stroke{Line: ink.Outline, Path: []r2.Vec{a, {X: a.X + length, Y: a.Y}}})
		for i, share := range order {
			q := r2.Vec{X: a.X + share*length, Y: a.Y}
			spot(q)
			add(r2.Vec{X: q.X, Y: a.Y + 3.5}, sheet.Small, ink.Middle, ink.Bold, strconv.Itoa(i+1))
		}
		add(r2.Vec{X: a.X + length/2, Y: a.Y - 4}, sheet.Small, ink.Middle, ink.Regular, name)
	}
	seam(7, "along a seam", 0, 1, 0.5, 0.25, 0.75)
	seam(22, "along a gore", 0.5, 1, 0, 0.75, 0.25)
	s.Add(&ink.Text{At: r2.Vec{X: cell.Min.X, Y: cell.Max.Y - tackTall + sheet.Small/2}, Height: sheet.Small, Face: ink.Bold, Text: "Order of tacks"})
}

// disc returns a small round area.
func disc(at r2.Vec, radius float64) []r2.Vec {
	path := make([]r2.Vec, 12)
	for i := range path {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 12)
		path[i] = r2.Vec{X: at.X + radius*cos, Y: at.Y + radius*sin}
	}
	return path
}
