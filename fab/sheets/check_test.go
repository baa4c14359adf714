package sheets

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/layout"
)

// loose, in mm, is how far a length in a plan may be from what it should be: the
// layout works in micrometres.
const loose = 0.006

// fault says what is wrong with a plan, by rules of its own: it shares nothing
// with what makes plans but the types. It returns "" for a sound plan.
func fault(in *Input, p *Plan) string {
	got := make([]int, len(in.Blanks))
	for i := range p.Stacks {
		st := &p.Stacks[i]
		for _, l := range st.Left {
			got[l.Blank] += l.Count
		}
		if f := stackFault(in, st, got); f != "" {
			return fmt.Sprintf("%s by %s: %s", st.Metal.Name, st.Way, f)
		}
	}
	for _, o := range p.Orders {
		got[o.Blank] += o.Quantity
	}
	for i, b := range in.Blanks {
		if got[i] != b.Quantity {
			return fmt.Sprintf("blank %d, %s: %d laid, left or ordered, want %d", i, b.Name, got[i], b.Quantity)
		}
	}
	return ""
}

func stackFault(in *Input, st *Stack, got []int) string {
	count, offcuts, money, metal, area := 0, 0, 0.0, 0.0, 0.0
	for n := range st.Sheets {
		s := &st.Sheets[n]
		if s.Copies < 1 || len(s.Blocks) == 0 {
			return fmt.Sprintf("%s: %d copies of %d blocks", s.Name, s.Copies, len(s.Blocks))
		}
		if s.Offcut {
			offcuts += s.Copies
		} else {
			count += s.Copies
			money += s.Price * float64(s.Copies)
		}
		area += s.Length * s.Width * float64(s.Copies)
		for _, b := range s.Blocks {
			for _, q := range b.Pieces {
				if in.Blanks[q.Blank].Metal != st.Metal {
					return fmt.Sprintf("%s: %s is of another metal", s.Name, q.Name)
				}
				got[q.Blank] += s.Copies
				metal += insideOf(in.Blanks[q.Blank].Outline) * float64(s.Copies)
			}
		}
		if f := sheetFault(in, st, s); f != "" {
			return s.Name + ": " + f
		}
	}
	if count != st.Count || offcuts != st.Offcuts || math.Abs(money-st.Money) > 1e-6 {
		return fmt.Sprintf("says %d sheets, %d offcuts, %g money; has %d, %d, %g", st.Count, st.Offcuts, st.Money, count, offcuts, money)
	}
	if st.Bound > count || st.MoneyBound > money*(1+1e-9) {
		return fmt.Sprintf("bounds of %d sheets and %g money are above %d and %g", st.Bound, st.MoneyBound, count, money)
	}
	if area > 0 && math.Abs(st.Used-metal/area) > 1e-4 { // one outline stands for those within 0.01 mm of it
		return fmt.Sprintf("says %g of the sheets is used, has %g", st.Used, metal/area)
	}
	return ""
}

func insideOf(outline []r2.Vec) (a float64) {
	for i, p := range outline {
		a += r2.Cross(p, outline[(i+1)%len(outline)]) / 2
	}
	return a
}

func sheetFault(in *Input, st *Stack, s *Sheet) string {
	turn := true
	for _, h := range in.Shop.Sheets {
		turn = turn && (h.Metal != st.Metal || h.Turn)
	}
	var blocks []layout.Rect
	for i := range s.Blocks {
		b := &s.Blocks[i]
		blocks = append(blocks, b.Rect)
		if b.X < s.Trim-loose || b.Y < s.Trim-loose || b.X+b.Width > s.Length-s.Trim+loose || b.Y+b.Height > s.Width-s.Trim+loose {
			return fmt.Sprintf("block %d, %v, leaves the sheet", i, b.Rect)
		}
		var outlines [][]r2.Vec
		for k := range b.Pieces {
			q := &b.Pieces[k]
			blank := in.Blanks[q.Blank]
			if q.Name != blank.Name || q.Part != blank.Part {
				return fmt.Sprintf("block %d: a piece is called %s of %s, want %s of %s", i, q.Name, q.Part, blank.Name, blank.Part)
			}
			// The flat's own axes, turned: with y along the sheet's x where it may
			// not be turned.
			sin, cos := math.Sin(q.Angle), math.Cos(q.Angle)
			if !turn && math.Abs(cos) > 1e-9 {
				return fmt.Sprintf("%s lies across the rolling direction, at %g rad", q.Name, q.Angle)
			}
			if q.Turned != (math.Abs(cos) > math.Abs(sin)) {
				return fmt.Sprintf("%s at %g rad is told as turned: %v", q.Name, q.Angle, q.Turned)
			}
			var out []r2.Vec
			for _, v := range blank.Outline {
				out = append(out, r2.Vec{X: v.X*cos - v.Y*sin + q.At.X, Y: v.X*sin + v.Y*cos + q.At.Y})
			}
			lo, hi := out[0], out[0]
			for _, v := range out {
				lo, hi = r2.Vec{X: min(lo.X, v.X), Y: min(lo.Y, v.Y)}, r2.Vec{X: max(hi.X, v.X), Y: max(hi.Y, v.Y)}
			}
			// Blanks within 0.01 mm of each other are of one kind.
			const slack = loose + 0.015
			if lo.X < b.X-slack || lo.Y < b.Y-slack || hi.X > b.X+b.Width+slack || hi.Y > b.Y+b.Height+slack {
				return fmt.Sprintf("%s from %v to %v leaves its block %v", q.Name, lo, hi, b.Rect)
			}
			if math.Abs(q.Box.X-lo.X)+math.Abs(q.Box.Y-lo.Y)+math.Abs(q.Box.X+q.Box.Width-hi.X)+math.Abs(q.Box.Y+q.Box.Height-hi.Y) > 0.1 {
				return fmt.Sprintf("%s from %v to %v has the box %v", q.Name, lo, hi, q.Box)
			}
			outlines = append(outlines, out)
			for j := range outlines[:k] {
				if d := distance(outlines[j], out); d < max(HandGap, st.Kerf)-0.03 {
					return fmt.Sprintf("%s and %s in block %d are %g mm apart, want %g", q.Name, b.Pieces[j].Name, i, d, max(HandGap, st.Kerf))
				}
			}
		}
	}
	for i, a := range append(slices.Clone(blocks), s.Left...) {
		for _, b := range append(slices.Clone(blocks), s.Left...)[:i] {
			if a.X < b.X+b.Width+st.Kerf-loose && b.X < a.X+a.Width+st.Kerf-loose && a.Y < b.Y+b.Height+st.Kerf-loose && b.Y < a.Y+a.Height+st.Kerf-loose {
				return fmt.Sprintf("%v overlaps %v", a, b)
			}
		}
	}
	return cutsFault(in, st, s)
}

// distance returns the distance of two outlines, 0 where they overlap.
func distance(a, b []r2.Vec) float64 {
	if inside(a, b[0]) || inside(b, a[0]) {
		return 0
	}
	least := math.Inf(1)
	for i, p := range a {
		p2 := a[(i+1)%len(a)]
		for k, q := range b {
			q2 := b[(k+1)%len(b)]
			if max(p.X, p2.X)+least < min(q.X, q2.X) || max(q.X, q2.X)+least < min(p.X, p2.X) ||
				max(p.Y, p2.Y)+least < min(q.Y, q2.Y) || max(q.Y, q2.Y)+least < min(p.Y, p2.Y) {
				continue
			}
			d, e := r2.Sub(p2, p), r2.Sub(q2, q)
			if r2.Cross(d, r2.Sub(q, p))*r2.Cross(d, r2.Sub(q2, p)) < 0 && r2.Cross(e, r2.Sub(p, q))*r2.Cross(e, r2.Sub(p2, q)) < 0 {
				return 0
			}
			least = min(least, toLine(p, q, q2), toLine(p2, q, q2), toLine(q, p, p2), toLine(q2, p, p2))
		}
	}
	return least
}

func toLine(p, q, s r2.Vec) float64 {
	d := r2.Sub(s, q)
	t := 0.0
	if n := r2.Norm2(d); n > 0 {
		t = min(max(r2.Dot(r2.Sub(p, q), d)/n, 0), 1)
	}
	return r2.Norm(r2.Sub(p, r2.Add(q, r2.Scale(t, d))))
}

func inside(outline []r2.Vec, p r2.Vec) (in bool) {
	for i, a := range outline {
		b := outline[(i+1)%len(outline)]
		if (a.Y > p.Y) != (b.Y > p.Y) && p.X < a.X+(b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y) {
			in = !in
		}
	}
	return in
}

// cutsFault makes the cuts one by one on the sheet: each goes from edge to edge
// of a part in hand, and in the end every block is one of the parts.
func cutsFault(in *Input, st *Stack, s *Sheet) string {
	hands := []layout.Rect{{Width: s.Length, Height: s.Width}}
	at := func(r layout.Rect) int {
		return slices.IndexFunc(hands, func(h layout.Rect) bool {
			return math.Abs(h.X-r.X) < loose && math.Abs(h.Y-r.Y) < loose && math.Abs(h.Width-r.Width) < loose && math.Abs(h.Height-r.Height) < loose
		})
	}
	for n, c := range s.Cuts {
		if c.Number != n+1 {
			return fmt.Sprintf("cut %d has the number %d", n+1, c.Number)
		}
		i := at(c.Hand)
		if i < 0 {
			return fmt.Sprintf("cut %d: no part %v is in hand", n+1, c.Hand)
		}
		h := hands[i]
		length, depth := h.Width, h.Height
		if c.Upright {
			length, depth = depth, length
		}
		if math.Abs(c.Cut.Length()-length) > loose {
			return fmt.Sprintf("cut %d is %g long, not from edge to edge of %v", n+1, c.Cut.Length(), h)
		}
		if st.Way == ByShear && length > in.Shop.Shear.Width+loose {
			return fmt.Sprintf("cut %d is %g long, the shear %g", n+1, length, in.Shop.Shear.Width)
		}
		low, high := h, h
		first := c.Stop
		if c.High {
			first = depth - c.Stop - st.Kerf
		}
		second := max(depth-first-st.Kerf, 0)
		if first < -st.Kerf-loose {
			return fmt.Sprintf("cut %d: the stop is at %g of %g", n+1, c.Stop, depth)
		}
		first = max(first, 0)
		if c.Upright {
			low.Width, high.X, high.Width = first, h.X+h.Width-second, second
		} else {
			low.Height, high.Y, high.Height = first, h.Y+h.Height-second, second
		}
		hands = append(slices.Delete(hands, i, i+1), low, high)
		for _, k := range c.Frees {
			if at(s.Blocks[k].Rect) < 0 {
				return fmt.Sprintf("cut %d does not free block %d, %v", n+1, k, s.Blocks[k].Rect)
			}
		}
	}
	freed := make([]int, len(s.Blocks))
	for _, c := range s.Cuts {
		for _, k := range c.Frees {
			freed[k]++
		}
	}
	for i := range s.Blocks {
		if at(s.Blocks[i].Rect) < 0 || len(s.Cuts) > 0 && freed[i] != 1 {
			return fmt.Sprintf("block %d, %v, is cut free %d times", i, s.Blocks[i].Rect, freed[i])
		}
	}
	return ""
}
