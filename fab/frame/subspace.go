package frame

import (
	"errors"
	"math"

	"gonum.org/v1/gonum/blas"
	"gonum.org/v1/gonum/blas/blas64"
	"gonum.org/v1/gonum/lapack"
	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/spatial/r3"
)

// A block of vectors is iterated, not one: where the two lowest frequencies are
// nearly the same, as of a stand alike in two directions, a single vector stops
// between the two. It is wide enough for twice the modes that are wanted.
const block = 8

// mostModes is how many modes a block finds well.
const mostModes = block / 2

const (
	// settled is the error, as a share, at which an eigenvalue is taken as found.
	settled = 1e-11

	// roughly is the same for buckling, of which only the first figures matter.
	roughly = 1e-9

	// mostTurns bounds the iteration.
	mostTurns = 100
)

// lanes is one unknown of all vectors of a block.
type lanes [block]float64

// add adds k x.
func (y *lanes) add(k float64, x *lanes) {
	y[0] += k * x[0]
	y[1] += k * x[1]
	y[2] += k * x[2]
	y[3] += k * x[3]
	y[4] += k * x[4]
	y[5] += k * x[5]
	y[6] += k * x[6]
	y[7] += k * x[7]
}

// lowest returns the greatest eigenvalues v of B x = v K x, and their vectors,
// by iteration of a block of vectors (Bathe, Finite Element Procedures, 11.6).
// They are found to within the given error up to the nth; the rest are
// estimates.
//
// Each turn takes the error of an eigenvalue down by about the same share q, so
// that what is left is about the last change times q / (1 - q).
func (f *Frame) lowest(b *skyline, n int, within float64) (values []float64, vectors []lanes, err error) {
	width := min(block, f.Unknowns)
	y := f.start(b, width)
	x, bx := make([]lanes, len(y)), make([]lanes, len(y))
	var change [block]float64
	for turn := range mostTurns {
		copy(x, y)
		f.factored.solveBlock(x)
		b.applyBlock(x, bx)
		found, rotation, ok := small(project(x, y), project(x, bx), width)
		if !ok {
			return nil, nil, errors.New("the modes could not be told apart")
		}
		still := turn > 1
		for i := range n {
			if turn == 0 {
				still = false
				break
			}
			c := 0.0
			if found[i] != values[i] {
				c = math.Abs(found[i]-values[i]) / max(math.Abs(found[i]), math.Abs(values[i]))
			}
			share := c / change[i]
			if left := c * share / (1 - share); turn > 1 && !(share < 1 && left < within || c < rounding) {
				still = false
			}
			change[i] = c
		}
		values = found
		if still {
			rotate(x, rotation)
			return values, x, nil
		}
		rotate(bx, rotation)
		y, bx = bx, y
	}
	return nil, nil, errors.New("the modes did not settle")
}

// rounding is the change, as a share, under which an eigenvalue only trembles.
const rounding = 1e-13

// solveBlock solves for a block of right sides, in place.
func (s *skyline) solveBlock(x []lanes) {
	for i := range x {
		row, below := s.row(i), x[s.first[i]:]
		xi := &x[i]
		for k, l := range row[:len(row)-1] {
			if l != 0 {
				xi.add(-l, &below[k])
			}
		}
	}
	for i := range x {
		d := 1 / s.value[s.start[i+1]-1]
		for c := range x[i] {
			x[i][c] *= d
		}
	}
	for i := len(x) - 1; i >= 0; i-- {
		row, below := s.row(i), x[s.first[i]:]
		xi := &x[i]
		for k, l := range row[:len(row)-1] {
			if l != 0 {
				below[k].add(-l, xi)
			}
		}
	}
}

// applyBlock sets y to the matrix times x. The matrix must not be factored.
func (s *skyline) applyBlock(x, y []lanes) {
	clear(y)
	for i := range x {
		row, first := s.row(i), s.first[i]
		xi, yi := &x[i], &y[i]
		for k, a := range row[:len(row)-1] {
			if a != 0 {
				yi.add(a, &x[first+k])
				y[first+k].add(a, xi)
			}
		}
		yi.add(row[len(row)-1], xi)
	}
}

// start returns vectors to begin with, times B: the whole pulled along x, y and z
// and bent and turned, and then some that favour nothing.
func (f *Frame) start(b *skyline, width int) []lanes {
	x, y := make([]lanes, f.Unknowns), make([]lanes, f.Unknowns)
	var middle r3.Vec
	for _, body := range f.Bodies {
		middle = r3.Add(middle, r3.Scale(1/float64(len(f.Bodies)), body.At))
	}
	seed := uint64(1)
	for _, body := range f.Bodies {
		if body.First < 0 {
			continue
		}
		rel := r3.Sub(body.At, middle)
		turned := r3.Cross(r3.Vec{Z: 1}, rel)
		pulls := [...]r3.Vec{{X: 1}, {Y: 1}, turned, {X: rel.Z}, {Y: rel.Z}}
		for c := range width {
			u := r3.Vec{X: noise(&seed), Y: noise(&seed), Z: noise(&seed)}
			if c < len(pulls) {
				u = pulls[c]
			}
			x[body.First][c], x[body.First+1][c], x[body.First+2][c] = u.X, u.Y, u.Z
			for k := 3; k < 6; k++ {
				x[body.First+k][c] = 1e-4 * noise(&seed)
			}
		}
	}
	b.applyBlock(x, y)
	return y
}

// noise returns the next of a fixed run of numbers from -1 to 1, by Knuth's
// linear congruence.
func noise(seed *uint64) float64 {
	*seed = *seed*6364136223846793005 + 1442695040888963407
	return float64(int64(*seed)>>11) / (1 << 52)
}

// A square is a matrix between the vectors of a block.
type square [block]lanes

// project returns x' y.
func project(x, y []lanes) *square {
	var s square
	for i := range x {
		xi, yi := &x[i], &y[i]
		for c := range s {
			s[c].add(xi[c], yi)
		}
	}
	return &s
}

// rotate sets x to x times a matrix.
func rotate(x []lanes, by *square) {
	for i := range x {
		var sum lanes
		for c := range by {
			sum.add(x[i][c], &by[c])
		}
		x[i] = sum
	}
}

// small solves m z = v k z for the first columns of two symmetric matrices,
// greatest v first, for z' k z = 1: by Cholesky's factors of k to a plain
// symmetric matrix.
func small(k, m *square, width int) (values []float64, vectors *square, ok bool) {
	var flat, work [block * block]float64
	var scale, list [block]float64
	for i := range width {
		if scale[i] = 1; k[i][i] > 0 { // the vectors may differ much in length
			scale[i] = 1 / math.Sqrt(k[i][i])
		}
	}
	fill := func(from *square, to []float64) {
		for i := range width {
			for j := range width {
				to[i*width+j] = (from[i][j] + from[j][i]) / 2 * scale[i] * scale[j]
			}
		}
	}
	factor := func() (blas64.Triangular, bool) {
		return lapack64.Potrf(blas64.Symmetric{Uplo: blas.Lower, N: width, Stride: width, Data: flat[:width*width]})
	}
	fill(k, flat[:])
	lower, ok := factor()
	if !ok {
		// Where less moves than there are vectors, some of them are the same. A
		// little on the diagonal sets them apart, with values that come last.
		fill(k, flat[:])
		for i := range width {
			flat[i*width+i] += 1e-12
		}
		if lower, ok = factor(); !ok {
			return nil, nil, false
		}
	}
	fill(m, work[:])
	plain := blas64.General{Rows: width, Cols: width, Stride: width, Data: work[:width*width]}
	blas64.Trsm(blas.Left, blas.NoTrans, 1, lower, plain)
	blas64.Trsm(blas.Right, blas.Trans, 1, lower, plain)
	sym := blas64.Symmetric{Uplo: blas.Lower, N: width, Stride: width, Data: plain.Data}
	var room [block * block * 4]float64
	if !lapack64.Syev(lapack.EVCompute, sym, list[:width], room[:], len(room)) {
		return nil, nil, false
	}
	blas64.Trsm(blas.Left, blas.Trans, 1, lower, plain)
	vectors, values = new(square), make([]float64, width)
	for j := range width {
		last := width - 1 - j
		values[j] = list[last]
		for i := range width {
			vectors[i][j] = plain.Data[i*width+last] * scale[i]
		}
	}
	return values, vectors, true
}
