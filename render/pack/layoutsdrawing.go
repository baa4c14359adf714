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
	layoutDim  = 8.0  // left: the dimension, beyond the numbers

	// What a layout may take of the height of an upright paper: on that of the bench
	// the tables begin below it, on a large one the marks of the pieces stand there.
	uprightShare = 0.5
	largeShare   = 0.6
	lyingShare   = 0.56 // of the width of a lying paper, the tables beside it
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
	share  float64 // of the page's height that it may take
	width  float64 // of the page's width
	set    setting // of the words about it
	more   int     // sheets that the words need besides
	rest   r2.Box  // what the words leave of the box that they end in
	led    int     // cuts whose number a leader ties to them
	spiral []r2.Vec
	broke  breakOff

	fills   []ink.Item    // grounds, below all else
	lines   []cutLine     // that are broken off about numbers
	broken  []r2.Box      // in which they are
	marks   []ink.Item    // all else, in the order in which it was placed
	room    room          // what the marks leave free
	pieces  []laid        // outlines on paper
	left    []layout.Rect // worth keeping
	offcuts []r2.Box      // the same on paper

	bare       []bare   // pieces that have no room for their mark
	unmarked   []string // their marks
	unnumbered []int    // cuts, but for those within a run of like ones
	details    []detail // in which they have room
}

// hard reports how much of the drawing is hard to read: what found no room, and what
// stands off its place.
func (d *cutDrawing) hard() int { return len(d.unmarked) + len(d.unnumbered) + d.led }

// A cutLine is a line of the layout that numbers may break.
type cutLine struct {
	kind   ink.Line
	path   []r2.Vec
	lo, hi r2.Vec
}

// A bare piece has no room for its mark.
type bare struct {
	mark string
	rect layout.Rect // of its block, on the sheet
}

// A laid piece is its outline on paper with the box about it.
type laid struct {
	path   []r2.Vec
	lo, hi r2.Vec
}

// draw draws the layout at the top of a page, in a share of its height and of its
// width.
func (l *cutSheet) draw(p *sheet.Page, share, width float64) *cutDrawing {
	d := &cutDrawing{cutSheet: l, page: p, share: share, width: width, spiral: spiral(6)}
	d.place()
	d.fill()
	return d
}

// place settles scale and place.
func (d *cutDrawing) place() {
	free := d.page.Free
	free.Max.X = free.Min.X + (free.Max.X-free.Min.X)*d.width
	far := max(layoutFar, d.beyond()+layoutDim)
	w := free.Max.X - free.Min.X - far - layoutNear
	h := (free.Max.Y-free.Min.Y)*d.share - layoutFar - layoutNear - layoutTop
	d.scale = sheet.ChooseScale(d.Length, d.Sheet.Width, w, h, d.units)
	d.breakOff(w, h)
	pw, ph := d.squeezed(d.Length)*d.scale.Factor, d.Sheet.Width*d.scale.Factor
	x := free.Min.X + far + max(w-pw, 0)/2
	// Of a narrow strip the dimension stands above it.
	top := free.Max.Y - max(layoutNear+layoutTop, d.style.Beyond(ph, d.rule(d.Sheet.Width)))
	d.box = sheet.Box(x, top-ph, x+pw, top)
	d.low = d.box.Min.Y - layoutFar
}

// beyond returns how far to the left of the sheet the number of a cut may reach.
func (d *cutDrawing) beyond() float64 {
	widest := 0.0
	for i := range d.Cuts {
		widest = max(widest, d.number(i, sheet.Medium).Width())
	}
	return tickLength + 2*numberAir + widest
}

// fill draws and writes all that there is.
func (d *cutDrawing) fill() {
	d.areas()
	d.cutLines()
	d.sheetFrame()
	d.labels()
	d.numbers()
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
				d.stroke(ink.Thin, append(slices.Clone(path), path[0]))
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

func (d *cutDrawing) stroke(kind ink.Line, path []r2.Vec) {
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
		d.stroke(ink.Edge, []r2.Vec{a, b})
	}
}

// sheetFrame draws the sheet's edge, its size and its rolling direction.
func (d *cutDrawing) sheetFrame() {
	path := boxPath(d.box)
	d.stroke(ink.Outline, append(path, path[0]))
	d.breakLines()
	free := d.page.Free
	g := draft.New(d.style, free)
	low, left := d.box.Min.Y-layoutNear, d.box.Min.X-max(layoutFar-layoutDim, d.beyond())
	g.Style.First = 4 // clear of the numbers
	g.Stack(draft.Below, low, []draft.Dim{{From: r2.Vec{X: d.box.Min.X, Y: low}, To: r2.Vec{X: d.box.Max.X, Y: low}, Text: d.rule(d.Length)}})
	g.Stack(draft.Left, left, []draft.Dim{{From: r2.Vec{X: left, Y: d.box.Min.Y}, To: r2.Vec{X: left, Y: d.box.Max.Y}, Text: d.rule(d.Sheet.Width)}})
	const text = "rolling direction"
	y := d.box.Max.Y + layoutNear + layoutTop - sheet.Small
	x := d.box.Max.X - ink.Width(text, sheet.Small, ink.Regular) - 14
	g.Put(&ink.Text{At: r2.Vec{X: x, Y: y}, Height: sheet.Small, Text: text})
	g.Arrow(r2.Vec{X: d.box.Max.X - 12, Y: y + sheet.Small/2}, r2.Vec{X: d.box.Max.X, Y: y + sheet.Small/2})
	for _, item := range g.Items {
		d.put(item)
	}
}

// put takes into the drawing what no line of it breaks and nothing later may
// cover.
func (d *cutDrawing) put(item ink.Item) {
	d.marks = append(d.marks, item)
	d.room.add(item)
}

// labels writes what is to be known of each piece and offcut into it.
func (d *cutDrawing) labels() {
	n := 0
	for i := range d.Blocks {
		for k := range d.Blocks[i].Pieces {
			p := &d.Blocks[i].Pieces[k]
			if c := &d.kinds[d.of[p.Name]]; !d.label(&d.pieces[n], c, p.Turned) {
				d.bare = append(d.bare, bare{c.mark, d.Blocks[i].Rect})
				if !slices.Contains(d.unmarked, c.mark) {
					d.unmarked = append(d.unmarked, c.mark)
				}
			}
			n++
		}
	}
	for i, b := range d.offcuts {
		r := d.left[i]
		size := d.rule(r.Height) + " × " + d.rule(r.Width)
		b.Max.X = min(b.Max.X, d.writable())
		o := laid{path: boxPath(b), lo: b.Min, hi: b.Max}
		for _, text := range [][]line{{{"offcut", sheet.Small}, {size, sheet.Small}}, {{"offcut " + size, sheet.Small}}, {{size, sheet.Small}}, {{"offcut", sheet.Small}}} {
			if d.fit(&o, ink.Regular, true, text...) {
				break
			}
		}
	}
}

// label writes as much of a piece's mark, name and size into it as finds room,
// and reports whether at least its mark does. A mark alone stands level: turned, N
// reads as Z and C as U.
func (d *cutDrawing) label(o *laid, c *cutKind, turned bool) bool {
	size := d.fine(c.width) + " × " + d.fine(c.length)
	if turned {
		size = d.fine(c.length) + " × " + d.fine(c.width)
	}
	return d.fit(o, ink.Bold, true, line{c.mark + "  " + c.name, sheet.Medium}, line{size, sheet.Small}) ||
		d.fit(o, ink.Bold, true, line{c.mark, sheet.Medium}, line{c.name, sheet.Small}) ||
		d.fit(o, ink.Bold, false, line{c.mark, sheet.Medium}) ||
		d.fit(o, ink.Bold, false, line{c.mark, sheet.Small})
}

// A line of writing has a height.
type line struct {
	text   string
	height float64
}

// fit writes lines, the first in a face, in the middle of an outline or as near to
// it as they fit, level or if they may be turned upright, and reports whether they
// do.
func (d *cutDrawing) fit(o *laid, face ink.Face, turn bool, lines ...line) bool {
	const lead = 1.3 // mm between the lines
	for _, upright := range [2]bool{false, true} {
		if upright && !turn {
			break
		}
		up, angle := r2.Vec{Y: 1}, 0.0
		if upright {
			up, angle = r2.Vec{X: -1}, math.Pi/2
		}
		// The lines below each other, and the box about their ink.
		texts := make([]*ink.Text, len(lines))
		var corners []r2.Vec
		down := 0.0
		for i, l := range lines {
			down += l.height
			texts[i] = &ink.Text{At: r2.Scale(-down, up), Height: l.height, Angle: angle, Anchor: ink.Middle, Text: l.text}
			if i == 0 {
				texts[i].Face = face
			}
			corners = append(corners, texts[i].Box()...)
			down += lead
		}
		lo, hi := bounds(corners)
		half := r2.Add(r2.Scale(0.5, r2.Sub(hi, lo)), r2.Vec{X: aroundText, Y: aroundText})
		room := r2.Sub(r2.Scale(0.5, r2.Sub(o.hi, o.lo)), half)
		if room.X < 0 || room.Y < 0 {
			continue
		}
		mid := r2.Scale(0.5, r2.Add(o.lo, o.hi))
		for _, s := range d.spiral {
			c := r2.Vec{X: mid.X + room.X*s.X, Y: mid.Y + room.Y*s.Y}
			if !insidePath(o.path, r2.Box{Min: r2.Sub(c, half), Max: r2.Add(c, half)}) {
				continue
			}
			shift := r2.Sub(c, r2.Scale(0.5, r2.Add(lo, hi)))
			for _, t := range texts {
				t.At = r2.Add(t.At, shift)
				d.put(t)
			}
			return true
		}
	}
	return false
}

// items returns all that is drawn, lines broken off about the numbers.
func (d *cutDrawing) items() []ink.Item {
	list := slices.Clone(d.fills)
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
	return append(list, d.marks...)
}
