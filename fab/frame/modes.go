package frame

import (
	"errors"
	"math"
	"slices"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

const (
	// settled is the change from one turn of the iteration to the next, as a
	// share, at which an eigenvalue is taken as found. Its error is then less
	// than this over one less the square of the ratio of the block's slowest
	// eigenvalues.
	settled = 1e-10

	// mostTurns bounds the iteration.
	mostTurns = 60
)

// A Mode is a way in which the sculpture swings by itself.
type Mode struct {
	Frequency float64 // Hz
	// Shape has how each body moves and turns, three and three, in the order of
	// Frame.Bodies; the longest movement of a body is 1.
	Shape [][2]r3.Vec
}

// Modes returns the n lowest modes, lowest first: fewer where the frame has
// fewer. Checked tells that the count of frequencies below just above the
// highest of them, by the signs of the pivots of K - w2 M (Sturm), is their
// number, so that none was missed.
func (f *Frame) Modes(n int) (modes []Mode, checked bool, err error) {
	n = min(n, f.Unknowns)
	if n == 0 {
		return nil, true, nil
	}
	// The block is larger than asked for, so that near-equal lowest modes, as of
	// a stand alike in two directions, do not slow it down.
	block := min(2*n+1, f.Unknowns)
	values, vectors, err := f.lowest(f.mass, block, n)
	if err != nil {
		return nil, false, err
	}
	for i, v := range values {
		if !(v > 0) {
			values = values[:i] // no mass moves
			break
		}
	}
	for i, v := range values[:min(n, len(values))] {
		// Stiffness is in N/mm, which is 1000 kg/s2.
		modes = append(modes, Mode{Frequency: math.Sqrt(1000/v) / (2 * math.Pi), Shape: f.shape(vectors, i, block)})
	}
	if len(modes) == 0 {
		return nil, true, nil
	}
	return modes, f.sturm(values[len(modes)-1]) == len(modes) || f.repeated(values, len(modes)), nil
}

// repeated reports whether the eigenvalue after the nth is the same but for
// rounding, so that the count falls between two equal ones.
func (f *Frame) repeated(values []float64, n int) bool {
	return n < len(values) && values[n] > values[n-1]*(1-2*sturmGap) && f.sturm(values[n]) == n+1
}

// sturmGap is how far above the highest frequency, as a share of its square, the
// count is taken.
const sturmGap = 1e-4

// sturm returns how many squares of frequencies lie under a little more than 1/v.
func (f *Frame) sturm(v float64) int {
	s := f.mass.alike()
	shift := -(1 + sturmGap) / v
	for i, m := range f.mass.value {
		s.value[i] = shift * m
	}
	for i := range f.Beams {
		if b := &f.Beams[i]; b.A != b.B {
			f.add(s, b, &b.k)
		}
	}
	negative, bad := s.factor()
	if bad >= 0 {
		return -1
	}
	return negative
}

// lowest returns the greatest eigenvalues v of B x = v K x, and their vectors as
// columns of a matrix with a row for each unknown, by iteration of a block of
// vectors (Bathe, Finite Element Procedures, 11.6). They are settled up to the
// nth; the rest are estimates.
func (f *Frame) lowest(b *skyline, block, n int) (values, vectors []float64, err error) {
	y := f.start(b, block)
	x, bx := make([]float64, len(y)), make([]float64, len(y))
	values = make([]float64, block)
	for range mostTurns {
		copy(x, y)
		f.factored.solve(x, block)
		b.apply(x, bx, block)
		k, m := project(x, y, block), project(x, bx, block)
		found, turn, ok := small(k, m)
		if !ok {
			return nil, nil, errors.New("the modes could not be told apart")
		}
		rotate(x, turn, block)
		rotate(bx, turn, block)
		still := true
		for i := range n {
			if math.Abs(found[i]-values[i]) > settled*math.Abs(found[i]) {
				still = false
			}
		}
		values = found
		if still {
			return values, x, nil
		}
		y, bx = bx, y
	}
	return nil, nil, errors.New("the modes did not settle")
}

// start returns vectors to begin with: the whole pulled along x, y and z and
// turned about them by its own mass, and then some that favour nothing.
func (f *Frame) start(b *skyline, block int) []float64 {
	x, y := make([]float64, f.Unknowns*block), make([]float64, f.Unknowns*block)
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
		for c := range block {
			var u r3.Vec
			switch c {
			case 0:
				u.X = 1
			case 1:
				u.Y = 1
			case 2:
				u = r3.Cross(r3.Vec{Z: 1}, rel)
			case 3:
				u.X = rel.Z
			case 4:
				u.Y = rel.Z
			case 5:
				u.Z = 1
			default:
				u = r3.Vec{X: noise(&seed), Y: noise(&seed), Z: noise(&seed)}
			}
			for i, v := range [3]float64{u.X, u.Y, u.Z} {
				x[(body.First+i)*block+c] = v
			}
			for i := range 3 {
				x[(body.First+3+i)*block+c] += 1e-4 * noise(&seed)
			}
		}
	}
	b.apply(x, y, block)
	return y
}

// noise returns the next of a fixed run of numbers from -1 to 1, by Knuth's
// linear congruence.
func noise(seed *uint64) float64 {
	*seed = *seed*6364136223846793005 + 1442695040888963407
	return float64(int64(*seed)>>11) / (1 << 52)
}

// project returns x' y.
func project(x, y []float64, n int) *mat.SymDense {
	sums := make([]float64, n*n)
	for at := 0; at < len(x); at += n {
		for i, v := range x[at : at+n] {
			axpy(v, y[at:at+n], sums[i*n:(i+1)*n])
		}
	}
	s := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			s.SetSym(i, j, (sums[i*n+j]+sums[j*n+i])/2)
		}
	}
	return s
}

// small solves m z = v k z, greatest v first, for z' k z = 1.
func small(k, m *mat.SymDense) (values []float64, vectors *mat.Dense, ok bool) {
	n := k.SymmetricDim()
	// The columns may differ much in length.
	scale := make([]float64, n)
	for i := range scale {
		scale[i] = 1
		if d := k.At(i, i); d > 0 {
			scale[i] = 1 / math.Sqrt(d)
		}
	}
	for i := range n {
		for j := i; j < n; j++ {
			k.SetSym(i, j, k.At(i, j)*scale[i]*scale[j])
			m.SetSym(i, j, m.At(i, j)*scale[i]*scale[j])
		}
	}
	var c mat.Cholesky
	if !c.Factorize(k) {
		return nil, nil, false
	}
	var lower mat.TriDense
	c.LTo(&lower)
	var half, full mat.Dense
	if half.Solve(&lower, m) != nil || full.Solve(&lower, half.T()) != nil {
		return nil, nil, false
	}
	s := mat.NewSymDense(n, nil)
	for i := range n {
		for j := i; j < n; j++ {
			s.SetSym(i, j, (full.At(i, j)+full.At(j, i))/2)
		}
	}
	var e mat.EigenSym
	if !e.Factorize(s, true) {
		return nil, nil, false
	}
	var w, z mat.Dense
	e.VectorsTo(&w)
	if z.Solve(lower.T(), &w) != nil {
		return nil, nil, false
	}
	values = e.Values(nil)
	slices.Reverse(values)
	vectors = mat.NewDense(n, n, nil)
	for i := range n {
		for j := range n {
			vectors.Set(i, j, z.At(i, n-1-j)*scale[i])
		}
	}
	return values, vectors, true
}

// rotate sets x to x times a small matrix.
func rotate(x []float64, turn *mat.Dense, n int) {
	row := make([]float64, n)
	for at := 0; at < len(x); at += n {
		clear(row)
		for i, v := range x[at : at+n] {
			axpy(v, turn.RawRowView(i), row)
		}
		copy(x[at:at+n], row)
	}
}

// shape returns the movement of all bodies in column c.
func (f *Frame) shape(x []float64, c, n int) [][2]r3.Vec {
	list := make([][2]r3.Vec, len(f.Bodies))
	longest := 0.0
	for i, b := range f.Bodies {
		if b.First < 0 {
			continue
		}
		v := func(k int) float64 { return x[(b.First+k)*n+c] }
		list[i] = [2]r3.Vec{{X: v(0), Y: v(1), Z: v(2)}, {X: v(3), Y: v(4), Z: v(5)}}
		longest = max(longest, r3.Norm(list[i][0]))
	}
	if longest > 0 {
		for i := range list {
			list[i] = [2]r3.Vec{r3.Scale(1/longest, list[i][0]), r3.Scale(1/longest, list[i][1])}
		}
	}
	return list
}

// owner returns the part of the body that an unknown belongs to.
func (f *Frame) owner(unknown int) *design.Part {
	for _, b := range f.Bodies {
		if b.First >= 0 && b.First <= unknown && unknown < b.First+6 {
			return b.Part
		}
	}
	return nil
}
