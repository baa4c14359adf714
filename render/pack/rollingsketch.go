package pack

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// Measures of the sketches on the rolling cards, in mm on paper. They stand for
// the words beside them and are to no scale.
const (
	sketchHeight = 46.0
	sketchRoll   = 8.0  // radius of all three rolls
	sketchBack   = 22.0 // from the pinch to the back roll
	sketchLift   = 7.0
	sketchSheet  = 0.6 // thickness
)

// rollsSketch draws the rolls with the lift of the back roll, and beside them how
// a piece is measured.
func (r *rollingSheet) rollsSketch(f *sheet.Flow) {
	f.Need(sketchHeight + sheet.Medium)
	s, box := f.Rest()
	at := r2.Vec{X: box.Min.X + 52, Y: box.Max.Y - sketchHeight + 15}
	g := draft.New(r.style, box)
	rollsAt(g, at)
	checkAt(g, r2.Vec{X: box.Min.X + 132, Y: box.Max.Y - 20})
	s.Add(g.Items...)
	f.Take(sketchHeight + sheet.Medium)
}

// rollsAt draws the rolls from their end, the axis of the lower pinch roll at a
// point.
func rollsAt(g *draft.Drawing, at r2.Vec) {
	p := func(x, y float64) r2.Vec { return r2.Vec{X: at.X + x, Y: at.Y + y} }
	write := func(q r2.Vec, anchor ink.Anchor, text string) {
		g.Put(&ink.Text{At: q, Height: sheet.Small, Anchor: anchor, Text: text})
	}
	circle := func(line ink.Line, q r2.Vec) {
		g.Put(ink.Circle(line, q, sketchRoll))
		if line == ink.Outline {
			g.CentreMark(q, 0.5)
		}
	}
	top := sketchRoll + sketchSheet/2 // the middle of the sheet
	circle(ink.Outline, p(0, 0))
	circle(ink.Outline, p(0, 2*top))
	circle(ink.Phantom, p(sketchBack, 0))
	circle(ink.Outline, p(sketchBack, sketchLift))
	// The sheet leaves the pinch level and lies on the back roll: its radius c
	// follows from b^2 + (top + c - lift)^2 = (c + top)^2.
	up := top - sketchLift
	c := (sketchBack*sketchBack + up*up - top*top) / (2 * (top - up))
	g.Put(&ink.Stroke{Line: ink.Outline, Path: []r2.Vec{p(-34, top), p(0, top)}})
	g.Put(&ink.Arc{Line: ink.Outline, Center: p(0, top+c), Radius: c, From: -math.Pi / 2, To: -0.3})
	g.Arrow(p(-34, top-4), p(-22, top-4))
	write(p(-34, top-4-2-sheet.Small), ink.Start, "goes in,")
	write(p(-34, top-4-2-2.7*sheet.Small), ink.Start, "outside down")
	g.Linear(draft.Dim{From: p(sketchBack, 0), To: p(sketchBack, sketchLift), Text: "lift"}, p(sketchBack+15, 0), math.Pi/2)
	write(p(0, -sketchRoll-2-sheet.Small), ink.Middle, "pinch rolls")
	write(p(sketchBack+6, -sketchRoll-2-sheet.Small), ink.Middle, "back roll")
}

// checkAt draws a straight-edge in a hollow and the rise under it, the middle of
// the straight-edge at a point.
func checkAt(g *draft.Drawing, at r2.Vec) {
	const radius, half = 24.0, 19.0
	deep := radius - math.Sqrt(radius*radius-half*half)
	center := r2.Vec{X: at.X, Y: at.Y + radius - deep}
	angle := math.Asin(half / radius)
	g.Put(&ink.Arc{Line: ink.Outline, Center: center, Radius: radius, From: -math.Pi/2 - angle - 0.25, To: -math.Pi/2 + angle + 0.25})
	a, b := r2.Vec{X: at.X - half, Y: at.Y}, r2.Vec{X: at.X + half, Y: at.Y}
	g.Put(&ink.Stroke{Line: ink.Edge, Path: []r2.Vec{a, b, {X: b.X, Y: b.Y + 3}, {X: a.X, Y: a.Y + 3}}, Closed: true})
	g.Linear(draft.Dim{From: r2.Vec{X: a.X, Y: a.Y + 3}, To: r2.Vec{X: b.X, Y: b.Y + 3}, Text: "chord"}, r2.Vec{X: at.X, Y: at.Y + 12}, 0)
	g.Linear(draft.Dim{From: b, To: r2.Vec{X: at.X, Y: at.Y - deep}, Text: "rise"}, r2.Vec{X: b.X + 9}, math.Pi/2)
	g.Put(&ink.Text{At: r2.Vec{X: at.X, Y: at.Y - deep - 3 - sheet.Small}, Height: sheet.Small, Anchor: ink.Middle, Text: "measured in the hollow, off the rolls"})
}
