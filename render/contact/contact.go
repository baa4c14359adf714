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
	leastWide  = 58.0 // of a cell; more where there are few
	leastDraw  = 48.0 // height of an elevation or picture, likewise
	leastWrite = 34.0 // width of the writing beside one
	cellAir    = 4.0
	mostLines  = 3 // of the settings that were changed, of what is wrong, and of the verdict
	roomy      = 8 // of these where it costs the drawings little
	linePitch  = 3.8
)

// notMade stands in the place of a drawing that there is none of, in two lines.
var notMade = []string{"cannot", "be made"}

// rounding is how much of a row may be lacking by rounding alone: a page that was
// made long enough holds all its rows.
const rounding = 1e-9

const caution = "Aid to judgement. A licensed engineer and the local code decide for anything the public can reach."

// Sheets returns the contact sheet of entries, which must not be empty.
func Sheets(d *design.Design, entries []Entry, o Options) ([]*ink.Sheet, error) {
	c := &contact{design: d, entries: entries, options: o, written: map[written]float64{}}
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
	narrow     float64 // mm, least width of a drawing: that of the words in the place of one
	written    map[written]float64
	grid       grid // of every page; zero before the first
	pages      []*sheet.Page
}

// A grid is how the cells of a page lie.
type grid struct {
	across, down int
	cell, row    float64 // mm, width and height of a cell
	wide, high   float64 // mm, of the drawing in it, from its upper left corner
	scale        float64 // of every elevation
	beside       bool    // the writing stands to the right of the drawing, not under it
	lines        int     // of each thing that is written, at most
}

// writing returns the width of the writing in a cell.
func (g *grid) writing() float64 {
	if g.beside {
		return g.cell - g.wide - cellAir
	}
	return g.cell - 2*cellAir
}

// room returns how many lines of writing a cell has room for.
func (g *grid) room() int {
	if g.beside {
		return int((g.row - cellAir) / linePitch)
	}
	return int((g.row - g.high - cellAir) / linePitch)
}

// worth returns what a grid is worth beside another: larger drawings, but not at the cost
// of words.
func (g *grid) worth() float64 {
	const few = 0.8 // of words that may be left out
	if g.lines < roomy {
		return few * g.scale
	}
	return g.scale
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
		default:
			c.narrow = ink.Width(notMade[1], sheet.Small, ink.Regular) + cellAir + 4
		}
	}
}

// writes returns the room in mm that the longest writing takes in a width, with so many
// lines of each thing at most.
func (c *contact) writes(width float64, lines int) float64 {
	at := written{width, lines}
	room, ok := c.written[at]
	if !ok {
		most := 0
		for i := range c.entries {
			most = max(most, len(c.lines(&c.entries[i], width, lines, 0)))
		}
		room = float64(most)*linePitch + cellAir
		c.written[at] = room
	}
	return room
}

// A written is a width in which entries are written, and how many lines each thing takes
// at most.
type written struct {
	width float64
	lines int
}

// choose returns the grid on which n drawings come out largest in a room of the
// given size, in mm. Where they do not all go on a page it is one of as few pages as
// can be, evenly filled. It reports false where not even one goes in.
func (c *contact) choose(n int, width, height float64) (grid, bool) {
	var fits []grid // every way to lay out cells, each as large as a page lets it be
	room := 0
	for across := 1; across <= min(max(1, int(width/leastWide)), n); across++ {
		for _, lines := range []int{mostLines, roomy} {
			cell := width / float64(across)
			under := c.writes(cell-2*cellAir, lines)
			for down := 1; down <= (n+across-1)/across; down++ {
				row := height / float64(down)
				if row < leastDraw-rounding {
					break
				}
				g := grid{across: across, down: down, cell: cell, row: row, lines: lines, wide: cell}
				if g.high = row - under; g.high >= leastDraw-rounding {
					fits = append(fits, c.scaled(g))
				}
				if g, ok := c.besides(g); ok {
					fits = append(fits, g)
				}
			}
		}
	}
	for _, g := range fits {
		if g.lines == mostLines {
			room = max(room, g.across*g.down)
		}
	}
	if room == 0 {
		return grid{}, false
	}
	pages := (n + room - 1) / room
	each := (n + pages - 1) / pages
	var best grid
	for _, g := range fits {
		if g.down != (each+g.across-1)/g.across {
			continue
		}
		if best.across == 0 || g.worth() > best.worth() {
			best = g
		}
	}
	return best, true
}

// scaled returns a grid with the scale at which the largest entry fills its drawing,
// and no more height for that than it needs.
func (c *contact) scaled(g grid) grid {
	g.scale = math.Inf(1)
	if c.wide > 0 {
		g.scale = (g.wide - 2*cellAir) / c.wide
	}
	if c.high > 0 {
		g.scale = min(g.scale, (g.high-2*cellAir)/c.high)
		g.high = min(g.high, c.high*g.scale+2*cellAir)
	}
	return g
}

// besides returns a grid with the writing beside the drawings, as narrow as it can be
// with all its lines in the height of the row. It reports false where that leaves no
// room for drawings.
func (c *contact) besides(g grid) (grid, bool) {
	if c.wide == 0 {
		return g, false
	}
	const step = 3 // mm
	g.beside, g.high = true, g.row
	for write := leastWrite; g.cell-write-cellAir > max(2*cellAir, c.narrow); write += step {
		if c.writes(write, g.lines) > g.row {
			continue
		}
		g.wide = g.cell - write - cellAir
		g = c.scaled(g)
		g.wide = min(g.wide, max(c.wide*g.scale+2*cellAir, c.narrow))
		return g, true
	}
	return g, false
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
		Owner: c.design.Owner(), Units: units, Revision: c.design.Revision(), Date: c.options.Date,
		Caution: caution, DoNotScale: true, Strip: true,
	}
	p := sheet.NewPage(paper, fmt.Sprintf("variations-%02d", len(c.pages)+1), block)
	width := p.Free.Max.X - p.Free.Min.X
	if c.options.One {
		across := max(1, int(width/leastWide))
		rows := math.Ceil(float64(len(entries)) / float64(across))
		if short := rows*(leastDraw+c.writes(width/float64(across)-2*cellAir, mostLines)) + headHeight - (p.Free.Max.Y - p.Free.Min.Y); short > 0 {
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
			Y: top - float64(i/g.across)*g.row,
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
	g := &c.grid
	box := sheet.Box(at.X, at.Y-g.high, at.X+g.wide, at.Y)
	switch {
	case e.Picture != nil:
		p.Add(&ink.Image{Box: fitted(box, e.Picture.Bounds().Size()), Image: e.Picture, Words: e.Result.Label()})
	case e.Job != nil:
		c.elevation(p, e.Job, box)
	default:
		p.Add(&ink.Stroke{Line: ink.Rule, Path: []r2.Vec{
			{X: box.Min.X + cellAir/2, Y: box.Min.Y}, {X: box.Max.X - cellAir/2, Y: box.Min.Y},
			{X: box.Max.X - cellAir/2, Y: box.Max.Y - cellAir}, {X: box.Min.X + cellAir/2, Y: box.Max.Y - cellAir},
		}, Closed: true})
		for i, text := range notMade {
			p.Add(&ink.Text{
				Text: text, At: r2.Vec{X: (box.Min.X + box.Max.X) / 2, Y: (box.Min.Y+box.Max.Y)/2 - float64(i)*linePitch},
				Height: sheet.Small, Anchor: ink.Middle,
			})
		}
	}
	x, y := at.X+cellAir, box.Min.Y-cellAir-sheet.Small/2
	if g.beside {
		x, y = box.Max.X, at.Y-cellAir-sheet.Small
	}
	for _, l := range c.lines(e, g.writing(), g.lines, g.room()) {
		p.Add(&ink.Text{Text: l.text, At: r2.Vec{X: x, Y: y}, Height: sheet.Small, Face: l.face})
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

// lines returns what is written of an entry in a width: no line is wider, and each
// thing takes so many at most; but the verdict, which is the last, takes what is left
// of the room, in lines.
func (c *contact) lines(e *Entry, width float64, most, room int) []line {
	r := &e.Result
	var out []line
	say := func(text string, face ink.Face, most int) {
		for _, s := range wrapped(text, width, face, most) {
			out = append(out, line{s, face})
		}
	}
	settings := strings.Split(r.Label(), ", ")
	say(fmt.Sprintf("%d.  %s", r.Number, kept(settings)), ink.Bold, most)
	if r.Err != nil {
		say(study.Why(r.Err), ink.Regular, most)
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
		figures = append(figures, "cost about "+words.Money(r.Cost.Value, r.Currency))
	}
	say(kept(figures), ink.Regular, len(figures))
	face := ink.Regular
	if r.Verdict == check.Fails {
		face = ink.Bold
	}
	say(words.In(u).Verdict(r.Verdict, r.Reasons), face, max(most, room-len(out)))
	return out
}

// kept joins figures so that a line breaks between them and not inside one.
func kept(figures []string) string {
	whole := make([]string, len(figures))
	for i, f := range figures {
		whole[i] = strings.ReplaceAll(f, " ", "\u00a0")
	}
	return strings.Join(whole, ", ")
}

// wrapped breaks a text into a number of lines at most. What is left out is left out at
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
