package layout

import (
	"cmp"
	"slices"
)

// plan writes the layouts down.
func (s *search) plan(p *Problem, v saved) *Plan {
	plan := &Plan{}
	var pieces, sheets int64
	for _, b := range v.boards {
		l := s.layout(p, b)
		sheet := &p.Sheets[b.kind]
		if sheet.Offcut {
			plan.Offcuts++
		} else {
			plan.Sheets++
			plan.Money += sheet.Price
		}
		for _, c := range l.Pieces {
			plan.Used += c.Area()
		}
		pieces += b.area
		sheets += area(down(sheet.Width), down(sheet.Height))
		same := slices.IndexFunc(plan.Layouts, func(m Layout) bool {
			return m.Sheet == l.Sheet && slices.Equal(m.Pieces, l.Pieces)
		})
		if same >= 0 {
			plan.Layouts[same].Copies++
			continue
		}
		plan.Layouts = append(plan.Layouts, l)
	}
	if sheets > 0 {
		plan.Used /= float64(sheets) / (unit * unit)
	}
	plan.sort(p)
	short := map[int]int{}
	for _, i := range v.left {
		short[s.rects[i].of]++
	}
	for i := range p.Pieces {
		if n := short[i]; n > 0 {
			plan.Left = append(plan.Left, Left{i, n, NoSheets})
		}
	}
	return plan
}

// sort puts the layouts into the order in which they are cut: offcuts first,
// then the fullest sheets, so that what is left of the last is the next offcut.
func (plan *Plan) sort(p *Problem) {
	filled := func(l Layout) (a float64) {
		for _, c := range l.Pieces {
			a += c.Area()
		}
		return a / (p.Sheets[l.Sheet].Width * p.Sheets[l.Sheet].Height)
	}
	offcut := func(l Layout) int {
		if p.Sheets[l.Sheet].Offcut {
			return 0
		}
		return 1
	}
	slices.SortStableFunc(plan.Layouts, func(a, b Layout) int {
		return cmp.Or(cmp.Compare(offcut(a), offcut(b)), cmp.Compare(a.Sheet, b.Sheet), cmp.Compare(filled(b), filled(a)))
	})
}

// layout writes one board down.
func (s *search) layout(p *Problem, b *board) Layout {
	sheet := &p.Sheets[b.kind]
	kerf, in := up(p.Kerf), inside(sheet)
	l := Layout{Sheet: b.kind, Copies: 1}
	var walk func(*part)
	walk = func(k *part) {
		x, y := mm(in.x0+k.x), mm(in.y0+k.y)
		switch {
		case k.parts != nil:
			for _, q := range k.parts {
				walk(q)
			}
		case k.piece != none:
			of := s.rects[k.piece].of
			r := Rect{x, y, p.Pieces[of].Width, p.Pieces[of].Height}
			if k.turn {
				r.Width, r.Height = r.Height, r.Width
			}
			l.Pieces = append(l.Pieces, Placed{of, r, k.turn})
		case k.w > kerf && k.h > kerf:
			l.Offcuts = append(l.Offcuts, Rect{x, y, mm(k.w - kerf), mm(k.h - kerf)})
		}
	}
	root := parts(b, &s.stocks[b.kind])
	walk(root)
	slices.SortStableFunc(l.Offcuts, func(a, b Rect) int { return cmp.Compare(b.Area(), a.Area()) })
	l.Cuts = cuts(p, sheet, root)
	return l
}
