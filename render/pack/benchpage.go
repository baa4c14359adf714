package pack

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// benchPage makes the page that leads through the bench book: every part with its
// blanks and the sheets that have them, the order of the work, the index, and the
// dangers. It returns what is left for blanks of its last sheet, in mm.
func (k *pack) benchPage() float64 {
	f := k.shopFlow("bench", sheet.Block{Subtitle: "Bench page: parts, order of work, dangers", Document: "Parts list", DoNotScale: true})
	f.Table(k.partsTable())
	f.Table(k.metalsTable())
	k.weights(f)
	k.orderOfWork(f)
	f.Table(k.findingsTable("Before cutting", k.job.Plan.Sheets.Findings))
	f.Table(k.index())
	k.cautions(f)
	f.Gap(sheet.Medium)
	_, rest := f.Rest()
	return rest.Max.Y - rest.Min.Y - wordsHeight(rest.Max.X-rest.Min.X, k.blanksLead)
}

// blanksLead begins the blanks on the last sheet of the bench page.
func (k *pack) blanksLead(f *sheet.Flow) {
	f.Gap(1)
	f.Paragraph("Blanks. " + k.flatTolerance() + " " + blankCaution)
}

// partsTable lists the parts with their blanks and where those are drawn.
func (k *pack) partsTable() *sheet.Table {
	t := &sheet.Table{
		Tight: true,
		Title: "Parts",
		Columns: []sheet.Column{
			{Header: "No.", Align: ink.End}, {Header: "Part"}, {Header: "What", Wrap: true}, {Header: "Metal"},
			{Header: "Size, " + k.unit(), Wrap: true}, {Header: "Weight", Align: ink.End},
			{Header: "Blanks, " + k.unit()}, {Header: "Sheet", Align: ink.End},
		},
	}
	for i := range k.job.Parts {
		p := &k.job.Parts[i]
		metal := "–"
		if p.Metal != nil {
			metal = p.Metal.Name
		}
		if r, first := ringOf(p); r != nil {
			if first {
				t.Rows = append(t.Rows, k.ringRow(i, r, metal))
			}
			continue
		}
		weight := k.units.Weight(p.Mass)
		blanks, sheets := k.blanksOf(p)
		t.Rows = append(t.Rows, []string{
			strconv.Itoa(i + 1), short(p.Name), what(p), metal, strings.Join(k.size(p), ", "), weight, blanks, sheets,
		})
	}
	m := k.job.Mass
	if m.Weld > 0 {
		t.Foot = append(t.Foot, []string{"", "Weld metal", "", "", "", k.units.Weight(m.Weld)})
	}
	t.Foot = append(t.Foot, []string{"", "Total", "", "", "", k.units.Weight(m.Total)})
	return t
}

// blanksOf returns how many pieces of which size a part is cut from, or all tubes of a ring,
// kind by kind, and on which sheets they are drawn.
func (k *pack) blanksOf(parts ...*fab.Part) (blanks, sheets string) {
	var list, on []string
	var kinds []kindOfBlank
	var all []*flat.Blank
	for _, p := range parts {
		for i := range p.Blanks {
			all = append(all, &p.Blanks[i])
		}
	}
	for _, b := range all {
		number := "–"
		if page := k.sheetOf[b.Name]; page != nil {
			number = strconv.Itoa(k.number(page))
		}
		// Pieces that are alike but for their ends are one line.
		n := len(kinds) - 1
		if len(parts) > 1 {
			n = slices.IndexFunc(kinds, func(o kindOfBlank) bool { return o.sheet == number })
		}
		if n >= 0 && kinds[n].sheet == number && (kinds[n].like(b) || len(parts) > 1) {
			kinds[n].add(b)
			continue
		}
		kinds = append(kinds, kindOfBlank{b, number, 0, b.Width, b.Length, false})
		kinds[len(kinds)-1].add(b)
	}
	for _, kind := range kinds {
		size := "Ø" + k.fine(kind.first.Diameter)
		if kind.first.Diameter == 0 {
			size = k.fine(kind.width) + " × " + k.fine(kind.length)
		}
		of := "of"
		if kind.differ {
			of = "up to"
		}
		text := fmt.Sprintf("%d %s %s", kind.count, of, size)
		if kind.first.Bought != nil {
			text = "sawn to " + k.fine(kind.first.Length)
			if kind.count > 1 {
				text = strconv.Itoa(kind.count) + " " + text
			}
		}
		list, on = append(list, text), append(on, kind.sheet)
	}
	if len(list) == 0 {
		return "none", "–"
	}
	return strings.Join(list, "\n"), strings.Join(on, "\n")
}

// A kindOfBlank is blanks of a part that are one line of the parts list.
type kindOfBlank struct {
	first         *flat.Blank
	sheet         string
	count         int
	width, length float64 // mm, the greatest
	differ        bool
}

// like reports whether a blank is of the kind: gores of a ball, or the very same size.
func (k *kindOfBlank) like(b *flat.Blank) bool {
	f := k.first
	return f.Shape == b.Shape && (f.Shape == flat.Gore || f.Width == b.Width && f.Length == b.Length && f.Diameter == b.Diameter)
}

func (k *kindOfBlank) add(b *flat.Blank) {
	k.differ = k.differ || math.Abs(b.Width-k.first.Width) > 1e-6 || math.Abs(b.Length-k.first.Length) > 1e-6
	k.count += b.Quantity
	k.width, k.length = max(k.width, b.Width), max(k.length, b.Length)
}

// orderOfWork says what is done one after the other, and on which sheets it is.
func (k *pack) orderOfWork(f *sheet.Flow) {
	type step struct{ text, act string }
	steps := []step{
		{"Buy metal and what is cut to size: the office book.", ""},
		{"Lay out, scribe, drill and mark every blank; write its name on each piece", "blanks"},
		{"Cut the sheets in the order of their cuts", "layouts"},
		{"Saw pipe and tube, and trim it to the templates", "saw"},
		{"Break the edges, then roll by the cards", "rolling"},
		{"Weld the seams, then put together step by step", "welds"},
	}
	steps[1], steps[2] = steps[2], steps[1]
	if finish := k.say().Finish(k.job.Design.Finish); finish != "" {
		steps = append(steps, step{"Finish: " + finish + ".", ""})
	}
	f.Heading("Order of work")
	n := 0
	for _, s := range steps {
		text := s.text
		if s.act != "" {
			pages := k.acts[s.act]
			if len(pages) == 0 {
				continue
			}
			text += ": " + k.sheetsOf(pages) + "."
		}
		n++
		f.Item(fmt.Sprintf("%d.", n), ink.Bold, text)
	}
}

// sheetsOf names sheets that follow each other by their numbers.
func (k *pack) sheetsOf(pages []*sheet.Page) string {
	from, to := k.number(pages[0]), k.number(pages[len(pages)-1])
	switch to - from {
	case 0:
		return fmt.Sprintf("sheet %d", from)
	case 1:
		return fmt.Sprintf("sheets %d and %d", from, to)
	}
	return fmt.Sprintf("sheets %d to %d", from, to)
}

// index lists the sheets of the book. Sheets that go on with the same are one line.
func (k *pack) index() *sheet.Table {
	var list []entry
	pages := slices.Clone(k.pages[:k.from+1])
	if k.host != nil {
		pages = append(pages, k.host)
	}
	pages = append(pages, k.later...)
	last := ""
	for _, p := range pages {
		text := strings.TrimSuffix(p.Block.Subtitle, ", continued")
		if slices.Contains(k.acts["blanks"], p) {
			text = "Blanks: the table of parts names the sheet of each"
		}
		if text == last {
			continue
		}
		last = text
		list = append(list, entry{text, k.number(p)})
	}
	return indexTable(list, k.benchWidth())
}

// benchWidth is the width that is free on the sheets for the bench, in mm.
func (k *pack) benchWidth() float64 {
	free := k.newPage(k.bench(), "", sheet.Block{}).Free
	return free.Max.X - free.Min.X
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

// An actFlow is one flow through several acts of the work, so that none leaves a sheet
// half empty.
type actFlow struct {
	*sheet.Flow
	pack  *pack
	slug  string
	block sheet.Block
	begun bool // something of the act in hand stands on an earlier sheet
}

// worthSharing is what must be left of a sheet, in mm, for the next act to begin on it.
const worthSharing = 40.0

// act begins an act: on the sheet in hand where enough of it is left, with its caution
// under its heading, else on a new one.
func (a *actFlow) act(slug string, b sheet.Block) {
	a.slug, a.block, a.begun = slug, b, false
	if a.Flow == nil {
		a.Flow = sheet.NewFlow(a.next)
		return
	}
	if _, rest := a.Rest(); rest.Max.Y-rest.Min.Y < worthSharing {
		a.Break()
		return
	}
	page := a.pack.pages[len(a.pack.pages)-1]
	foot, both := page.Free.Min.Y, page.Block.Subtitle+"; "+strings.ToLower(b.Subtitle[:1])+b.Subtitle[1:]
	if page.SetSubtitle(both); page.Free.Min.Y > foot {
		page.SetSubtitle(brief(both)) // rather than lose a line of the sheet to it
	}
	a.Keep(page.Free.Min.Y)
	a.begun, a.pack.shared = true, true
	a.Gap(sheet.Medium)
	s, rest := a.Rest()
	s.Add(&ink.Stroke{Line: ink.Outline, Path: []r2.Vec{{X: rest.Min.X, Y: rest.Max.Y}, rest.Max}})
	a.Take(1)
	a.Heading(b.Subtitle)
	a.Item("!", ink.Bold, b.Caution)
}

// brief shortens the names of acts in a subtitle to what stands before their colon or
// comma.
func brief(subtitle string) string {
	acts := strings.Split(subtitle, "; ")
	for i, act := range acts {
		name, continued := strings.CutSuffix(act, ", continued")
		if n := strings.IndexAny(name, ":,"); n >= 0 {
			name = name[:n]
		}
		if continued {
			name += ", continued"
		}
		acts[i] = name
	}
	return strings.Join(acts, "; ")
}

func (a *actFlow) next() (*ink.Sheet, r2.Box) {
	b := a.block
	if a.begun {
		b.Subtitle += ", continued"
	}
	a.begun = true
	p := a.pack.page(a.pack.bench(), a.slug, b)
	return p.Sheet, p.Free
}
