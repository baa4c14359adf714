package offer

import (
	"fmt"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
	"stabile/param/quantity"
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
	say("Weight", capital(weight(w.Mass, u))+".")
	say("Made of", w.madeOf())
	say("To stand it needs", w.needs())
	if w.options.Price != "" {
		say("Price", capital(w.options.Price)+".")
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
	text := capital(strings.Join(metals, ", "))
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

// needs says what holds the piece up.
func (w *offer) needs() string {
	var said []string
	u := w.Design.Units
	b := w.Design.Base()
	switch {
	case b == nil || b.Base.Shape == design.Feet:
		said = append(said, "Firm, level ground under every foot")
	case b.Base.Anchors > 0:
		text := fmt.Sprintf("A footing by others, and %d anchors in it", b.Base.Anchors)
		if d := b.Base.AnchorDiameter; d > 0 {
			text += " through holes of " + strings.ReplaceAll(u.Length(d, quantity.Coarse), " ", noBreak)
		}
		said = append(said, text)
	default:
		said = append(said, "Firm, level ground under its plate, which lies free")
	}
	if m := w.Mass.Ballast; m > 0 {
		said = append(said, u.Weight(m)+" of ballast laid on its base")
	}
	text := strings.Join(said, "; ") + "."
	if s := w.Design.Site; s != nil && s.Wind > 0 {
		text += fmt.Sprintf(" Wind of %s was reckoned with.", u.Speed(s.Wind))
	} else {
		text += " Wind was not reckoned with."
	}
	if !w.Tipping.Loaded {
		text += " How it stands against being pushed was not reckoned."
	}
	if t := w.Tipping; t.Loaded && !t.Reached() && (b == nil || b.Base.Anchors == 0) {
		text += " As drawn it does not stand safely by itself."
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

// capital makes the first letter of a text a capital.
func capital(s string) string {
	if s == "" {
		return s
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
