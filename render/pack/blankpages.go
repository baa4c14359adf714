package pack

import (
	"cmp"
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// shares are the shares of a page's height that are tried for a panel, the least first.
func shares() [9]float64 { return [...]float64{0.2, 0.25, 0.3, 1.0 / 3, 0.4, 0.5, 0.6, 2.0 / 3, 1} }

// readableFlat is how large, in mm on paper, a flat must come out for its panel to
// take no more of the page. Those with curved edges have stations to be counted.
const (
	readableFlat   = 32.0
	readableDisc   = 24.0 // with its marks in a table
	readableTaper  = 80.0 // with the bearings along its arc
	readablePlate  = 85.0 // with many feet on it
	readableFoot   = 14.0 // more for each foot
	readableCurved = 30.0
	readableTube   = 38.0
	readableAround = 19.0 // the width of a tube whose middle is left out
)

// mostEnlarged is how many times its size a small flat needs at most to be read.
const mostEnlarged = 2.0

// panelGap is the distance between two panels of a page, in mm; panelHead is the
// height of the line over a panel that names it.
const (
	panelGap  = 6.0
	legendGap = 2.0 // over what stands at the foot of the page
	panelHead = 7.5
)

// isSawn reports whether a piece is sawn from pipe or tube with nothing to lay out on it:
// the list of what is sawn says all.
func isSawn(b *flat.Blank) bool { return b.Bought != nil && !b.Templated() }

// isBare reports whether a blank is a disc, a rectangle or a cap with straight sides with
// nothing on it: its measures say all.
func isBare(b *flat.Blank) bool {
	if len(b.Holes)+len(b.Ordinates) > 0 || b.Fan != nil {
		return false
	}
	for i := range b.Marks {
		if b.Marks[i].Kind == flat.Standing || b.Marks[i].Kind == flat.Witness {
			return false
		}
	}
	return b.Diameter > 0 || steppedOff(b) || b.Shape == flat.Plate && !isSided(b)
}

// steppedOff reports whether a blank is a regular polygon, whose sides are stepped off
// round a circle.
func steppedOff(b *flat.Blank) bool {
	return slices.ContainsFunc(b.Notes, func(n finding.Fact) bool { _, ok := n.(flat.Sided); return ok })
}

// byMeasures reports whether a blank is laid out by its measures alone, without a
// pattern at full size: a disc or a rectangle with no more on it than round holes and
// feet.
func byMeasures(b *flat.Blank) bool {
	switch {
	case isSided(b) || steppedOff(b):
		return false
	case b.Shape != flat.Plate:
		return isBare(b) || isSawn(b)
	}
	for i := range b.Holes {
		if b.Holes[i].Diameter == 0 {
			return false
		}
	}
	return true
}

func (k *pack) blankBlock() sheet.Block {
	return sheet.Block{
		Subtitle: "Blanks", Document: "Part drawing", Scale: "as marked",
		Tolerances: k.flatTolerance(), Caution: blankCaution, DoNotScale: true,
	}
}

// A blankPage is panels that share a page.
type blankPage struct {
	panels []*blankPanel
	bare   bool    // the table of bare blanks stands under them
	height float64 // mm, that there is for them and the legend under them
	used   float64 // mm of that, a gap after each panel counted
}

// empty reports whether nothing is on a page.
func (p *blankPage) empty() bool { return len(p.panels) == 0 && !p.bare }

// A blankSet is all that is drawn of blanks.
type blankSet struct {
	*pack
	panels []*blankPanel
	bare   []*fab.Cut
	table  *sheet.Table       // of those
	high   float64            // mm, of that
	free   r2.Box             // of a page
	foot   map[string]float64 // heights of legends
}

// freeUnder returns what is free of a page over the legend of some panels.
func (k *pack) freeUnder(free r2.Box, panels ...*blankPanel) r2.Box {
	if l := k.legend(panels); len(l) > 0 {
		free.Min.Y += wordsHeight(free.Max.X-free.Min.X, l.words) + legendGap
	}
	return free
}

// left returns what a page has left for panels, with some more on it, over the legend of
// all of them.
func (s *blankSet) left(p *blankPage, more ...*blankPanel) float64 {
	box := s.free
	box.Min.Y = box.Max.Y - p.height
	list := append(slices.Clip(p.panels), more...)
	key := strings.Join(s.legend(list), "\n")
	foot, ok := s.foot[key]
	if !ok {
		foot = s.freeUnder(box, list...).Min.Y - box.Min.Y
		s.foot[key] = foot
	}
	return p.height + panelGap - p.used - foot
}

// shareOut shares panels, and the table of what is cut by its measures, out among pages:
// the first is what another page has left, of a height in mm, and stays empty where that
// is too little. They go in their order; the tallest first, or shuffled, where that takes
// fewer pages.
func (s *blankSet) shareOut(first float64) []*blankPage {
	list := slices.Clone(s.panels)
	if s.table != nil {
		list = append(list, nil) // stands for it
	}
	best := s.inOrder(list, first)
	full := s.free.Max.Y - s.free.Min.Y
	all := 0.0
	for _, b := range list {
		all += s.height(b) + panelGap
	}
	// No fewer hold all, however they are put.
	least := 1 + int(math.Ceil((all-first-panelGap)/(full+panelGap)))
	try := func() {
		if fewer := s.inOrder(list, first); len(fewer) < len(best) {
			best = fewer
		}
	}
	slices.SortStableFunc(list, func(a, b *blankPanel) int { return cmp.Compare(s.height(b), s.height(a)) })
	try()
	rng := rand.New(rand.NewPCG(1, 1))
	for tries := shuffles / max(1, len(list)); tries > 0 && len(best) > least; tries-- {
		rng.Shuffle(len(list), func(i, j int) { list[i], list[j] = list[j], list[i] })
		try()
	}
	s.inSource(best)
	return best
}

// inSource brings what is on each page, and the pages but the first, into the order of the
// blanks.
func (s *blankSet) inSource(pages []*blankPage) {
	at := map[*blankPanel]int{}
	for i, b := range s.panels {
		at[b] = i
	}
	for _, p := range pages {
		slices.SortFunc(p.panels, func(a, b *blankPanel) int { return cmp.Compare(at[a], at[b]) })
	}
	first := func(p *blankPage) int {
		if len(p.panels) == 0 {
			return len(at)
		}
		return at[p.panels[0]]
	}
	slices.SortStableFunc(pages[1:], func(a, b *blankPage) int { return cmp.Compare(first(a), first(b)) })
}

// shuffles is how many panels are put into shuffled orders in all.
const shuffles = 3000

// height returns the height of a panel, or of the table for nil.
func (s *blankSet) height(b *blankPanel) float64 {
	if b == nil {
		return s.high
	}
	return b.height
}

// inOrder shares panels out: each goes to the first page that has room for it.
func (s *blankSet) inOrder(panels []*blankPanel, first float64) []*blankPage {
	full := s.free.Max.Y - s.free.Min.Y
	pages := []*blankPage{{height: first}}
	for _, b := range panels {
		at := slices.IndexFunc(pages, func(p *blankPage) bool { return s.fitsOn(p, b) })
		if at < 0 {
			at = len(pages)
			pages = append(pages, &blankPage{height: full})
		}
		p := pages[at]
		if p.used += s.height(b) + panelGap; b == nil {
			p.bare = true
		} else {
			p.panels = append(p.panels, b)
		}
	}
	return pages
}

// fitsOn reports whether a page has room for a panel, or for the table for nil.
func (s *blankSet) fitsOn(p *blankPage, b *blankPanel) bool {
	const rounding = 1e-9
	if p.used+s.height(b) > p.height+rounding {
		return false // full without a legend, too
	}
	if b == nil {
		return s.high+panelGap <= s.left(p)+rounding
	}
	if p.height < s.free.Max.Y-s.free.Min.Y && b.at.scale.Factor == 0 {
		return false // of no use for a panel that takes more than a page
	}
	return b.height+panelGap <= s.left(p, b)+rounding
}

// draw makes the pages for panels, but for the first.
func (s *blankSet) draw(pages []*blankPage) {
	for _, p := range pages[1:] {
		if len(p.panels) == 0 {
			s.barePages(s.table, s.bare)
			continue
		}
		page := s.blankPage(p, s.free)
		s.on(p, page)
		s.drawOn(p, page, page.Free)
	}
}

// on keeps on which page the blanks of panels are.
func (s *blankSet) on(p *blankPage, page *sheet.Page) {
	for _, b := range p.panels {
		s.onSheet(b.cut, page)
		for _, v := range b.family {
			s.onSheet(v.cut, page)
		}
	}
	if p.bare {
		for _, c := range s.bare {
			s.onSheet(c, page)
		}
	}
}

// drawOn draws panels in a box of a page.
func (s *blankSet) drawOn(p *blankPage, page *sheet.Page, box r2.Box) {
	rest := s.panelsIn(page, box, p)
	if p.bare {
		if len(p.panels) > 0 {
			page.Add(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: rest.Min.X, Y: rest.Max.Y + panelGap/2}, {X: rest.Max.X, Y: rest.Max.Y + panelGap/2}}})
		}
		s.table.Draw(page.Sheet, rest)
	}
}

// blankPage adds a page for panels, named after as many of them as a line of its strip has
// room for: what is free of it is what they were shared out for.
func (k *pack) blankPage(p *blankPage, free r2.Box) *sheet.Page {
	const most = 3
	block := k.blankBlock()
	for n := most; n > 0; n-- {
		b := block
		b.Subtitle = "Blanks: " + namesIn(p.panels, n)
		if k.newPage(k.bench(), "", b).Free.Min.Y <= free.Min.Y {
			block = b
			break
		}
	}
	return k.page(k.bench(), p.panels[0].slug, block)
}

// namesIn names what is on a page in a line: the first and how many more.
func namesIn(panels []*blankPanel, most int) string {
	var names []string
	for _, b := range panels[:min(most, len(panels))] {
		names = append(names, b.Blank.Name)
	}
	text := strings.Join(names, ", ")
	if n := len(panels) - most; n > 0 {
		text += fmt.Sprintf(" and %d more", n)
	}
	return text
}

// mostStretch is by how much a panel may grow into what is left of its page.
const mostStretch = 1.5

// drawBeside draws panels in what another page has left, under a line and what the strip
// of a page of blanks says.
func (s *blankSet) drawBeside(p *blankPage, page *sheet.Page) {
	foot, subtitle := page.Free.Min.Y, page.Block.Subtitle
	if page.SetSubtitle(subtitle + "; blanks: " + namesIn(p.panels, 1)); page.Free.Min.Y > foot {
		page.SetSubtitle(subtitle) // rather than lose a line of the sheet to it
	}
	box := page.Free
	box.Max.Y = box.Min.Y + p.height
	lead := box
	lead.Min.Y, lead.Max.Y = box.Max.Y, box.Max.Y+wordsHeight(box.Max.X-box.Min.X, s.blanksLead)
	page.Add(&ink.Stroke{Line: ink.Outline, Path: []r2.Vec{{X: lead.Min.X, Y: lead.Max.Y}, lead.Max}})
	lead.Max.Y -= sheet.Small / 2
	write(page.Sheet, lead, s.blanksLead)
	s.drawOn(p, page, box)
}

// stretched is by how much the panels of a page grow, in proportion, into what is left of
// its height.
func (s *blankSet) stretched(p *blankPage) float64 {
	own := 0.0
	for _, b := range p.panels {
		own += b.height
	}
	return min((own+max(0, s.left(p)-stretchSlack))/own, mostStretch)
}

// stretchSlack is left free of a page, in mm, for the last row of a table to end on it.
const stretchSlack = 0.5

// slot returns the box of a panel of a height, under another.
func slot(free r2.Box, top, height float64) r2.Box {
	return sheet.Box(free.Min.X, top-height, free.Max.X, top)
}

// settle chooses how much of a page's height a panel takes: about the least in which it
// can be read.
func (b *blankPanel) settle(free r2.Box) {
	if b.family != nil {
		b.settleFamily(free)
		return
	}
	need := b.need()
	full := free.Max.Y - free.Min.Y
	readable := func(height float64) bool {
		box := slot(free, free.Max.Y, height)
		box.Max.Y -= b.headHeight(box.Max.X - box.Min.X)
		at := b.best(box)
		if at.scale.Factor == 0 {
			return false
		}
		b.at = at
		large := max(b.width, b.length) * at.scale.Factor
		if b.shown() < b.length {
			// What is left out does not count.
			large = max(b.width*at.scale.Factor*need/readableAround, b.shown()*at.scale.Factor)
		}
		return large >= need
	}
	low := 0.0
	b.height = full
	for _, share := range shares() {
		height := share*(full+panelGap) - panelGap
		if readable(height) {
			b.height = height
			break
		}
		low = height
	}
	const near = 0.5 // mm
	for b.height-low > near {
		middle := (low + b.height) / 2
		if readable(middle) {
			b.height = middle
		} else {
			low = middle
		}
	}
}

// need is how large a panel's flat must come out, in mm.
func (b *blankPanel) need() float64 {
	need := readableFlat
	switch {
	case b.Shape == flat.Disc && b.table == nil:
		need = readableDisc
	case b.Shape == flat.Tube && b.table != nil:
		need = readableTube
	case len(b.Feet) > 0:
		need = min(readablePlate, readableFlat+readableFoot*float64(len(b.Feet)))
	case b.Fan != nil && lettered(b.Blank):
		need = readableTaper
	case b.table != nil || b.Fan != nil:
		need = readableCurved
	}
	if b.shown() == b.length {
		need = min(need, mostEnlarged*max(b.width, b.length))
	}
	return need
}

// settleFamily is settle for a family.
func (b *blankPanel) settleFamily(free r2.Box) {
	b.at.scale = b.familyScale()
	width := free.Max.X - free.Min.X
	b.height = min(b.headHeight(width)+b.familyHeight(width), free.Max.Y-free.Min.Y)
}

// panelsIn draws the panels of a page under each other in a box of it, and returns what is
// left.
func (s *blankSet) panelsIn(page *sheet.Page, box r2.Box, p *blankPage) r2.Box {
	free := s.freeUnder(box, p.panels...)
	legend := s.legend(p.panels)
	write(page.Sheet, sheet.Box(free.Min.X, box.Min.Y, free.Max.X, free.Min.Y-legendGap), legend.words)
	top, by := free.Max.Y, s.stretched(p)
	for i, b := range p.panels {
		box := slot(free, top, by*b.height)
		if i > 0 {
			page.Add(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: free.Min.X, Y: top + panelGap/2}, {X: free.Max.X, Y: top + panelGap/2}}})
		}
		top = box.Min.Y - panelGap
		b.drawIn(page, box)
	}
	return sheet.Box(free.Min.X, free.Min.Y, free.Max.X, top)
}

// drawIn draws a panel in a box of a page, its head at the top.
func (b *blankPanel) drawIn(page *sheet.Page, box r2.Box) {
	under := box
	under.Max.Y -= b.headHeight(box.Max.X - box.Min.X)
	if b.family != nil {
		b.drawFamily(page.Sheet, under)
	} else {
		b.at = b.best(under)
		b.draw(page, under)
	}
	b.head(page.Sheet, box)
}

// headFacts are what stands in the head of a panel beside its name.
func (b *blankPanel) headFacts() string {
	scale := b.at.scale.Name
	if scale == "" {
		scale = "1:1000" // not chosen yet
	}
	quantity := b.cut.Quantity
	for _, v := range b.family {
		if v.cut != b.cut {
			quantity += v.cut.Quantity
		}
	}
	return fmt.Sprintf("Quantity %d · %s · %s · %s", quantity, b.metalShort(b.Blank.Metal), faceUp(b.Blank), scale)
}

// headLines returns the name over a panel in lines, and whether the facts stand beside
// it rather than under it.
func (b *blankPanel) headLines(width float64) (name []string, beside bool) {
	const air = 6
	left := width - ink.Width(b.headFacts(), sheet.Small, ink.Regular) - air
	text := title(b.cut)
	if n := len(b.family); n > 0 {
		text = b.family[0].Blank.Name + " to " + b.family[n-1].Blank.Name
		if n == 2 {
			text = b.family[0].Blank.Name + ", " + b.family[1].Blank.Name
		}
	}
	if ink.Width(text, sheet.Medium, ink.Bold) <= left {
		return []string{text}, true
	}
	return sheet.Wrap(text, width, sheet.Medium, ink.Bold), false
}

// headHeight is the height of the head of a panel.
func (b *blankPanel) headHeight(width float64) float64 {
	name, beside := b.headLines(width)
	height := panelHead + float64(len(name)-1)*sheet.LineHeight(sheet.Medium)
	if !beside {
		height += sheet.LineHeight(sheet.Small)
	}
	return height
}

// head writes the line over a panel: which pieces, how many, of what, and the scale.
func (b *blankPanel) head(s *ink.Sheet, box r2.Box) {
	name, beside := b.headLines(box.Max.X - box.Min.X)
	y := box.Max.Y - sheet.Medium
	for i, line := range name {
		if i > 0 {
			y -= sheet.LineHeight(sheet.Medium)
		}
		s.Add(&ink.Text{At: r2.Vec{X: box.Min.X, Y: y}, Height: sheet.Medium, Face: ink.Bold, Text: line})
	}
	facts := &ink.Text{At: r2.Vec{X: box.Max.X, Y: y}, Height: sheet.Small, Anchor: ink.End, Text: b.headFacts()}
	if !beside {
		facts.At.X, facts.Anchor = box.Min.X, ink.Start
		facts.At.Y -= sheet.LineHeight(sheet.Small)
	}
	s.Add(facts)
}

// draw draws a panel in its place. What no page has room for beside the flat goes
// to sheets that follow.
func (b *blankPanel) draw(page *sheet.Page, box r2.Box) {
	if b.at.scale.Factor == 0 {
		b.drawApart(page, box)
		return
	}
	b.drawFlat(page.Sheet)
	write(page.Sheet, b.at.words, b.words)
	if b.table != nil {
		t := *b.table
		t.Abreast = b.at.abreast
		t.Draw(page.Sheet, b.at.table)
	}
}

// drawApart draws a flat alone on its page, its table and its words on sheets that
// follow.
func (b *blankPanel) drawApart(page *sheet.Page, box r2.Box) {
	at := place{flat: box}
	w, h := box.Max.X-box.Min.X-b.left()-slantRoom-flatRight, box.Max.Y-box.Min.Y-b.below()-b.above()
	at.scale = sheet.ChooseScale(b.width, b.length, max(w, 1), max(h, 1), b.units)
	b.at = at
	b.drawFlat(page.Sheet)
	block := b.blankBlock()
	block.Subtitle += ": " + title(b.cut) + ", continued"
	f := b.shopFlow(b.slug, block)
	f.Table(b.table)
	b.words(f)
}

// bareTable lists what is cut by its measures alone; nil for nothing.
func (k *pack) bareTable(list []*fab.Cut) *sheet.Table {
	if len(list) == 0 {
		return nil
	}
	t := &sheet.Table{Tight: true, Title: bareTitle(list), Columns: []sheet.Column{
		{Header: "Pieces", Align: ink.End}, {Header: "Write on them", Wrap: true}, {Header: "Metal", Wrap: true},
		{Header: "Size, " + k.unit()}, {Header: "Weight of one", Align: ink.End}, {Header: "Then", Wrap: true},
	}}
	for _, c := range list {
		b := &c.Blank
		size := "Ø" + k.dim(b.Diameter)
		if b.Diameter == 0 {
			size = k.dim(b.Width) + " × " + k.dim(b.Length)
		}
		var then []string
		then = append(then, k.forming(b))
		for _, n := range b.Notes {
			then = append(then, k.sentence(n))
		}
		t.Rows = append(t.Rows, []string{strconv.Itoa(c.Quantity), k.writtenAll(c.Names), k.metalShort(b.Metal), size, k.units.Weight(b.Mass), strings.Join(then, " ")})
	}
	return t
}

// bareTitle names what is cut by its measures alone.
func bareTitle(list []*fab.Cut) string {
	title := "Discs and rectangles"
	if slices.ContainsFunc(list, func(c *fab.Cut) bool { return steppedOff(&c.Blank) }) {
		title = "Discs, rectangles and caps with straight sides"
	}
	return title
}

// barePages draws the table of bare blanks on pages of its own.
func (k *pack) barePages(table *sheet.Table, list []*fab.Cut) {
	block := k.blankBlock()
	block.Subtitle, block.Scale = "Blanks: discs and rectangles", ""
	from := len(k.pages)
	k.shopFlow("discs-and-rectangles", block).Table(table)
	for _, c := range list {
		k.onSheet(c, k.pages[from])
	}
}

// writtenAll returns what is written on the pieces of several blanks.
func (k *pack) writtenAll(names []string) string {
	var list []string
	for _, n := range names {
		list = append(list, k.written(n))
	}
	return strings.Join(list, "; ")
}
