package sheets

import (
	"slices"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/fab/layout"
	"stabile/fab/shop"
	"stabile/param/design"
)

// An Input is what a plan is made from.
type Input struct {
	Blanks []*flat.Blank
	Shop   design.Shop // filled up, as package shop does
	// Modest are the metals whose sheets are not the design's own: what they
	// cannot hold is then no fault of it. ModestShear says the same of the shear.
	Modest      []*design.Metal
	ModestShear bool
	// Places works out only what fits on the sheets at all and what the shop can
	// cut: checks are as without it, and so are findings but those on single cuts.
	// There are layouts only where the shop's number of sheets may not suffice, so
	// that they decide what has a place.
	Places bool
}

// A maker makes one plan.
type maker struct {
	in    Input
	plan  *Plan
	taken []int // of each of the shop's sheets, how many are used
	gone  []int // of each of its offcuts
}

// Make plans how the blanks are cut. Equal input gives an equal plan. What the
// shop cannot do is in the plan's findings, with other ways to do it.
func Make(in Input) *Plan {
	m := &maker{in: in, plan: &Plan{Blanks: in.Blanks}, taken: make([]int, len(in.Shop.Sheets)), gone: make([]int, len(in.Shop.Offcuts))}
	kinds := gather(in.Blanks, m.mayTurn)
	for len(kinds) > 0 {
		metal := kinds[0].metal
		var own, rest []*kind
		for _, k := range kinds {
			if k.metal == metal {
				own = append(own, k)
			} else {
				rest = append(rest, k)
			}
		}
		m.metal(metal, own)
		kinds = rest
	}
	slices.SortStableFunc(m.plan.Orders, func(a, b Order) int { return a.Blank - b.Blank })
	m.checks()
	return m.plan
}

// mayTurn reports whether flats of a metal may lie across the rolling direction:
// only where that goes for every size of its sheets.
func (m *maker) mayTurn(metal *design.Metal) bool {
	return !slices.ContainsFunc(m.in.Shop.Sheets, func(s design.Sheet) bool { return s.Metal == metal && !s.Turn })
}

// metal plans the kinds of one metal.
func (m *maker) metal(metal *design.Metal, kinds []*kind) {
	s := &m.in.Shop
	cutter := s.Cutter != nil && shop.Cuts(s.Cutter, metal.Thickness)
	switch {
	case s.Shear != nil && shop.Shears(s.Shear, metal):
		long := m.stack(metal, ByShear, kinds, cutter)
		if len(long) > 0 {
			m.sayLong(long)
			m.stack(metal, ByCutter, long, false)
		}
	case cutter:
		m.sayCutter(metal)
		m.stack(metal, ByCutter, kinds, false)
	default:
		m.order(metal, kinds)
	}
}

// A supply is the sheets that a stack may be cut from, as package layout takes
// them, and which of the shop's they are.
type supply struct {
	list    []layout.Sheet
	sheet   []int // index in Shop.Sheets, or none
	offcut  []int // index in Shop.Offcuts, or none
	priced  bool  // all sizes have a price
	largest layout.Rect
}

const none = -1

func (m *maker) supply(metal *design.Metal, way Way) supply {
	u := supply{priced: true}
	s := &m.in.Shop
	takes := func(w, l float64) bool {
		c := s.Cutter
		if way != ByCutter || c.Width == 0 && c.Length == 0 {
			return true
		}
		a, b := c.Width, c.Length
		if a == 0 {
			a = max(w, l)
		}
		if b == 0 {
			b = max(w, l)
		}
		return w <= a+fine && l <= b+fine || l <= a+fine && w <= b+fine
	}
	for i, o := range s.Offcuts {
		if n := o.Number - m.gone[i]; o.Metal == metal && n > 0 && takes(o.Width, o.Length) {
			u.list = append(u.list, layout.Sheet{Width: o.Length, Height: o.Width, Count: n, Offcut: true})
			u.sheet, u.offcut = append(u.sheet, none), append(u.offcut, i)
		}
	}
	for i, h := range s.Sheets {
		if h.Metal != metal || h.Stocked && h.Stock <= m.taken[i] || !takes(h.Width, h.Length) {
			continue
		}
		l := layout.Sheet{Width: h.Length, Height: h.Width, Trim: layout.Trim{Left: h.Trim, Right: h.Trim, Bottom: h.Trim, Top: h.Trim}, Price: h.Price}
		if h.Stocked {
			l.Count = h.Stock - m.taken[i]
		}
		u.list = append(u.list, l)
		u.sheet, u.offcut = append(u.sheet, i), append(u.offcut, none)
		u.priced = u.priced && h.Price > 0
	}
	for _, l := range u.list {
		r := layout.Rect{Width: l.Width - l.Trim.Left - l.Trim.Right, Height: l.Height - l.Trim.Bottom - l.Trim.Top}
		if r.Area() > u.largest.Area() {
			u.largest = r
		}
	}
	return u
}

// stack lays kinds of one metal out. With a cutter to fall back on it returns
// the kinds that need a longer cut than the shear makes, and says nothing of
// them.
func (m *maker) stack(metal *design.Metal, way Way, kinds []*kind, cutter bool) (long []*kind) {
	u := m.supply(metal, way)
	if len(u.list) == 0 {
		m.sayNoSheet(metal, way, kinds)
		return nil
	}
	p := layout.Problem{Sheets: u.list}
	if u.priced {
		p.Aim = layout.LeastMoney
	}
	gap := HandGap
	if way == ByShear {
		p.Shear, p.Grip = m.in.Shop.Shear.Width, m.in.Shop.Shear.Least
	} else {
		p.Kerf = m.in.Shop.Cutter.Kerf
		gap = max(gap, p.Kerf)
	}
	st := Stack{Metal: metal, Way: way, Kerf: p.Kerf, Aim: p.Aim}
	if m.in.Places {
		one := single(kinds, p, m.mayTurn(metal))
		left, sure, err := layout.Roomy(&one.problem)
		// What the shear leaves to the cutter comes from what is left of the stock.
		if err == nil && sure && !(cutter && len(left) > 0 && m.scarce(metal)) {
			long = m.leave(&st, &one, left, u, cutter)
			m.stow(st)
			return long
		}
	}
	best, err := choose(kinds, p, gap, m.mayTurn(metal))
	if err != nil {
		m.sayError(metal, err)
		return nil
	}
	st.Bound, st.MoneyBound = bound(&best, kinds, m.mayTurn(metal))
	long = m.leave(&st, &best, best.plan.Left, u, cutter)
	d := dealer{m: m, st: &st, supply: u, best: best, dealt: map[*kind][]int{}}
	d.deal()
	m.stow(st)
	return long
}

// stow adds a stack to the plan, if anything is in it.
func (m *maker) stow(st Stack) {
	if len(st.Sheets) > 0 || len(st.Left) > 0 {
		m.plan.Stacks = append(m.plan.Stacks, st)
	}
}

// scarce reports whether the shop has but a number of some sheets or offcuts of a metal.
func (m *maker) scarce(metal *design.Metal) bool {
	return slices.ContainsFunc(m.in.Shop.Sheets, func(s design.Sheet) bool { return s.Metal == metal && s.Stocked }) ||
		slices.ContainsFunc(m.in.Shop.Offcuts, func(o design.Offcut) bool { return o.Metal == metal })
}

// leave notes down what has no place. With a cutter to fall back on it returns what
// is too long for the shear instead.
func (m *maker) leave(st *Stack, s *solved, left []layout.Left, u supply, cutter bool) (long []*kind) {
	for _, l := range left {
		b := s.bundles[l.Piece]
		over := b.kind.split(l.Count * len(b.block.pieces))
		if l.Why == layout.TooLong && cutter {
			long = append(long, over)
			continue
		}
		for _, batch := range over.many {
			st.Left = append(st.Left, Left{batch.blank, batch.count, l.Why})
			m.sayLeft(st, batch.blank, batch.count, l.Why, u)
		}
	}
	return long
}

// order puts kinds down to be had ready cut.
func (m *maker) order(metal *design.Metal, kinds []*kind) {
	why := m.tooThick(metal)
	for _, k := range kinds {
		for _, batch := range k.many {
			b := m.in.Blanks[batch.blank]
			o := Order{
				Blank: batch.blank, Name: b.Name, Part: b.Part, Metal: metal, Quantity: batch.count,
				Width: b.Width, Length: b.Length, Why: why,
			}
			o.Money = float64(o.Quantity) * b.Width * b.Length * metal.Thickness * metal.Density * 1e-9 * metal.Price
			m.plan.Orders = append(m.plan.Orders, o)
			m.say(finding.Caution, o.Part, check.Shear, why)
		}
	}
}
