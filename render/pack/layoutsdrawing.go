package pack

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/layout"
	"stabile/fab/sheets"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// Room about a layout on paper, in mm: for the numbers of cuts and the
// dimensions beyond them.
const (
	layoutNear = 7.0  // right and above: numbers alone
	layoutFar  = 17.0 // left and below: numbers and a dimension
	layoutTop  = 5.0  // more above, for the rolling direction
	layoutWide = 9.0  // left: numbers of three figures, before the dimension

	// uprightShare is what a layout may take of the height of an upright paper,
	// so that the tables begin below it.
	uprightShare = 0.55
)

// Shades of a layout: metal that is scrap, and what is left whole. Pieces are
// white, so that what is written in them stands out.
const (
	scrapShade  = 0.82
	offcutShade = 0.93
)

// A cutDrawing is the drawing of one layout on one paper.
type cutDrawing struct {
	*cutSheet
	page   *sheet.Page
	scale  sheet.Scale
	box    r2.Box // of the sheet
	low    float64
	missed int // pieces and cuts whose mark found no room
	led    int // cuts whose number a leader ties to them
	spiral []r2.Vec
	broke  breakOff

	fills   []ink.Item
	frame   []ink.Item
	lines   []cutLine
	texts   []*ink.Text
	boxes   []r2.Box      // of the texts, for what is placed later
	broken  []r2.Box      // in which lines are broken off
	pieces  []laid        // outlines on paper
	left    []layout.Rect // worth keeping
	offcuts []r2.Box      // the same on paper
	ticks   []ink.Item    // that lead to numbers outside the sheet
	dots    []ink.Item    // at the ends of leaders
}

// A cutLine is a line of the layout that numbers may break.
type cutLine struct {
	kind   ink.Line
	path   []r2.Vec
	lo, hi r2.Vec
}

// A laid piece is its outline on paper with the box about it.
type laid struct {
	path   []r2.Vec
	lo, hi r2.Vec
}

// draw draws the layout at the top of a page.
func (l *cutSheet) draw(p *sheet.Page) *cutDrawing {
	d := &cutDrawing{cutSheet: l, page: p, spiral: spiral(6)}
	free := p.Free
	w := free.Max.X - free.Min.X - layoutFar - layoutNear
	h := free.Max.Y - free.Min.Y
	if p.Height > p.Width {
		h *= uprightShare
	}
	h -= layoutFar + layoutNear + layoutTop
	d.scale = sheet.ChooseScale(l.Length, l.Width, w, h, l.units)
	d.breakOff(w, h)
	pw, ph := d.squeezed(l.Length)*d.scale.Factor, l.Width*d.scale.Factor
	x := free.Min.X + layoutFar + max(w-pw, 0)/2
	top := free.Max.Y - layoutNear - layoutTop
	d.box = sheet.Box(x, top-ph, x+pw, top)
	d.low = d.box.Min.Y - layoutFar
	d.areas()
	d.cutLines()
	d.sheetFrame()
	d.labels()
	d.numbers()
	return d
}

func (d *cutDrawing) at(q r2.Vec) r2.Vec {
	q.X = d.squeezed(q.X)
	return r2.Add(d.box.Min, r2.Scale(d.scale.Factor, q))
}

func (d *cutDrawing) rect(r layout.Rect) r2.Box {
	a, b := d.at(r2.Vec{X: r.X, Y: r.Y}), d.at(r2.Vec{X: r.X + r.Width, Y: r.Y + r.Height})
	return sheet.Box(a.X, a.Y, b.X, b.Y)
}

func boxPath(b r2.Box) []r2.Vec {
	return []r2.Vec{b.Min, {X: b.Max.X, Y: b.Min.Y}, b.Max, {X: b.Min.X, Y: b.Max.Y}}
}

// areas paints the sheet, what is left whole and the pieces.
func (d *cutDrawing) areas() {
	d.fills = append(d.fills, &ink.Fill{Path: boxPath(d.box), Shade: scrapShade})
	for _, r := range d.Left {
		if !d.useful(r) {
			continue
		}
		d.left = append(d.left, r)
		b := d.rect(r)
		d.offcuts = append(d.offcuts, b)
		d.fills = append(d.fills, &ink.Fill{Path: boxPath(b), Shade: offcutShade})
	}
	for i := range d.Blocks {
		b := &d.Blocks[i]
		for k := range b.Pieces {
			p := &b.Pieces[k]
			path := d.outline(p)
			lo, hi := bounds(path)
			d.pieces = append(d.pieces, laid{path, lo, hi})
			d.fills = append(d.fills, &ink.Fill{Path: path, Shade: 1})
			if b.Curved > 0 || len(b.Pieces) > 1 {
				d.line(ink.Thin, append(slices.Clone(path), path[0]))
			}
		}
	}
}

// coarsest is how near, in mm on paper, points of an outline may follow each
// other: less than a narrow line is wide.
const coarsest = 0.2

// outline returns a piece's outline on paper.
func (d *cutDrawing) outline(p *sheets.Piece) []r2.Vec {
	path := p.Laid(d.plan.Blanks[p.Blank].Outline)
	out := path[:0]
	for i, q := range path {
		q = d.at(q)
		if n := len(out); n > 0 && i < len(path)-1 && r2.Norm2(r2.Sub(q, out[n-1])) < coarsest*coarsest {
			continue
		}
		out = append(out, q)
	}
	return out
}

func (d *cutDrawing) line(kind ink.Line, path []r2.Vec) {
	lo, hi := bounds(path)
	d.lines = append(d.lines, cutLine{kind, path, lo, hi})
}

// ends returns the ends of a cut on paper.
func (d *cutDrawing) ends(c *sheets.Cut) (a, b r2.Vec) {
	if c.Upright {
		return d.at(r2.Vec{X: c.At, Y: c.From}), d.at(r2.Vec{X: c.At, Y: c.To})
	}
	return d.at(r2.Vec{X: c.From, Y: c.At}), d.at(r2.Vec{X: c.To, Y: c.At})
}

func (d *cutDrawing) cutLines() {
	for i := range d.Cuts {
		a, b := d.ends(&d.Cuts[i])
		d.line(ink.Edge, []r2.Vec{a, b})
	}
}

// sheetFrame draws the sheet's edge, its size and its rolling direction.
func (d *cutDrawing) sheetFrame() {
	path := boxPath(d.box)
	d.line(ink.Outline, append(path, path[0]))
	d.breakLines()
	free := d.page.Free
	g := draft.New(d.style, free)
	low, left := d.box.Min.Y-layoutNear, d.box.Min.X-layoutWide
	g.Style.First = 3
	g.Stack(draft.Below, low, []draft.Dim{{From: r2.Vec{X: d.box.Min.X, Y: low}, To: r2.Vec{X: d.box.Max.X, Y: low}, Text: d.rule(d.Length)}})
	g.Stack(draft.Left, left, []draft.Dim{{From: r2.Vec{X: left, Y: d.box.Min.Y}, To: r2.Vec{X: left, Y: d.box.Max.Y}, Text: d.rule(d.Sheet.Width)}})
	const text = "rolling direction"
	y := d.box.Max.Y + layoutNear + layoutTop - sheet.Small
	x := d.box.Max.X - ink.Width(text, sheet.Small, ink.Regular) - 14
	g.Put(&ink.Text{At: r2.Vec{X: x, Y: y}, Height: sheet.Small, Text: text})
	g.Arrow(r2.Vec{X: d.box.Max.X - 12, Y: y + sheet.Small/2}, r2.Vec{X: d.box.Max.X, Y: y + sheet.Small/2})
	d.frame = append(d.frame, g.Items...)
}

// put takes a text into the drawing.
func (d *cutDrawing) put(t *ink.Text) {
	lo, hi := bounds(t.Box())
	d.texts = append(d.texts, t)
	d.boxes = append(d.boxes, r2.Box{Min: lo, Max: hi})
}

// labels writes what is to be known of each piece and offcut into it.
func (d *cutDrawing) labels() {
	n := 0
	for i := range d.Blocks {
		for k := range d.Blocks[i].Pieces {
			p := &d.Blocks[i].Pieces[k]
			if !d.label(&d.pieces[n], &d.kinds[d.of[p.Name]], p.Turned) {
				d.missed++
			}
			n++
		}
	}
	for i, b := range d.offcuts {
		r := d.left[i]
		size := d.rule(r.Height) + " × " + d.rule(r.Width)
		b.Max.X = min(b.Max.X, d.writable())
		o := laid{path: boxPath(b), lo: b.Min, hi: b.Max}
		for _, lines := range [][]string{{"offcut", size}, {"offcut " + size}, {size}, {"offcut"}} {
			if d.fit(&o, lines, [2]float64{sheet.Small, sheet.Small}, ink.Regular) {
				break
			}
		}
	}
}

// label writes as much of a piece's mark, name and size into it as finds room,
// and reports whether at least its mark does.
func (d *cutDrawing) label(o *laid, c *cutKind, turned bool) bool {
	size := d.fine(c.width) + " × " + d.fine(c.length)
	if turned {
		size = d.fine(c.length) + " × " + d.fine(c.width)
	}
	return d.fit(o, []string{c.mark + "  " + c.name, size}, [2]float64{sheet.Medium, sheet.Small}, ink.Bold) ||
		d.fit(o, []string{c.mark, c.name}, [2]float64{sheet.Medium, sheet.Small}, ink.Bold) ||
		d.fit(o, []string{c.mark}, [2]float64{sheet.Medium, 0}, ink.Bold) ||
		d.fit(o, []string{c.mark}, [2]float64{sheet.Small, 0}, ink.Bold)
}

// fit writes up to two lines, the first in a face, in the middle of an outline or
// as near to it as they fit, level or upright, and reports whether they do.
func (d *cutDrawing) fit(o *laid, lines []string, heights [2]float64, face ink.Face) bool {
	const lead = 1.3 // mm between the lines
	w, h := 0.0, 0.0
	for i, s := range lines {
		f := face
		if i > 0 {
			f = ink.Regular
			h += lead
		}
		w, h = max(w, ink.Width(s, heights[i], f)), h+heights[i]
	}
	for _, upright := range [2]bool{false, true} {
		bw, bh := w+2*aroundText, h+2*aroundText
		if upright {
			bw, bh = bh, bw
		}
		rx, ry := (o.hi.X-o.lo.X-bw)/2, (o.hi.Y-o.lo.Y-bh)/2
		if rx < 0 || ry < 0 {
			continue
		}
		mid := r2.Scale(0.5, r2.Add(o.lo, o.hi))
		for _, s := range d.spiral {
			c := r2.Vec{X: mid.X + rx*s.X, Y: mid.Y + ry*s.Y}
			b := sheet.Box(c.X-bw/2, c.Y-bh/2, c.X+bw/2, c.Y+bh/2)
			if !insidePath(o.path, b) {
				continue
			}
			up := r2.Vec{Y: 1}
			angle := 0.0
			if upright {
				up, angle = r2.Vec{X: -1}, math.Pi/2
			}
			top := h / 2
			for i, s := range lines {
				f := face
				if i > 0 {
					f = ink.Regular
				}
				top -= heights[i]
				d.put(&ink.Text{At: r2.Add(c, r2.Scale(top, up)), Height: heights[i], Angle: angle, Anchor: ink.Middle, Face: f, Text: s})
				top -= lead
			}
			return true
		}
	}
	return false
}

// items returns all that is drawn, lines broken off about the numbers.
func (d *cutDrawing) items() []ink.Item {
	list := slices.Concat(d.fills, d.frame, d.ticks, d.dots)
	for i := range d.lines {
		l := &d.lines[i]
		var near []r2.Box
		for _, b := range d.broken {
			if l.lo.X < b.Max.X && b.Min.X < l.hi.X && l.lo.Y < b.Max.Y && b.Min.Y < l.hi.Y || touches(l, b) {
				near = append(near, b)
			}
		}
		for _, path := range broken(l.path, near) {
			list = append(list, &ink.Stroke{Line: l.kind, Path: path})
		}
	}
	for _, t := range d.texts {
		list = append(list, t)
	}
	return list
}
