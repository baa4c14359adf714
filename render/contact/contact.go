// Package contact lays many variations of a design out beside each other, each
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
	"stabile/fab/stand"
	"stabile/fab/strength"
	"stabile/fab/study"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
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
	cellWidth = 62.0
	leastDraw = 62.0 // height of the elevation or picture; more where the page has room
	cellAir   = 4.0
	mostLines = 3 // of the settings that were changed, and of what fails
	linePitch = 4.2
)

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

	wide, high float64 // mm, of the largest entry
	under      float64 // mm, height of the writing under each drawing
	pages      []*sheet.Page

	draw  float64 // mm, height of each drawing
	scale float64 // of every elevation
}

// measure finds the size of the largest entry, and the room that the longest
// writing takes.
func (c *contact) measure() {
	most := 0
	for i := range c.entries {
		e := &c.entries[i]
		if e.Job != nil {
			c.wide = max(c.wide, e.Job.Size.Width)
			c.high = max(c.high, e.Job.Size.Max.Z)
		}
		most = max(most, len(c.lines(e)))
	}
	c.under = float64(most)*linePitch + cellAir
}

// fit sets the height of the drawings so that rows fill a height, and the scale
// at which every elevation goes into its cell.
func (c *contact) fit(height float64, rows int) {
	c.draw = height/float64(rows) - c.under
	c.scale = math.Inf(1)
	if c.wide > 0 {
		c.scale = (cellWidth - 2*cellAir) / c.wide
	}
	if c.high > 0 {
		c.scale = min(c.scale, (c.draw-2*cellAir)/c.high)
	}
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
		Units: units, Revision: c.design.Revision, Date: c.options.Date,
		Tolerances: "None: for choosing, not for making", Caution: caution, DoNotScale: true,
	}
	p := sheet.NewPage(paper, fmt.Sprintf("variations-%02d", len(c.pages)+1), block)
	across := max(1, int((p.Free.Max.X-p.Free.Min.X)/cellWidth))
	if c.options.One {
		rows := math.Ceil(float64(len(entries)) / float64(across))
		if short := rows*(leastDraw+c.under) + headHeight - (p.Free.Max.Y - p.Free.Min.Y); short > 0 {
			paper.Height += math.Ceil(short)
		}
		p = sheet.NewPage(paper, "variations", block)
	}
	c.pages = append(c.pages, p)
	top := p.Free.Max.Y - c.head(p)
	// All pages are alike: with what the head takes of the first.
	room := p.Free.Max.Y - headHeight - p.Free.Min.Y
	down := int(room / (leastDraw + c.under))
	if down < 1 {
		return 0, fmt.Errorf("contact sheet: %s paper is too small", paper.Name)
	}
	c.fit(room, down)
	n := min(len(entries), across*down)
	gap := (p.Free.Max.X - p.Free.Min.X - float64(across)*cellWidth) / float64(across)
	for i := range n {
		x := p.Free.Min.X + gap/2 + float64(i%across)*(cellWidth+gap)
		y := top - float64(i/across)*(c.draw+c.under)
		c.cell(p, &entries[i], r2.Vec{X: x, Y: y})
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
	box := sheet.Box(at.X, at.Y-c.draw, at.X+cellWidth, at.Y)
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
	for _, l := range c.lines(e) {
		text := sheet.Elide(l.text, cellWidth-2*cellAir, sheet.Small, l.face)
		p.Add(&ink.Text{Text: text, At: r2.Vec{X: at.X + cellAir, Y: y}, Height: sheet.Small, Face: l.face})
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
	v := draft.View{Projection: draft.Front, Scale: c.scale}
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

// lines returns what is written under an entry.
func (c *contact) lines(e *Entry) []line {
	r := &e.Result
	wrap := func(text string, face ink.Face) []line {
		var out []line
		for _, s := range sheet.Wrap(text, cellWidth-2*cellAir, sheet.Small, face) {
			out = append(out, line{s, face})
		}
		if len(out) > mostLines {
			out = out[:mostLines]
			out[mostLines-1].text += " …"
		}
		return out
	}
	out := wrap(fmt.Sprintf("%d.  %s", r.Number, r.Label()), ink.Bold)
	if r.Err != nil {
		return append(out, wrap(study.Why(r.Err), ink.Regular)...)
	}
	u := c.design.Units
	figures := u.Weight(r.Mass.Total) + ",  " + u.Length(r.Size.Height, quantity.Coarse) + " high"
	out = append(out, line{figures, ink.Regular})
	var more []string
	if r.Tipping.Known {
		more = append(more, "tipping "+stand.Factor(r.Tipping.Value))
	}
	if r.Strength.Known {
		more = append(more, "strength used "+strength.Over(r.Strength.Value))
	}
	if len(more) > 0 {
		out = append(out, line{strings.Join(more, ",  "), ink.Regular})
	}
	var plan []string
	if r.Sheets.Known {
		plan = append(plan, fmt.Sprintf("sheets %.0f", r.Sheets.Value))
	}
	if r.Cost.Known {
		plan = append(plan, strings.TrimSpace(fmt.Sprintf("cost about %.0f %s", r.Cost.Value, r.Currency)))
	}
	if len(plan) > 0 {
		out = append(out, line{strings.Join(plan, ",  "), ink.Regular})
	}
	switch {
	case len(r.Failed) > 0:
		out = append(out, wrap("FAILS: "+strings.Join(r.Failed, "; "), ink.Bold)...)
	case len(r.Faults) > 0:
		out = append(out, wrap("FAULT: "+r.Faults[0], ink.Bold)...)
	case len(r.Unchecked) > 0:
		out = append(out, wrap("not checked: "+strings.Join(r.Unchecked, "; "), ink.Regular)...)
	case !r.OK:
		out = append(out, line{"DOES NOT DO", ink.Bold})
	case len(r.Blank) > 0:
		out = append(out, wrap("not checked: "+strings.Join(r.Blank, ", "), ink.Regular)...)
	}
	return out
}
