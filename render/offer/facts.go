package offer

import (
	"slices"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/param/design"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// noBreak is a space at which no line ends.
const noBreak = "\u00a0"

// facts writes what a client is to know into a column, and what finds no room there
// into the rest of another.
func (w *offer) facts(columns ...r2.Box) error {
	f := sheet.NewFlow(func() (*ink.Sheet, r2.Box) {
		if len(columns) == 0 {
			// Past the last: nothing has room there, which the flow reports.
			return w.page.Sheet, sheet.Box(w.box.Min.X, w.box.Min.Y, w.box.Max.X, w.box.Min.Y)
		}
		next := columns[0]
		columns = columns[1:]
		return w.page.Sheet, next
	})
	say := func(head string, texts ...string) {
		if text := strings.TrimSpace(strings.Join(texts, " ")); text != "" {
			if w.style.dense {
				f.Paragraph(head + ": " + text)
				return
			}
			f.Heading(head)
			f.Paragraph(text)
		}
	}
	u := w.Design.Units
	in := words.OnPaper(u)
	if s := in.Client(w.Job); !s.Ready {
		f.Heading("Not ready to be built")
		f.Paragraph("The drawing is not finished. It changes, and the price with it, before this can be ordered.")
	}
	say("Price", w.price()...)
	say("The piece", w.madeOf(), w.weighs())
	say("Included", words.Capital(strings.Join(in.Included(w.Job), ", "))+".")
	say("Not included", words.Capital(strings.Join(in.Excluded(w.Job), ", "))+".")
	stands := "To stand it needs"
	if w.Design.Wall() != nil {
		stands = "To hang it needs"
	}
	say(stands, w.needs())
	say("Revisions", w.revisions())
	say("Looking after it", in.Care(w.Job)...)
	f.Heading("How far it was checked")
	for _, c := range w.checked() {
		mark := "–"
		if c.bad {
			mark = "!"
		}
		f.Item(mark, ink.Bold, c.text)
	}
	cautions := in.ClientCautions(w.Job)
	if w.style.whole {
		lines := 2 * len(cautions)
		f.Need(4*sheet.Medium + float64(lines)*sheet.LineHeight(sheet.Small))
	}
	f.Heading("Take care")
	for _, text := range cautions {
		f.Item("–", ink.Regular, text)
	}
	return f.Err()
}

// madeOf says what the piece is made of and how it is finished.
func (w *offer) madeOf() string {
	var metals []string
	seen := map[string]bool{}
	bought, sawn := false, false
	for i := range w.Parts {
		m := w.Parts[i].Metal
		sawn = sawn || w.Parts[i].Post != nil && w.Parts[i].Post.Bought != nil
		if m == nil {
			bought = bought || w.Parts[i].Ball != nil
			continue
		}
		if text := strings.ReplaceAll(m.Alloy, "-", " "); !seen[text] {
			seen[text] = true
			metals = append(metals, text)
		}
	}
	text := words.Capital(strings.Join(metals, ", "))
	if text == "" {
		return ""
	}
	text += ": hollow balls and tubes, rolled from sheet"
	if sawn {
		text += " or sawn from pipe and tube,"
	}
	text += " and welded"
	if bought {
		text += ", with balls that are bought"
	}
	openings := 0
	for i := range w.Parts {
		for k := range w.Parts[i].Openings {
			if w.Parts[i].Base == nil && w.Parts[i].Openings[k].Hole.Joint == nil {
				openings++
			}
		}
	}
	if openings > 0 {
		text += ", with " + words.Count(openings, "opening")
	}
	text += "."
	if f := w.Design.Finish; f != nil {
		text += " " + map[design.FinishKind]string{
			design.Paint:     "Painted; the colour is to be agreed on.",
			design.Galvanize: "Hot-dip galvanized.",
			design.Weather:   "Left to rust to a brown skin.",
			design.Brushed:   "Brushed.",
		}[f.Kind]
	}
	return text
}

// revisions says what changed with each issue, the last first.
func (w *offer) revisions() string {
	var texts []string
	for _, r := range slices.Backward(w.Design.Revisions) {
		text := r.Letter
		if r.Date != "" {
			text += ", " + r.Date
		}
		if r.Note != "" {
			text += ": " + r.Note
		}
		texts = append(texts, text)
	}
	return strings.Join(texts, "; ")
}

// weighs says what the piece weighs, with and without ballast.
func (w *offer) weighs() string {
	u := w.Design.Units
	text := "It weighs " + weight(w.Mass, u)
	if m := w.Mass; m.Ballast > 0 {
		m.Total, m.Low, m.High = m.Total+m.Ballast, m.Low+m.Ballast, m.High+m.Ballast
		text += " by itself, " + weight(m, u) + " with its ballast"
	}
	return text + "."
}
