package sheet

import (
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
	"stabile/render/ink"
)

// A Block is what a title block says: the fields of ISO 7200 that the program
// can know, and what the bench needs beside them. The fields for the owner,
// for those who drew and approved the sheet, and for the date where none is given,
// are left empty to be filled in by hand.
type Block struct {
	Title    string // the design
	Subtitle string // what this sheet shows of it
	Owner    string // whose the drawing is; "" is left to be filled in
	Document string // the type of document: "Assembly drawing", "Part drawing", "Parts list"
	Material string // metal and thickness; "See parts list"; may be empty
	Finish   string // of the whole; may be empty
	Scale    string // "1:5"; empty where nothing is drawn to scale
	Units    string // "mm", "in"
	Revision string
	Date     string // of issue; may be empty
	Drawn    string // by whom; "" is left to be filled in
	Approved string // by whom; "" is left to be filled in
	Job      string // the owner's number for the work, before the drawing's; may be empty

	// Revisions are the issues of the drawing, in order; they stand over the block, the
	// last on top, and not on a strip.
	Revisions []design.Revision

	// Strip makes it a strip along the foot of the frame, for sheets after the first
	// of a book and for those that need the paper: owner and the names of those who
	// drew and approved are left out.
	Strip bool

	Tolerances string // said once, here
	Caution    string // may be empty
	DoNotScale bool   // figures hold, not measures taken from the paper
	Projection bool   // there are views that stand in a projection: the paper's

	// FirstAngle is the projection of the views that Projection speaks of; else they
	// stand in third angle. ISO 5456-2 leaves the choice free and asks for the symbol.
	FirstAngle bool

	name string // of the page
}

// blockWidth is the greatest width of a title block by ISO 7200, in mm.
const blockWidth = 180

// leastBeside is the least width, in mm, that is worth leaving beside a block:
// a block which would leave less takes it.
const leastBeside = 40

// Measures of the block's cells, in mm. The first line of every cell of a row
// stands on one baseline, under its caption. A caption is as high as what it
// heads, for the bench to read both; what it heads is bold.
const (
	rowHeight   = 10.0
	cellPadding = 1.2  // at the sides and above the caption
	firstLine   = 8.2  // from the top of the row to the baseline
	titleLine   = 10.7 // the same of the title
	secondLine  = 6.3  // from the title's baseline to the subtitle's
	underLast   = 1.8  // from the last baseline to the bottom of the row
)

// area returns where the block stands in the frame: in its lower right corner.
func (b *Block) area(frame r2.Box) r2.Box {
	if b.Strip {
		return Box(frame.Min.X, frame.Min.Y, frame.Max.X, frame.Min.Y+b.laidOut(frame.Max.X-frame.Min.X, b.longest()).height)
	}
	left := frame.Max.X - blockWidth
	if left-frame.Min.X < leastBeside {
		left = frame.Min.X
	}
	rows := b.rows(frame.Max.X-left, b.longest(), "")
	top := frame.Min.Y
	for _, r := range rows {
		top += r.height
	}
	return Box(left, frame.Min.Y, frame.Max.X, top)
}

// longest is the drawing's number with room for its job's, its book's and its sheet's,
// which are not known until all sheets are drawn.
func (b *Block) longest() string {
	number := "engineer-100-" + b.name
	if b.Job != "" {
		number = b.Job + "-" + number
	}
	return number
}

// A row of the block: cells from left to right.
type row struct {
	height float64
	cells  []cell
}

// A cell of the block. Below it in the same column may stand a second, for the
// two that are beside the title.
type cell struct {
	width    float64
	caption  string
	lines    []string
	height   float64 // of the lines' capitals
	face     ink.Face
	below    *cell
	subtitle []string // under a title
	close    bool     // no caption: the lines begin at the top
	symbol   bool
	first    bool // the symbol is that of first angle
}

// rows returns the block's rows from the top down. The last column of a row
// takes what the block is wider than 180 mm.
func (b *Block) rows(width float64, number, count string) []row {
	rows := revisionRows(b.Revisions, width)
	inner := func(w float64) float64 { return w - 2*cellPadding }
	spare := width - blockWidth

	if b.Caution != "" {
		lines := Wrap(b.Caution, inner(width), Small, ink.Regular)
		c := cell{width: width, caption: "Caution", lines: lines, height: Small}
		rows = append(rows, row{rowOf(len(lines), Small), []cell{c}})
	}

	owner := fitted(60, "Owner", b.Owner, Small, ink.Bold)
	document := fitted(34, "Document type", b.Document, Small, ink.Bold)
	if b.measures() {
		rows = append(rows, b.measuresRow(70+spare), rowWith([]cell{
			owner, document,
			fitted(40, "Material", b.Material, Small, ink.Bold),
			fitted(46+spare, "Finish", b.Finish, Small, ink.Bold),
		}))
	} else if b.Finish != "" {
		rows = append(rows, rowWith([]cell{
			owner, document,
			fitted(20, "Units", b.Units, Small, ink.Bold),
			fitted(66+spare, "Finish", b.Finish, Small, ink.Bold),
		}))
	} else {
		rows = append(rows, rowWith([]cell{owner, document, fitted(86+spare, "Units", b.Units, Small, ink.Bold)}))
	}

	title := fitted(120+spare, "Title", b.Title, Large, ink.Bold)
	title.subtitle = Wrap(b.Subtitle, inner(120+spare), Medium, ink.Regular)
	drawn, approved := fitted(60, "Drawn by", b.Drawn, Small, ink.Bold), fitted(60, "Approved by", b.Approved, Small, ink.Bold)
	drawn.below = &approved
	more := float64(len(title.lines)-1)*LineHeight(title.height) + float64(max(len(title.subtitle), 1)-1)*LineHeight(Medium)
	rows = append(rows, row{2*rowHeight + more, []cell{drawn, title}})

	rows = append(rows, rowWith([]cell{
		fitted(30, "Date of issue", b.Date, Small, ink.Bold),
		fitted(30, "Revision", b.Revision, Small, ink.Bold),
		fitted(94+spare, "Drawing number", number, Small, ink.Bold),
		fitted(26, "Sheet", count, Medium, ink.Bold),
	}))
	return rows
}

// measures reports whether the sheet has anything to measure: one of text and tables
// alone has neither scale nor projection nor tolerances.
func (b *Block) measures() bool {
	return b.Tolerances != "" || b.DoNotScale || b.Scale != "" || b.Projection
}

// measuresRow is how the sheet is measured; its tolerances have a width.
func (b *Block) measuresRow(tolerances float64) row {
	lines := Wrap(b.Tolerances, tolerances-2*cellPadding, Small, ink.Regular)
	dimensions := ""
	if b.DoNotScale {
		dimensions = "Do not scale"
	}
	return row{rowOf(len(lines), Small), []cell{
		{width: tolerances, caption: "Tolerances", lines: lines, height: Small},
		fitted(28, "Dimensions", dimensions, Small, ink.Bold),
		fitted(20, "Units", b.Units, Small, ink.Bold),
		b.scale(26),
		b.projection(36),
	}}
}

func (b *Block) scale(width float64) cell {
	if b.Scale == "" {
		return fitted(width, "Scale", notHere, Small, ink.Bold)
	}
	return fitted(width, "Scale", b.Scale, Medium, ink.Bold)
}

func (b *Block) projection(width float64) cell {
	if b.Projection {
		return cell{width: width, caption: "Projection", symbol: true, first: b.FirstAngle}
	}
	return fitted(width, "Projection", notHere, Small, ink.Bold)
}

// notHere tells a field without meaning on this sheet from one that is left to
// be filled in.
const notHere = "–"

// rowWith returns a row as high as the fullest of its cells needs.
func rowWith(cells []cell) row {
	r := row{rowHeight, cells}
	for i := range cells {
		r.height = max(r.height, rowOf(len(cells[i].lines), cells[i].height))
	}
	return r
}

// rowOf returns the height of a row with n lines of a height under a caption.
func rowOf(n int, height float64) float64 {
	return max(rowHeight, firstLine+float64(n-1)*LineHeight(height)+underLast)
}

// fitted returns a cell with a text in the largest height of the series, up to the
// given one, in which it goes into its cell on one line; in the least, on several.
func fitted(width float64, caption, text string, height float64, face ink.Face) cell {
	inner := width - 2*cellPadding
	for _, h := range []float64{Large, Medium, Small} {
		if h <= height && (ink.Width(text, h, face) <= inner || h == Small) {
			height = h
			break
		}
	}
	return cell{
		width: width, caption: caption, height: height, face: face,
		lines: Wrap(text, inner, height, face),
	}
}

// draw draws the block of the sheet with the given drawing number and count.
func (b *Block) draw(s *ink.Sheet, frame r2.Box, number, count string) {
	if b.Job != "" {
		number = b.Job + "-" + number
	}
	if b.Strip {
		b.drawStrip(s, frame, number, count)
		return
	}
	area := b.area(frame)
	y := area.Max.Y
	for i, r := range b.rows(area.Max.X-area.Min.X, number, count) {
		line := ink.Thin
		if i == 0 {
			line = ink.Outline
		}
		s.Add(&ink.Stroke{Line: line, Path: []r2.Vec{{X: area.Min.X, Y: y}, {X: area.Max.X, Y: y}}})
		x := area.Min.X
		for j, c := range r.cells {
			if j > 0 {
				s.Add(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: x, Y: y}, {X: x, Y: y - r.height}}})
			}
			if c.below == nil {
				c.draw(s, Box(x, y-r.height, x+c.width, y))
			} else {
				middle := y - r.height/2
				c.draw(s, Box(x, middle, x+c.width, y))
				c.below.draw(s, Box(x, y-r.height, x+c.width, middle))
				s.Add(&ink.Stroke{Line: ink.Thin, Path: []r2.Vec{{X: x, Y: middle}, {X: x + c.width, Y: middle}}})
			}
			x += c.width
		}
		y -= r.height
	}
	s.Add(&ink.Stroke{Line: ink.Outline, Path: []r2.Vec{area.Min, {X: area.Min.X, Y: area.Max.Y}}})
}

func (c *cell) draw(s *ink.Sheet, box r2.Box) {
	x, top := box.Min.X+cellPadding, box.Max.Y-cellPadding
	if c.close {
		writeLines(s, c.lines, x, top, c.height, c.face, ink.Start)
		return
	}
	writeLines(s, []string{c.caption}, x, top, Small, ink.Regular, ink.Start)
	if c.symbol {
		projectionSymbol(s, r2.Vec{X: box.Max.X - 9, Y: (box.Min.Y + box.Max.Y) / 2}, 5.5, c.first)
	}
	if len(c.subtitle) == 0 && c.height != Large {
		writeLines(s, c.lines, x, box.Max.Y-firstLine+c.height, c.height, c.face, ink.Start)
		return
	}
	writeLines(s, c.lines, x, box.Max.Y-titleLine+c.height, c.height, c.face, ink.Start)
	down := titleLine + secondLine + float64(len(c.lines)-1)*LineHeight(c.height)
	writeLines(s, c.subtitle, x, box.Max.Y-down+Medium, Medium, ink.Regular, ink.Start)
}
