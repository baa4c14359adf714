package pack

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

const blankCaution = "Sheared edges cut: wear gloves to carry and lay out, and break all edges before rolling."

// Room kept about a flat on its sheet, in mm: for the dimensions at the left
// and below, the bearings over it, and the line of the rolls at the right.
const (
	flatLeft  = 17.0
	flatRight = 12.0
	flatBelow = 16.0
	flatAbove = 6.0
	columnGap = 6.0

	stationRoom = 6.0 // more below, for the numbers of stations
	bearingRoom = 6.0 // more above, for bearings written upright
)

// blanks makes the sheets of each different blank.
func (k *pack) blanks() {
	for _, c := range k.job.Cuts {
		if len(c.Blank.Outline) == 0 {
			continue // nothing to cut
		}
		b := blankSheet{pack: k, cut: &c, Blank: &c.Blank, table: k.layoutTable(&c.Blank), slug: slugOf(c.Blank.Name)}
		b.lo, b.hi = reach(b.Blank)
		b.width, b.length = b.hi.X-b.lo.X, b.hi.Y-b.lo.Y
		b.block = sheet.Block{
			Subtitle: "Blank: " + title(&c), Document: "Part drawing", Material: sheet.Capital(k.metal(c.Blank.Metal)),
			Tolerances: k.flatTolerance(), Caution: blankCaution, DoNotScale: true,
		}
		b.make()
	}
}

// A blankSheet is the sheet of a blank in the making.
type blankSheet struct {
	*pack
	*flat.Blank
	cut           *fab.Cut
	table         *sheet.Table // nil where no edge is curved
	slug          string
	block         sheet.Block
	lo, hi        r2.Vec  // corners of the rectangle about the flat, in its own frame
	width, length float64 // of that rectangle
}

// A place is where a flat, its table and its notes go on a sheet. Boxes that
// are empty are for what goes to a second sheet.
type place struct {
	paper sheet.Paper
	scale sheet.Scale
	flat  r2.Box // of the flat with its dimensions
	table r2.Box
	facts r2.Box // quantity, weight, forming
	notes r2.Box
}

// make draws the blank, with its table and notes on the same sheet unless that
// would make the flat much smaller.
func (b *blankSheet) make() {
	one, two := b.best(b.together), b.best(b.apart)
	at := one
	split := b.table != nil && one.scale.Factor*splitGain < two.scale.Factor && max(b.width, b.length)*one.scale.Factor < splitSize
	if split {
		at = two
	}
	b.block.Scale = at.scale.Name
	p := b.page(at.paper, b.slug, b.block)
	b.drawFlat(p, at)
	write(p.Sheet, at.facts, b.facts)
	if !split {
		write(p.Sheet, at.notes, b.notes)
		if b.table != nil {
			b.table.Draw(p.Sheet, at.table)
		}
		return
	}
	block := b.block
	block.Subtitle, block.Document, block.Scale = "Ordinates and notes: "+title(b.cut), "Table", ""
	p = b.page(b.bench(), b.slug+"-ordinates", block)
	words := func(f *sheet.Flow) { f.Heading("Notes"); b.notes(f) }
	used, rest := b.table.Draw(p.Sheet, p.Free)
	side := sheet.Box(used.Max.X+columnGap, p.Free.Min.Y, p.Free.Max.X, p.Free.Max.Y)
	if rest == nil && b.fits(side, words) {
		write(p.Sheet, side, words)
		return
	}
	box := sheet.Box(p.Free.Min.X, p.Free.Min.Y, p.Free.Max.X, used.Min.Y-columnGap)
	if rest != nil || !b.fits(box, words) {
		p = b.page(b.bench(), b.slug+"-notes", block)
		box = p.Free
	}
	f := sheet.NewFlow(func() (*ink.Sheet, r2.Box) {
		if p == nil {
			p = b.page(b.bench(), b.slug+"-notes", block)
			box = p.Free
		}
		s := p.Sheet
		p = nil
		return s, box
	})
	f.Table(rest)
	words(f)
}

// A flat that is splitSize mm on paper is large enough to share its sheet with
// its table; a smaller one gets a sheet of its own where that makes it
// splitGain times as large.
const (
	splitSize = 85.0
	splitGain = 1.9
)

// best returns the place with the largest scale, the paper upright or lying.
func (b *blankSheet) best(lay func(p *sheet.Page, yield func(place))) place {
	var best place
	bench := b.bench()
	for _, paper := range [2]sheet.Paper{bench.Portrait(), bench.Landscape()} {
		lay(b.newPage(paper, b.slug, b.block), func(at place) {
			w, h := at.flat.Max.X-at.flat.Min.X-b.left()-flatRight, at.flat.Max.Y-at.flat.Min.Y-b.below()-b.above()
			if w <= 0 || h <= 0 {
				return
			}
			at.paper, at.scale = paper, sheet.ChooseScale(b.width, b.length, w, h, b.units)
			for range 8 {
				// The value of a narrow width stands beyond it.
				over := b.right(at.scale.Factor) - flatRight
				if b.width*at.scale.Factor+over <= w || w <= over {
					break
				}
				at.scale = sheet.ChooseScale(b.width, b.length, w-over, h, b.units)
			}
			if at.scale.Factor > best.scale.Factor {
				best = at
			}
		})
	}
	return best
}

func (b *blankSheet) below() float64 {
	switch {
	case b.Shape == flat.Plate:
		return flatBelow + 2*b.style.Step
	case b.Shape == flat.Tube && b.table != nil:
		return flatBelow + stationRoom
	case b.Fan != nil && roomBelow(b.Blank):
		return flatBelow + arcRoom
	}
	return flatBelow
}

// right returns the room at the right of the flat at a scale.
func (b *blankSheet) right(scale float64) float64 {
	right := max(flatRight, b.style.Beyond(b.width*scale, b.dim(b.width)))
	if b.Fan != nil {
		right = max(right, slantRoom)
	}
	return right
}

func (b *blankSheet) left() float64 {
	if b.Shape == flat.Plate {
		return flatLeft + 2*b.style.Step
	}
	if b.Fan != nil && b.Fan.Angle > math.Pi/2 && lettered(b.Blank) {
		return flatLeft + arcRoom
	}
	return flatLeft
}

func (b *blankSheet) above() float64 {
	if b.Shape == flat.Tube || b.Shape == flat.Plate {
		return flatAbove + bearingRoom
	}
	if b.Fan != nil {
		return flatAbove + arcRoom
	}
	return flatAbove
}

// together yields the places with all on one sheet.
func (b *blankSheet) together(p *sheet.Page, yield func(place)) {
	free := p.Free
	words := func(f *sheet.Flow) { b.facts(f); b.notes(f) }
	if b.table == nil {
		// Words below the flat, or at its right.
		foot := b.foot(p, words)
		yield(place{facts: foot, flat: sheet.Box(free.Min.X, foot.Max.Y+columnGap, free.Max.X, free.Max.Y)}.withNotes(b))
		const column = 66
		if side := sheet.Box(free.Max.X-column, free.Min.Y, free.Max.X, free.Max.Y); b.fits(side, words) {
			yield(place{facts: side, flat: sheet.Box(free.Min.X, free.Min.Y, side.Min.X-columnGap, free.Max.Y)}.withNotes(b))
		}
		return
	}
	used, rest := b.table.Draw(&ink.Sheet{}, sheet.Box(0, free.Min.Y, (free.Max.X-free.Min.X)*0.7, free.Max.Y))
	if rest != nil {
		return
	}
	width := max(used.Max.X, 62)
	// The table and under it the words at the right.
	left := free.Max.X - width
	if under := sheet.Box(left, free.Min.Y, free.Max.X, used.Min.Y-2*columnGap); b.fits(under, words) {
		yield(place{
			table: sheet.Box(left, free.Min.Y, free.Max.X, free.Max.Y), facts: under,
			flat: sheet.Box(free.Min.X, free.Min.Y, left-columnGap, free.Max.Y),
		}.withNotes(b))
	}
	// The table at the right, the words below, or beside the title block.
	foot := b.foot(p, words)
	if foot.Max.Y+columnGap <= used.Min.Y {
		yield(place{
			table: sheet.Box(left, foot.Max.Y, free.Max.X, free.Max.Y), facts: foot,
			flat: sheet.Box(free.Min.X, foot.Max.Y+columnGap, left-columnGap, free.Max.Y),
		}.withNotes(b))
	}
	// On a lying sheet: the table at the right and the words to its left.
	const column = 62
	if side := sheet.Box(left-columnGap-column, free.Min.Y, left-columnGap, free.Max.Y); side.Min.X > free.Min.X+60 && b.fits(side, words) {
		yield(place{
			table: sheet.Box(left, free.Min.Y, free.Max.X, free.Max.Y), facts: side,
			flat: sheet.Box(free.Min.X, free.Min.Y, side.Min.X-columnGap, free.Max.Y),
		}.withNotes(b))
	}
}

// withNotes returns the place with the notes right under the facts.
func (at place) withNotes(b *blankSheet) place {
	f := sheet.NewFlow(func() (*ink.Sheet, r2.Box) { return &ink.Sheet{}, at.facts })
	b.facts(f)
	_, at.notes = f.Rest()
	return at
}

// apart yields the places with the table and the notes on a second sheet.
func (b *blankSheet) apart(p *sheet.Page, yield func(place)) {
	free := p.Free
	foot := b.foot(p, b.facts)
	yield(place{facts: foot, flat: sheet.Box(free.Min.X, foot.Max.Y+columnGap, free.Max.X, free.Max.Y)})
	const column = 58
	if side := sheet.Box(free.Max.X-column, free.Min.Y, free.Max.X, free.Max.Y); b.fits(side, b.facts) {
		yield(place{facts: side, flat: sheet.Box(free.Min.X, free.Min.Y, side.Min.X-columnGap, free.Max.Y)})
	}
}

// foot returns the box at the foot of the free area, or beside the title block
// where they fit there, that words need.
func (b *blankSheet) foot(p *sheet.Page, words func(*sheet.Flow)) r2.Box {
	if w := p.Beside.Max.X - p.Beside.Min.X; w > 55 && b.fits(p.Beside, words) {
		return p.Beside
	}
	box := p.Free
	box.Max.Y = box.Min.Y + wordsHeight(box.Max.X-box.Min.X, words)
	return box
}

func (b *blankSheet) fits(box r2.Box, words func(*sheet.Flow)) bool {
	return box.Max.X-box.Min.X > 40 && wordsHeight(box.Max.X-box.Min.X, words) <= box.Max.Y-box.Min.Y
}

// wordsHeight returns how high words stand in a column of a width.
func wordsHeight(width float64, words func(*sheet.Flow)) float64 {
	f := sheet.NewFlow(func() (*ink.Sheet, r2.Box) { return &ink.Sheet{}, sheet.Box(0, -1e5, width, 0) })
	words(f)
	_, rest := f.Rest()
	return -rest.Max.Y + 0.01
}

// write writes words into a box.
func write(s *ink.Sheet, box r2.Box, words func(*sheet.Flow)) {
	if box.Max.X > box.Min.X {
		words(sheet.NewFlow(func() (*ink.Sheet, r2.Box) { return s, box }))
	}
}

// title names the pieces of a cut in a line.
func title(c *fab.Cut) string {
	if n := len(c.Names) - 1; n > 0 {
		return fmt.Sprintf("%s and %d more", c.Names[0], n)
	}
	return c.Names[0]
}

// flatTolerance says how near a flat is to be cut: a scribed line split by the
// shear or the file (common practice, no source).
func (k *pack) flatTolerance() string {
	if k.units == quantity.Inch {
		return "Cut lines ±1/32, trimmed edges ±1/64."
	}
	return "Cut lines ±0.5, trimmed edges ±0.3."
}

// facts writes what must stand on the sheet of the flat itself.
func (b *blankSheet) facts(f *sheet.Flow) {
	c := b.cut
	f.Heading(fmt.Sprintf("Quantity %d – %s", c.Quantity, faceUp(b.Blank)))
	var names []string
	for _, n := range c.Names {
		if pieces := b.pieces(n); pieces > 1 {
			n = fmt.Sprintf("%s 1 to %d", n, pieces)
		}
		names = append(names, n)
	}
	f.Item("–", ink.Regular, "Write on the pieces: "+strings.Join(names, "; ")+".")
	weight := "Weight " + b.units.Weight(b.Mass)
	if c.Quantity > 1 {
		weight = fmt.Sprintf("Weight of one %s, of all %s", b.units.Weight(b.Mass), b.units.Weight(b.Mass*float64(c.Quantity)))
	}
	f.Item("–", ink.Regular, weight+".")
	f.Item("–", ink.Regular, b.forming(b.Blank))
	if isSided(b.Blank) {
		f.Item("–", ink.Regular, "The dashed rectangle is construction; cut along the sides from corner to corner.")
		if len(b.Holes) > 0 {
			f.Item("–", ink.Regular, b.holesFrom())
		}
	}
	if b.Fan != nil {
		f.Item("–", ink.Regular, b.layingOut(b.Fan))
		if isTrimmed(b.Blank) {
			f.Item("–", ink.Regular, fmt.Sprintf("The arcs and straight edges are construction, partly off the metal; what is cut measures %s × %s.", b.both(b.Width), b.both(b.Length)))
		}
	}
}

// pieces returns how many pieces of a name there are.
func (k *pack) pieces(name string) int {
	n := 0
	for i := range k.job.Parts {
		for j := range k.job.Parts[i].Blanks {
			if b := &k.job.Parts[i].Blanks[j]; b.Name == name {
				n += b.Quantity
			}
		}
	}
	return n
}

// notes writes what the bench must know besides.
func (b *blankSheet) notes(f *sheet.Flow) {
	if len(b.Ordinates) > 0 {
		var edges []string
		for _, o := range b.Ordinates {
			edges = append(edges, string(o.Edge)+" "+words.Ordinate(o.From))
		}
		f.Item("–", ink.Regular, "Ordinates: "+strings.Join(edges, ", ")+"; stations "+words.Station(b.Ordinates[0].From)+".")
	}
	openings, opened := b.openings()
	if openings != "" {
		f.Item("–", ink.Regular, openings)
	}
	for _, n := range b.Notes {
		_, tips := n.(flat.BluntTips)
		if b.Fan != nil && isConeNote(n) || opened == 2 && tips {
			continue // said above, or cut away
		}
		f.Item("–", ink.Regular, b.sentence(n))
		if _, open := n.(flat.OpenedFor); openings == "" && open {
			f.Item("–", ink.Regular, "Trace the opening from the full-size pattern.")
		}
	}
}

// drawFlat draws the blank in its place with its dimensions.
func (b *blankSheet) drawFlat(p *sheet.Page, at place) {
	f := flatDrawing{pack: b.pack, blank: b.Blank, draw: draft.New(b.style, at.flat), scale: at.scale.Factor}
	f.lo, f.hi, f.place = b.lo, b.hi, at.flat
	w, h := b.width*f.scale, b.length*f.scale
	spareX := max(at.flat.Max.X-at.flat.Min.X-b.left()-b.right(f.scale)-w, 0)
	spareY := at.flat.Max.Y - at.flat.Min.Y - b.below() - b.above() - h
	corner := r2.Vec{X: at.flat.Min.X + b.left() + spareX/2, Y: at.flat.Min.Y + b.below() + spareY*0.6}
	f.origin = r2.Sub(corner, r2.Scale(f.scale, b.lo))
	f.box = sheet.Box(corner.X, corner.Y, corner.X+w, corner.Y+h)
	f.all()
	p.Add(f.draw.Items...)
}

func bounds(path []r2.Vec) (lo, hi r2.Vec) {
	lo, hi = path[0], path[0]
	for _, q := range path {
		lo = r2.Vec{X: min(lo.X, q.X), Y: min(lo.Y, q.Y)}
		hi = r2.Vec{X: max(hi.X, q.X), Y: max(hi.Y, q.Y)}
	}
	return lo, hi
}
