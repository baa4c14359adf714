// Package contact lays many variations of a design out side by side, each
// with its elevation or picture to one scale and the figures by which to choose;
// and it plots one figure of them against another.
package contact

import (
	"fmt"
	"image"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/study"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// An Entry is a variation with what it is drawn from.
type Entry struct {
	Result  study.Result
	Job     *fab.Job    // nil for one that cannot be made
	Picture image.Image // drawn in place of the elevation; nil for none
}

// Options are what a contact sheet says beside its entries.
type Options struct {
	Paper sheet.Paper // as it lies; the zero Paper for the custom of the design's units
	Date  string
	Said  string // what was tried and kept, in a sentence
	One   bool   // all on one page, however long
}

// Measures of a cell, in mm.
const (
	leastWide = 62.0 // of a cell; more where there are few
	leastDraw = 56.0 // height of the elevation or picture, likewise
	cellAir   = 4.0
	mostLines = 3 // of the settings that were changed, and of each thing that is wrong
	roomy     = 8 // of these where it costs the drawings nothing
	linePitch = 4.2
)

// rounding is how much of a row may be lacking by rounding alone: a page that was
// made long enough holds all its rows.
const rounding = 1e-9

const caution = "Aid to judgement. A licensed engineer and the local code decide for anything the public can reach."

// Sheets returns the contact sheet of entries, which must not be empty.
func Sheets(d *design.Design, entries []Entry, o Options) ([]*ink.Sheet, error) {
	c := &contact{design: d, entries: entries, options: o}
	if o.Paper.Width == 0 {
		name := "A3"
		if d.Units == quantity.Inch {
			name = "ANSI B"
		}
		p, _ := sheet.LookupPaper(name)
		c.options.Paper = p.Landscape()
	}
	c.measure()
	for first := 0; first < len(entries); {
		n, err := c.page(entries[first:])
		if err != nil {
			return nil, err
		}
		first += n
	}
	return sheet.Finish(c.pages), nil
}

// A contact is a contact sheet in the making.
type contact struct {
	design  *design.Design
	entries []Entry
	options Options

	wide, high float64 // of the largest entry, in mm, or of a picture, in dots
	grid       grid    // of every page; zero before the first
	pages      []*sheet.Page
}

// A grid is how the cells of a page lie.
type grid struct {
	across, down int
	cell         float64 // mm, width of a cell
	draw         float64 // mm, height of each drawing
	under        float64 // mm, height of the writing under each, and what is free below it
	scale        float64 // of every elevation
	lines        int     // of each thing that is written, at most
}

// measure finds the size of the largest entry.
func (c *contact) measure() {
	for i := range c.entries {
		switch e := &c.entries[i]; {
		case e.Picture != nil:
			size := e.Picture.Bounds().Size()
			c.wide, c.high = max(c.wide, float64(size.X)), max(c.high, float64(size.Y))
		case e.Job != nil:
			c.wide, c.high = max(c.wide, e.Job.Size.Width), max(c.high, e.Job.Size.Max.Z)
		}
	}
}

// under returns the room in mm that the longest writing takes in cells of a width,
// with so many lines of each thing at most.
func (c *contact) under(cell float64, lines int) float64 {
	most := 0
	for i := range c.entries {
		most = max(most, len(c.lines(&c.entries[i], cell, lines)))
	}
	return float64(most)*linePitch + cellAir
}

// choose returns the grid on which n drawings come out largest in a room of the
// given size, in mm. Where they do not all go on a page it is one of as few pages as
// can be, evenly filled. It reports false where not even one goes in.
func (c *contact) choose(n int, width, height float64) (grid, bool) {
	most := max(1, int(width/leastWide))
	var fits []grid // for each number of cells across, with as many down as go in
	room := 0
	for across := 1; across <= min(most, n); across++ {
		for _, lines := range []int{mostLines, roomy} {
			g := grid{across: across, cell: width / float64(across), lines: lines}
			g.under = c.under(g.cell, lines)
			g.down = int(height/(leastDraw+g.under) + rounding)
			if lines == mostLines {
				room = max(room, g.across*g.down)
			}
			fits = append(fits, g)
		}
	}
	if room == 0 {
		return grid{}, false
	}
	pages := (n + room - 1) / room
	each := (n + pages - 1) / pages
	var best grid
	for _, g := range fits {
		down := (each + g.across - 1) / g.across
		if g.down < down {
			continue
		}
		g.down = down
		g.draw = height/float64(down) - g.under
		g.scale = math.Inf(1)
		if c.wide > 0 {
			g.scale = (g.cell - 2*cellAir) / c.wide
		}
		if c.high > 0 {
			g.scale = min(g.scale, (g.draw-2*cellAir)/c.high)
		}
		if best.across == 0 || g.scale > best.scale || g.scale == best.scale && g.lines > best.lines {
			best = g
		}
	}
	if c.high > 0 {
		// What the drawings do not need is left free under the writing.
		need := min(best.draw, c.high*best.scale+2*cellAir)
		best.under += best.draw - need
		best.draw = need
	}
	return best, true
}

// page lays out a page from the first of entries on and returns how many it
// took.
func (c *contact) page(entries []Entry) (int, error) {
	units := "mm"
	if c.design.Units == quantity.Inch {
		units = "in"
	}
	paper := c.options.Paper
	block := sheet.Block{
		Title: c.design.Title, Subtitle: "Variations", Document: "Contact sheet", Material: "See the drawings",
		Owner: c.design.Owner(), Units: units, Revision: c.design.Revision, Date: c.options.Date,
		Tolerances: "None: for choosing, not for making", Caution: caution, DoNotScale: true,
	}
	p := sheet.NewPage(paper, fmt.Sprintf("variations-%02d", len(c.pages)+1), block)
	width := p.Free.Max.X - p.Free.Min.X
	if c.options.One {
		across := max(1, int(width/leastWide))
		rows := math.Ceil(float64(len(entries)) / float64(across))
		if short := rows*(leastDraw+c.under(width/float64(across), mostLines)) + headHeight - (p.Free.Max.Y - p.Free.Min.Y); short > 0 {
			paper.Height += math.Ceil(short)
		}
		p = sheet.NewPage(paper, "variations", block)
	}
	c.pages = append(c.pages, p)
	top := p.Free.Max.Y - c.head(p)
	if c.grid.across == 0 {
		// All pages are alike: with what the head takes of the first.
		var ok bool
		if c.grid, ok = c.choose(len(entries), width, p.Free.Max.Y-headHeight-p.Free.Min.Y); !ok {
			return 0, fmt.Errorf("contact sheet: %s paper is too small", paper.Name)
		}
	}
	g := &c.grid
	n := min(len(entries), g.across*g.down)
	for i := range n {
		c.cell(p, &entries[i], r2.Vec{
			X: p.Free.Min.X + float64(i%g.across)*g.cell,
			Y: top - float64(i/g.across)*(g.draw+g.under),
		})
	}
	return n, nil
}

// headHeight is what the head of a page takes at most.
const headHeight = 10

// head writes what was tried on the first page and returns the
// height that it takes on all.
func (c *contact) head(p *sheet.Page) float64 {
	if len(c.pages) > 1 || c.options.Said == "" {
		return headHeight
	}
	y := p.Free.Max.Y - sheet.Medium
	for _, line := range sheet.Wrap(c.options.Said, p.Free.Max.X-p.Free.Min.X, sheet.Medium, ink.Regular)[:1] {
		p.Add(&ink.Text{Text: line, At: r2.Vec{X: p.Free.Min.X, Y: y}, Height: sheet.Medium})
	}
	return headHeight
}

// cell draws one entry from the upper left corner of its cell on.
func (c *contact) cell(p *sheet.Page, e *Entry, at r2.Vec) {
	box := sheet.Box(at.X, at.Y-c.grid.draw, at.X+c.grid.cell, at.Y)
	switch {
	case e.Picture != nil:
		p.Add(&ink.Image{Box: fitted(box, e.Picture.Bounds().Size()), Image: e.Picture, Words: e.Result.Label()})
	case e.Job != nil:
		c.elevation(p, e.Job, box)
	default:
		p.Add(&ink.Stroke{Line: ink.Rule, Path: []r2.Vec{
			{X: box.Min.X + cellAir, Y: box.Min.Y}, {X: box.Max.X - cellAir, Y: box.Min.Y},
			{X: box.Max.X - cellAir, Y: box.Max.Y - cellAir}, {X: box.Min.X + cellAir, Y: box.Max.Y - cellAir},
		}, Closed: true})
		p.Add(&ink.Text{Text: "cannot be made", At: r2.Vec{X: (box.Min.X + box.Max.X) / 2, Y: (box.Min.Y + box.Max.Y) / 2}, Height: sheet.Medium, Anchor: ink.Middle})
	}
	y := box.Min.Y - cellAir - sheet.Small/2
	for _, l := range c.lines(e, c.grid.cell, c.grid.lines) {
		p.Add(&ink.Text{Text: l.text, At: r2.Vec{X: at.X + cellAir, Y: y}, Height: sheet.Small, Face: l.face})
		y -= linePitch
	}
}

// fitted returns the largest box of a picture's proportions in the middle of
// another.
func fitted(box r2.Box, size image.Point) r2.Box {
	box = sheet.Box(box.Min.X+cellAir/2, box.Min.Y, box.Max.X-cellAir/2, box.Max.Y-cellAir)
	w, h := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	scale := min(w/float64(size.X), h/float64(size.Y))
	middle := (box.Min.X + box.Max.X) / 2
	return sheet.Box(middle-scale*float64(size.X)/2, box.Min.Y, middle+scale*float64(size.X)/2, box.Min.Y+scale*float64(size.Y))
}

// elevation draws a job from the front, on a line that is the ground.
func (c *contact) elevation(p *sheet.Page, j *fab.Job, box r2.Box) {
	middle := (j.Size.Min.X + j.Size.Max.X) / 2
	v := draft.View{Projection: draft.Front, Scale: c.grid.scale}
	v.Origin = r2.Vec{X: (box.Min.X+box.Max.X)/2 - middle*v.Scale, Y: box.Min.Y}
	d := draft.New(draft.Millimetre(), box)
	d.Picture(draft.NewScene(j.Parts), v, false)
	ground := v.At(r3.Vec{}).Y
	p.Add(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: box.Min.X + cellAir, Y: ground}, {X: box.Max.X - cellAir, Y: ground}}})
	p.Add(d.Items...)
}

// A line is one line of writing under a drawing.
type line struct {
	text string
	face ink.Face
}

// lines returns what is written under an entry in a cell of a width: no line is
// wider than the cell, and each thing takes so many at most.
func (c *contact) lines(e *Entry, cell float64, most int) []line {
	r := &e.Result
	var out []line
	say := func(text string, face ink.Face) {
		for _, s := range wrapped(text, cell-2*cellAir, face, most) {
			out = append(out, line{s, face})
		}
	}
	say(fmt.Sprintf("%d.  %s", r.Number, r.Label()), ink.Bold)
	if r.Err != nil {
		say(study.Why(r.Err), ink.Regular)
		return out
	}
	u := c.design.Units
	figures := []string{u.Weight(r.Mass.Total), u.Length(r.Size.Height, quantity.Coarse) + " high"}
	if r.Tipping.Known {
		figures = append(figures, "tipping "+words.Factor(r.Tipping.Value))
	}
	if r.Strength.Known {
		figures = append(figures, "strength used "+words.Use(r.Strength.Value))
	}
	if r.Sheets.Known {
		figures = append(figures, fmt.Sprintf("sheets %.0f", r.Sheets.Value))
	}
	if r.Cost.Known {
		figures = append(figures, strings.TrimSpace(fmt.Sprintf("cost about %.0f %s", r.Cost.Value, r.Currency)))
	}
	for i, f := range figures {
		figures[i] = strings.ReplaceAll(f, " ", "\u00a0")
	}
	say(strings.Join(figures, ", "), ink.Regular)
	face := ink.Regular
	if r.Verdict == check.Fails {
		face = ink.Bold
	}
	say(words.In(u).Verdict(r.Verdict, r.Reasons), face)
	return out
}

// wrapped breaks a text into so many lines at most. What is left out is left out at
// a word.
func wrapped(text string, width float64, face ink.Face, most int) []string {
	lines := sheet.Wrap(text, width, sheet.Small, face)
	if len(lines) <= most {
		return lines
	}
	lines = lines[:most]
	const more = " …"
	last := lines[most-1]
	for ink.Width(last+more, sheet.Small, face) > width {
		at := strings.LastIndexByte(last, ' ')
		if at < 0 {
			lines[most-1] = sheet.Elide(last+more, width, sheet.Small, face)
			return lines
		}
		last = last[:at]
	}
	lines[most-1] = strings.TrimRight(last, ",;:") + more
	return lines
}
