package layout

import (
	"slices"
)

// A scale changes lengths so that lengths which together fit into the sheet's
// still do: a conservative scale, from a dual feasible function. It holds the
// new lengths of each piece's two sizes as shares of the sheet's.
//
// Fekete and Schepers, "A general framework for bounds for higher-dimensional
// orthogonal packing problems", Mathematical Methods of Operations Research 60
// (2004).
type scale struct {
	w, h []float64
}

// A scaler gives the new length of one of x, as a share of the sheet's.
type scaler func(x int32) float64

// straight keeps lengths as they are.
func straight(c int32) scaler {
	return func(x int32) float64 { return float64(x) / float64(c) }
}

// rounding drops lengths below eps and takes those that leave less than eps of
// c beside them for all of c. Martello and Vigo, "Exact solution of the
// two-dimensional finite bin packing problem", Management Science 44 (1998).
func rounding(c, eps int32) scaler {
	return func(x int32) float64 {
		switch {
		case x > c-eps:
			return 1
		case x < eps:
			return 0
		}
		return float64(x) / float64(c)
	}
}

// counting rounds lengths to multiples of a k-th of what they are of c: f2 of
// Carlier, Clautiaux and Moukrim, "New reduction procedures and lower bounds for
// the two-dimensional bin packing problem with fixed orientation", Computers &
// Operations Research 34 (2007). k is at most half of c.
func counting(c, k int32) scaler {
	all := float64(c / k)
	return func(x int32) float64 {
		switch {
		case 2*x > c:
			return 1 - float64((c-x)/k)/all
		case 2*x == c:
			return 0.5
		}
		return float64(x/k) / all
	}
}

// stepping rounds lengths down to k-ths of c except those that are whole
// (k+1)-ths: u(k) of Fekete and Schepers, "New classes of fast lower bounds for
// bin packing problems", Mathematical Programming 91 (2001).
func stepping(c int32, k int64) scaler {
	return func(x int32) float64 {
		n := (k + 1) * int64(x)
		if n%int64(c) == 0 {
			return float64(x) / float64(c)
		}
		return float64(n/int64(c)) / float64(k)
	}
}

// fitting counts how many of the lengths themselves, from k to half of c, fit
// beside one: f1 of Carlier, Clautiaux and Moukrim, above, after Boschetti and
// Mingozzi, "The two-dimensional finite bin packing problem", 4OR 1 (2003). The
// lengths are sorted and hold every length that a piece may have along c.
func fitting(c, k int32, lengths []int32) scaler {
	from, _ := slices.BinarySearch(lengths, k)
	sums := []int64{0} // of the shortest ones
	for _, x := range lengths[from:] {
		if 2*x > c {
			break
		}
		sums = append(sums, sums[len(sums)-1]+int64(x))
	}
	fit := func(room int32) float64 {
		n, _ := slices.BinarySearch(sums, int64(room)+1)
		return float64(n - 1)
	}
	all := fit(c)
	if all == 0 {
		return nil
	}
	return func(x int32) float64 {
		switch {
		case 2*x > c:
			return 1 - fit(c-x)/all
		case x < k:
			return 0
		}
		return 1 / all
	}
}

// scales returns the scales of a length c that are of use with the pieces, about
// twice as many as asked for before those that bound nothing better are left
// out. both reports that pieces may lie either way along c, upright that their
// height lies along it, where they are not turned.
func scales(c int32, pieces []kindred, both, upright bool, most int) []scale {
	var lengths []int32
	for i := range pieces {
		p := &pieces[i]
		for range p.count {
			if both || p.turn || !upright {
				lengths = append(lengths, p.w)
			}
			if both || p.turn || upright {
				lengths = append(lengths, p.h)
			}
		}
	}
	slices.Sort(lengths)
	var marks []int32 // where a scale of the pieces may change
	for _, x := range slices.Compact(slices.Clone(lengths)) {
		for _, m := range [...]int32{x, x + 1, c - x, c - x + 1} {
			if m > 0 && 2*m <= c {
				marks = append(marks, m)
			}
		}
	}
	for j := int32(2); j <= 12 && c/j > 0; j++ {
		marks = append(marks, c/j)
	}
	slices.Sort(marks)
	marks = slices.Compact(marks)

	fs := []scaler{straight(c)}
	for k := range int64(12) {
		fs = append(fs, stepping(c, k+1))
	}
	stride := max(1, 3*len(marks)/(2*most))
	for i := 0; i < len(marks); i += stride {
		m := marks[i]
		fs = append(fs, rounding(c, m), counting(c, m))
		if f := fitting(c, m, lengths); f != nil {
			fs = append(fs, f)
		}
	}
	var all []scale
	for _, f := range fs {
		s := scale{make([]float64, len(pieces)), make([]float64, len(pieces))}
		for i := range pieces {
			// A size longer than c is along it in no layout.
			s.w[i], s.h[i] = f(min(pieces[i].w, c)), f(min(pieces[i].h, c))
		}
		all = append(all, s)
	}
	return undominated(all)
}

// undominated leaves out scales that are nowhere above another: they bound
// nothing better.
func undominated(all []scale) []scale {
	under := func(a, b *scale) bool {
		for i := range a.w {
			if a.w[i] > b.w[i] || a.h[i] > b.h[i] {
				return false
			}
		}
		return true
	}
	var out []scale
	for i := range all {
		if slices.ContainsFunc(out, func(b scale) bool { return under(&all[i], &b) }) {
			continue
		}
		out = slices.DeleteFunc(out, func(b scale) bool { return under(&b, &all[i]) })
		out = append(out, all[i])
	}
	return out
}
