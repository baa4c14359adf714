package pack

import (
	"fmt"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/layout"
	"stabile/fab/sheets"
	"stabile/param/quantity"
	"stabile/render/ink"
	"stabile/render/sheet"
)

const layoutCaution = "Fingers behind the guard, both hands clear before the blade moves. Sheared edges and what drops cut: wear gloves to carry."

// layouts makes the sheets by which the metal is cut: what to buy, then each
// different layout with its cuts in order.
func (k *pack) layouts() {
	plan := k.job.Plan().Sheets
	if len(plan.Stacks)+len(plan.Orders) == 0 {
		return
	}
	k.buying(plan)
	for i := range plan.Stacks {
		st := &plan.Stacks[i]
		for n := range st.Sheets {
			l := newLayout(k, plan, st, &st.Sheets[n])
			l.make()
		}
	}
}

// shopFlow returns a flow over as many sheets of the bench's paper as it takes.
func (k *pack) shopFlow(slug string, b sheet.Block) *sheet.Flow {
	first := true
	return sheet.NewFlow(func() (*ink.Sheet, r2.Box) {
		block := b
		if !first {
			block.Subtitle += ", continued"
		}
		first = false
		p := k.page(k.bench(), slug, block)
		return p.Sheet, p.Free
	})
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

// choose draws the layout on the smallest paper on which all that is to be written
// in it finds room at its own place.
func (l *cutSheet) choose() *cutDrawing {
	papers := []sheet.Paper{l.bench().Portrait(), l.bench().Landscape()}
	if large := l.options.Arrangement; large.Width > 0 {
		papers = append(papers, large.Landscape())
	} else {
		papers = append(papers, l.paper("A3", "ANSI B").Landscape(), l.paper("A2", "ANSI C").Landscape())
	}
	var best *cutDrawing
	for i, paper := range papers {
		// The largest is for what is hard to read on the others.
		if i == 3 && (best.missed+best.led)*crowdedMarks < len(l.Cuts) {
			break
		}
		d := l.draw(l.newPage(paper, slugOf("layout-"+l.Name), l.block()))
		if best == nil || d.missed+d.led < best.missed+best.led {
			best = d
		}
		if best.missed+best.led == 0 {
			break
		}
	}
	return best
}

// crowdedMarks is of how many cuts one may have no number, or one off by a leader,
// before a paper larger than the printers of most shops is taken.
const crowdedMarks = 10

// make draws the layout, with the tables below and on sheets that follow.
func (l *cutSheet) make() {
	best := l.choose()
	p := best.page
	p.Block.Scale = best.scale.Name
	p.Name = fmt.Sprintf("%02d-%s", len(l.pages)+1, slugOf("layout-"+l.Name))
	l.pages = append(l.pages, p)
	p.Add(best.items()...)

	// The cuts are written large, unless small writing brings all onto one sheet.
	height := sheet.Medium
	if l.flow(p, best.low, sheet.Medium, true) > 0 && l.flow(p, best.low, sheet.Small, true) == 0 {
		height = sheet.Small
	}
	l.flow(p, best.low, height, false)
}

// flow writes the facts and the tables, the cuts in writing of a height, under
// the drawing, which reaches down to low, beside the title block and on sheets
// that follow, and returns how many do; or only counts them.
func (l *cutSheet) flow(p *sheet.Page, low, height float64, count bool) (more int) {
	var boxes []r2.Box
	if under := sheet.Box(p.Free.Min.X, p.Free.Min.Y, p.Free.Max.X, low-columnGap); under.Max.Y-under.Min.Y > leastUnder {
		boxes = append(boxes, under)
	}
	if p.Beside.Max.X-p.Beside.Min.X > leastBeside {
		boxes = append(boxes, p.Beside)
	}
	at := p.Sheet
	if count {
		at = &ink.Sheet{}
	}
	f := sheet.NewFlow(func() (*ink.Sheet, r2.Box) {
		if len(boxes) == 0 {
			more++
			b := l.block()
			b.Subtitle += ", continued"
			slug := slugOf("layout-" + l.Name)
			next := l.newPage(l.bench(), slug, b)
			boxes = []r2.Box{next.Free}
			if !count {
				l.pages = append(l.pages, next)
				at = next.Sheet
			}
		}
		box := boxes[0]
		boxes = boxes[1:]
		return at, box
	})
	l.words(f, height)
	return more
}

// leastUnder and leastBeside are the least height under a layout and width
// beside the title block, in mm, that tables are begun in.
const (
	leastUnder  = 22.0
	leastBeside = 60.0
)

func (l *cutSheet) block() sheet.Block {
	return sheet.Block{
		Subtitle: fmt.Sprintf("Layout %s: cut %s", l.Name, counted(l.Copies, "sheet")), Document: "Cutting plan",
		Material: upper(l.metal(l.stack.Metal)), Caution: layoutCaution, DoNotScale: true,
	}
}

// words writes the facts and the tables of the layout, the cuts in writing of a
// height.
func (l *cutSheet) words(f *sheet.Flow, height float64) {
	alike := ""
	if l.Copies > 1 {
		alike = " alike"
	}
	from := counted(l.Copies, "sheet")
	if l.Offcut {
		from = counted(l.Copies, "offcut") + " at hand"
	}
	f.Heading(fmt.Sprintf("%s: cut %s%s", l.Name, from, alike))
	f.Paragraph(l.facts())
	f.Table(l.pieceTable())
	t := l.cutTable()
	if t != nil {
		t.Height = height
	}
	f.Table(t)
}

func (l *cutSheet) facts() string {
	s := []string{fmt.Sprintf("%s %s, outside face up", l.sheetSize(l.Sheet), l.unit())}
	if l.Trim > 0 {
		s = append(s, l.length(l.Trim)+" trimmed all round")
	}
	s = append(s, percent(l.Used)+" used")
	if l.stack.Way == sheets.ByCutter {
		s = append(s, "by the cutter, of which a cut takes "+l.units.Length(l.stack.Kerf, quantity.Fine))
	}
	if mm := l.byHand(); mm > 0 {
		s = append(s, l.run(mm)+" to cut by hand along curves")
	}
	if l.stack.Count > 0 && l.stack.Bound > 0 {
		s = append(s, fmt.Sprintf("of this metal %s in all, at least %d proven", counted(l.stack.Count, "sheet"), l.stack.Bound))
	}
	return strings.Join(s, "; ") + "."
}

// byHand returns the length of edge to be cut by hand on one sheet, in mm.
func (l *cutSheet) byHand() (mm float64) {
	for i := range l.Blocks {
		mm += l.Blocks[i].Curved
	}
	return mm
}

// pieceTable tells what the letters on the drawing mean.
func (l *cutSheet) pieceTable() *sheet.Table {
	t := &sheet.Table{Columns: []sheet.Column{
		{Header: "Mark"}, {Header: "Piece", Wrap: true}, {Header: "Size, " + l.unit()}, {Header: "Edges"}, {Header: "No.", Align: ink.End},
	}}
	for _, c := range l.kinds {
		edges := "straight"
		if c.curved {
			edges = "curved"
		}
		t.Rows = append(t.Rows, []string{c.mark, c.name, l.fine(c.width) + " × " + l.fine(c.length), edges, strconv.Itoa(c.count)})
	}
	return t
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
	shear := l.job.Plan().Shop.Shear
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

// percent writes a share in whole percent.
func percent(share float64) string { return quantity.Decimal(100*share, 0) + "\u00a0%" }

// counted writes a number of things: "1 sheet", "3 sheets".
func counted(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// run writes a long length: feet or metres.
func (k *pack) run(mm float64) string {
	if k.units == quantity.Inch {
		return quantity.Decimal(mm/304.8, 1) + " ft"
	}
	return quantity.Decimal(mm/1e3, 1) + " m"
}
