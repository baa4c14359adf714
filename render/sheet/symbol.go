package sheet

import (
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// projectionSymbol draws the symbol of a projection about its middle (ISO
// 5456-2): a cone cut off at half its height, its small end to the left, and its
// two circles as seen from there. They stand where the view does, beside the
// small end in third angle and beyond the large one in first angle. The diameter
// is that of the large end.
func projectionSymbol(s *ink.Sheet, middle r2.Vec, diameter float64, firstAngle bool) {
	large, small := diameter/2, diameter/4
	eye := r2.Vec{X: middle.X - 0.75*diameter, Y: middle.Y}
	near, far := middle.X+0.25*diameter, middle.X+1.25*diameter
	if firstAngle {
		eye.X = middle.X + 0.75*diameter
		near, far = middle.X-1.25*diameter, middle.X-0.25*diameter
	}
	s.Add(
		ink.Circle(ink.Thin, eye, large),
		ink.Circle(ink.Thin, eye, small),
		&ink.Stroke{Line: ink.Thin, Closed: true, Path: []r2.Vec{
			{X: near, Y: middle.Y - small}, {X: far, Y: middle.Y - large},
			{X: far, Y: middle.Y + large}, {X: near, Y: middle.Y + small},
		}},
	)
	const over = 0.8 // mm by which axes pass the outline; too short here for their dashes
	s.Add(
		&ink.Stroke{Line: ink.Rule, Path: []r2.Vec{{X: eye.X - large - over, Y: middle.Y}, {X: eye.X + large + over, Y: middle.Y}}},
		&ink.Stroke{Line: ink.Rule, Path: []r2.Vec{{X: eye.X, Y: middle.Y - large - over}, {X: eye.X, Y: middle.Y + large + over}}},
		&ink.Stroke{Line: ink.Rule, Path: []r2.Vec{{X: near - over, Y: middle.Y}, {X: far + over, Y: middle.Y}}},
	)
}
