package sheets

import (
	"cmp"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/layout"
)

// bound returns what no way to lay the kinds goes below, be they in their
// rectangles or together: their metal by area, and the layouts of the largest
// rectangle that each of them holds from side to side. It is 0 where the sheets
// at hand do not suffice.
func bound(s *solved, kinds []*kind, turn bool) (sheets int, money float64) {
	out := map[*kind]bool{}
	for _, l := range s.plan.Left {
		if l.Why == layout.NoSheets {
			return 0, 0
		}
		out[s.bundles[l.Piece].kind] = true
	}
	p := s.problem
	p.Pieces = nil
	metal := 0.0
	for _, k := range kinds {
		if out[k] {
			continue
		}
		metal += k.area * float64(k.count)
		if w, h := k.core(); w > 0 && h > 0 {
			p.Pieces = append(p.Pieces, layout.Piece{Width: w, Height: h, Count: k.count, Turn: turn})
		}
	}
	n, m, err := layout.Bound(&p, metal)
	if err != nil {
		return 0, 0
	}
	if p.Aim != layout.LeastMoney {
		m = 0
	}
	return n, m
}

// core returns the largest rectangle inside the outline that goes from side to
// side of the rectangle in which a piece lies as it is drawn: what is straight
// of a tube between its trimmed ends. It is none for one that lies askew.
func (k *kind) core() (w, h float64) {
	if k.lie.angle != asDrawn {
		return 0, 0
	}
	if k.sheared {
		return k.w, k.h
	}
	// A hair less, so that what rounding adds does not count.
	a := run(k.laid, k.w) - fine
	b := run(exchanged(k.laid), k.h) - fine
	if k.w*a >= k.h*b {
		return k.w - fine, max(a, 0)
	}
	return max(b, 0), k.h - fine
}

// run returns the greatest height over which an outline keeps the full width w
// of its box: over which no side of it comes inside.
func run(outline []r2.Vec, w float64) (most float64) {
	type span struct{ lo, hi float64 }
	var in []span
	top := 0.0
	p := outline[len(outline)-1]
	for _, q := range outline {
		top = max(top, q.Y)
		a, b := p, q
		p = q
		if a.X > b.X {
			a, b = b, a
		}
		lo, hi := max(a.X, fine/2), min(b.X, w-fine/2)
		if lo > hi {
			continue
		}
		at := func(x float64) float64 {
			if b.X-a.X < sameHeight {
				return a.Y
			}
			return a.Y + float64((b.Y-a.Y)*((x-a.X)/(b.X-a.X)))
		}
		ends := span{at(lo), at(hi)}
		if b.X-a.X < sameHeight {
			ends = span{a.Y, b.Y}
		}
		in = append(in, span{min(ends.lo, ends.hi), max(ends.lo, ends.hi)})
	}
	slices.SortFunc(in, func(a, b span) int { return cmp.Compare(a.lo, b.lo) })
	from := 0.0
	for _, s := range append(in, span{top, top}) {
		most = max(most, s.lo-from)
		from = max(from, s.hi)
	}
	return most
}
