package pack

import (
	"fmt"
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/layout"
	"stabile/fab/sheets"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

const layoutCaution = "Fingers behind the guard, both hands clear before the blade moves. Sheared edges and what drops cut: wear gloves to carry."

// layouts makes the sheets by which the metal is cut: what to buy, then each
// different layout with its cuts in order.
func (k *pack) layouts() {
	plan := k.job.Plan.Sheets
	if len(plan.Stacks)+len(plan.Orders) == 0 {
		return
	}
	var list []*cutSheet
	for i := range plan.Stacks {
		st := &plan.Stacks[i]
		for n := range st.Sheets {
			l := newLayout(k, plan, st, &st.Sheets[n])
			if slices.ContainsFunc(l.kinds, func(c cutKind) bool { return k.wantsPiece(c.name) }) {
				list = append(list, l)
			}
		}
	}
	for len(list) > 0 {
		if len(list) > 1 && k.halves(list[0], list[1]) {
			list = list[2:]
			continue
		}
		list[0].make()
		list = list[1:]
	}
}

// halves makes one sheet of two small layouts, one over the other, and reports whether
// both have room for all of it there and can be read.
func (k *pack) halves(a, b *cutSheet) bool {
	if max(len(a.Cuts), len(b.Cuts)) > benchCuts {
		return false
	}
	block := a.block()
	block.Subtitle = fmt.Sprintf("Layouts %s and %s", a.Name, b.Name)
	if other := b.block().Material; other != block.Material {
		block.Material += "; " + other
	}
	block.Scale = "as marked"
	page := k.newPage(k.bench().Portrait(), slugOf("layout-"+a.Name), block)
	before, free := k.pages, page.Free
	rules := func(f *sheet.Flow) {
		if !k.ruled(page) {
			for _, r := range cuttingRules(k.job.Plan.Sheets.Scribed() > 0) {
				f.Item("–", ink.Regular, r)
			}
		}
	}
	free.Max.Y -= wordsHeight(free.Max.X-free.Min.X, rules)
	middle := (free.Min.Y + free.Max.Y) / 2
	boxes := [2]r2.Box{free, free}
	boxes[0].Min.Y, boxes[1].Max.Y = middle+panelGap/2, middle-panelGap/2
	k.pages = append(slices.Clip(before), page) // it has the rules of cutting
	var drawings []*cutDrawing
	for i, l := range [2]*cutSheet{a, b} {
		d := l.half(page, boxes[i])
		if d == nil {
			k.pages = before
			return false
		}
		drawings = append(drawings, d)
	}
	k.pages = before
	write(page.Sheet, page.Free, rules)
	k.pages = append(slices.Clip(before), page)
	for _, d := range drawings {
		page.Add(d.items()...)
		d.flow(d.set, false)
	}
	page.Add(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: free.Min.X, Y: middle}, {X: free.Max.X, Y: middle}}})
	return true
}

// ruled reports whether a sheet of the book but one has the rules of cutting.
func (k *pack) ruled(but *sheet.Page) bool {
	return slices.ContainsFunc(k.pages, func(p *sheet.Page) bool { return strings.HasPrefix(p.Name, "layout-") && p != but })
}

// halfShares are the shares of the width of half a sheet that are tried for a drawing.
var halfShares = [...]float64{lyingShare, 0.5, 0.44}

// half draws a layout in a part of a page, where all of it has room there; else it returns
// nil.
func (l *cutSheet) half(page *sheet.Page, box r2.Box) *cutDrawing {
	for _, width := range halfShares {
		part := *page
		part.Free, part.Beside = box, r2.Box{}
		d := l.draw(&part, 1, width)
		d.set, d.more = d.setting()
		if d.more == 0 && d.hard() == 0 && len(d.bare) == 0 && d.whole(d.set) {
			return d
		}
	}
	return nil
}

// A cutSheet is the drawing and the tables of one layout in the making.
type cutSheet struct {
	*pack
	plan  *sheets.Plan
	stack *sheets.Stack
	*sheets.Sheet
	kinds []cutKind
	of    map[string]int // of a blank's name, its index in kinds
}

// A cutKind is a blank of which pieces lie on a layout, with the letter that
// marks them there.
type cutKind struct {
	mark          string
	name          string
	count         int // on one sheet
	width, length float64
	curved        bool
}

func newLayout(k *pack, plan *sheets.Plan, st *sheets.Stack, s *sheets.Sheet) *cutSheet {
	l := &cutSheet{pack: k, plan: plan, stack: st, Sheet: s, of: map[string]int{}}
	for b := range s.Blocks {
		for _, p := range s.Blocks[b].Pieces {
			i, ok := l.of[p.Name]
			if !ok {
				i = len(l.kinds)
				l.of[p.Name] = i
				blank := plan.Blanks[p.Blank]
				l.kinds = append(l.kinds, cutKind{mark: letters(i), name: p.Name, width: blank.Width, length: blank.Length})
			}
			l.kinds[i].count++
			l.kinds[i].curved = l.kinds[i].curved || s.Blocks[b].Curved > 0
		}
	}
	return l
}

// letters returns the i'th mark of a series: A to Z, then AA, AB and so on,
// without I and O, which read as figures.
func letters(i int) string {
	const series = "ABCDEFGHJKLMNPQRSTUVWXYZ"
	n := len(series)
	if i < n {
		return series[i : i+1]
	}
	return letters(i/n-1) + series[i%n:i%n+1]
}

// choose draws the layout on the smallest paper that has room for all of it: the
// drawing, with all that is written in it at its own place, and the tables beside or
// under it. Where none has, it is the one that needs the fewest sheets more and is the
// easiest to read.
func (l *cutSheet) choose() *cutDrawing {
	type choice struct {
		paper         sheet.Paper
		height, width float64 // shares of the page, for the drawing
	}
	list := []choice{
		{l.bench().Portrait(), uprightShare, 1}, {l.bench().Landscape(), 1, lyingShare},
	}
	if large := l.options.Arrangement; large.Width > 0 {
		list = append(list, choice{large.Landscape(), 1, lyingShare})
	} else {
		large := l.paper("A3", "ANSI B")
		list = append(list, choice{large.Landscape(), 1, lyingShare}, choice{large.Portrait(), largeShare, 1}, choice{large.Landscape(), 1, 1}, choice{l.paper("A2", "ANSI C").Landscape(), 1, lyingShare})
	}
	var best *cutDrawing
	least := 0
	for i, c := range list {
		if i < 2 && len(l.Cuts) > benchCuts {
			continue
		}
		// The largest is for what is hard to read on the others.
		if i == len(list)-1 && i > 2 && best.hard()*crowdedMarks < len(l.Cuts) {
			break
		}
		d := l.draw(l.newPage(c.paper, slugOf("layout-"+l.Name), l.block()), c.height, c.width)
		d.set, d.more = d.setting()
		cost := d.more*hardSheet + d.hard() + 2*len(d.unnumbered)
		if !d.whole(d.set) {
			cost += hardSheet
		}
		if best == nil || cost < least {
			best, least = d, cost
		}
		if least == 0 {
			break
		}
	}
	return best
}

// benchCuts is how many cuts the table on a sheet of the bench's paper has no room for,
// beside a drawing, for certain.
const benchCuts = 45

// hardSheet is how many numbers that stand off their cuts weigh as much as a sheet more,
// or as a table with broken words.
const hardSheet = 3

// crowdedMarks is of how many cuts one may have no number, or one off by a leader,
// before a paper larger than the printers of most shops is taken.
const crowdedMarks = 10

// make draws the layout, with the tables below and on sheets that follow.
func (l *cutSheet) make() {
	d := l.choose()
	p := d.page
	p.Block.Scale = d.scale.Name
	l.pages = append(l.pages, p)
	p.Add(d.items()...)

	d.detail()
	d.detailsBelow()
	d.flow(d.set, false)
	d.drawBelow()
	d.sheetsOfDetails()
}

// A setting is how the words of a layout are set about its drawing.
type setting struct {
	height float64 // of the writing of the cuts
	apart  bool    // the cuts begin on a sheet of their own
}

// setting chooses how the words are set: with no word of the cuts broken, on as few
// sheets as can be, with the tables in as few pieces. The cuts are written large, unless small writing brings
// all onto one sheet.
func (d *cutDrawing) setting() (chosen setting, sheets int) {
	best := func(height float64) (choice setting, more int) {
		pieces := 0
		whole := false
		for _, s := range [...]setting{{height, false}, {height, true}} {
			m, p := d.flow(s, true)
			w := d.whole(s)
			if choice.height == 0 || w && !whole || w == whole && (m < more || m == more && p < pieces) {
				choice, more, pieces, whole = s, m, p, w
			}
		}
		return choice, more
	}
	large, more := best(sheet.Medium)
	if more > 0 || !d.whole(large) {
		if small, less := best(sheet.Small); less == 0 && d.whole(small) || !d.whole(large) {
			return small, less
		}
	}
	return large, more
}

// whole reports whether a setting breaks no word of the cuts, wherever they come to stand: a
// stop that is read on two lines is set wrong.
func (d *cutDrawing) whole(s setting) bool {
	t := d.cutTable()
	if t == nil {
		return true
	}
	t.Height = s.height
	boxes := []r2.Box{d.newPage(d.bench(), "", d.block()).Free}
	if !s.apart {
		boxes = append(boxes, d.boxes()...)
	}
	return !slices.ContainsFunc(boxes, func(b r2.Box) bool { return !t.Whole(b.Max.X - b.Min.X) })
}

// flow sets the words on the page of the drawing and on sheets that follow, and
// returns how many do, and into how many pieces the tables came; or only counts
// them.
func (d *cutDrawing) flow(s setting, count bool) (more, pieces int) {
	boxes := d.boxes()
	at := d.page.Sheet
	if count {
		at = &ink.Sheet{}
	}
	begun := 0
	f := sheet.NewFlow(func() (*ink.Sheet, r2.Box) {
		if len(boxes) == 0 {
			more++
			b := d.block()
			b.Subtitle += ", continued"
			next := d.newPage(d.bench(), slugOf("layout-"+d.Name), b)
			boxes = []r2.Box{next.Free}
			if !count {
				d.pages = append(d.pages, next)
				at = next.Sheet
			}
		}
		begun++
		box := boxes[0]
		boxes = boxes[1:]
		return at, box
	})
	table := func(t *sheet.Table) {
		before := begun
		f.Table(t)
		pieces += 1 + begun - before
	}
	d.words(f)
	if !d.ruled(d.page) {
		for _, r := range cuttingRules(d.job.Plan.Sheets.Scribed() > 0) {
			f.Item("–", ink.Regular, r)
		}
	}
	table(d.pieceTable())
	if t := d.cutTable(); t != nil {
		t.Height = s.height
		for s.apart && more == 0 {
			f.Break()
		}
		table(t)
	}
	_, d.rest = f.Rest()
	return more, pieces
}

// boxes returns where there is room for words about the drawing.
func (d *cutDrawing) boxes() (list []r2.Box) {
	p := d.page
	top := d.low - columnGap
	add := func(b r2.Box, width, height float64) {
		if b.Max.X-b.Min.X > width && b.Max.Y-b.Min.Y > height {
			list = append(list, b)
		}
	}
	if d.width < 1 {
		at := p.Free.Min.X + (p.Free.Max.X-p.Free.Min.X)*d.width
		under, beside := sheet.Box(p.Free.Min.X, p.Free.Min.Y, at-columnGap, top), sheet.Box(at+columnGap, p.Free.Min.Y, p.Free.Max.X, p.Free.Max.Y)
		add(under, leastBeside*0.6, leastUnder)
		add(beside, leastBeside*0.6, leastUnder)
		return list
	}
	add(sheet.Box(p.Free.Min.X, p.Free.Min.Y, p.Free.Max.X, top), leastBeside, leastUnder)
	add(p.Beside, leastBeside, leastUnder)
	return list
}

// leastUnder and leastBeside are the least height under a layout and width beside
// the title block, in mm, that tables are begun in.
const (
	leastUnder  = 22.0
	leastBeside = 100.0
)

func (l *cutSheet) block() sheet.Block {
	return sheet.Block{
		Subtitle: fmt.Sprintf("Layout %s: cut %s", l.Name, words.Count(l.Copies, "sheet")), Document: "Cutting plan",
		Material: words.Capital(l.metal(l.stack.Metal)), Caution: layoutCaution, DoNotScale: true,
	}
}

// content says what lies in a rectangle that is cut free: the marks of the pieces
// of a block with their numbers; "" where it is no block.
func (l *cutSheet) content(r layout.Rect) string {
	for i := range l.Blocks {
		if b := &l.Blocks[i]; sameRect(b.Rect, r) {
			return l.marks(b)
		}
	}
	return ""
}

// marks names the pieces of a block: "A", "3 × B".
func (l *cutSheet) marks(b *sheets.Block) string {
	var list []string
	for i := 0; i < len(b.Pieces); {
		n := i
		for n < len(b.Pieces) && b.Pieces[n].Name == b.Pieces[i].Name {
			n++
		}
		m := l.kinds[l.of[b.Pieces[i].Name]].mark
		if n-i > 1 {
			m = fmt.Sprintf("%d × %s", n-i, m)
		}
		list = append(list, m)
		i = n
	}
	return strings.Join(list, ", ")
}

// closeRects is how far apart, in mm, sides of one rectangle may be written: the
// layouts are made in micrometres.
const closeRects = 0.01

// useful reports whether what is left whole is worth keeping: the shear can hold
// it to cut it again.
func (l *cutSheet) useful(r layout.Rect) bool {
	shear := l.job.Plan.Shop.Shear
	return shear == nil || min(r.Width, r.Height) >= shear.Least
}

// inRect reports whether a lies in b.
func inRect(a, b layout.Rect) bool {
	return a.X > b.X-closeRects && a.Y > b.Y-closeRects && a.X+a.Width < b.X+b.Width+closeRects && a.Y+a.Height < b.Y+b.Height+closeRects
}

func sameRect(a, b layout.Rect) bool {
	near := func(x, y float64) bool { return x-y < closeRects && y-x < closeRects }
	return near(a.X, b.X) && near(a.Y, b.Y) && near(a.Width, b.Width) && near(a.Height, b.Height)
}
