package pack

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// Measures of the details of joints, in mm on paper: sections to no scale with the weld
// symbol of ISO 2553 (system A) or of AWS A2.4, as the units of the job go.
const (
	detailColumns = 3
	detailGap     = 5.0
	detailTall    = 33.0 // of the section of a joint
	seamTall      = 22.0 // of that of a seam
	detailMiddle  = 15.0 // from the left edge to the middle of the section
	detailLow     = 14.0 // from the foot of a section to its middle
	detailWall    = 1.3  // how thick a wall is drawn
	detailSymbol  = 3.0  // how high a symbol is
)

// metalShade is the ground of metal that is cut through.
const metalShade = 0.78

// jointDetails draws a detail of each kind of joint, and after the last the order of tacks.
func (k *pack) jointDetails(f *sheet.Flow) {
	kinds := k.jointKinds()
	if len(kinds) == 0 {
		return
	}
	norm := "ISO 2553-A, z is the leg"
	if k.units == quantity.Inch {
		norm = "AWS A2.4, the figure is the leg"
	}
	for from := 0; from <= len(kinds); from += detailColumns {
		row := kinds[from:min(from+detailColumns, len(kinds))]
		last := len(row) < detailColumns
		_, box := f.Rest()
		width := (box.Max.X - box.Min.X - (detailColumns-1)*detailGap) / detailColumns
		height, tall := 0.0, seamTall
		if last {
			height = tackTall
		}
		if len(row) > 0 && row[0].shape.isJoint() {
			tall = detailTall
		}
		for i := range row {
			height = max(height, tall+sheet.LineHeight(sheet.Small)+wordsHeight(width, func(g *sheet.Flow) { g.Paragraph(k.caption(&row[i])) }))
		}
		if from == 0 {
			f.Need(height + 3*sheet.Medium)
			f.Heading("Kinds of joint, to no scale: " + norm)
		}
		f.Need(height)
		s, box := f.Rest()
		cell := func(i int) r2.Box {
			x := box.Min.X + float64(i)*(width+detailGap)
			return sheet.Box(x, box.Max.Y-height, x+width, box.Max.Y)
		}
		for i := range row {
			k.jointDetail(s, cell(i), tall, &row[i])
		}
		if last {
			tackSketch(s, cell(len(row)))
		}
		f.Take(height)
		f.Gap(2)
	}
}

// jointDetail draws the detail of a kind of joint in a cell, its section so tall.
func (k *pack) jointDetail(s *ink.Sheet, cell r2.Box, tall float64, j *jointKind) {
	d := &section{draw: draft.New(k.style, cell), at: r2.Vec{X: cell.Min.X + detailMiddle, Y: cell.Max.Y - tall + detailLow}}
	if !j.shape.isJoint() {
		d.at.Y -= detailLow / 2
	}
	weld := d.joint(j)
	s.Add(d.draw.Items...)
	k.weldSymbol(s, cell, weld, j)
	y := cell.Max.Y - tall - sheet.Small
	s.Add(&ink.Text{At: r2.Vec{X: cell.Min.X, Y: y}, Height: sheet.Small, Face: ink.Bold, Text: j.title()})
	under := sheet.Box(cell.Min.X, cell.Min.Y, cell.Max.X, y-sheet.LineHeight(sheet.Small)+sheet.Small)
	write(s, under, func(f *sheet.Flow) { f.Paragraph(k.caption(j)) })
}

// weldSymbol draws the symbol of a weld: the arrow to it, the reference line, the symbol of
// the arrow side with its size, and a ring at the elbow for a weld all round.
func (k *pack) weldSymbol(s *ink.Sheet, cell r2.Box, weld r2.Vec, j *jointKind) {
	const long, ring, dashes = 21.0, 1.4, 1.1
	elbow := r2.Vec{X: cell.Max.X - long - 2, Y: cell.Max.Y - 8}
	end := r2.Vec{X: elbow.X + long, Y: elbow.Y}
	const head, half = 2.6, 0.5
	along := r2.Unit(r2.Sub(elbow, weld))
	back := r2.Add(weld, r2.Scale(head, along))
	across := r2.Scale(half, r2.Vec{X: -along.Y, Y: along.X})
	s.Add(&ink.Fill{Path: []r2.Vec{weld, r2.Add(back, across), r2.Sub(back, across)}})
	line := func(kind ink.Line, path ...r2.Vec) { s.Add(&ink.Stroke{Line: kind, Path: path}) }
	line(ink.Thin, back, elbow, end)
	up := -1.0 // AWS: the arrow side is under the line
	if k.units != quantity.Inch {
		up = 1 // ISO: on the side of the full line
	}
	if k.units != quantity.Inch && j.shape != tubeAlongPlate { // alike on both sides, it needs none
		line(ink.Hidden, r2.Vec{X: elbow.X + 2, Y: elbow.Y - dashes}, r2.Vec{X: end.X, Y: end.Y - dashes})
	}
	x, h := elbow.X+long*0.55, up*detailSymbol
	if j.shape.allRound() {
		s.Add(ink.Circle(ink.Thin, elbow, ring))
	}
	if j.shape.isFillet() {
		line(ink.Thin, r2.Vec{X: x, Y: elbow.Y}, r2.Vec{X: x, Y: elbow.Y + h}, r2.Vec{X: x + detailSymbol, Y: elbow.Y})
		if j.shape == tubeAlongPlate { // on the other side too
			line(ink.Thin, r2.Vec{X: x, Y: elbow.Y}, r2.Vec{X: x, Y: elbow.Y - h}, r2.Vec{X: x + detailSymbol, Y: elbow.Y})
		}
	} else {
		const apart = 1.4
		for _, at := range [2]float64{x, x + apart} {
			line(ink.Thin, r2.Vec{X: at, Y: elbow.Y}, r2.Vec{X: at, Y: elbow.Y + h})
		}
	}
	if size := k.symbolSize(j); size != "" {
		at := r2.Vec{X: x - 1, Y: elbow.Y + 0.9}
		if up < 0 {
			at.Y = elbow.Y - 0.9 - sheet.Small
		}
		s.Add(&ink.Text{At: at, Height: sheet.Small, Anchor: ink.End, Text: size})
	}
}

// A section draws walls that are cut through about a place.
type section struct {
	draw *draft.Drawing
	at   r2.Vec
}

func (d *section) point(x, y float64) r2.Vec { return r2.Add(d.at, r2.Vec{X: x, Y: y}) }

// area draws metal that is cut through.
func (d *section) area(path ...r2.Vec) {
	d.draw.Put(&ink.Fill{Path: path, Shade: metalShade})
	d.draw.Put(&ink.Stroke{Line: ink.Outline, Path: path, Closed: true})
}

// box draws a wall from corner to corner.
func (d *section) box(x0, y0, x1, y1 float64) {
	d.area(d.point(x0, y0), d.point(x1, y0), d.point(x1, y1), d.point(x0, y1))
}

// arc draws a wall along a circle between two angles, in degrees, in pieces that are convex
// enough to be filled one by one.
func (d *section) arc(x, y, radius, from, to float64) {
	const pieces = 24
	at := func(r float64, i int) r2.Vec {
		sin, cos := math.Sincos((from + (to-from)*float64(i)/pieces) * math.Pi / 180)
		return d.point(x+r*cos, y+r*sin)
	}
	var path []r2.Vec
	for i := range pieces {
		d.draw.Put(&ink.Fill{Path: []r2.Vec{at(radius, i), at(radius, i+1), at(radius-detailWall, i+1), at(radius-detailWall, i)}, Shade: metalShade})
	}
	for i := range pieces + 1 {
		path = append(path, at(radius, i))
	}
	for i := pieces; i >= 0; i-- {
		path = append(path, at(radius-detailWall, i))
	}
	d.draw.Put(&ink.Stroke{Line: ink.Outline, Path: path, Closed: true})
}

// bead draws weld metal, on both sides of the middle.
func (d *section) bead(path ...r2.Vec) {
	for _, side := range [2]float64{1, -1} {
		var on []r2.Vec
		for _, q := range path {
			on = append(on, d.point(side*q.X, q.Y))
		}
		d.draw.Put(&ink.Fill{Path: on, Shade: 0})
	}
}

// head draws the head of a tube of half width w, closed by a disc whose face is so high.
func (d *section) head(w, high float64) {
	for _, side := range [2]float64{1, -1} {
		d.box(side*w, high-7, side*(w-detailWall), high)
	}
	d.box(-w+detailWall, high-detailWall, w-detailWall, high)
	const r = 0.8
	at := w - detailWall
	d.bead(r2.Vec{X: at - r, Y: high}, r2.Vec{X: at, Y: high - detailWall}, r2.Vec{X: at + r, Y: high}, r2.Vec{X: at, Y: high + 0.5})
}

// mitre draws two tubes that meet in the half angle, and returns the place of the weld at
// the right.
func (d *section) mitre() r2.Vec {
	const w, long, turn, bead = 6.0, 12.0, -40 * math.Pi / 180, 0.9
	sin, cos := math.Sincos(turn)
	at := func(x float64) r2.Vec { return r2.Vec{X: x, Y: -x * math.Tan(turn/2)} }
	up := func(q r2.Vec) r2.Vec { return d.point(q.X+long*sin, q.Y+long*cos) }
	for _, side := range [2]float64{1, -1} {
		out, in := at(side*w), at(side*(w-detailWall))
		d.area(d.point(out.X, -long), d.point(out.X, out.Y), d.point(in.X, in.Y), d.point(in.X, -long))
		d.area(d.point(out.X, out.Y), up(out), up(in), d.point(in.X, in.Y))
		mid := at(side * (w - detailWall/2))
		var drop []r2.Vec
		for i := range 12 {
			s, c := math.Sincos(2 * math.Pi * float64(i) / 12)
			drop = append(drop, d.point(mid.X+bead*c, mid.Y+bead*s))
		}
		d.draw.Put(&ink.Fill{Path: drop, Shade: 0})
	}
	return d.point(w+0.2, at(w).Y)
}

// joint draws a kind of joint, and returns the place of its weld at the right.
func (d *section) joint(j *jointKind) r2.Vec {
	const half, leg, top = 7.0, 2.4, 15.0
	// stands draws a tube of half width w that stands on a round wall.
	stands := func(w, y, radius float64, through bool) r2.Vec {
		height := func(x float64) float64 { return y + math.Sqrt(radius*radius-x*x) }
		foot := height(w)
		low := foot
		if through {
			low = foot - 8.5
		}
		for _, side := range [2]float64{1, -1} {
			d.box(side*w, low, side*(w-detailWall), top)
		}
		d.bead(r2.Vec{X: w, Y: foot}, r2.Vec{X: w + leg, Y: height(w + leg)}, r2.Vec{X: w, Y: foot + leg})
		return d.point(w+leg/2, foot+leg/2)
	}
	// round draws the wall under a tube, whole or open in the middle.
	round := func(w, y, radius, reach float64, open bool) {
		if !open {
			d.arc(0, y, radius, 90-reach, 90+reach)
			return
		}
		at := math.Acos((w-detailWall)/radius) * 180 / math.Pi
		d.arc(0, y, radius, 90-reach, at)
		d.arc(0, y, radius, 180-at, 90+reach)
	}
	plate := func() { d.box(-14, -9, 14, -5) }
	switch j.shape {
	case tubeToBall:
		round(half, -23, 20, 44, j.opened)
		return stands(half, -23, 20, false)
	case tubeToTube:
		round(half-2.8, -4.7, 7.6, 178, j.opened)
		return stands(half-2.8, -4.7, 7.6, false)
	case tubeToDisc:
		d.head(half+4, -5)
		for _, side := range [2]float64{1, -1} {
			d.box(side*(half-1), -5, side*(half-1-detailWall), top)
		}
		d.bead(r2.Vec{X: half - 1, Y: -5}, r2.Vec{X: half - 1 + leg, Y: -5}, r2.Vec{X: half - 1, Y: -5 + leg})
		return d.point(half-1+leg/2, -5+leg/2)
	case discInTube:
		d.head(half+4, 0)
		return d.point(half+4-detailWall, 0.4)
	case tubeToEnd:
		return d.mitre()
	case ballRoundTube:
		const w, y, radius = half - 1, -23.0, 20.0
		at := math.Acos(w/radius) * 180 / math.Pi
		d.arc(0, y, radius, 46, at)
		d.arc(0, y, radius, 180-at, 134)
		return stands(w, y, radius, true)
	case tubeToPlate:
		plate()
		for _, side := range [2]float64{1, -1} {
			d.box(side*half, -5, side*(half-detailWall), top)
		}
		d.bead(r2.Vec{X: half, Y: -5}, r2.Vec{X: half + leg, Y: -5}, r2.Vec{X: half, Y: -5 + leg})
		return d.point(half+leg/2, -5+leg/2)
	case ballToPlate, tubeAlongPlate, ballToBall:
		const radius, reach = 16.0, 5.5
		d.arc(0, radius-5, radius, 225, 315)
		low := -5.0
		if j.shape == ballToBall {
			if at := math.Acos(reach/radius) * 180 / math.Pi; j.opened {
				d.arc(0, -radius-5, radius, 48, at)
				d.arc(0, -radius-5, radius, 180-at, 132)
			} else {
				d.arc(0, -radius-5, radius, 48, 132)
			}
			low = -5 - (radius - math.Sqrt(radius*radius-reach*reach))
		} else {
			plate()
		}
		high := radius - 5 - math.Sqrt(radius*radius-reach*reach)
		d.bead(r2.Vec{X: 1.2, Y: -5}, r2.Vec{X: reach, Y: low}, r2.Vec{X: reach, Y: high})
		return d.point(reach, (low+high)/2)
	}
	// Two edges of sheet that meet, at an angle where they are of a ball.
	fall := 0.0
	if j.shape == ballSeam {
		fall = 3
	}
	for _, side := range [2]float64{1, -1} {
		d.area(d.point(side*0.3, 0), d.point(side*14, -fall), d.point(side*14, -fall-2), d.point(side*0.3, -2))
	}
	d.bead(r2.Vec{Y: -2.4}, r2.Vec{X: 0.8, Y: -2.2}, r2.Vec{X: 1.6, Y: -0.1}, r2.Vec{X: 0.8, Y: 0.7}, r2.Vec{Y: 0.9})
	return d.point(1.2, 0.5)
}
