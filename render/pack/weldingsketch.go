package pack

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
	"stabile/render/sheet"
)

// tackSketch shows the order of tacks round a ring, along a seam and along a
// gore's edge. It is to no scale.
func (k *pack) tackSketch(f *sheet.Flow) {
	const height, radius, dot = 40.0, 9.0, 0.9
	f.Need(height + 2*sheet.Medium)
	s, box := f.Rest()
	y := box.Max.Y - height/2 + 2
	add := func(q r2.Vec, height float64, anchor ink.Anchor, face ink.Face, text string) {
		s.Add(&ink.Text{At: r2.Vec{X: q.X, Y: q.Y - height/2}, Height: height, Anchor: anchor, Face: face, Text: text})
	}
	spot := func(q r2.Vec) { s.Add(&ink.Fill{Path: disc(q, dot)}) }

	ring := r2.Vec{X: box.Min.X + 20, Y: y}
	s.Add(ink.Circle(ink.Outline, ring, radius))
	// Opposite points one after the other, each pair half way between.
	for i, turn := range [...]float64{0, 4, 2, 6, 1, 5, 3, 7} {
		sin, cos := math.Sincos(turn * math.Pi / 4)
		out := r2.Vec{X: cos, Y: sin}
		spot(r2.Add(ring, r2.Scale(radius, out)))
		add(r2.Add(ring, r2.Scale(radius+3.2, out)), sheet.Small, ink.Middle, ink.Bold, strconv.Itoa(i+1))
	}
	seam := func(x float64, name string, order ...float64) {
		const length = 44.0
		a := r2.Vec{X: box.Min.X + x, Y: y}
		s.Add(&ink.Stroke{Line: ink.Outline, Path: []r2.Vec{a, {X: a.X + length, Y: y}}})
		for i, share := range order {
			q := r2.Vec{X: a.X + share*length, Y: y}
			spot(q)
			add(r2.Vec{X: q.X, Y: y + 4}, sheet.Small, ink.Middle, ink.Bold, strconv.Itoa(i+1))
		}
		add(r2.Vec{X: a.X + length/2, Y: y - 5}, sheet.Small, ink.Middle, ink.Regular, name)
	}
	seam(48, "along a seam", 0, 1, 0.5, 0.25, 0.75)
	seam(110, "along a gore", 0.5, 1, 0, 0.75, 0.25)
	add(r2.Vec{X: ring.X, Y: y - radius - 8}, sheet.Small, ink.Middle, ink.Regular, "round a ring")
	f.Take(height + sheet.Medium)
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
