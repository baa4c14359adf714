package pack

import (
	"fmt"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/layout"
	"stabile/fab/sheets"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// Where a layout is so crowded that several numbers or marks find no room, the part
// in hand at one of its cuts is drawn again by itself, at a larger scale.
const (
	worthDetail = 2   // numbers and marks that must find room by a detail
	leastGain   = 1.5 // of a detail's scale over that of the layout
)

// A detail is a part of a layout drawn by itself.
type detail struct {
	*cutDrawing
	first int // the number of the cut that takes the part up
	rect  layout.Rect
	below bool // it stands under the words of the layout's own page
}

// detail draws the crowded parts of the layout: those with which the fewest numbers
// and marks are left without room, each detail counted as so many of them as it must
// be worth.
func (d *cutDrawing) detail() {
	if len(d.Cuts) > 0 {
		d.details, _ = d.detailsOf(0)
		slices.SortFunc(d.details, func(a, b detail) int { return a.first - b.first })
	}
}

// detailsOf returns the details of what a cut takes up, and what they leave.
func (d *cutDrawing) detailsOf(i int) (list []detail, left int) {
	c := &d.Cuts[i]
	left = d.wanting(c.Hand)
	if left < worthDetail {
		return nil, left
	}
	// The details of the two parts that it makes, the cut's own number left as it is.
	parts := left - d.wanting(c.Drop) - d.wanting(c.Keep)
	var finer []detail
	for _, r := range [...]layout.Rect{c.Drop, c.Keep} {
		of, n := d.detailsIn(r, i+1)
		finer = append(finer, of...)
		parts += n
	}
	if parts+worthDetail*len(finer) < left {
		list, left = finer, parts
	}
	if own := d.drawDetail(c.Hand); own != nil && own.lacks()+worthDetail <= left+worthDetail*len(list) {
		return []detail{{cutDrawing: own, first: c.Number, rect: c.Hand}}, own.lacks()
	}
	return list, left
}

// detailsIn returns the details of a part, which is taken up by one of the cuts from
// the i'th on or by none, and what they leave.
func (d *cutDrawing) detailsIn(r layout.Rect, i int) (list []detail, left int) {
	for ; i < len(d.Cuts); i++ {
		if sameRect(d.Cuts[i].Hand, r) {
			return d.detailsOf(i)
		}
	}
	return nil, d.wanting(r)
}

// lacks returns how many numbers and marks have no room.
func (d *cutDrawing) lacks() int { return len(d.unnumbered) + len(d.unmarked) }

// wanting returns how many of them lie within a rectangle of the sheet.
func (d *cutDrawing) wanting(r layout.Rect) (n int) {
	for i := range d.Cuts {
		if c := &d.Cuts[i]; slices.Contains(d.unnumbered, c.Number) && inRect(c.Hand, r) {
			n++
		}
	}
	var seen []string
	for _, b := range d.bare {
		if inRect(b.rect, r) && !slices.Contains(seen, b.mark) {
			seen = append(seen, b.mark)
			n++
		}
	}
	return n
}

// drawDetail draws a part of the sheet on the smallest paper on which all finds room,
// or on that on which most does; nil where no paper gives it a larger scale.
func (d *cutDrawing) drawDetail(r layout.Rect) (best *cutDrawing) {
	part := d.part(r)
	large := d.options.Arrangement
	if large.Width == 0 {
		large = d.paper("A3", "ANSI B")
	}
	for _, paper := range [...]sheet.Paper{d.bench().Portrait(), d.bench().Landscape(), large.Landscape(), large.Portrait()} {
		p := part.newPage(paper, "", part.block())
		o := &cutDrawing{cutSheet: part, page: p, share: 1, width: 1, spiral: d.spiral}
		o.place()
		if o.scale.Factor < leastGain*d.scale.Factor {
			continue
		}
		o.fill()
		if best == nil || o.lacks() < best.lacks() {
			best = o
		}
		if best.lacks() == 0 {
			break
		}
	}
	return best
}

// part returns a rectangle of the layout as one by itself.
func (d *cutDrawing) part(r layout.Rect) *cutSheet {
	part := *d.cutSheet
	part.Sheet = partOf(d.Sheet, r)
	return &part
}

// detailHead is the height of the line over a detail on the layout's own page, in mm.
const detailHead = 8.0

// detailsBelow draws details again in what the words leave of the layout's own page, where
// they find as much room there as on sheets of their own.
func (d *cutDrawing) detailsBelow() {
	for i := range d.details {
		o := &d.details[i]
		o.below = true
		if more, _ := d.flow(d.set, true); more > 0 {
			o.below = false
			return
		}
		free := d.rest
		for k := range i {
			if d.details[k].below {
				free.Max.Y = d.details[k].low
			}
		}
		free.Max.Y -= detailHead
		page := *d.page
		page.Free = free
		small := &cutDrawing{cutSheet: d.part(o.rect), page: &page, share: 1, width: 1, spiral: d.spiral}
		if free.Max.Y-free.Min.Y > 2*layoutFar {
			small.place()
		}
		if small.scale.Factor < leastGain*d.scale.Factor || small.low < free.Min.Y {
			o.below = false
			continue
		}
		if small.fill(); small.lacks() > o.lacks() {
			o.below = false
			continue
		}
		o.cutDrawing = small
	}
}

// drawBelow draws the details that stand on the layout's own page.
func (d *cutDrawing) drawBelow() {
	for i := range d.details {
		o := &d.details[i]
		if !o.below {
			continue
		}
		d.page.Add(&ink.Text{At: r2.Vec{X: o.page.Free.Min.X, Y: o.page.Free.Max.Y + detailHead/2}, Height: sheet.Small, Face: ink.Bold,
			Text: fmt.Sprintf("What cut %d takes up, %s", o.first, o.scale.Name)})
		d.page.Add(o.items()...)
	}
}

// partOf returns what of a sheet's layout lies within a rectangle, as a sheet of its
// own.
func partOf(s *sheets.Sheet, r layout.Rect) *sheets.Sheet {
	part := *s
	part.Length, part.Width, part.Trim = r.Width, r.Height, 0
	moved := func(o layout.Rect) layout.Rect {
		o.X, o.Y = o.X-r.X, o.Y-r.Y
		return o
	}
	part.Blocks, part.Cuts, part.Left = nil, nil, nil
	for _, b := range s.Blocks {
		if !inRect(b.Rect, r) {
			continue
		}
		b.Rect = moved(b.Rect)
		b.Pieces = slices.Clone(b.Pieces)
		for k := range b.Pieces {
			p := &b.Pieces[k]
			p.At, p.Box = r2.Sub(p.At, r2.Vec{X: r.X, Y: r.Y}), moved(p.Box)
		}
		part.Blocks = append(part.Blocks, b)
	}
	for _, c := range s.Cuts {
		if !inRect(c.Hand, r) {
			continue
		}
		c.Hand, c.Drop, c.Keep = moved(c.Hand), moved(c.Drop), moved(c.Keep)
		c.Frees, c.Leaves = nil, nil // they are of the whole sheet
		across, along := r.X, r.Y
		if !c.Upright {
			across, along = r.Y, r.X
		}
		c.At, c.From, c.To = c.At-across, c.From-along, c.To-along
		part.Cuts = append(part.Cuts, c)
	}
	for _, o := range s.Left {
		if inRect(o, r) {
			part.Left = append(part.Left, moved(o))
		}
	}
	return &part
}

// nowhere returns the numbers and the marks that have no room in the details either.
func (d *cutDrawing) nowhere() (numbers []int, marks []string) {
	numbers = slices.DeleteFunc(slices.Clone(d.unnumbered), func(n int) bool {
		return slices.ContainsFunc(d.details, func(o detail) bool {
			return slices.ContainsFunc(o.Cuts, func(c sheets.Cut) bool { return c.Number == n }) && !slices.Contains(o.unnumbered, n)
		})
	})
	for _, m := range d.unmarked {
		// A piece of the kind may lie outside of the details.
		if slices.ContainsFunc(d.bare, func(b bare) bool { return b.mark == m && !d.shown(b) }) {
			marks = append(marks, m)
		}
	}
	return numbers, marks
}

// shown reports whether a piece without its mark has it in a detail.
func (d *cutDrawing) shown(b bare) bool {
	return slices.ContainsFunc(d.details, func(o detail) bool { return inRect(b.rect, o.rect) && !slices.Contains(o.unmarked, b.mark) })
}

// sheetsOfDetails makes a sheet of each detail.
func (d *cutDrawing) sheetsOfDetails() {
	for i := range d.details {
		o := &d.details[i]
		if o.below {
			continue
		}
		b := d.block()
		b.Subtitle = fmt.Sprintf("Layout %s: detail of what cut %d takes up", d.Name, o.first)
		b.Scale = o.scale.Name
		p := d.newPage(o.page.Paper, slugOf("layout-"+d.Name), b)
		p.Add(o.items()...)
		d.pages = append(d.pages, p)
	}
}
