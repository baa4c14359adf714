package pack

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
	"stabile/render/sheet"
)

// A tilePage is the page of one tile in the making.
type tilePage struct {
	*tiling
	row, column int
	page        *sheet.Page
	room        room
	shift       r2.Vec // from the tracing to the page
	core        r2.Box // on the page: what is seen when all tiles are stuck together
}

// tilePages returns the pages of a tiling, row by row from the top, but for
// what stands in the strip at the foot.
func (g *tiling) tilePages() []*tilePage {
	var pages []*tilePage
	crosses := g.registrations()
	for r := range g.rows {
		for c := range g.columns {
			if !g.has(r, c) {
				continue
			}
			name, heading := g.slug, title(g.cut)
			if g.count() > 1 {
				name, heading = g.slug+"-"+tileName(r, c), tileName(r, c)+" of "+heading
			}
			p := &tilePage{tiling: g, row: r, column: c, page: sheet.NewBare(g.paper, name, heading)}
			box := g.box(r, c)
			p.shift = r2.Sub(g.window.Min, box.Min)
			core := g.core(r, c)
			p.core = r2.Box{Min: r2.Add(core.Min, p.shift), Max: r2.Add(core.Max, p.shift)}
			for _, item := range g.lines {
				for _, part := range clipped(item, box) {
					p.put(moved(part, p.shift))
				}
			}
			p.seams(crosses)
			pages = append(pages, p)
		}
	}
	g.words(pages)
	return pages
}

// put adds an item that writing keeps clear of.
func (p *tilePage) put(item ink.Item) {
	p.page.Add(item)
	p.room.add(item)
}

// seams draws the registration marks, the lines along which the tile is cut,
// and those on which its neighbours' edges go.
func (p *tilePage) seams(crosses []registration) {
	w := p.window
	reach := sheet.Box(w.Min.X-trimMargin, w.Min.Y-trimMargin, w.Max.X, w.Max.Y)
	var numbers []registration
	for _, c := range crosses {
		at := r2.Add(c.at, p.shift)
		lo, hi := r2.Sub(at, r2.Vec{X: crossArm, Y: crossArm}), r2.Add(at, r2.Vec{X: crossArm, Y: crossArm})
		if within(lo, reach) && within(hi, reach) {
			registrationMark(p.page.Sheet, at)
			for _, item := range p.page.Items[len(p.page.Items)-3:] {
				p.room.add(item)
			}
			numbers = append(numbers, registration{at, c.number})
		}
	}
	left, below := p.trimmed(p.row, p.column)
	right, above := p.has(p.row, p.column+1), p.has(p.row-1, p.column)
	if left {
		p.put(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{w.Min, {X: w.Min.X, Y: w.Max.Y}}})
	}
	if below {
		p.put(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{w.Min, {X: w.Max.X, Y: w.Min.Y}}})
	}
	x, y := w.Max.X-p.overlap, w.Max.Y-p.overlap
	if right {
		p.put(&ink.Stroke{Line: ink.Hidden, Path: []r2.Vec{{X: x, Y: w.Min.Y}, {X: x, Y: w.Max.Y}}})
	}
	if above {
		p.put(&ink.Stroke{Line: ink.Hidden, Path: []r2.Vec{{X: w.Min.X, Y: y}, {X: w.Max.X, Y: y}}})
	}
	for _, n := range numbers {
		p.room.write(p.page.Sheet, reach, func(yield func(*ink.Text) bool) {
			for _, side := range [...]r2.Vec{{X: 1, Y: 1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: -1, Y: -1}} {
				t := &ink.Text{Height: sheet.Small, Text: fmt.Sprint(n.number), At: r2.Vec{X: n.at.X + 2.4, Y: n.at.Y + 2.4}}
				if side.X < 0 {
					t.Anchor, t.At.X = ink.End, n.at.X-2.4
				}
				if side.Y < 0 {
					t.At.Y = n.at.Y - 2.4 - sheet.Small
				}
				if !yield(t) {
					return
				}
			}
		})
	}
	const cut = "cut along this line"
	if left {
		p.alongSeam(cut, r2.Vec{X: w.Min.X - 1.2, Y: w.Min.Y}, r2.Vec{X: w.Min.X - 1.2, Y: w.Max.Y}, reach)
	}
	if below {
		y := w.Min.Y - 1.4 - sheet.Small
		p.alongSeam(cut, r2.Vec{X: w.Min.X, Y: y}, r2.Vec{X: w.Max.X, Y: y}, reach)
	}
	if right {
		text := "glue " + tileName(p.row, p.column+1) + " here, its edge on this line"
		p.alongSeam(text, r2.Vec{X: x + 1.4 + sheet.Small, Y: w.Min.Y}, r2.Vec{X: x + 1.4 + sheet.Small, Y: y}, w)
	}
	if above {
		text := "glue " + tileName(p.row-1, p.column) + " here, its edge on this line"
		p.alongSeam(text, r2.Vec{X: w.Min.X, Y: y + 1.4}, r2.Vec{X: x, Y: y + 1.4}, w)
	}
}

// alongSeam writes a text along a baseline where it is clear.
func (p *tilePage) alongSeam(text string, from, to r2.Vec, box r2.Box) {
	p.room.write(p.page.Sheet, box, func(yield func(*ink.Text) bool) {
		for _, t := range [...]float64{0.5, 0.3, 0.7, 0.2, 0.8, 0.4, 0.6, 0.15, 0.85, 0.25, 0.75} {
			at := r2.Add(from, r2.Scale(t, r2.Sub(to, from)))
			if !yield(&ink.Text{At: at, Height: sheet.Small, Angle: upright(from, to), Anchor: ink.Middle, Text: text}) {
				return
			}
		}
	})
}

// foot fills the strip at the foot: proof bars, what the sheet is, a map.
func (p *tilePage) foot(number, count int) {
	s := p.page.Sheet
	lo := r2.Vec{X: printerMargin, Y: printerMargin}
	hi := r2.Vec{X: p.paper.Width - printerMargin, Y: lo.Y + footHeight}
	s.Add(&ink.Stroke{Line: ink.Rule, Path: []r2.Vec{{X: lo.X, Y: hi.Y - 0.2}, {X: hi.X, Y: hi.Y - 0.2}}})
	proofBars(s, r2.Vec{X: lo.X + 1.5, Y: lo.Y})
	right := hi.X
	if p.count() > 1 {
		right -= mapWidth + 2
		p.drawMap(s, sheet.Box(hi.X-mapWidth, lo.Y+0.5, hi.X, hi.Y-1.2), false, p.row, p.column)
	}
	x := lo.X + proofWidth
	y := hi.Y - 1.2 - sheet.Large
	write := func(text string, height float64, face ink.Face) {
		s.Add(&ink.Text{At: r2.Vec{X: x, Y: y}, Height: height, Face: face, Text: sheet.Elide(text, right-x, height, face)})
	}
	write(s.Title, sheet.Large, ink.Bold)
	d := p.job.Design
	last := fmt.Sprintf("Sheet %d of %d", number, count)
	if p.turned {
		last += "; turned to save sheets"
	}
	y -= 5
	for i, text := range [...]string{
		fmt.Sprintf("Quantity %d – %s", p.cut.Quantity, faceUp(p.blank)),
		p.metalShort(p.blank.Metal),
		d.Title + ", revision " + d.Revision,
		last,
	} {
		face := ink.Regular
		if i == 0 {
			face = ink.Bold
		}
		write(text, sheet.Small, face)
		y -= sheet.LineHeight(sheet.Small)
	}
}

// Widths of the strip's fields, in mm.
const (
	proofWidth = 111.0
	mapWidth   = 34.0
)

// proofBars draws the bars by which a print is checked: 100 mm and 4 in, from
// one zero.
func proofBars(s *ink.Sheet, at r2.Vec) {
	bar := func(y, length, step, up float64, every int, unit string) {
		add := func(a, b r2.Vec) {
			s.Add(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{a, b}, Group: proofGroup})
		}
		add(r2.Vec{X: at.X, Y: y}, r2.Vec{X: at.X + length, Y: y})
		n := int(math.Round(length / step))
		for i := range n + 1 {
			x, tick := at.X+length*float64(i)/float64(n), 1.3
			if i%every == 0 {
				tick = 2.1
				text := fmt.Sprint(i / every * int(math.Round(float64(every)*step/unitOf(unit))))
				if i == n {
					text += " " + unit
				}
				t := &ink.Text{At: r2.Vec{X: x, Y: y + up*2.9}, Height: sheet.Small, Anchor: ink.Middle, Text: text}
				if up < 0 {
					t.At.Y -= sheet.Small
				}
				s.Add(t)
			}
			add(r2.Vec{X: x, Y: y}, r2.Vec{X: x, Y: y + up*tick})
		}
	}
	bar(at.Y+7.4, 100, 10, 1, 5, "mm")
	bar(at.Y+5.8, 4*inch, inch/2, -1, 4, "in")
	y := at.Y + footHeight - 1.2 - sheet.Small
	for i, text := range [...]string{
		"Print at 100 %, “actual size”, one side of the paper.",
		"Measure both bars with a steel rule before you",
		"cut: where they are off, so is the piece.",
	} {
		face := ink.Regular
		if i == 0 {
			face = ink.Bold
		}
		s.Add(&ink.Text{At: r2.Vec{X: at.X - 1.5, Y: y - float64(i)*4.1}, Height: sheet.Small, Face: face, Text: text})
	}
}

const inch = 25.4

func unitOf(unit string) float64 {
	if unit == "in" {
		return inch
	}
	return 1
}

// drawMap draws the tiles and the piece on them, small; one tile may be shaded.
// The tiles are named where there is room.
func (g *tiling) drawMap(s *ink.Sheet, area r2.Box, centred bool, row, column int) (f float64) {
	first, last := g.box(g.rows-1, 0), g.box(0, g.columns-1)
	whole := r2.Box{Min: first.Min, Max: last.Max}
	f = min((area.Max.X-area.Min.X)/(whole.Max.X-whole.Min.X), (area.Max.Y-area.Min.Y)/(whole.Max.Y-whole.Min.Y))
	corner := r2.Vec{X: area.Max.X - (whole.Max.X-whole.Min.X)*f, Y: area.Max.Y - (whole.Max.Y-whole.Min.Y)*f}
	if centred {
		corner = area.Min
	}
	at := func(q r2.Vec) r2.Vec { return r2.Add(corner, r2.Scale(f, r2.Sub(q, whole.Min))) }
	cell := func(r, c int) []r2.Vec {
		b := g.core(r, c)
		lo, hi := at(b.Min), at(b.Max)
		return []r2.Vec{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}}
	}
	if g.has(row, column) {
		s.Add(&ink.Fill{Path: cell(row, column), Shade: 0.8})
	}
	var around room
	for r := range g.rows {
		for c := range g.columns {
			if g.has(r, c) {
				s.Add(&ink.Stroke{Line: ink.Rule, Path: cell(r, c), Closed: true})
			}
		}
	}
	for _, item := range g.lines {
		var line ink.Item
		switch it := item.(type) {
		case *ink.Stroke:
			if it.Group != cutGroup {
				continue
			}
			line = &ink.Stroke{Line: ink.Thin, Path: thinned(it.Path, at), Closed: it.Closed}
		case *ink.Arc:
			a := *it
			a.Line, a.Group, a.Center, a.Radius = ink.Thin, "", at(it.Center), it.Radius*f
			line = &a
		}
		s.Add(line)
		around.add(line)
	}
	if centred {
		g.nameTiles(s, &around, cell)
	}
	return f
}

// nameTiles writes the names of the tiles of a map in their cells.
func (g *tiling) nameTiles(s *ink.Sheet, around *room, cell func(r, c int) []r2.Vec) {
	for r := range g.rows {
		for c := range g.columns {
			if !g.has(r, c) {
				continue
			}
			lo, hi := bounds(cell(r, c))
			inner := sheet.Box(lo.X+0.4, lo.Y+0.4, hi.X-0.4, hi.Y-0.4)
			around.write(s, inner, func(yield func(*ink.Text) bool) {
				for _, v := range [...]float64{0.5, 0.25, 0.75, 0.1, 0.9} {
					for _, u := range [...]float64{0.5, 0.25, 0.75, 0.1, 0.9} {
						t := &ink.Text{Height: sheet.Small, Anchor: ink.Middle, Text: tileName(r, c)}
						t.At = r2.Vec{X: lo.X + u*(hi.X-lo.X), Y: lo.Y + v*(hi.Y-lo.Y) - sheet.Small/2}
						if !yield(t) {
							return
						}
					}
				}
			})
		}
	}
}

// thinned returns a path on a map, without points too near to be told apart.
func thinned(path []r2.Vec, at func(r2.Vec) r2.Vec) []r2.Vec {
	const apart = 0.1 // mm
	var out []r2.Vec
	for i, q := range path {
		p := at(q)
		if n := len(out); n > 0 && i < len(path)-1 && r2.Norm(r2.Sub(p, out[n-1])) < apart {
			continue
		}
		out = append(out, p)
	}
	return out
}
