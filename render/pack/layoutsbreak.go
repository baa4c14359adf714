package pack

import (
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
	"stabile/render/sheet"
)

// Where a large offcut is left whole at the end of a sheet, the sheet is drawn
// broken off within it, as long things are drawn, if that gives the rest a larger
// scale. Measures on paper, in mm.
const (
	breakBefore = 22.0 // what is drawn of the offcut before the break, with its writing
	breakGap    = 4.0
	breakAfter  = 8.0
	breakZig    = 1.6 // half of the zigzag's width
	breakOver   = 1.5 // of the break's lines beyond the sheet's edges
)

// A breakOff is where a sheet is broken: from one place along it to another, in
// mm on the sheet, and what is drawn between them.
type breakOff struct{ from, to, gap float64 }

// breakOff breaks the sheet off, within a room on paper, where that pays.
func (d *cutDrawing) breakOff(w, h float64) {
	for _, r := range d.Left {
		if r.X+r.Width < d.Length-d.Trim-closeRects || r.Height < d.Sheet.Width-2*d.Trim-closeRects {
			continue
		}
		const kept = breakBefore + breakGap + breakAfter
		s := sheet.ChooseScale(r.X, d.Sheet.Width, w-kept, h, d.units)
		f := s.Factor
		if f <= d.scale.Factor || d.Length-r.X < kept/f {
			return
		}
		d.scale = s
		d.broke = breakOff{from: r.X + breakBefore/f, to: d.Length - breakAfter/f, gap: breakGap / f}
		return
	}
}

// squeezed returns how far along the sheet a place is drawn.
func (d *cutDrawing) squeezed(x float64) float64 {
	b := &d.broke
	switch {
	case b.gap == 0 || x <= b.from:
		return x
	case x < b.to:
		return b.from
	}
	return x - b.to + b.from + b.gap
}

// writable returns how far to the right, on paper, there is nothing of a break.
func (d *cutDrawing) writable() float64 {
	if d.broke.gap == 0 {
		return d.box.Max.X
	}
	return d.box.Min.X + d.broke.from*d.scale.Factor - breakZig
}

// breakLines draws the break.
func (d *cutDrawing) breakLines() {
	if d.broke.gap == 0 {
		return
	}
	x := d.box.Min.X + d.broke.from*d.scale.Factor
	low, high, mid := d.box.Min.Y-breakOver, d.box.Max.Y+breakOver, (d.box.Min.Y+d.box.Max.Y)/2
	gap := sheet.Box(x, low, x+breakGap, high)
	d.broken = append(d.broken, gap)
	d.put(&ink.Fill{Path: boxPath(gap), Shade: 1})
	for _, x := range [2]float64{x, x + breakGap} {
		d.put(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{
			{X: x, Y: low}, {X: x, Y: mid - 2*breakZig}, {X: x - breakZig, Y: mid - breakZig/2}, {X: x + breakZig, Y: mid + breakZig/2}, {X: x, Y: mid + 2*breakZig}, {X: x, Y: high},
		}})
	}
}
