package pack

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/flat"
	"stabile/render/ink"
	"stabile/render/sheet"
	"stabile/render/words"
)

// Tubes of one diameter and one metal, whose ends are laid out at the same stations, are a
// family: one drawing, one table of what differs from tube to tube, and one of the
// ordinates of all.

// isTubeAlone reports whether nothing is on a tube but its trimmed ends and its bearings.
func (b *blankPanel) isTubeAlone() bool {
	return b.Shape == flat.Tube && b.Bought == nil && b.Fan == nil && len(b.Holes) == 0 && len(b.Ordinates) > 0 &&
		!slices.ContainsFunc(b.Marks, func(m flat.Mark) bool { return m.Kind == flat.Standing })
}

// stationsAlike reports whether two tubes are laid out at the same stations.
func stationsAlike(a, b *blankPanel) bool {
	x, y := a.Ordinates[0].Stations, b.Ordinates[0].Stations
	return slices.EqualFunc(x, y, func(p, q flat.Station) bool { return a.cell(p.At) == b.cell(q.At) })
}

// tubesLike returns the tubes of a list, from b on, that are a family with it: as many as
// a page has room for.
func (b *blankPanel) tubesLike(list []*blankPanel, free r2.Box) []*blankPanel {
	if !b.isTubeAlone() {
		return nil
	}
	var tubes []*blankPanel
	for _, v := range list {
		if !v.isTubeAlone() || v.Blank.Metal != b.Blank.Metal || b.fine(v.Forming.MeanRadius) != b.fine(b.Forming.MeanRadius) || !stationsAlike(b, v) {
			continue
		}
		more := append(slices.Clone(tubes), v)
		f := b.familyOf(more)
		free := b.freeUnder(free, f)
		w, _ := f.table.Size(endless)
		width := free.Max.X - free.Min.X
		if (w > width || f.headHeight(width)+f.familyHeight(width) > free.Max.Y-free.Min.Y) && len(tubes) > 0 {
			break
		}
		tubes = more
	}
	return tubes
}

// familyOf is the panel of tubes that are a family with b.
func (b *blankPanel) familyOf(tubes []*blankPanel) *blankPanel {
	f := *b
	f.family, f.table = tubes, b.tubeTable(tubes)
	return &f
}

// tubeTable is the table of the ordinates of tubes.
func (b *blankPanel) tubeTable(tubes []*blankPanel) *sheet.Table {
	t := &sheet.Table{Title: "Ordinates, " + b.unit(), Tight: true, Columns: []sheet.Column{{Header: "Stn", Align: ink.End}, {Header: "Around", Align: ink.End}}}
	for _, v := range tubes {
		for _, o := range v.Ordinates {
			t.Columns = append(t.Columns, sheet.Column{Header: v.Blank.Name + "\n" + string(o.Edge), Align: ink.End})
		}
	}
	for i, s := range b.Ordinates[0].Stations {
		row := []string{strconv.Itoa(i), b.cell(s.At)}
		for _, v := range tubes {
			for _, o := range v.Ordinates {
				row = append(row, b.cell(o.Stations[i].Ordinate))
			}
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// tubesFigure is the width of the drawing of a family of tubes, and the least height of it,
// in mm.
const (
	tubesFigure = 52.0
	tubesTall   = 62.0
)

// tubesHeight is the height of a family of tubes in a width.
func (b *blankPanel) tubesHeight(width float64) float64 {
	_, table := b.table.Size(width)
	return b.tubesTop(width) + columnGap + table + columnGap + wordsHeight(width, b.tubeWords)
}

// tubesTop is the height of the drawing and the table beside it.
func (b *blankPanel) tubesTop(width float64) float64 {
	_, pieces := b.piecesTable().Size(width - tubesFigure - columnGap)
	return max(tubesTall, pieces)
}

// drawTubes draws a family of tubes: one of them without its own length and bearings, what
// differs from tube to tube beside it, and the ordinates of all under both.
func (b *blankPanel) drawTubes(s *ink.Sheet, box r2.Box) {
	top := b.tubesTop(box.Max.X - box.Min.X)
	figure := sheet.Box(box.Min.X, box.Max.Y-top, box.Min.X+tubesFigure, box.Max.Y)
	b.at.flat = figure
	w, h := tubesFigure-b.left()-b.right(b.at.scale.Factor), top-b.below()-b.above()
	b.at.scale = b.scaleFor(max(w, 1), max(h, 1))
	b.drawFlat(s)
	b.piecesTable().Draw(s, sheet.Box(figure.Max.X+columnGap, figure.Min.Y, box.Max.X, box.Max.Y))
	rest := sheet.Box(box.Min.X, box.Min.Y, box.Max.X, figure.Min.Y-columnGap)
	f := sheet.NewFlow(func() (*ink.Sheet, r2.Box) { return s, rest })
	f.Table(b.table)
	b.tubeWords(f)
}

// piecesTable is what differs from tube to tube.
func (b *blankPanel) piecesTable() *sheet.Table {
	end := func(header string) sheet.Column { return sheet.Column{Header: header, Align: ink.End} }
	t := &sheet.Table{Tight: true, Title: "What differs, " + b.unit(), Columns: []sheet.Column{
		{Header: "Write on", Wrap: true}, end("L"), end("Weight"), end("Seam"), end("0° at"), {Header: "Foot on", Wrap: true}, end("Under"), {Header: "Head in", Wrap: true}, end("Deep"),
	}}
	for _, v := range b.family {
		seam := v.Ordinates[0].Stations[0].Bearing
		zero := v.Forming.MeanRadius * math.Mod(2*math.Pi-seam, 2*math.Pi)
		ends, under, deep := v.briefEnds()
		t.Rows = append(t.Rows, []string{
			v.names(), b.fine(v.Length), b.units.Weight(v.Mass), bearing(seam), b.fine(zero), ends["foot"], under, ends["head"], deep,
		})
	}
	return t
}

// briefEnds says in a few words what the ends of a tube fit, how far its foot reaches past
// the point of its axis, and how deep the lobes of a ball reach into its head.
func (b *blankPanel) briefEnds() (ends map[string]string, under, deep string) {
	ends, under, deep = map[string]string{}, "–", "–"
	for _, n := range b.Notes {
		switch n := n.(type) {
		case flat.SquareEnd:
			ends[n.End] = "square"
		case flat.FiledEnd:
			ends[n.End] = "square: file to " + cmp.Or(n.On.Name, words.Target(n.On)) + " within " + b.units.Exact(n.Off)
		case flat.CurvedEnd:
			ends[n.End] = cmp.Or(n.On.Name, words.Target(n.On))
		case flat.Scallops:
			deep = b.fineOrExact(n.Depth)
		case flat.FootBelow:
			under = b.fineOrExact(n.By)
		}
	}
	return ends, under, deep
}

// tubeWords says what holds for tubes of a family.
func (b *blankPanel) tubeWords(f *sheet.Flow) {
	f.Item("–", ink.Regular, fmt.Sprintf("%s L is over all. 0° at: where the line at bearing 0° stands, across from the seam; those at 90°, 180° and 270° follow each %s to the right, and on from the left edge. "+
		"Under: how far the foot reaches past the point of its axis. Deep: how far the lobes of a ball reach into the end.",
		b.formingOf(), b.fine(b.Forming.MeanRadius*math.Pi/2)))
	said := map[string]bool{}
	for _, v := range b.family {
		v.notes(true, func(text string) {
			if !said[text] {
				said[text] = true
				f.Item("–", ink.Regular, text)
			}
		})
	}
}
