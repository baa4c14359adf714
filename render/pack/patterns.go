package pack

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// PatternOptions are the choices of whoever prints full-size patterns. The zero
// PatternOptions are of use.
type PatternOptions struct {
	Paper   sheet.Paper // in the printer; the zero Paper is A4, or letter for work in inches
	Overlap float64     // mm, of neighbouring tiles; 0 is 10 mm
	Long    bool        // one long page for each blank, for paper from a roll
	Date    string      // of issue, as it is to read; "" for none
}

// Patterns returns every different blank of a job at full size, in tiles for
// the printer to be stuck together by their registration marks: first a sheet
// that says how, with a map of the tiles of each piece, then the tiles. A piece
// is traced as often as it is needed.
//
// Whether the paper lies or stands and whether a piece is turned by a quarter
// turn is chosen for each piece so that it takes the fewest sheets.
func Patterns(j *fab.Job, o PatternOptions) []*ink.Sheet {
	k := newPack(j, Options{Date: o.Date})
	if o.Paper.Width == 0 {
		o.Paper = k.bench()
	}
	if o.Overlap == 0 {
		o.Overlap = standardOverlap
	}
	var all []*tiling
	for _, c := range j.Cuts() {
		if len(c.Blank.Outline) == 0 {
			continue // nothing to cut
		}
		upright, turned := k.trace(&c, false), k.trace(&c, true)
		if o.Long {
			all = append(all, k.long(upright, turned, o.Overlap))
		} else {
			all = append(all, k.tile(upright, turned, o.Paper, o.Overlap))
		}
	}
	k.cover(all, o)
	first := len(k.pages)
	var tiles []*tilePage
	for _, g := range all {
		tiles = append(tiles, g.tilePages()...)
	}
	for i, p := range tiles {
		p.foot(first+i+1, first+len(tiles))
		p.page.Name = fmt.Sprintf("%02d-%s", first+i+1, p.page.Name)
		k.pages = append(k.pages, p.page)
	}
	return sheet.Finish(k.pages)
}

// cover makes the sheets that say how patterns are put together.
func (k *pack) cover(all []*tiling, o PatternOptions) {
	paper := o.Paper.Portrait()
	if o.Long {
		paper = k.bench()
	}
	first := true
	f := sheet.NewFlow(func() (*ink.Sheet, r2.Box) {
		subtitle := "Full-size patterns"
		if !first {
			subtitle += ", continued"
		}
		first = false
		p := k.page(paper, "patterns", sheet.Block{
			Subtitle: subtitle, Document: "Patterns", Scale: sheet.FullSize().Name, Material: "As said on each",
			Tolerances: k.flatTolerance(), Caution: blankCaution,
		})
		return p.Sheet, p.Free
	})
	f.Heading("How to use them")
	for i, text := range howTo(o.Long) {
		f.Item(fmt.Sprintf("%d.", i+1), ink.Bold, text)
	}
	f.Gap(3)
	if len(all) == 0 {
		f.Paragraph("There is nothing to cut: no part is made from a flat blank.")
		return
	}
	f.Table(k.patternTable(all))
	k.maps(f, all)
}

func howTo(long bool) []string {
	steps := []string{
		"Print at 100 %, “actual size”, with no fitting to the page, on one side of the paper.",
		"Lay a steel rule on the proof bars of every sheet: 100 mm and 4 in. A sheet that is off is printed again; damp and heat move paper too.",
		"Each piece starts at its lower left tile. Cut a tile along its solid lines at the left and below, where it has them, and lay it over the broken line of its neighbour, so that the two halves of the marks of the same number meet. Glue or tape, then go on to the right, then upward.",
		"When all are together, measure the whole against the size in the table.",
		"Cut on the middle of the thick line. Thin lines are marked on the metal and not cut.",
		"Lay the pattern on the metal with the writing up: that face is the one said on it. Trace it as often as the quantity says, and write the names on the pieces.",
	}
	if long {
		steps[2] = "A piece too long for one page has tiles: cut a tile along its solid lines, lay it over the broken line of its neighbour so that the two halves of the marks of the same number meet, and glue or tape."
	}
	return steps
}

func (k *pack) patternTable(all []*tiling) *sheet.Table {
	t := &sheet.Table{Title: "Pieces", Columns: []sheet.Column{
		{Header: "Piece", Wrap: true}, {Header: "Quantity", Align: ink.End},
		{Header: "Width, " + k.unit(), Align: ink.End}, {Header: "Length, " + k.unit(), Align: ink.End},
		{Header: "Sheets", Align: ink.End}, {Header: "Rows × columns"}, {Header: "Left out, empty", Wrap: true},
	}}
	total := 0
	for _, g := range all {
		grid := "one sheet"
		if g.rows*g.columns > 1 {
			grid = fmt.Sprintf("%s to %s", tileName(0, 0), tileName(g.rows-1, g.columns-1))
		}
		missing := g.missing()
		if missing == "" {
			missing = "none"
		}
		w, h := g.width, g.height
		if g.turned {
			w, h = h, w
		}
		t.Rows = append(t.Rows, []string{title(g.cut), fmt.Sprint(g.cut.Quantity), k.dim(w), k.dim(h), fmt.Sprint(g.count()), grid, missing})
		total += g.count()
	}
	t.Columns[5].Header = "Tiles"
	t.Foot = [][]string{{"In all", "", "", "", fmt.Sprint(total), "", ""}}
	return t
}
