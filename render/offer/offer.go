// Package offer lays out the one page that a client is shown: the picture, two
// elevations with their sizes, what the piece is made of, what it weighs, what it
// needs to stand, and what to take care of.
package offer

import (
	"fmt"
	"image"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/param/quantity"
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
	pictureLess = 0.8  // by which the picture is made smaller till the words have room
	pictureTry  = 0.05 // of the page's height: a smaller picture is of no use
	drawColumn  = 0.48 // of the width is the elevations'
	drawLess    = 0.40 // where the words want the room
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

// Page returns the page of a job. Where its words want the room, the elevations
// and the picture are smaller. It fails for paper on which it finds no room even so.
func Page(j *fab.Job, o Options) (*ink.Sheet, error) {
	p := paper(o, j.Design.Units)
	share := pictureMost
	for {
		page, err := lay(j, o, p, share, drawColumn)
		if err != nil {
			page, err = lay(j, o, p, share, drawLess)
		}
		if err == nil {
			return sheet.Finish([]*sheet.Page{page})[0], nil
		}
		if share *= pictureLess; o.Picture == nil || share < pictureTry {
			return nil, fmt.Errorf("offer: %s paper is too small: %w", p.Name, err)
		}
	}
}

// lay lays out the page with a picture that takes a share of its height at most,
// and elevations that take a column of its width.
func lay(j *fab.Job, o Options, p sheet.Paper, share, column float64) (*sheet.Page, error) {
	w := &offer{Job: j, options: o, page: sheet.NewBare(p, "offer", j.Design.Title)}
	w.box = sheet.Box(margin, margin, p.Width-margin, p.Height-margin)
	w.foot()
	w.head()
	w.picture(share)
	width := w.box.Max.X - w.box.Min.X
	split := w.box.Min.X + column*width
	w.elevations(sheet.Box(w.box.Min.X, w.box.Min.Y, split-columnGap/2, w.box.Max.Y))
	return w.page, w.facts(sheet.Box(split+columnGap/2, w.box.Min.Y, w.box.Max.X, w.box.Max.Y))
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
		name := sheet.Elide(d.Shop.Name, width, sheet.Medium, ink.Regular)
		shop := &ink.Text{Text: name, At: r2.Vec{X: w.box.Max.X, Y: w.box.Max.Y - sheet.Display}, Height: sheet.Medium, Anchor: ink.End}
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

// picture puts the picture over the width of the page, as high as a share of it.
func (w *offer) picture(share float64) {
	if w.options.Picture == nil {
		return
	}
	size := w.options.Picture.Bounds().Size()
	width := w.box.Max.X - w.box.Min.X
	high := width * float64(size.Y) / float64(size.X)
	if most := w.page.Paper.Height * share; high > most {
		width, high = width*most/high, most
	}
	middle := (w.box.Min.X + w.box.Max.X) / 2
	box := sheet.Box(middle-width/2, w.box.Max.Y-high, middle+width/2, w.box.Max.Y)
	w.page.Add(&ink.Image{Box: box, Image: w.options.Picture, Words: w.Design.Title})
	w.box.Max.Y -= high + 6
}
