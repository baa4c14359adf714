// Package offer lays out the one page that a client is shown: the picture, two
// elevations with their sizes, what the piece is made of, what it weighs, what it
// needs to stand, and what to take care of.
package offer

import (
	"fmt"
	"image"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// Options are what the page says beside the job.
type Options struct {
	Paper   sheet.Paper // upright; the zero Paper for the custom of the design's units
	Date    string
	Picture image.Image
	Price   string // in words, such as "about 4,000 to 5,500 USD"; "" where it was not asked for
}

// Measures of the page, in mm.
const (
	margin      = 14.0
	columnGap   = 8.0
	pictureMost = 0.35 // of the page's height is the picture's at most
	drawColumn  = 0.48 // of the width is the elevations'
	footHeight  = 8.0
)

// PictureSize returns how many dots a picture that fills its place on the page
// has, at some 200 dots an inch.
func PictureSize(o Options, units quantity.System) (w, h int) {
	p := paper(o, units)
	const dots = 200 / 25.4
	wide := p.Width - 2*margin
	return int(wide * dots), int(min(wide*3/5, p.Height*pictureMost) * dots)
}

func paper(o Options, units quantity.System) sheet.Paper {
	if o.Paper.Width > 0 {
		return o.Paper.Portrait()
	}
	name := "A4"
	if units == quantity.Inch {
		name = "ANSI A"
	}
	p, _ := sheet.LookupPaper(name)
	return p
}

// Page returns the page of a job. It fails for paper on which it finds no room.
func Page(j *fab.Job, o Options) (*ink.Sheet, error) {
	p := paper(o, j.Design.Units)
	w := &offer{Job: j, options: o, page: sheet.NewBare(p, "offer", j.Design.Title)}
	w.box = sheet.Box(margin, margin, p.Width-margin, p.Height-margin)
	w.foot()
	w.head()
	w.picture()
	width := w.box.Max.X - w.box.Min.X
	split := w.box.Min.X + drawColumn*width
	w.elevations(sheet.Box(w.box.Min.X, w.box.Min.Y, split-columnGap/2, w.box.Max.Y))
	err := w.facts(sheet.Box(split+columnGap/2, w.box.Min.Y, w.box.Max.X, w.box.Max.Y))
	if err != nil {
		return nil, fmt.Errorf("offer: %s paper is too small: %w", p.Name, err)
	}
	return sheet.Finish([]*sheet.Page{w.page})[0], nil
}

// An offer is a page in the making.
type offer struct {
	*fab.Job
	options Options
	page    *sheet.Page
	box     r2.Box // what is still free
}

// head writes the title over the width of the page.
func (w *offer) head() {
	d := w.Design
	width := w.box.Max.X - w.box.Min.X
	title := d.Title
	if d.Variation != "" {
		title += ", " + d.Variation
	}
	if d.Shop != nil && d.Shop.Name != "" {
		shop := &ink.Text{Text: d.Shop.Name, At: r2.Vec{X: w.box.Max.X, Y: w.box.Max.Y - sheet.Display}, Height: sheet.Medium, Anchor: ink.End}
		if ink.Width(title, sheet.Display, ink.Bold)+columnGap+shop.Width() > width {
			shop.At.Y = w.box.Max.Y - sheet.Medium
			w.box.Max.Y -= sheet.LineHeight(sheet.Medium)
		}
		w.page.Add(shop)
	}
	for _, line := range sheet.Wrap(title, width, sheet.Display, ink.Bold) {
		w.box.Max.Y -= sheet.Display
		w.page.Add(&ink.Text{Text: line, At: r2.Vec{X: w.box.Min.X, Y: w.box.Max.Y}, Height: sheet.Display, Face: ink.Bold})
		w.box.Max.Y -= sheet.LineHeight(sheet.Display) - sheet.Display
	}
	w.box.Max.Y -= 3
}

// foot writes what the page is, with its revision and date, along its lower
// edge.
func (w *offer) foot() {
	at := r2.Vec{X: w.box.Min.X, Y: w.box.Min.Y}
	text := "Revision " + w.Design.Revision
	if w.options.Date != "" {
		text += ", " + w.options.Date
	}
	if set := w.Design.Set; len(set) > 0 {
		text += ", with " + strings.Join(set, ", ")
	}
	text += ".  Do not scale.  Dimensions in "
	if w.Design.Units == quantity.Inch {
		text += "inches."
	} else {
		text += "millimetres."
	}
	text = sheet.Elide(text, w.box.Max.X-w.box.Min.X, sheet.Small, ink.Regular)
	w.page.Add(&ink.Text{Text: text, At: at, Height: sheet.Small})
	y := at.Y + sheet.Small + 2
	w.page.Add(&ink.Stroke{Line: ink.Rule, Path: []r2.Vec{{X: w.box.Min.X, Y: y}, {X: w.box.Max.X, Y: y}}})
	w.box.Min.Y += footHeight
}

// picture puts the picture over the width of the page.
func (w *offer) picture() {
	if w.options.Picture == nil {
		return
	}
	size := w.options.Picture.Bounds().Size()
	width := w.box.Max.X - w.box.Min.X
	high := width * float64(size.Y) / float64(size.X)
	if most := w.page.Paper.Height * pictureMost; high > most {
		width, high = width*most/high, most
	}
	middle := (w.box.Min.X + w.box.Max.X) / 2
	box := sheet.Box(middle-width/2, w.box.Max.Y-high, middle+width/2, w.box.Max.Y)
	w.page.Add(&ink.Image{Box: box, Image: w.options.Picture, Words: w.Design.Title})
	w.box.Max.Y -= high + 6
}

// elevations draws the piece from the front and from the side, on one ground,
// with its overall sizes.
func (w *offer) elevations(box r2.Box) {
	const (
		left  = 16.0 // room for the height
		below = 14.0 // room for the widths
		title = 6.0
		apart = 12.0
	)
	units, s := w.Design.Units, w.Size
	room := box.Max.X - box.Min.X - left - apart
	high := box.Max.Y - box.Min.Y - below - title
	scale := math.Inf(1)
	if total := s.Width + s.Depth; total > 0 {
		scale = room / total
	}
	scale = min(scale, high/max(s.Max.Z, 1))
	style := draft.Millimetre()
	if units == quantity.Inch {
		style = draft.Inch()
	}
	d := draft.New(style, box)
	scene := draft.NewScene(w.Parts)
	ground := box.Max.Y - title - s.Max.Z*scale
	x := box.Min.X + left + (room-(s.Width+s.Depth)*scale)/2
	for i, view := range []draft.Projection{draft.Front, draft.Side} {
		lo, hi := s.Min.X, s.Max.X
		if view == draft.Side {
			lo, hi = s.Min.Y, s.Max.Y
		}
		v := draft.View{Projection: view, Scale: scale, Origin: r2.Vec{X: x - lo*scale, Y: ground}}
		d.Picture(scene, v, false)
		d.Line(ink.Thin, r2.Vec{X: x - 4, Y: ground}, r2.Vec{X: x + (hi-lo)*scale + 4, Y: ground})
		from, to := r2.Vec{X: x, Y: ground}, r2.Vec{X: x + (hi-lo)*scale, Y: ground}
		d.Linear(draft.Dim{From: from, To: to, Text: units.Rule(hi-lo, quantity.Coarse)}, r2.Vec{X: x, Y: ground - 8}, 0)
		name := [...]string{"from the front", "from the right"}[i]
		d.Put(&ink.Text{Text: name, At: r2.Vec{X: (from.X + to.X) / 2, Y: ground - below}, Height: sheet.Small, Anchor: ink.Middle})
		if i == 0 {
			top := v.At(r3.Vec{X: s.Min.X, Z: s.Max.Z})
			d.Linear(draft.Dim{From: from, To: top, Text: units.Rule(s.Max.Z, quantity.Coarse), Bare: [2]bool{true, false}}, r2.Vec{X: box.Min.X + left - 8, Y: ground}, math.Pi/2)
		}
		x += (hi-lo)*scale + apart
	}
	w.page.Add(d.Items...)
}
