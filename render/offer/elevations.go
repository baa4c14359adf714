package offer

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// Room about the elevations, in mm.
const (
	drawLeft  = 16.0 // for the height
	drawBelow = 14.0 // for the widths and the captions
	drawAbove = 6.0
	drawApart = 12.0
	leastView = 24.0 // a view has at least this much width, for its caption and its own width
	wallAbove = 3.0  // the line of a wall goes on above the piece
	upright   = 14.0 // a height drawn shorter has its figures above it
)

// elevations draws the piece from the front and from the side, on one ground,
// with its overall sizes, into the top of a box, and returns the lower edge of what
// it drew.
func (w *offer) elevations(box r2.Box) float64 {
	units, s := w.Design.Units, w.Size
	sizes := [2]float64{s.Width, s.Depth}
	scale := w.scale(box, sizes)
	style := draft.Millimetre()
	if units == quantity.Inch {
		style = draft.Inch()
	}
	d := draft.New(style, box)
	scene := draft.NewScene(w.Parts)
	height := s.Max.Z * scale
	ground := box.Max.Y - drawAbove - height
	if height < upright {
		ground -= upright
	}
	widths := [2]float64{max(sizes[0]*scale, leastView), max(sizes[1]*scale, leastView)}
	x := (box.Min.X + drawLeft + box.Max.X - widths[0] - widths[1] - drawApart) / 2
	for i, view := range []draft.Projection{draft.Front, draft.Side} {
		lo, hi := s.Min.X, s.Max.X
		if view == draft.Side {
			lo, hi = s.Min.Y, s.Max.Y
		}
		middle := x + widths[i]/2
		from, to := r2.Vec{X: middle - (hi-lo)*scale/2, Y: ground}, r2.Vec{X: middle + (hi-lo)*scale/2, Y: ground}
		v := draft.View{Projection: view, Scale: scale, Origin: r2.Vec{X: from.X - lo*scale, Y: ground}}
		d.Picture(scene, v, false)
		d.Line(ink.Thin, r2.Vec{X: from.X - 4, Y: ground}, r2.Vec{X: to.X + 4, Y: ground})
		if w.Design.Wall() != nil && view == draft.Side {
			d.Line(ink.Thin, v.At(r3.Vec{}), v.At(r3.Vec{Z: s.Max.Z + wallAbove/scale}))
		}
		d.Linear(draft.Dim{From: from, To: to, Text: units.Rule(hi-lo, quantity.Coarse)}, r2.Vec{X: from.X, Y: ground - 8}, 0)
		name := [...]string{"from the front", "from the right"}[i]
		d.Put(&ink.Text{Text: name, At: r2.Vec{X: middle, Y: ground - drawBelow}, Height: sheet.Small, Anchor: ink.Middle})
		if i == 0 {
			top := v.At(r3.Vec{X: s.Min.X, Z: s.Max.Z})
			d.Linear(draft.Dim{From: from, To: top, Text: units.Rule(s.Max.Z, quantity.Coarse), Bare: [2]bool{true, false}}, r2.Vec{X: box.Min.X + drawLeft - 8, Y: ground}, math.Pi/2)
		}
		x += widths[i] + drawApart
	}
	w.page.Add(d.Items...)
	return ground - drawBelow - sheet.Small
}

// scale returns the largest scale at which two views of these widths, in mm, go
// side by side into a box, each as wide as its caption at least.
func (w *offer) scale(box r2.Box, widths [2]float64) float64 {
	room := box.Max.X - box.Min.X - drawLeft - drawApart
	most, least := max(widths[0], widths[1], 1), min(widths[0], widths[1])
	scale := room / (most + least)
	if least*scale < leastView {
		scale = (room - leastView) / most
	}
	return min(scale, (box.Max.Y-box.Min.Y-drawBelow-drawAbove)/max(w.Size.Max.Z, 1))
}
