package fab

import (
	"stabile/fab/layout"
	"stabile/fab/sheets"
	"stabile/param/design"
)

// report writes the shop's plan down.
func (p *Plan) report() *ReportShop {
	s, t := p.Sheets, &p.Assembly.Totals
	e := p.Estimate
	out := &ReportShop{
		Name: p.Shop.Name, Filled: append([]string{}, p.Filled.Items...),
		SheetCount: s.Count(), SheetBound: s.Bound(), Complete: s.Complete(), SheetAim: s.Aim(),
		Sheets: []ReportSheet{}, ReadyCut: []ReportReadyCut{}, Unplaced: []ReportUnplaced{},
		Rolling: []ReportBatch{}, Hand: []ReportHandwork{},
		Welds: []ReportSeam{}, Steps: []ReportStep{}, Spaces: []ReportSpace{},
		Weld: six(t.Weld), EdgeToClean: six(t.Edge), Dress: six(t.Dress), Filler: six(t.Filler),
		CurvedCut: six(s.Curved(sheets.ByShear)),
		Hours:     six(e.Hours.Likely), HoursLow: six(e.Hours.Low), HoursHigh: six(e.Hours.High),
		Work: []ReportWork{}, Unrated: append([]string{}, e.Left...), Pipes: []ReportTubePipe{},
	}
	out.Sheets = append(out.Sheets, reportSheets(s)...)
	for _, o := range s.Orders {
		out.ReadyCut = append(out.ReadyCut, ReportReadyCut{
			Blank: o.Name, Part: o.Part, Metal: o.Metal.Name, Quantity: o.Quantity, Width: six(o.Width), Length: six(o.Length), Why: o.Why,
		})
	}
	for i := range s.Stacks {
		for _, l := range s.Stacks[i].Left {
			b := s.Blanks[l.Blank]
			out.Unplaced = append(out.Unplaced, ReportUnplaced{Blank: b.Name, Part: b.Part, Quantity: l.Count, Why: l.Why.String()})
		}
	}
	p.reportWork(out)
	return out
}

// reportSheets gathers the layouts by metal, way and size.
func reportSheets(p *sheets.Plan) []ReportSheet {
	type key struct {
		metal         *design.Metal
		way           sheets.Way
		length, width float64
		trim, price   float64
		offcut        bool
	}
	var list []ReportSheet
	at := map[key]int{}
	for i := range p.Stacks {
		st := &p.Stacks[i]
		for k := range st.Sheets {
			s := &st.Sheets[k]
			id := key{st.Metal, st.Way, s.Length, s.Width, s.Trim, s.Price, s.Offcut}
			n, ok := at[id]
			if !ok {
				n = len(list)
				at[id] = n
				sheet := ReportSheet{
					Metal: st.Metal.Name, Way: string(st.Way), Size: Point2{six(s.Length), six(s.Width)},
					Trim: six(s.Trim), Offcut: s.Offcut,
				}
				if s.Price > 0 {
					sheet.Price = pointer(s.Price)
				}
				list = append(list, sheet)
			}
			r := &list[n]
			// The shares are of sheets of one size, so they average by number.
			r.Used = (r.Used*float64(r.Count) + s.Used*float64(s.Copies)) / float64(r.Count+s.Copies)
			r.Count += s.Copies
			r.Layouts = append(r.Layouts, reportLayout(s))
		}
	}
	for i := range list {
		list[i].Used = six(list[i].Used)
	}
	return list
}

func reportLayout(s *sheets.Sheet) ReportLayout {
	l := ReportLayout{Name: s.Name, Copies: s.Copies, Used: six(s.Used), Pieces: []ReportPlace{}, Cuts: []ReportCut{}, Offcuts: []ReportRect{}}
	for b := range s.Blocks {
		for _, p := range s.Blocks[b].Pieces {
			l.Pieces = append(l.Pieces, ReportPlace{
				Blank: p.Name, Part: p.Part, ReportRect: reportRect(p.Box), Turned: p.Turned,
				Angle: *degrees(p.Angle), At: point2(p.At), Block: b,
			})
		}
	}
	for _, c := range s.Cuts {
		cut := ReportCut{
			Order: c.Number, Along: "x", At: six(c.At), From: six(c.From), To: six(c.To),
			Stop: six(c.Stop), End: "low", Trim: c.Trim, Frees: append([]int{}, c.Frees...),
		}
		if c.Upright {
			cut.Along = "y"
		}
		if c.High {
			cut.End = "high"
		}
		l.Cuts = append(l.Cuts, cut)
	}
	for _, r := range s.Left {
		l.Offcuts = append(l.Offcuts, reportRect(r))
	}
	return l
}

func reportRect(r layout.Rect) ReportRect {
	return ReportRect{six(r.X), six(r.Y), six(r.Width), six(r.Height)}
}
