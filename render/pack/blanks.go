package pack

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/render/draft"
	"stabile/render/ink"
	"stabile/render/sheet"
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

	underRoom   = 6.0  // more below, for a value under its line
	discRoom    = 26.0 // beside a disc, for what a leader says of it
	stationRoom = 6.0  // more below, for the numbers of stations
	bearingRoom = 6.0  // more above, for bearings written upright
)

// blanks gathers all different blanks: each gets a panel with its drawing, its table and
// its words, as many on a sheet as can be read there. Discs and rectangles without
// anything on them share a table.
func (k *pack) blanks() *blankSet {
	s := &blankSet{pack: k, foot: map[string]float64{}, free: k.newPage(k.bench(), "blanks", k.blankBlock()).Free}
	var list []*blankPanel
	for i := range k.job.Cuts {
		c := &k.job.Cuts[i]
		switch {
		case len(c.Blank.Outline) == 0 || !k.wants(c) || isSawn(&c.Blank):
			continue // nothing to cut, or sawn by its length
		case isBare(&c.Blank):
			s.bare = append(s.bare, c)
			continue
		}
		b := &blankPanel{pack: k, cut: c, Blank: &c.Blank, table: k.layoutTable(&c.Blank), slug: slugOf(c.Blank.Name)}
		b.lo, b.hi = reach(b.Blank)
		b.width, b.length = b.hi.X-b.lo.X, b.hi.Y-b.lo.Y
		list = append(list, b)
	}
	s.panels = gathered(list, s.free)
	for _, b := range s.panels {
		b.settle(k.freeUnder(s.free, b))
	}
	if s.table = k.bareTable(s.bare); s.table != nil {
		_, s.high = s.table.Size(s.free.Max.X - s.free.Min.X)
	}
	return s
}

// A blankPanel is what there is to say of one blank, in the making.
type blankPanel struct {
	*pack
	*flat.Blank
	cut           *fab.Cut
	table         *sheet.Table // nil where no edge is curved
	slug          string
	lo, hi        r2.Vec  // corners of the rectangle about the flat, in its own frame
	width, length float64 // of that rectangle

	family []*blankPanel // of a family but its first, which share a panel; else nil

	height float64 // mm, of its page
	at     place

	single *singles // what marksOfPieces found
}

// A place is where a flat, its table and its words go in a panel.
type place struct {
	scale sheet.Scale
	flat  r2.Box // of the flat with its dimensions
	table r2.Box
	words r2.Box

	abreast bool // the table stands in parts beside each other
}

// scaleFor returns the largest scale at which the flat goes into an area, a long
// tube with its middle left out.
func (b *blankPanel) scaleFor(w, h float64) sheet.Scale {
	return sheet.ChooseScale(b.width, b.shown(), w, h, b.units)
}

func (b *blankPanel) below() float64 {
	switch {
	case b.Shape == flat.Plate && b.located():
		return flatBelow + 2*b.style.Step
	case b.Shape == flat.Tube && b.table != nil:
		return flatBelow + stationRoom + underRoom
	case b.Fan != nil && roomBelow(b.Blank):
		return flatBelow + arcRoom
	}
	return flatBelow + underRoom
}

// located reports whether there is more on a plate to be dimensioned than its size.
func (b *blankPanel) located() bool { return len(b.Holes)+len(b.Feet) > 0 }

// right returns the room at the right of the flat at a scale.
func (b *blankPanel) right(scale float64) float64 {
	if b.Diameter > 0 {
		return discRoom
	}
	if b.Shape == flat.Plate {
		across, _ := b.plateDims(scale)
		room := max(flatRight, slantRoom, b.style.Past(draft.Below, across))
		if len(b.Holes) > 0 && b.width*scale < leaderRoom {
			room = max(room, leaderRoom)
		}
		return room
	}
	if b.Fan != nil {
		return max(flatRight, slantRoom, b.style.Beyond(b.width*scale, b.dim(b.width)))
	}
	return max(flatRight, b.style.Spread(b.width*scale, b.dim(b.width)))
}

func (b *blankPanel) left() float64 {
	if b.Diameter > 0 && len(b.Holes) > 0 {
		return discRoom
	}
	if b.Shape == flat.Plate && b.located() {
		return flatLeft + 2*b.style.Step
	}
	if b.Fan != nil && b.Fan.Angle > math.Pi/2 && lettered(b.Blank) {
		return flatLeft + arcRoom
	}
	return flatLeft
}

func (b *blankPanel) above() float64 {
	if b.Shape == flat.Tube || b.Shape == flat.Plate {
		return flatAbove + bearingRoom
	}
	if b.Fan != nil {
		return flatAbove + arcRoom
	}
	return flatAbove
}

// past returns how far the values of lengths, and the line of the rolls, reach over the
// upper end and under the lower end of a flat at a scale, so tall on paper. Those of a
// plate stand over it alone, and what is below it keeps its room.
func (b *blankPanel) past(scale, tall float64) (over, under float64) {
	if b.Shape == flat.Plate && b.Diameter == 0 {
		_, up := b.plateDims(scale)
		return b.style.Past(draft.Left, up), b.below()
	}
	by := b.style.Spread(tall, b.dim(b.length))
	if showsRolls(b.Blank) {
		by = max(by, rollsHalf(tall)-tall/2)
	}
	return by, by
}

// best returns the place in a box with the largest scale.
func (b *blankPanel) best(box r2.Box) (best place) {
	b.places(box, func(at place) {
		w, h := at.flat.Max.X-at.flat.Min.X-b.left()-flatRight, at.flat.Max.Y-at.flat.Min.Y-b.below()-b.above()
		if w <= 0 || h <= 0 {
			return
		}
		at.scale = b.scaleFor(w, h)
		for range 8 {
			// The value of a narrow width stands beyond it.
			over := b.right(at.scale.Factor) - flatRight
			if b.width*at.scale.Factor+over <= w || w <= over {
				break
			}
			at.scale = b.scaleFor(min(w-over, 0.99*b.width*at.scale.Factor), h)
		}
		tall := b.shown() * at.scale.Factor
		over, under := b.past(at.scale.Factor, tall)
		if at.flat.Max.Y-at.flat.Min.Y < tall+over+under {
			return // no room for what stands past the ends
		}
		if at.scale.Factor > best.scale.Factor {
			best = at
		}
	})
	return best
}

// places yields the ways in which the parts of a panel may stand in a box.
func (b *blankPanel) places(free r2.Box, yield func(place)) {
	words := b.words
	column := b.wordsColumn()
	if b.table == nil {
		// Words below the flat, or at its right.
		foot := free
		foot.Max.Y = foot.Min.Y + wordsHeight(foot.Max.X-foot.Min.X, words)
		if foot.Max.Y < free.Max.Y {
			yield(place{words: foot, flat: sheet.Box(free.Min.X, foot.Max.Y+columnGap, free.Max.X, free.Max.Y)})
		}
		for _, column := range [...]float64{column, 90, 110} {
			if side := sheet.Box(free.Max.X-column, free.Min.Y, free.Max.X, free.Max.Y); fits(side, words) {
				yield(place{words: side, flat: sheet.Box(free.Min.X, free.Min.Y, side.Min.X-columnGap, free.Max.Y)})
				break
			}
		}
		return
	}
	b.placesBeside(free, false, yield)
	if b.Shape == flat.Tube && len(b.table.Rows) > abreastRows {
		b.placesBeside(free, true, yield)
	}
}

// endless is more than any table is wide, in mm.
const endless = 1e4

// abreastRows is how many rows a table has at least that may stand in parts beside each
// other.
const abreastRows = 12

// tableIn returns what the table takes of a box, in parts beside each other or not, and
// whether all of it goes there.
func (b *blankPanel) tableIn(free r2.Box, abreast bool) (used r2.Box, all bool) {
	t := *b.table
	t.Abreast = abreast
	width := (free.Max.X - free.Min.X) * 0.7
	if abreast {
		one, _ := b.table.Size(endless)
		width = 2*one + sheet.PartGap + 0.01
		if width > (free.Max.X-free.Min.X)*0.75 {
			return used, false
		}
	}
	used, rest := t.Draw(&ink.Sheet{}, sheet.Box(0, free.Min.Y, width, free.Max.Y))
	used.Max.X += 0.01
	return used, rest == nil
}

// placesBeside yields the ways in which the parts of a panel with a table may stand in a
// box, the table in parts beside each other or not.
func (b *blankPanel) placesBeside(free r2.Box, abreast bool, yield func(place)) {
	words, column := b.words, b.wordsColumn()
	used, all := b.tableIn(free, abreast)
	if !all {
		return
	}
	if abreast {
		beside := yield
		yield = func(at place) {
			at.abreast = true
			beside(at)
		}
	}
	width := max(used.Max.X, column)
	left := free.Max.X - width
	table := sheet.Box(left, free.Min.Y, free.Max.X, free.Max.Y)
	// The table and under it the words at the right.
	if under := sheet.Box(left, free.Min.Y, free.Max.X, used.Min.Y-2*columnGap); fits(under, words) {
		yield(place{table: table, words: under, flat: sheet.Box(free.Min.X, free.Min.Y, left-columnGap, free.Max.Y)})
	}
	// The table at the right, the words below all.
	foot := free
	foot.Max.Y = foot.Min.Y + wordsHeight(foot.Max.X-foot.Min.X, words)
	if foot.Max.Y+columnGap <= used.Min.Y {
		for _, left := range [...]float64{left, free.Max.X - used.Max.X} {
			yield(place{
				table: sheet.Box(left, foot.Max.Y, free.Max.X, free.Max.Y), words: foot,
				flat: sheet.Box(free.Min.X, foot.Max.Y+columnGap, left-columnGap, free.Max.Y),
			})
		}
	}
	// The flat over all, the table and the words beside each other under it.
	if rest := sheet.Box(free.Min.X+width+columnGap, free.Min.Y, free.Max.X, free.Max.Y); rest.Max.X-rest.Min.X > 50 {
		height := max(used.Max.Y-used.Min.Y, wordsHeight(rest.Max.X-rest.Min.X, words))
		top := free.Min.Y + height
		rest.Max.Y = top
		yield(place{
			table: sheet.Box(free.Min.X, free.Min.Y, rest.Min.X-columnGap, top+0.01), words: rest,
			flat: sheet.Box(free.Min.X, top+columnGap, free.Max.X, free.Max.Y),
		})
	}
	// The flat over all, the table under it and the words under that.
	if foot.Max.Y+columnGap < free.Max.Y && !abreast {
		used, rest := b.table.Draw(&ink.Sheet{}, sheet.Box(free.Min.X, foot.Max.Y+columnGap, free.Max.X, free.Max.Y))
		if top := foot.Max.Y + columnGap + used.Max.Y - used.Min.Y; rest == nil && top+columnGap < free.Max.Y {
			yield(place{
				table: sheet.Box(free.Min.X, foot.Max.Y, free.Max.X, top+0.01), words: foot,
				flat: sheet.Box(free.Min.X, top+columnGap, free.Max.X, free.Max.Y),
			})
		}
	}
	// The flat and the words beside each other, the table under both.
	if high := used.Max.Y - used.Min.Y; !abreast && high+columnGap < free.Max.Y-free.Min.Y {
		over := free
		over.Min.Y += high + columnGap
		for _, column := range [...]float64{max(46, b.marksWidth()), column, 90} {
			if side := sheet.Box(free.Max.X-column, over.Min.Y, free.Max.X, free.Max.Y); fits(side, words) {
				yield(place{
					table: sheet.Box(free.Min.X, free.Min.Y, free.Max.X, free.Min.Y+high+0.01), words: side,
					flat: sheet.Box(free.Min.X, over.Min.Y, side.Min.X-columnGap, free.Max.Y),
				})
			}
		}
	}
	// The table at the right, the words under the flat.
	beside := sheet.Box(free.Min.X, free.Min.Y, free.Max.X-used.Max.X-columnGap, free.Max.Y)
	if fits(beside, words) {
		low := beside
		low.Max.Y = low.Min.Y + wordsHeight(low.Max.X-low.Min.X, words)
		beside.Min.Y = low.Max.Y + columnGap
		yield(place{table: sheet.Box(free.Max.X-used.Max.X, free.Min.Y, free.Max.X, free.Max.Y), words: low, flat: beside})
	}
	// The words between the flat and the table.
	left = free.Max.X - used.Max.X
	table.Min.X = left
	for _, column := range [...]float64{max(46, b.marksWidth()), max(56, b.marksWidth())} {
		if side := sheet.Box(left-columnGap-column, free.Min.Y, left-columnGap, free.Max.Y); side.Min.X > free.Min.X+40 && fits(side, words) {
			yield(place{table: table, words: side, flat: sheet.Box(free.Min.X, free.Min.Y, side.Min.X-columnGap, free.Max.Y)})
		}
	}
}

// wordsColumn is the width of words at the right of a flat, in mm.
func (b *blankPanel) wordsColumn() float64 { return max(62, b.marksWidth()) }

// marksWidth is the least width of words with the table of marks among them.
func (b *blankPanel) marksWidth() float64 {
	t, _ := b.marksOfPieces()
	if t == nil {
		return 0
	}
	w, _ := t.Size(endless)
	return w + 0.01
}

func fits(box r2.Box, words func(*sheet.Flow)) bool {
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

// pieces names all pieces of a cut.
func pieces(c *fab.Cut) string { return strings.Join(c.Names, "; ") }

// flatTolerance says how near a flat is to be cut.
func (k *pack) flatTolerance() string {
	by := flat.ByHand(k.units)
	if k.units == quantity.Inch {
		return "Cut lines ±" + quantity.Fraction(by.Line/25.4, 64) + ", trimmed edges ±" + quantity.Fraction(by.Trim/25.4, 64) + "."
	}
	return "Cut lines ±" + quantity.Decimal(by.Line, 1) + ", trimmed edges ±" + quantity.Decimal(by.Trim, 1) + "."
}

// drawFlat draws the blank in its place with its dimensions.
func (b *blankPanel) drawFlat(s *ink.Sheet) {
	at := b.at
	f := flatDrawing{pack: b.pack, blank: b.Blank, draw: draft.New(b.style, at.flat), scale: at.scale.Factor, family: len(b.family) > 0}
	f.lo, f.hi, f.place = b.lo, b.hi, at.flat
	room := at.flat.Max.Y - at.flat.Min.Y - b.below() - b.above()
	f.cut = b.breakFor(room, f.scale)
	w, h := b.width*f.scale, (b.length-f.cut.length())*f.scale+f.cut.gap
	spareX := max(at.flat.Max.X-at.flat.Min.X-b.left()-b.right(f.scale)-w, 0)
	spareY := at.flat.Max.Y - at.flat.Min.Y - b.below() - b.above() - h
	corner := r2.Vec{X: at.flat.Min.X + b.left() + spareX/2, Y: at.flat.Min.Y + b.below() + spareY*0.6}
	over, _ := b.past(f.scale, h)
	corner.Y = min(corner.Y, at.flat.Max.Y-h-max(b.above(), over))
	f.origin = r2.Sub(corner, r2.Scale(f.scale, b.lo))
	f.box = sheet.Box(corner.X, corner.Y, corner.X+w, corner.Y+h)
	f.all()
	s.Add(f.draw.Items...)
}

func bounds(path []r2.Vec) (lo, hi r2.Vec) {
	b := design.Bounds(path)
	return b.Min, b.Max
}
