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

	// roughly is the same for buckling. The factor is wanted alike however the
	// whole is turned, to some 1e-8.
	roughly = 1e-10

	// blind is how many turns are made before the eigenvalues are looked for:
	// the first only clear the vectors of what is far off.
	blind = 2

	// patience is after how many turns the matrix is shifted, and mostShifts how
	// often: by then the error is far under the share of the lowest that the shift
	// stays clear of, which is firstClear at first and a tenth of that each time.
	patience, mostShifts = 8, 8
	firstClear           = 0.02
)

// lane is how many vectors are worked on at once: as many as the processor has
// room to add up.
const lane = 4

// lanes is one unknown of some vectors.
type lanes [lane]float64

// A panel is some vectors side by side: a row for each unknown.
type panel []lanes

// panels returns an empty block of as many vectors as are wanted, or some more,
// which stay zero.
func (f *Frame) panels(width int) []panel {
	list := make([]panel, (width+lane-1)/lane)
	all := make([]lanes, len(list)*f.Unknowns)
	for i := range list {
		list[i] = all[i*f.Unknowns : (i+1)*f.Unknowns]
	}
	return list
}

// lowest returns the greatest eigenvalues v of B x = v K x, and their vectors,
// by iteration of a block of vectors (Bathe, Finite Element Procedures, 11.6).
// They are found to within the given error up to the nth; the rest are
// estimates. The vectors are good until the next call.
//
// Each turn takes the error of an eigenvalue down by about the same share q, so
// that what is left is about the last change times q / (1 - q). Of many posts that
// are nearly alike q is nearly 1: then the matrix is shifted.
func (f *Frame) lowest(b *skyline, n int, within float64) (values []float64, vectors []panel, err error) {
	if f.room[0] == nil {
		for i := range f.room {
			f.room[i] = f.panels(min(block, f.Unknowns))
		}
	}
	width := min(block, f.Unknowns)
	if n == 1 {
		width = min(lane, f.Unknowns) // one value needs fewer beside it
	}
	used := (width + lane - 1) / lane
	x, y, bx := f.room[0][:used], f.room[1][:used], f.room[2][:used]
	for i := range x {
		clear(x[i])
	}
	f.start(x, width)
	weights := b.sparse()
	for i := range x {
		weights.apply(x[i], y[i])
	}
	factors, shift := f.factors, 0.0
	var change [block]float64
	for shifts := range mostShifts {
		for turn := range patience {
			for i := range x {
				copy(x[i], y[i])
				factors.solve(x[i])
				weights.apply(x[i], bx[i])
			}
			if shifts == 0 && turn < blind {
				y, bx = bx, y
				continue
			}
			stiff, moved := project(x, y), project(x, bx)
			found, rotation, ok := small(&stiff, &moved, width)
			if !ok {
				return nil, nil, errors.New("the modes could not be separated")
			}
			for i, v := range found {
				found[i] = 1 / (1/v + shift)
			}
			still := turn > blind+1
			for i := range values[:min(n, len(values))] {
				c := 0.0
				if found[i] != values[i] {
					c = math.Abs(found[i]-values[i]) / max(math.Abs(found[i]), math.Abs(values[i]))
				}
				share := c / change[i]
				if left := c * share / (1 - share); !(share < 1 && left < within || c < rounding) {
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
		if factors, shift = f.shifted(b, values[0], firstClear/math.Pow(10, float64(shifts))); factors == nil {
			break
		}
	}
	return nil, nil, errors.New("the modes did not settle")
}

// shifted returns the factors of K - s B, with s under 1/v by about a share, v
// being the greatest eigenvalue as far as it is found: where eigenvalues lie close
// together this sets them apart, so that a turn takes the error down by much
// more. The matrix keeps its pivots positive; nil where it does not.
func (f *Frame) shifted(b *skyline, v, clear float64) (*sparse, float64) {
	if !(v > 0) {
		return nil, 0
	}
	k := f.stiff.alike()
	for ; clear < 1; clear *= 4 {
		shift := (1 - clear) / v
		for i, m := range b.value {
			k.value[i] = f.stiff.value[i] - shift*m
		}
		if negative, bad := k.factor(); negative == 0 && bad < 0 {
			return k.sparse(), shift
		}
	}
	return nil, 0
}

// rounding is the change, as a share, under which an eigenvalue only trembles.
const rounding = 1e-13

// start fills in vectors to begin with: the whole pulled along x, y and z and
// bent and turned, and then some that favour nothing.
func (f *Frame) start(x []panel, width int) {
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
			p, c := x[c/lane][body.First:], c%lane
			p[0][c], p[1][c], p[2][c] = u.X, u.Y, u.Z
			for k := 3; k < 6; k++ {
				p[k][c] = 1e-4 * noise(&seed)
			}
		}
	}
}

// noise returns the next of a fixed run of numbers from -1 to 1, by Knuth's
// linear congruence.
func noise(seed *uint64) float64 {
	*seed = *seed*6364136223846793005 + 1442695040888963407
	return float64(int64(*seed)>>11) / (1 << 52)
}

// A square is a matrix between the vectors of a block.
type square [block][block]float64

// project returns x' y where that is symmetric.
func project(x, y []panel) (s square) {
	for i := range x {
		for j := range i + 1 {
			for c := range lane {
				s.fill(i*lane+c, j*lane, x[i], c, y[j])
			}
		}
	}
	return s
}

// fill sets a row from a column on, and the column that mirrors it, to the
// products of a vector of x with those of y.
func (s *square) fill(row, column int, x panel, c int, y panel) {
	var s0, s1, s2, s3 float64
	y = y[:len(x)]
	for k := range x {
		v, u := x[k][c], &y[k]
		s0 += v * u[0]
		s1 += v * u[1]
		s2 += v * u[2]
		s3 += v * u[3]
	}
	for d, v := range [lane]float64{s0, s1, s2, s3} {
		s[row][column+d], s[column+d][row] = v, v
	}
}

// rotate sets x to x times a matrix.
func rotate(x []panel, by *square) {
	for k := range x[0] {
		var all [block]float64
		for i := range x {
			copy(all[i*lane:], x[i][k][:])
		}
		for i := range x {
			var s0, s1, s2, s3 float64
			for c, v := range all[:len(x)*lane] {
				r := by[c][i*lane : i*lane+lane : i*lane+lane]
				s0 += v * r[0]
				s1 += v * r[1]
				s2 += v * r[2]
				s3 += v * r[3]
			}
			x[i][k] = lanes{s0, s1, s2, s3}
		}
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
				to[i*width+j] = from[i][j] * scale[i] * scale[j]
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
