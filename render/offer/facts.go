package offer

import (
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// noBreak is a space at which no line ends.
const noBreak = "\u00a0"

// facts writes what a client is to know beside the elevations.
func (w *offer) facts(box r2.Box) error {
	full := false
	f := sheet.NewFlow(func() (*ink.Sheet, r2.Box) {
		if full {
			// Past the page's foot: nothing has room there, which the flow tells.
			return w.page.Sheet, sheet.Box(box.Min.X, box.Min.Y, box.Max.X, box.Min.Y)
		}
		full = true
		return w.page.Sheet, box
	})
	say := func(head, text string) {
		if text != "" {
			f.Heading(head)
			f.Paragraph(text)
		}
	}
	u := w.Design.Units
	say("Weight", sheet.Capital(weight(w.Mass, u))+".")
	say("Made of", w.madeOf())
	say("To stand it needs", w.needs())
	f.Heading("How far it was checked")
	for _, c := range w.checked() {
		mark := "–"
		if c.bad {
			mark = "!"
		}
		f.Item(mark, ink.Bold, c.text)
	}
	if w.options.Price != "" {
		say("Price", sheet.Capital(w.options.Price)+".")
	}
	f.Heading("Take care")
	for _, text := range w.cautions() {
		f.Item("–", ink.Regular, text)
	}
	return f.Err()
}

// madeOf says what the piece is made of and how it is finished.
func (w *offer) madeOf() string {
	var metals []string
	seen := map[string]bool{}
	bought := false
	for i := range w.Parts {
		m := w.Parts[i].Metal
		if m == nil {
			bought = bought || w.Parts[i].Ball != nil
			continue
		}
		if text := strings.ReplaceAll(m.Alloy, "-", " "); !seen[text] {
			seen[text] = true
			metals = append(metals, text)
		}
	}
	text := sheet.Capital(strings.Join(metals, ", "))
	if text == "" {
		return ""
	}
	text += ": hollow balls and tubes, rolled from sheet and welded"
	if bought {
		text += ", with balls that are bought"
	}
	text += "."
	if f := w.Design.Finish; f != nil {
		text += " " + map[design.FinishKind]string{
			design.Paint:     "Painted; the colour is to be agreed on.",
			design.Galvanize: "Galvanized by hot dip.",
			design.Weather:   "Left to rust to a skin, which stains what it drips on.",
			design.Brushed:   "Brushed.",
		}[f.Kind]
	}
	return text
}

// cautions are what the client and the public must know.
func (w *offer) cautions() []string {
	return []string{
		"Not to be climbed, pulled at or hung from.",
		"A licensed engineer and the local code decide how it must stand.",
		"Lifting and setting up want people equipped for its weight; keep clear until it is held.",
		"Drawn before the work: what is made by hand differs a little.",
	}
}
