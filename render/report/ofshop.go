package report

import (
	"stabile/fab"
	"stabile/fab/layout"
	"stabile/fab/sheets"
	"stabile/param/design"
	"stabile/render/words"
)

// report writes the shop's plan down.
func shopOf(w words.Writer, p *fab.Plan) *Shop {
	s, t := p.Sheets, &p.Assembly.Totals
	e := p.Estimate
	out := &Shop{
		Name: p.Shop.Name, Filled: append([]string{}, words.MissingItems(p.Filled.Missing)...),
		SheetCount: s.Count(), SheetBound: s.Bound(), Complete: s.Complete(), SheetAim: s.Aim(),
		Sheets: []Sheet{}, ReadyCut: []ReadyCut{}, Unplaced: []Unplaced{},
		Rolling: []Batch{}, Hand: []Handwork{},
		Welds: []Seam{}, Steps: []Step{}, Spaces: []Space{},
		Weld: six(t.Weld), EdgeToClean: six(t.Edge), Dress: six(t.Dress), Filler: six(t.Filler),
		CurvedCut: six(s.Curved(sheets.ByShear)),
		Hours:     six(e.Hours.Likely), HoursLow: six(e.Hours.Low), HoursHigh: six(e.Hours.High),
		Work: []Work{}, Unrated: w.Facts(e.Left), Pipes: []TubePipe{}, Instead: []TubePipe{}, Lengths: lengthsOf(p),
	}
	out.Sheets = append(out.Sheets, sheetsOf(s)...)
	for _, o := range s.Orders {
		out.ReadyCut = append(out.ReadyCut, ReadyCut{
			Blank: o.Name, Part: o.Part, Metal: o.Metal.Name, Quantity: o.Quantity, Width: six(o.Width), Length: six(o.Length), Why: words.WhyOrdered(o.Why),
		})
	}
	for i := range s.Stacks {
		for _, l := range s.Stacks[i].Left {
			b := s.Blanks[l.Blank]
			out.Unplaced = append(out.Unplaced, Unplaced{Blank: b.Name, Part: b.Part, Quantity: l.Count, Why: words.WhyLeft(l.Why)})
		}
	}
	workOf(w, p, out)
	return out
}

// sheetsOf gathers the layouts by metal, way and size.
func sheetsOf(p *sheets.Plan) []Sheet {
	type key struct {
		metal         *design.Metal
		way           sheets.Way
		length, width float64
		trim, price   float64
		offcut        bool
	}
	var list []Sheet
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
				sheet := Sheet{
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
			r.Layouts = append(r.Layouts, layoutOf(s))
		}
	}
	for i := range list {
		list[i].Used = six(list[i].Used)
	}
	return list
}

func layoutOf(s *sheets.Sheet) Layout {
	l := Layout{Name: s.Name, Copies: s.Copies, Used: six(s.Used), Pieces: []Place{}, Cuts: []Cut{}, Offcuts: []Rect{}}
	for b := range s.Blocks {
		for _, p := range s.Blocks[b].Pieces {
			l.Pieces = append(l.Pieces, Place{
				Blank: p.Name, Part: p.Part, Rect: rectOf(p.Box), Turned: p.Turned,
				Angle: *degrees(p.Angle), At: point2(p.At), Block: b,
			})
		}
	}
	for _, c := range s.Cuts {
		cut := Cut{
			Order: c.Number, Along: "x", At: six(c.At), From: six(c.From), To: six(c.To),
			Stop: six(c.Stop), End: "low", Line: c.Scribed, Trim: c.Trim, Frees: append([]int{}, c.Frees...),
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
		l.Offcuts = append(l.Offcuts, rectOf(r))
	}
	return l
}

func rectOf(r layout.Rect) Rect {
	return Rect{six(r.X), six(r.Y), six(r.Width), six(r.Height)}
}
