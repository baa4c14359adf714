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
	if g.pages != nil {
		return g.pages
	}
	var pages []*tilePage
	crosses := g.registrations()
	for r := range g.rows {
		for c := range g.columns {
			if !g.has(r, c) {
				continue
			}
			name, heading := g.slug, pieces(g.cut)
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
	g.pages = pages
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
		p.room.write(p.page.Sheet, reach, besideMark(n))
	}
	// Baselines leave a descender's room, and on the other side that of an
	// ascender, between the writing and its line.
	const under, over = 1.8, 1.4
	const cut = "cut along this line"
	if left {
		p.alongSeam(cut, reach, [2]r2.Vec{{X: w.Min.X - under, Y: w.Min.Y}, {X: w.Min.X - under, Y: w.Max.Y}})
	}
	if below {
		y := w.Min.Y - over - sheet.Small
		p.alongSeam(cut, reach, [2]r2.Vec{{X: w.Min.X, Y: y}, {X: w.Max.X, Y: y}})
	}
	if right {
		text := tileName(p.row, p.column+1) + " goes over, its edge on this line"
		a, b := x+over+sheet.Small, x-under
		p.alongSeam(text, w, [2]r2.Vec{{X: a, Y: w.Min.Y}, {X: a, Y: y}}, [2]r2.Vec{{X: b, Y: w.Min.Y}, {X: b, Y: y}})
	}
	if above {
		text := tileName(p.row-1, p.column) + " goes over, its edge on this line"
		a, b := y+under, y-over-sheet.Small
		p.alongSeam(text, w, [2]r2.Vec{{X: w.Min.X, Y: a}, {X: x, Y: a}}, [2]r2.Vec{{X: w.Min.X, Y: b}, {X: x, Y: b}})
	}
	if p.count() > 1 {
		p.corner(reach)
	}
}

// besideMark yields the places of a mark's number: between its arms, then round
// about it.
func besideMark(n registration) func(yield func(*ink.Text) bool) {
	return func(yield func(*ink.Text) bool) {
		const off = 2.4
		for _, side := range [...]r2.Vec{{X: 1, Y: 1}, {X: 1, Y: -1}, {X: -1, Y: 1}, {X: -1, Y: -1}} {
			t := &ink.Text{Height: sheet.Small, Text: fmt.Sprint(n.number), At: r2.Add(n.at, r2.Vec{X: off, Y: off})}
			if side.X < 0 {
				t.Anchor, t.At.X = ink.End, n.at.X-off
			}
			if side.Y < 0 {
				t.At.Y = n.at.Y - off - sheet.Small
			}
			if !yield(t) {
				return
			}
		}
		for _, distance := range [...]float64{6, 7, 8} {
			for i := range 16 {
				sin, cos := math.Sincos(float64(i) * math.Pi / 8)
				at := r2.Vec{X: n.at.X + distance*cos, Y: n.at.Y + distance*sin - sheet.Small/2}
				if !yield(&ink.Text{At: at, Height: sheet.Small, Anchor: ink.Middle, Text: fmt.Sprint(n.number)}) {
					return
				}
			}
		}
	}
}

// corner writes the tile's name in a corner of what it shows: the strip at the
// foot is cut off.
func (p *tilePage) corner(box r2.Box) {
	const in = 3.0
	p.room.write(p.page.Sheet, box, func(yield func(*ink.Text) bool) {
		for _, d := range [...]float64{in, 4 * in, 8 * in} {
			for _, t := range [...]ink.Text{
				{At: r2.Vec{X: p.core.Min.X + d, Y: p.core.Min.Y + d}},
				{At: r2.Vec{X: p.core.Min.X + d, Y: p.core.Max.Y - d - sheet.Large}},
				{At: r2.Vec{X: p.core.Max.X - d, Y: p.core.Min.Y + d}, Anchor: ink.End},
				{At: r2.Vec{X: p.core.Max.X - d, Y: p.core.Max.Y - d - sheet.Large}, Anchor: ink.End},
			} {
				t.Height, t.Text = sheet.Large, tileName(p.row, p.column)
				if !yield(&t) {
					return
				}
			}
		}
	})
}

// alongSeam writes a text along the first of the baselines on which it is clear.
func (p *tilePage) alongSeam(text string, box r2.Box, baselines ...[2]r2.Vec) {
	p.room.write(p.page.Sheet, box, func(yield func(*ink.Text) bool) {
		for _, l := range baselines {
			for _, t := range [...]float64{0.5, 0.3, 0.7, 0.2, 0.8, 0.4, 0.6, 0.15, 0.85, 0.25, 0.75} {
				at := r2.Add(l[0], r2.Scale(t, r2.Sub(l[1], l[0])))
				if !yield(&ink.Text{At: at, Height: sheet.Small, Angle: upright(l[0], l[1]), Anchor: ink.Middle, Text: text}) {
					return
				}
			}
		}
	})
}

// foot fills the strip at the foot: proof bars, what the sheet is, a map.
func (p *tilePage) foot(number, count int) {
	s := p.page.Sheet
	lo := r2.Vec{X: p.margin, Y: p.margin}
	hi := r2.Vec{X: p.paper.Width - p.margin, Y: lo.Y + footHeight}
	s.Add(&ink.Stroke{Line: ink.Rule, Path: []r2.Vec{{X: lo.X, Y: hi.Y - 0.2}, {X: hi.X, Y: hi.Y - 0.2}}})
	proofBars(s, r2.Vec{X: lo.X + 1.5, Y: lo.Y})
	right := hi.X
	if p.count() > 1 {
		right -= mapWidth + 2
		p.drawMap(s, sheet.Box(hi.X-mapWidth, lo.Y+0.5, hi.X, hi.Y-1.2), false, p.row, p.column)
	}
	x := lo.X + proofWidth
	y := hi.Y - footAir
	for _, t := range p.footTexts(right-x, footHeight-2*footAir, number, count) {
		y -= t.Height
		t.At = r2.Vec{X: x, Y: y}
		y -= sheet.LineHeight(t.Height) - t.Height
		s.Add(&t)
	}
}

// footAir is left free over and under the words of the strip, in mm.
const footAir = 1.2

// footTexts returns the words of the strip in lines, the largest that go into a width and a
// height: which tile of which pieces this is, then what they are. Names are never cut
// short: where those of many pieces do not go in, the first sheet has them all.
func (p *tilePage) footTexts(width, height float64, number, count int) []ink.Text {
	d := p.job.Design
	tile := ""
	if p.count() > 1 {
		tile = tileName(p.row, p.column) + " of "
	}
	which := fmt.Sprintf("Sheet %d of %d", number, count)
	if p.turned {
		which += ", piece turned"
	}
	heading := fmt.Sprintf("Quantity %d – %s", p.cut.Quantity, faceUp(p.blank))
	rest := which + ": " + p.metalShort(p.blank.Metal) + ". Revision " + d.Revision()
	var lines []ink.Text
	add := func(text string, h float64, face ink.Face) {
		for _, line := range sheet.Wrap(text, width, h, face) {
			lines = append(lines, ink.Text{Height: h, Face: face, Text: line})
		}
	}
	for _, names := range [...]string{pieces(p.cut), title(p.cut) + ", see the first sheet"} {
		for _, h := range [...]float64{sheet.Large, sheet.Medium, sheet.Small} {
			for _, tail := range [...]string{rest + ", " + d.Title, rest} {
				lines = nil
				add(tile+names, h, ink.Bold)
				add(heading, sheet.Small, ink.Bold)
				add(tail, sheet.Small, ink.Regular)
				high := 0.0
				for _, t := range lines {
					high += sheet.LineHeight(t.Height)
				}
				if high <= height {
					return lines
				}
			}
		}
	}
	return lines
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
