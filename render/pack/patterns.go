package pack

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab"
	"stabile/fab/shop"
	"stabile/render/ink"
	"stabile/render/sheet"
)

// PatternOptions are the choices of whoever prints full-size patterns. The zero
// PatternOptions are of use.
type PatternOptions struct {
	Paper   sheet.Paper // in the printer; the zero Paper is that of the shop's
	Overlap float64     // mm, of neighbouring tiles; 0 is the shop's
	Long    bool        // one long page for each blank, for paper from a roll
	Date    string      // of issue, as it is to read; "" for none

	Only         []string // names of the parts that are wanted; none for all
	SkipReadyCut bool     // no patterns of what is bought cut to size
}

// A printing is how patterns come out of the printer.
type printing struct {
	paper   sheet.Paper // of single pages
	margin  float64     // mm, that it cannot print on
	overlap float64     // mm, of neighbouring tiles
	long    bool        // from a roll
	roll    float64     // mm, the roll's width; 0 where it is as wide as need be
}

// printing returns how the patterns of a job are printed: on the printer of the
// design's shop, but for what is asked for. A shop with a roll prints from it
// unless a paper is asked for. It fails where the pages have no room for a tile.
func (k *pack) printing(o PatternOptions) (*printing, error) {
	of, _ := shop.For(k.job.Design)
	p := &printing{
		paper: o.Paper, margin: of.Printer.Margin, overlap: o.Overlap,
		long: o.Long || of.Printer.Roll > 0 && o.Paper.Width == 0, roll: of.Printer.Roll,
	}
	if p.paper.Width == 0 {
		p.paper, _ = sheet.LookupPaper(of.Printer.Paper)
	}
	if p.overlap == 0 {
		p.overlap = of.Printer.Overlap
	}
	on, lap := p.paper.Name+" paper", max(p.lap(p.paper.Portrait()), p.lap(p.paper.Landscape()))
	switch {
	case p.long && p.roll == 0:
		return p, nil
	case p.long:
		on, lap = "a roll of "+k.both(p.roll), p.lap(sheet.Paper{Width: p.roll, Height: longest})
	}
	if lap < leastLap {
		return nil, fmt.Errorf("full-size patterns: %s with margins of %s has no room for a tile", on, k.both(p.margin))
	}
	if lap < p.overlap {
		return nil, fmt.Errorf("full-size patterns: on %s with margins of %s tiles overlap by %s at most, not %s",
			on, k.both(p.margin), k.both(math.Floor(lap)), k.both(p.overlap))
	}
	return p, nil
}

// Patterns returns every different blank of a job at full size, in tiles for
// the printer to be stuck together by their registration marks: first a sheet
// that says how, with a map of the tiles of each piece, then the tiles. A piece
// is traced as often as it is needed.
//
// Whether the paper lies or stands and whether a piece is turned by a quarter
// turn is chosen for each piece so that it takes the fewest sheets. It fails for
// paper of which margins and overlap leave nothing.
func Patterns(j *fab.Job, o PatternOptions) ([]*ink.Sheet, error) {
	p, err := newPack(j, Options{Date: o.Date}).printing(o)
	if err != nil {
		return nil, err
	}
	k := newPack(j, Options{Date: o.Date, Only: o.Only, SkipReadyCut: o.SkipReadyCut})
	k.name = "full-size"
	k.patterns(p)
	return k.finish(), nil
}

// patterns draws the sheets that say how, and then the tiles.
func (k *pack) patterns(p *printing) {
	var all []*tiling
	for _, c := range k.job.Cuts {
		if len(c.Blank.Outline) == 0 || byMeasures(&c.Blank) || !k.wants(&c) {
			continue // nothing to cut, or by its measures
		}
		cut := p.tile
		if p.long {
			cut = p.along
		}
		g := cut(k.trace(&c, false), k.trace(&c, true))
		if out := k.leftOut(&c.Blank); out.length() > 0 && !p.long {
			if short := cut(k.traceShort(&c, false, out), k.traceShort(&c, true, out)); short.count() < g.count() {
				if short.tilePages(); short.apart {
					g = short
				}
			}
		}
		all = append(all, g)
	}
	k.cover(all, p)
	var tiles []*tilePage
	for _, g := range all {
		tiles = append(tiles, g.tilePages()...)
	}
	last := len(k.pages) + len(tiles)
	for _, t := range tiles {
		t.foot(len(k.pages)+1, last)
		k.pages = append(k.pages, t.page)
	}
}

// cover makes the sheets that say how patterns are put together.
func (k *pack) cover(all []*tiling, how *printing) {
	paper := how.paper.Portrait()
	if how.long {
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
			Subtitle: subtitle, Document: "Patterns", Scale: sheet.FullSize().Name, Material: "As marked on each",
			Tolerances: k.flatTolerance(), Caution: blankCaution,
		})
		return p.Sheet, p.Free
	})
	f.Heading("How to use them")
	short := slices.ContainsFunc(all, func(g *tiling) bool { return g.out.length() > 0 })
	for i, text := range howTo(how.long, short) {
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

func howTo(long, short bool) []string {
	steps := []string{
		"Print at 100 %, “actual size”, with no fitting to the page, on one side of the paper.",
		"Lay a steel rule on the proof bars of every sheet: 100 mm and 4 in. Print again any sheet that is off; damp and heat move paper too.",
		"Each piece starts at its lower left tile. Cut a tile along its solid lines at the left and below, where it has them, and lay it over the broken line of its neighbour, so that the two halves of the marks of the same number meet. Glue or tape, then go on to the right, then upward.",
		"When all are together, measure the whole against the size in the table.",
		"Cut on the middle of the thick line. Thin lines are marked on the metal and not cut.",
		"Lay the pattern on the metal with the writing up: that face is named on it. Trace it once for each piece of the quantity, and write the names on the pieces.",
	}
	if long {
		steps[2] = "A piece too long for one page has tiles: cut a tile along its solid lines, lay it over the broken line of its neighbour so that the two halves of the marks of the same number meet, and glue or tape."
	}
	if short {
		steps = slices.Insert(steps, 3, "The plain middle of a long tube is left out: a band between two lines stands for it. Cut along both, set the two ends as far apart as is written on the lines, their sides along one straight-edge, and rule the sides and the bearings through.")
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
		w, h := g.hi.X-g.lo.X, g.hi.Y-g.lo.Y
		t.Rows = append(t.Rows, []string{pieces(g.cut), fmt.Sprint(g.cut.Quantity), k.dim(w), k.dim(h), fmt.Sprint(g.count()), grid, missing})
		total += g.count()
	}
	t.Columns[5].Header = "Tiles"
	t.Foot = [][]string{{"Total", "", "", "", fmt.Sprint(total), "", ""}}
	return t
}
