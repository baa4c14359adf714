package sheet

import "stabile/render/ink"

// Widths of a strip's cells, in mm. Title and drawing number share what is left.
const (
	stripUnits    = 13
	stripScale    = 20
	stripDate     = 26
	stripRevision = 24
	stripCount    = 22
)

// strip returns the row of a block that is a strip, and a row above it for a
// caution.
func (b *Block) strip(width float64, number, count string) []row {
	var rows []row
	if b.Caution != "" {
		lines := Wrap(b.Caution, width-2*cellPadding, Small, ink.Regular)
		rows = append(rows, row{
			height: cellPadding + float64(len(lines)-1)*LineHeight(Small) + Small + underLast,
			cells:  []cell{{width: width, lines: lines, height: Small, bare: true}},
		})
	}
	cells := []cell{fitted(0, "", "", Small, ink.Bold)}
	rest := width
	add := func(width float64, caption, text string) {
		cells = append(cells, fitted(width, caption, text, Medium, ink.Bold))
		rest -= width
	}
	if b.Scale != "" {
		add(stripScale, "Scale", b.Scale)
	}
	if b.Units != "" {
		add(stripUnits, "Units", b.Units)
	}
	if b.Date != "" {
		add(stripDate, "Date of issue", b.Date)
	}
	add(stripRevision, "Revision", b.Revision)
	rest -= stripCount
	title := b.Title
	if b.Subtitle != "" {
		title += " – " + b.Subtitle
	}
	measures := b.Document
	if b.DoNotScale {
		measures += ", do not scale"
	}
	cells[0] = fitted(rest*0.65, measures, title, Medium, ink.Bold)
	cells = append(cells, fitted(rest*0.35, "Drawing number", number, Medium, ink.Bold), fitted(stripCount, "Sheet", count, Medium, ink.Bold))
	return append(rows, row{rowHeight, cells})
}
