package sheet

import (
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/render/ink"
)

// A strip stands in place of a title block on all sheets of a book but the first:
// what the sheet is, and what must stand on every sheet that may lie by itself on
// a bench. The fields of ISO 7200 are on the first sheet.

// Measures of a strip, in mm.
const (
	stripPadding = 1.3 // over the first line and under the last
	stripSide    = 2.0
	stripNumber  = 22.0 // of the field with the sheet's number
)

// between parts what stands in one line of a strip.
const between = "   ·   "

// A strip is a title block's contents, broken into lines for a width.
type strip struct {
	caution []string
	title   []string
	fields  []string
	height  float64
}

// laidOut breaks the contents of a block into the lines of a strip.
func (b *Block) laidOut(width float64, number string) strip {
	var s strip
	inner := width - 2*stripSide
	if b.Caution != "" {
		s.caution = Wrap(b.Caution, inner, Small, ink.Regular)
	}
	title := b.Title
	if b.Subtitle != "" {
		title += " – " + b.Subtitle
	}
	s.title = Wrap(title, inner-stripNumber, Medium, ink.Bold)
	s.fields = joined(b.fields(number), inner, Small)
	s.height = 2*stripPadding + blockHeight(len(s.title), Medium) + Small*descent
	for _, n := range [2]int{len(s.caution), len(s.fields)} {
		s.height += float64(n) * LineHeight(Small)
	}
	return s
}

// fields returns what a strip says beside the title, in order; what is not known is
// left out.
func (b *Block) fields(number string) []string {
	var list []string
	add := func(caption, value string) {
		if value != "" {
			list = append(list, caption+value)
		}
	}
	add("", b.Document)
	add("Scale ", b.Scale)
	units := b.Units
	if units != "" && b.DoNotScale {
		units += ", do not scale"
	}
	add("", units)
	add("", b.Material)
	add("", strings.TrimSuffix(b.Tolerances, "."))
	add("Finish ", b.Finish)
	add("Revision ", b.Revision)
	add("", b.Date)
	add("", number)
	return list
}

// joined sets fields into lines of a width. A field is not broken unless it is
// wider than a line.
func joined(fields []string, width, height float64) []string {
	var lines []string
	line := ""
	end := func() {
		if ink.Width(line, height, ink.Regular) <= width {
			lines = append(lines, line)
		} else {
			lines = append(lines, Wrap(line, width, height, ink.Regular)...)
		}
	}
	for _, f := range fields {
		switch both := line + between + f; {
		case line == "":
			line = f
		case ink.Width(both, height, ink.Regular) <= width:
			line = both
		default:
			end()
			line = f
		}
	}
	if line != "" {
		end()
	}
	return lines
}

// drawStrip draws the strip along the foot of the frame.
func (b *Block) drawStrip(s *ink.Sheet, frame r2.Box, number, count string) {
	of := b.laidOut(frame.Max.X-frame.Min.X, number)
	top := frame.Min.Y + of.height
	s.Add(&ink.Stroke{Line: ink.Outline, Path: []r2.Vec{{X: frame.Min.X, Y: top}, {X: frame.Max.X, Y: top}}})
	x, y := frame.Min.X+stripSide, top-stripPadding
	writeLines(s, of.title, x, y, Medium, ink.Bold, ink.Start)
	writeLines(s, []string{count}, frame.Max.X-stripSide, y, Medium, ink.Bold, ink.End)
	y -= blockHeight(len(of.title), Medium) + LineHeight(Small) - Small
	writeLines(s, of.fields, x, y, Small, ink.Regular, ink.Start)
	y -= float64(len(of.fields)) * LineHeight(Small)
	writeLines(s, of.caution, x, y, Small, ink.Regular, ink.Start)
}
