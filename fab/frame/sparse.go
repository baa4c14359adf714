package frame

import "gonum.org/v1/gonum/blas/blas64"

// six is how many unknowns a body has. Bodies either meet in a beam or do not, so
// that a matrix is made of whole blocks of that size.
const six = 6

// A sparse matrix is a symmetric one, or the factors L and D of one, by the blocks
// left of the diagonal that are not all zero.
type sparse struct {
	own    [][six]float64 // of each row, its part of the block on the diagonal, up to the diagonal
	start  []int          // of each row, its first block
	column []int          // of each row of a block, where it begins
	value  [][six]float64
}

// sparse returns the matrix without its empty blocks.
func (s *skyline) sparse() *sparse {
	n := len(s.first)
	out := &sparse{own: make([][six]float64, n), start: make([]int, n+1)}
	for range 2 { // to count, and then to fill in
		count := 0
		for i, first := range s.first {
			row, at := s.row(i), i%six
			for k := 0; k < len(row)-1-at; k += six {
				if v := ([six]float64)(row[k:]); v != [six]float64{} {
					if out.value != nil {
						out.column[count], out.value[count] = first+k, v
					}
					count++
				}
			}
			copy(out.own[i][:], row[len(row)-1-at:])
			out.start[i+1] = count
		}
		if out.value == nil {
			out.column, out.value = make([]int, count), make([][six]float64, count)
		}
	}
	return out
}

// reach gives x room for all that its right sides reach: in elimination what is
// right of a block that is not zero, and then what is left of that.
func (s *sparse) reach(x *table) {
	for i := range s.own {
		for _, column := range s.column[s.start[i]:s.start[i+1]] {
			if x.block(column/six) != nil {
				x.take(i / six)
			}
		}
	}
	for i := len(s.own) - 1; i >= 0; i-- {
		if x.block(i/six) != nil {
			for _, column := range s.column[s.start[i]:s.start[i+1]] {
				x.take(column / six)
			}
		}
	}
}

// solveAll solves for all right sides of x at once, in place. The matrix must be
// factors. Blocks that no right side reaches are passed over: they stay zero.
func (s *sparse) solveAll(x *table) {
	n := x.columns
	if !x.full {
		s.reach(x)
	}
	axpy := func(k float64, from, to []float64) {
		if k != 0 {
			blas64.Implementation().Daxpy(n, -k, from, 1, to, 1)
		}
	}
	for i := range s.own {
		own := x.block(i / six)
		if own == nil {
			continue
		}
		at := i % six
		to := own[at*n : (at+1)*n]
		for b := s.start[i]; b < s.start[i+1]; b++ {
			if from := x.block(s.column[b] / six); from != nil {
				for k, l := range &s.value[b] {
					axpy(l, from[k*n:], to)
				}
			}
		}
		for k, l := range s.own[i][:at] {
			axpy(l, own[k*n:], to)
		}
	}
	for i := range s.own {
		if own := x.block(i / six); own != nil {
			at := i % six
			row, d := own[at*n:(at+1)*n], 1/s.own[i][at]
			for c := range row {
				row[c] *= d
			}
		}
	}
	for i := len(s.own) - 1; i >= 0; i-- {
		own := x.block(i / six)
		if own == nil {
			continue
		}
		at := i % six
		from := own[at*n : (at+1)*n]
		for k, l := range s.own[i][:at] {
			axpy(l, from, own[k*n:])
		}
		for b := s.start[i]; b < s.start[i+1]; b++ {
			to := x.block(s.column[b] / six)
			for k, l := range &s.value[b] {
				axpy(l, from, to[k*n:])
			}
		}
	}
}

// The loops below keep the vectors' sums in variables of their own, which stay in
// registers: in arrays they would go to memory and back for each term.

// solve solves for some right sides, in place. The matrix must be factors.
func (s *sparse) solve(x panel) {
	for i := range x {
		x0, x1, x2, x3 := x[i][0], x[i][1], x[i][2], x[i][3]
		for r := s.start[i]; r < s.start[i+1]; r++ {
			block := (*[six]lanes)(x[s.column[r]:])
			for k, l := range &s.value[r] {
				b := &block[k]
				x0 -= l * b[0]
				x1 -= l * b[1]
				x2 -= l * b[2]
				x3 -= l * b[3]
			}
		}
		at := i % six
		block := (*[six]lanes)(x[i-at:])
		for k, l := range s.own[i][:at] {
			b := &block[k]
			x0 -= l * b[0]
			x1 -= l * b[1]
			x2 -= l * b[2]
			x3 -= l * b[3]
		}
		x[i] = lanes{x0, x1, x2, x3}
	}
	for i := range x {
		d := 1 / s.own[i][i%six]
		for c := range x[i] {
			x[i][c] *= d
		}
	}
	for i := len(x) - 1; i >= 0; i-- {
		x0, x1, x2, x3 := x[i][0], x[i][1], x[i][2], x[i][3]
		at := i % six
		block := (*[six]lanes)(x[i-at:])
		for k, l := range s.own[i][:at] {
			b := &block[k]
			b[0] -= l * x0
			b[1] -= l * x1
			b[2] -= l * x2
			b[3] -= l * x3
		}
		for r := s.start[i]; r < s.start[i+1]; r++ {
			block := (*[six]lanes)(x[s.column[r]:])
			for k, l := range &s.value[r] {
				b := &block[k]
				b[0] -= l * x0
				b[1] -= l * x1
				b[2] -= l * x2
				b[3] -= l * x3
			}
		}
	}
}

// apply sets y to the matrix times x.
func (s *sparse) apply(x, y panel) {
	clear(y)
	for i := range x {
		x0, x1, x2, x3 := x[i][0], x[i][1], x[i][2], x[i][3]
		var y0, y1, y2, y3 float64
		for r := s.start[i]; r < s.start[i+1]; r++ {
			from, to := (*[six]lanes)(x[s.column[r]:]), (*[six]lanes)(y[s.column[r]:])
			for k, a := range &s.value[r] {
				u, v := &from[k], &to[k]
				y0 += a * u[0]
				y1 += a * u[1]
				y2 += a * u[2]
				y3 += a * u[3]
				v[0] += a * x0
				v[1] += a * x1
				v[2] += a * x2
				v[3] += a * x3
			}
		}
		at := i % six
		from, to := (*[six]lanes)(x[i-at:]), (*[six]lanes)(y[i-at:])
		for k, a := range s.own[i][:at] {
			u, v := &from[k], &to[k]
			y0 += a * u[0]
			y1 += a * u[1]
			y2 += a * u[2]
			y3 += a * u[3]
			v[0] += a * x0
			v[1] += a * x1
			v[2] += a * x2
			v[3] += a * x3
		}
		d, w := s.own[i][at], &y[i]
		w[0] += y0 + d*x0
		w[1] += y1 + d*x1
		w[2] += y2 + d*x2
		w[3] += y3 + d*x3
	}
}
