// Package offer lays out the page that a client is shown: the picture, two
// elevations with their sizes, the price, what the piece is made of, what it weighs
// and needs to stand, how to look after it, how far it was checked, and a place to
// sign.
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
	Price   bool // give the price, also where the design's job names none
	Large   bool // elevations on a second page, as large as goes
}

// Measures of the page, in mm.
const (
	margin      = 14.0
	columnGap   = 8.0
	wideMost    = 0.34 // of the page's height is a wide picture's at most
	tallMost    = 0.50 // and a tall one's
	pictureLess = 0.93 // by which the picture is made smaller till the words have room
	pictureKeep = 0.7  // of its largest is a picture's least for cautions to stay together
	pictureTry  = 0.05 // of the page's height: a smaller picture is of no use
	drawHeight  = 0.26 // of the page's height is the elevations' at most
	drawLess    = 0.17 // where the words need the room
	leftColumn  = 0.48 // of the width is that of the pictures' column
	footHeight  = 8.0
	signHeight  = 19.0
)

// PictureSize returns how many dots a picture that fills its place on the page
// has, at some 200 dots an inch: upright or wide.
func PictureSize(o Options, units quantity.System, upright bool) (w, h int) {
	p := paper(o, units)
	const dots = 200 / 25.4
	wide := p.Width - 2*margin
	if upright {
		wide = wide*leftColumn - columnGap/2
		return int(wide * dots), int(min(wide*3/2, p.Height*tallMost) * dots)
	}
	return int(wide * dots), int(min(wide*3/5, p.Height*wideMost) * dots)
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

// Pages returns the page of a job, and the one of its elevations where it is
// wanted. Where its words need the room, the elevations and the picture are smaller. It
// fails for paper on which it finds no room even so.
func Pages(j *fab.Job, o Options) ([]*ink.Sheet, error) {
	p := paper(o, j.Design.Units)
	var err error
	for _, s := range styles(o.Picture != nil) {
		var page *sheet.Page
		if page, err = lay(j, o, p, s); err != nil {
			continue
		}
		pages := []*sheet.Page{page}
		if o.Large {
			pages = append(pages, large(j, o, p))
		}
		return sheet.Finish(pages), nil
	}
	return nil, fmt.Errorf("offer: %s paper is too small: %w", p.Name, err)
}

// A style is how tightly the page is set.
type style struct {
	share float64 // of the largest picture
	draw  float64 // of the page's height, that the elevations take at most
	whole bool    // the cautions stay together in one column
	dense bool    // headings stand in the line
}

// styles returns how tightly the page may be set, the best first: the cautions go over
// two columns only where a somewhat smaller picture does not keep them together.
func styles(pictured bool) (list []style) {
	for _, dense := range []bool{false, true} {
		for _, whole := range []bool{true, false} {
			least := pictureTry / wideMost
			if whole {
				least = pictureKeep
			}
			for share := 1.0; share >= least; share *= pictureLess {
				list = append(list, style{share, drawHeight, whole, dense}, style{share, drawLess, whole, dense})
				if !pictured {
					break
				}
			}
		}
	}
	return list
}

// lay lays out the page in a style.
func lay(j *fab.Job, o Options, p sheet.Paper, s style) (*sheet.Page, error) {
	w := &offer{Job: j, options: o, style: s, page: sheet.NewBare(p, "offer", j.Design.Title)}
	w.box = sheet.Box(margin, margin, p.Width-margin, p.Height-margin)
	w.foot()
	w.head()
	w.sign()
	split := w.box.Min.X + leftColumn*(w.box.Max.X-w.box.Min.X)
	wide := o.Picture != nil && o.Picture.Bounds().Dx() >= o.Picture.Bounds().Dy()
	if wide {
		w.box.Max.Y = w.picture(w.box, s.share*wideMost*p.Height) - 6
	}
	left := sheet.Box(w.box.Min.X, w.box.Min.Y, split-columnGap/2, w.box.Max.Y)
	right := sheet.Box(split+columnGap/2, w.box.Min.Y, w.box.Max.X, w.box.Max.Y)
	if o.Picture != nil && !wide {
		left.Max.Y = w.picture(left, s.share*tallMost*p.Height) - 4
	}
	if !o.Large {
		height := min(s.draw*p.Height, left.Max.Y-left.Min.Y)
		if height < drawBelow+drawAbove+upright {
			return nil, fmt.Errorf("no room for the elevations")
		}
		left.Max.Y = w.elevations(sheet.Box(left.Min.X, left.Max.Y-height, left.Max.X, left.Max.Y)) - 4
	}
	return w.page, w.facts(right, left)
}

// large returns the page of the elevations.
func large(j *fab.Job, o Options, p sheet.Paper) *sheet.Page {
	w := &offer{Job: j, options: o, page: sheet.NewBare(p, "offer-elevations", j.Design.Title)}
	w.box = sheet.Box(margin, margin, p.Width-margin, p.Height-margin)
	w.foot()
	w.head()
	w.box.Max.Y -= drawAbove
	w.elevations(w.box)
	return w.page
}

// An offer is a page in the making.
type offer struct {
	*fab.Job
	options Options
	style   style
	page    *sheet.Page
	box     r2.Box // what is still free
}

// head writes the title over the width of the page, and under it whom it is for.
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
	w.write(title, sheet.Display, ink.Bold)
	w.write(w.terms(), sheet.Medium, ink.Regular)
	w.box.Max.Y -= 3
}

// terms says what the paper is, whom it is for and how long it stands.
func (w *offer) terms() string {
	says := []string{"Offer"}
	j := w.Design.Job
	if j != nil && j.Number != "" {
		says[0] += " " + j.Number
	}
	if j != nil && j.Client != "" {
		says[0] += " for " + w.short(j.Client)
	}
	if j != nil && j.Place != "" {
		says = append(says, w.short(j.Place))
	}
	if w.options.Date != "" {
		says = append(says, w.options.Date)
	}
	if j != nil && j.Valid > 0 {
		says = append(says, "valid for "+days(j.Valid))
	}
	return strings.Join(says, ", ")
}

// short cuts off a name that would take more than half of a line.
func (w *offer) short(name string) string {
	return sheet.Elide(name, (w.box.Max.X-w.box.Min.X)/2, sheet.Medium, ink.Regular)
}

// days writes a number of days, in full.
func days(n float64) string {
	if text := quantity.Decimal(n, 0); text != "1" {
		return text + noBreak + "days"
	}
	return "1" + noBreak + "day"
}

// write writes a text over the width at the top of what is free.
func (w *offer) write(text string, height float64, face ink.Face) {
	for _, line := range sheet.Wrap(text, w.box.Max.X-w.box.Min.X, height, face) {
		w.box.Max.Y -= height
		w.page.Add(&ink.Text{Text: line, At: r2.Vec{X: w.box.Min.X, Y: w.box.Max.Y}, Height: height, Face: face})
		w.box.Max.Y -= sheet.LineHeight(height) - height
	}
}

// foot writes the revision along the page's lower edge.
func (w *offer) foot() {
	at := r2.Vec{X: w.box.Min.X, Y: w.box.Min.Y}
	text := "Revision " + w.Design.Revision()
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
	w.rule(w.box.Min.X, w.box.Max.X, at.Y+sheet.Small+2)
	w.box.Min.Y += footHeight
}

func (w *offer) rule(from, to, y float64) {
	w.page.Add(&ink.Stroke{Line: ink.Rule, Path: []r2.Vec{{X: from, Y: y}, {X: to, Y: y}}})
}

// sign leaves a place to sign above the foot: for the client and for the shop.
func (w *offer) sign() {
	y := w.box.Min.Y + sheet.Small + 2
	middle := (w.box.Min.X + w.box.Max.X) / 2
	for i, text := range []string{"Ordered: name, date", "For the shop: name, date"} {
		from, to := w.box.Min.X, middle-columnGap/2
		if i == 1 {
			from, to = middle+columnGap/2, w.box.Max.X
		}
		w.rule(from, to, y)
		w.page.Add(&ink.Text{Text: text, At: r2.Vec{X: from, Y: y - sheet.Small - 1.5}, Height: sheet.Small})
	}
	w.box.Min.Y += signHeight
}

// picture puts the picture into the top of a box, no higher than most, and returns
// its lower edge.
func (w *offer) picture(box r2.Box, most float64) float64 {
	size := w.options.Picture.Bounds().Size()
	width := box.Max.X - box.Min.X
	high := width * float64(size.Y) / float64(size.X)
	if high > most {
		width, high = width*most/high, most
	}
	middle := (box.Min.X + box.Max.X) / 2
	at := sheet.Box(middle-width/2, box.Max.Y-high, middle+width/2, box.Max.Y)
	w.page.Add(&ink.Image{Box: at, Image: w.options.Picture, Words: w.Design.Title})
	return at.Min.Y
}
