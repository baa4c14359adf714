package layout

import (
	"cmp"
	"math"
	"slices"
)

// Lower bounds are proven by area: scale the pieces along x and along y such
// that every layout stays one, add up their areas, and no layout can have fewer
// sheets than the sum fills. They hold for all layouts, edge to edge or not.
//
// A piece that may be turned counts with the smaller of its two areas; on a
// square sheet, where each layout may be mirrored about the diagonal, with
// their mean, if all pieces do.

// kindred are equal pieces.
type kindred struct {
	w, h  int32
	turn  bool
	count int
}

func kinds(rects []rect) []kindred {
	var all []kindred
	for i := range rects {
		r := &rects[i]
		k := kindred{r.w, r.h, r.turn, 1}
		if k.turn && k.w < k.h {
			k.w, k.h = k.h, k.w
		}
		all = append(all, k)
	}
	slices.SortFunc(all, func(a, b kindred) int {
		turn := 0
		if a.turn != b.turn {
			turn = 1
			if a.turn {
				turn = -1
			}
		}
		return cmp.Or(cmp.Compare(b.w, a.w), cmp.Compare(b.h, a.h), turn)
	})
	out := all[:0]
	for _, k := range all {
		if n := len(out); n > 0 && out[n-1].w == k.w && out[n-1].h == k.h && out[n-1].turn == k.turn {
			out[n-1].count++
			continue
		}
		out = append(out, k)
	}
	return out
}

// guard is taken off a sum of areas before it is rounded up: far above the
// error of summing most numbers of about 1 in floating point, 1e-11, and far
// below the least share of a sheet that pieces of whole micrometres make up.
const guard = 1e-7

func whole(sheets float64) int { return int(math.Ceil(sheets - guard*max(1, sheets))) }

// boards returns a proven least number of sheets for the pieces, offcuts
// counted. It stops looking for a better one at enough, or after about as many
// products as work.
func boards(rects []rect, stocks []stock, enough int, work int64) (bound int, done int64) {
	if len(rects) == 0 {
		return 0, 0
	}
	var w, h int32
	for i := range stocks {
		w, h = max(w, stocks[i].w), max(h, stocks[i].h)
	}
	pieces := kinds(rects)
	for i := range pieces {
		if k := &pieces[i]; k.turn && (k.w > w || k.h > h || k.w > h || k.h > w) { // one way only
			k.turn = false
			if k.w > w || k.h > h {
				k.w, k.h = k.h, k.w
			}
		}
	}
	turned := slices.ContainsFunc(pieces, func(k kindred) bool { return k.turn })
	mirror := w == h && turned
	most := int(math.Sqrt(float64(work) / float64(len(pieces))))
	xs := scales(w, pieces, mirror, false, most)
	ys := xs
	if !mirror {
		ys = scales(h, pieces, false, true, most)
	}
	// By diagonals, so that the work, if it ends early, is not all spent on a
	// few of xs.
	for d := range len(xs) + len(ys) - 1 {
		for i := max(0, d-len(ys)+1); i <= min(d, len(xs)-1); i++ {
			j := d - i
			if mirror && j < i {
				break // the same as the other way round
			}
			if done >= work {
				return bound, done
			}
			sum := fill(pieces, &xs[i], &ys[j], mirror)
			done += int64(len(pieces))
			if bound = max(bound, whole(sum)); bound >= enough {
				return bound, done
			}
		}
	}
	return bound, done
}

// fill returns how many sheets the scaled pieces fill.
func fill(pieces []kindred, x, y *scale, mirror bool) float64 {
	var sum, mean float64
	for i := range pieces {
		k := &pieces[i]
		n := float64(k.count)
		upright, turned := x.w[i]*y.h[i], x.h[i]*y.w[i]
		mean += float64(n * (upright + turned))
		if k.turn {
			upright = min(upright, turned)
		}
		sum += float64(n * upright)
	}
	if mirror {
		return max(sum, mean/2)
	}
	return sum
}

// A floor is what no layout of the pieces goes below.
type floor struct {
	sheets int // offcuts not counted
	cost   float64
	money  float64
}

// Bound returns proven bounds for pieces of which only some of the shape is a
// rectangle, such as discs: every layout in which the given rectangles do not
// overlap, and which takes at least so much metal in mm2, has a number of sheets and
// costs so much. Pieces that no sheet can hold are left out, and so must be
// their metal.
func Bound(p *Problem, metal float64) (sheets int, money float64, err error) {
	if err := p.Err(); err != nil {
		return 0, 0, err
	}
	list := stocks(p)
	pieces, _ := rects(p, list)
	s := newSearch(pieces, list)
	f := s.floor(p, len(pieces), boundProducts)
	// A melt of that much metal; the kerf is left out, which bounds no less.
	need := metal * unit * unit * (1 - guard)
	whole := whole(s.melt(need, func(k int) float64 {
		if p.Sheets[k].Offcut {
			return 0
		}
		return 1
	}))
	melted := s.melt(need, func(k int) float64 {
		if p.Sheets[k].Offcut {
			return 0
		}
		return p.Sheets[k].Price
	})
	sheets, lowest := max(f.sheets, whole), math.Inf(1)
	for _, sheet := range p.Sheets {
		if !sheet.Offcut {
			lowest = min(lowest, sheet.Price)
		}
	}
	money = max(f.money, melted)
	if sheets > 0 && !math.IsInf(lowest, 1) {
		money = max(money, float64(float64(sheets)*lowest))
	}
	return sheets, money, nil
}

// boundProducts is how much work goes into Bound: a few milliseconds at most.
const boundProducts = 200_000

// floor returns proven bounds. See boards for enough and work; the bound by
// area alone needs none.
func (s *search) floor(p *Problem, enough int, work int64) floor {
	offcuts, cheapest, lowest := 0, math.Inf(1), math.Inf(1)
	for k, sheet := range p.Sheets {
		if sheet.Offcut {
			offcuts += sheet.Count
			continue
		}
		cheapest = min(cheapest, s.stocks[k].cost)
		lowest = min(lowest, sheet.Price)
	}
	f := floor{
		sheets: whole(s.melt(float64(s.total()), func(k int) float64 {
			if p.Sheets[k].Offcut {
				return 0
			}
			return 1
		})),
		cost: s.melt(float64(s.total()), func(k int) float64 { return s.stocks[k].cost }),
		money: s.melt(float64(s.total()), func(k int) float64 {
			if p.Sheets[k].Offcut {
				return 0
			}
			return p.Sheets[k].Price
		}),
	}
	if work > 0 {
		n, done := boards(s.rects, s.stocks, enough+offcuts, work)
		s.steps += done / productsPerStep
		f.sheets = max(f.sheets, n-offcuts)
	}
	if f.sheets > 0 && !math.IsInf(cheapest, 1) {
		f.cost = max(f.cost, float64(float64(f.sheets)*cheapest))
		f.money = max(f.money, float64(float64(f.sheets)*lowest))
	}
	return f
}

// melt returns the least cost of sheets whose area is what is needed, where
// sheets may be bought in parts: the continuous bound.
func (s *search) melt(need float64, cost func(k int) float64) float64 {
	order := make([]int, len(s.stocks))
	for k := range order {
		order[k] = k
	}
	rate := func(k int) float64 { return cost(k) / float64(s.stocks[k].area) }
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(rate(a), rate(b)) })
	var sum float64
	for _, k := range order {
		have := float64(float64(s.stocks[k].area) * float64(s.stocks[k].count))
		take := min(need, have)
		sum += float64(rate(k) * take)
		if need -= take; need <= 0 {
			break
		}
	}
	return sum
}
