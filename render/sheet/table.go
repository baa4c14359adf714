package sheet

import (
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// A Column of a table.
type Column struct {
	Header string
	Align  ink.Anchor // Start, or End for figures
	Wrap   bool       // long text may run over several lines
}

// A Table is rows of text under a header, with rules between. Every row has a
// cell for each column, or fewer; what is missing is empty.
type Table struct {
	Title   string // above the table; may be empty
	Columns []Column
	Rows    [][]string
	Foot    [][]string // sums, in bold after the last row
	Height  float64    // of the writing; 0 is Small
	Tight   bool       // rows stand as close as they can be read
	Abreast bool       // a long and narrow table stands in parts beside each other though it has room
	Halved  bool       // a short one does so too

	// Of the rest of a table that was drawn in part: it keeps its columns.
	continued bool
	laid      *grid
}

// Measures of tables, as shares of the height of their writing: the padding
// beside a cell's text, and that above and below it.
const (
	sidePadding = 0.7
	rowPadding  = 0.55
	tightAbove  = 0.2
	tightBelow  = 0.32 // letters reach down there
	tightSides  = 0.45
)

// PartGap is the least distance between two parts of a table that stand side by side,
// in mm.
const PartGap = 6

// Draw draws as much of the table as goes into the box, from its top left
// corner, in several parts side by side where it is too long and narrow enough.
// It returns the area that it took, and the rest of the table, nil when all is
// drawn. Where not even a row goes into the box nothing is drawn and the rest
// is the table.
func (t *Table) Draw(s *ink.Sheet, box r2.Box) (used r2.Box, rest *Table) {
	width, height := box.Max.X-box.Min.X, box.Max.Y-box.Min.Y
	used = Box(box.Min.X, box.Max.Y, box.Min.X, box.Max.Y)
	if len(t.Columns) == 0 {
		return used, nil
	}
	g := t.grid(width)
	top := box.Max.Y
	heading := t.heading(width)
	if len(heading) > 0 {
		down := blockHeight(len(heading), Medium) + 2.2
		top -= down
		height -= down
	}
	fits := max(1, int((width+PartGap)/(g.width+PartGap)))
	parts := g.divide(height, fits, t.Abreast && len(t.Rows) > abreastFrom || t.Halved && len(t.Rows) > halvedFrom)
	if len(parts) == 0 {
		return used, t
	}
	writeLines(s, heading, box.Min.X, box.Max.Y, Medium, ink.Bold, ink.Start)
	for _, line := range heading {
		used.Max.X = max(used.Max.X, box.Min.X+ink.Width(line, Medium, ink.Bold))
	}
	x, row := box.Min.X, 0
	for _, part := range parts {
		bottom := g.draw(s, x, top, row, row+part)
		used.Min.Y = min(used.Min.Y, bottom)
		used.Max.X = max(used.Max.X, x+g.width)
		x += g.width + PartGap
		row += part
	}
	return used, t.after(row, g)
}

// heading returns the lines over the table.
func (t *Table) heading(width float64) []string {
	if t.Title == "" {
		return nil
	}
	title := t.Title
	if t.continued {
		title += ", continued"
	}
	return Wrap(title, width, Medium, ink.Bold)
}

// begins reports whether the first row of the table has room in a box as a whole.
func (t *Table) begins(box r2.Box) bool {
	if len(t.Columns) == 0 {
		return true
	}
	g := t.grid(box.Max.X - box.Min.X)
	room := box.Max.Y - box.Min.Y - g.header.height
	if lines := t.heading(box.Max.X - box.Min.X); len(lines) > 0 {
		room -= blockHeight(len(lines), Medium) + 2.2
	}
	return len(g.rows) == 0 || g.rows[0].height <= room
}

// after returns the table from a row on, the foot counted as its last rows.
func (t *Table) after(row int, g *grid) *Table {
	if row >= len(t.Rows)+len(t.Foot) {
		return nil
	}
	rest := *t
	rest.Rows = t.Rows[min(row, len(t.Rows)):]
	rest.Foot = t.Foot[max(0, row-len(t.Rows)):]
	rest.continued = true
	laid := *g
	laid.rows = g.rows[row:]
	laid.foot = g.foot - row
	rest.laid = &laid
	return &rest
}

// A grid is a table with its columns' widths settled and its text broken into
// lines.
type grid struct {
	columns []Column
	room    float64   // the width that it was made for
	height  float64   // of the writing
	above   float64   // a cell's text, free of it, as a share of that
	below   float64   // likewise
	side    float64   // likewise beside it
	widths  []float64 // of the columns, their padding counted
	least   []float64 // of the columns, at which no word is broken
	width   float64
	header  gridRow
	rows    []gridRow // the foot's among them
	foot    int       // the first of the foot's rows; none is before 0
}

type gridRow struct {
	cells  [][]string
	height float64
	above  float64 // free above its text, as a share of the height of that
}

// tall is the sign that reaches over capitals.
const tall = '√'

// Whole reports whether every word of the table has room in a width without being broken.
func (t *Table) Whole(width float64) bool {
	g := t.grid(width)
	for i, w := range g.widths {
		if w < g.least[i]-wrapSlack {
			return false
		}
	}
	return true
}

func (t *Table) grid(width float64) *grid {
	if t.laid != nil && t.laid.room == width {
		return t.laid
	}
	g := &grid{columns: t.Columns, room: width, height: t.Height, foot: len(t.Rows)}
	if g.height == 0 {
		g.height = Small
	}
	g.above, g.below, g.side = rowPadding, rowPadding, sidePadding
	if t.Tight {
		g.above, g.below, g.side = tightAbove, tightBelow, tightSides
	}
	header := make([]string, len(t.Columns))
	for i, c := range t.Columns {
		header[i] = c.Header
	}
	g.settle(width, header, t)
	g.header = g.row(header, ink.Bold)
	for _, r := range t.Rows {
		g.rows = append(g.rows, g.row(r, ink.Regular))
	}
	for _, r := range t.Foot {
		g.rows = append(g.rows, g.row(r, ink.Bold))
	}
	return g
}

// settle gives each column the width of its longest line, and takes what is
// too much first from the columns that may wrap, then from all.
func (g *grid) settle(width float64, header []string, t *Table) {
	padding := 2 * g.side * g.height
	g.widths = make([]float64, len(g.columns))
	g.least = make([]float64, len(g.columns))
	measure := func(r []string, face ink.Face) {
		for i, text := range r[:min(len(r), len(g.columns))] {
			for line := range strings.SplitSeq(text, "\n") {
				g.widths[i] = max(g.widths[i], ink.Width(line, g.height, face)+padding)
				for word := range strings.SplitSeq(line, " ") {
					g.least[i] = max(g.least[i], ink.Width(word, g.height, face)+padding)
				}
			}
		}
	}
	measure(header, ink.Bold)
	for _, r := range t.Rows {
		measure(r, ink.Regular)
	}
	for _, r := range t.Foot {
		measure(r, ink.Bold)
	}

	wide := sum(g.widths)
	g.shrink(width, func(i int) float64 {
		if g.columns[i].Wrap {
			return g.least[i]
		}
		return g.widths[i]
	})
	g.shrink(width, func(i int) float64 { return g.least[i] })
	g.shrink(width, func(i int) float64 { return min(g.least[i], padding+longWord*g.height) })
	g.shrink(width, func(int) float64 { return padding + g.height })
	if wide > width {
		g.balance(width, t)
	}
	g.width = sum(g.widths)
}

// longWord is how long, in heights of a capital, a word is that is broken before shorter
// ones of other columns are.
const longWord = 15

// shrink narrows the columns to a width together, none under its least, each
// by the same share of what it has to give.
func (g *grid) shrink(width float64, least func(i int) float64) {
	excess := sum(g.widths) - width
	var spare float64
	for i, w := range g.widths {
		spare += max(0, w-least(i))
	}
	if excess <= 0 || spare <= 0 {
		return
	}
	share := min(1, excess/spare)
	for i, w := range g.widths {
		g.widths[i] = w - share*max(0, w-least(i))
	}
}

func sum(xs []float64) float64 {
	var total float64
	for _, x := range xs {
		total += x
	}
	return total
}

// wrapSlack keeps a text on one line in a column that was made for it, in mm.
const wrapSlack = 1e-6

func (g *grid) row(texts []string, face ink.Face) gridRow {
	r := gridRow{cells: make([][]string, len(g.columns))}
	n := 1
	for i := range g.columns {
		if i >= len(texts) || texts[i] == "" {
			continue
		}
		inner := g.widths[i] - 2*g.side*g.height + wrapSlack
		r.cells[i] = Wrap(texts[i], inner, g.height, face)
		n = max(n, len(r.cells[i]))
	}
	r.above = g.above
	for _, lines := range r.cells {
		if len(lines) > 0 && strings.ContainsRune(lines[0], tall) {
			r.above = max(r.above, tightBelow)
		}
	}
	r.height = blockHeight(n, g.height) + (r.above+g.below)*g.height
	return r
}

// abreastFrom is the number of rows up to which a table stands in one part that has room,
// and halvedFrom that of one that is to be halved.
const (
	abreastFrom = 12
	halvedFrom  = 3
)

// divide returns how many rows stand in each of at most n parts of a height,
// the header counted. When all rows find room, the parts are as even as they
// can be, and where they are to stand abreast as many as there may be. A first row too high for a part of its own loses its last lines.
func (g *grid) divide(height float64, n int, abreast bool) []int {
	room := height - g.header.height
	line := g.height * (1 + g.above + g.below)
	if room < line {
		return nil
	}
	if len(g.rows) == 0 {
		return []int{0}
	}
	if g.rows[0].height > room {
		g.rows = slices.Clone(g.rows)
		g.rows[0] = g.limit(g.rows[0], room)
	}
	parts, all := g.fill(room, n)
	if !all {
		return g.withSums(parts)
	}
	if len(parts) == 1 && !abreast {
		return parts
	}
	in := len(parts)
	if abreast {
		in = n
	}
	// The least height at which as many parts hold all: among the sums of
	// rows, found by halving.
	low, high := 0.0, room
	for high-low > evenness {
		middle := (low + high) / 2
		if even, all := g.fill(middle, in); all {
			high, parts = middle, even
		} else {
			low = middle
		}
	}
	return parts
}

// withSums takes the last row off the parts where nothing but sums would be left for the
// next sheet: they stay with a row of what they sum up.
func (g *grid) withSums(parts []int) []int {
	n := 0
	for _, part := range parts {
		n += part
	}
	if last := len(parts) - 1; last >= 0 && n >= g.foot && g.foot > 0 && n < len(g.rows) && parts[last] > n-g.foot+1 {
		parts[last] -= n - g.foot + 1
	}
	return parts
}

// evenness is how nearly the least height of the parts of a table is found, in
// mm: less than any row.
const evenness = 0.5

// fill puts rows into at most n parts, each as full as it can be, and reports
// whether all rows found room.
func (g *grid) fill(room float64, n int) (parts []int, all bool) {
	at, count := 0.0, 0
	for _, r := range g.rows {
		if at+r.height > room {
			if count == 0 {
				return parts, false
			}
			parts = append(parts, count)
			at, count = 0, 0
			if len(parts) == n || r.height > room {
				return parts, false
			}
		}
		at += r.height
		count++
	}
	return append(parts, count), true
}

// limit returns a row shortened to a height, with an ellipsis where text is
// lost.
func (g *grid) limit(r gridRow, room float64) gridRow {
	n := 1 + int((room-g.height*(1+g.above+g.below))/LineHeight(g.height))
	cells := slices.Clone(r.cells)
	for i, lines := range cells {
		if len(lines) > n {
			inner := g.widths[i] - 2*g.side*g.height
			last := Elide(lines[n-1]+" "+lines[n], inner, g.height, ink.Regular)
			cells[i] = append(slices.Clone(lines[:n-1]), last)
		}
	}
	return gridRow{cells, blockHeight(n, g.height) + (r.above+g.below)*g.height, r.above}
}

// draw draws the header and some rows, and returns how far down they reach.
func (g *grid) draw(s *ink.Sheet, x, top float64, from, to int) float64 {
	y := top
	g.rule(s, ink.Thin, x, y)
	y = g.drawRow(s, g.header, x, y, ink.Bold)
	g.rule(s, ink.Thin, x, y)
	for i := from; i < to; i++ {
		face := ink.Regular
		switch {
		case i >= g.foot:
			face = ink.Bold
			if i == g.foot && i > from {
				g.rule(s, ink.Thin, x, y)
			}
		case i > from:
			g.rule(s, ink.Rule, x, y)
		}
		y = g.drawRow(s, g.rows[i], x, y, face)
	}
	if to > from {
		g.rule(s, ink.Thin, x, y)
	}
	return y
}

func (g *grid) rule(s *ink.Sheet, line ink.Line, x, y float64) {
	s.Add(&ink.Stroke{Line: line, Path: []r2.Vec{{X: x, Y: y}, {X: x + g.width, Y: y}}})
}

func (g *grid) drawRow(s *ink.Sheet, r gridRow, x, y float64, face ink.Face) float64 {
	pad := g.side * g.height
	for i, lines := range r.cells {
		at := x + pad
		switch g.columns[i].Align {
		case ink.Middle:
			at = x + g.widths[i]/2
		case ink.End:
			at = x + g.widths[i] - pad
		}
		writeLines(s, lines, at, y-r.above*g.height, g.height, face, g.columns[i].Align)
		x += g.widths[i]
	}
	return y - r.height
}

// Size returns how wide and high the table is, in one part, where it may be so wide.
func (t *Table) Size(width float64) (w, h float64) {
	const endless = 1e5
	used, _ := t.Draw(&ink.Sheet{}, Box(0, -endless, width, 0))
	return used.Max.X, -used.Min.Y
}
