package frame

import (
	"cmp"
	"errors"
	"math"
	"slices"

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
func panels(rows, width int) []panel {
	list := make([]panel, (width+lane-1)/lane)
	all := make([]lanes, len(list)*rows)
	for i := range list {
		list[i] = all[i*rows : (i+1)*rows]
	}
	return list
}

// An eigen is an eigenvalue with its vector, which is zero but for some rows.
type eigen struct {
	value  float64
	from   int // the first of them
	vector []float64
}

// A task is a group with what is iterated on it.
type task struct {
	*group
	own     *skyline // of B
	weights *sparse  // the same
	rank    int      // by its greatest eigenvalue, about; the greatest is the least
}

// lowest returns the n greatest eigenvalues v of B x = v K x, greatest first, or all
// where there are fewer. Each is one of a group of bodies by itself. Those groups that
// are likely to have the greatest come first: of most others a count then shows that
// they have none that is greater.
func (f *Frame) lowest(b *skyline, n int, within float64) ([]eigen, error) {
	var tasks []task
	for i := range f.split() {
		t := task{group: &f.groups[i]}
		t.own = b.part(t.from, t.to)
		if slices.ContainsFunc(t.own.value, func(m float64) bool { return m != 0 }) {
			t.weights = t.own.sparse()
			tasks = append(tasks, t)
		}
	}
	if len(tasks) > 1 {
		for i := range tasks {
			tasks[i].rank = f.guess(&tasks[i])
		}
		slices.SortStableFunc(tasks, func(a, b task) int { return cmp.Compare(a.rank, b.rank) })
	}
	var list []eigen
	for i := range tasks {
		t := &tasks[i]
		if len(list) >= n && !t.above(list[n-1].value) {
			continue
		}
		found, err := f.iterate(t, n, within)
		if err != nil {
			return nil, err
		}
		// Of those that are alike the first of the frame stays the first.
		for _, e := range found {
			at := len(list)
			for at > 0 && (e.value > list[at-1].value*(1+alike) || e.value > list[at-1].value*(1-alike) && e.from < list[at-1].from) {
				at--
			}
			list = slices.Insert(list, at, e)
		}
		list = list[:min(n, len(list))]
	}
	return list, nil
}

// alike is how near, as a share, eigenvalues of two groups are the same but for rounding.
const alike = 1e-9

// guess ranks a group by the greatest of Rayleigh's quotients of how it gives when it is
// pulled, to about a millionth, so that rounding does not part groups that are alike.
func (f *Frame) guess(t *task) int {
	x, y, bx := f.blocks(t.to-t.from, 1)
	f.start(t.group, x, lane)
	t.weights.apply(x[0], y[0])
	copy(x[0], y[0])
	t.factors.solve(x[0])
	t.weights.apply(x[0], bx[0])
	var stiff, moved lanes
	for k := range x[0] {
		for c, v := range x[0][k] {
			stiff[c] += v * y[0][k][c]
			moved[c] += v * bx[0][k][c]
		}
	}
	most := 0.0
	for c := range stiff {
		if stiff[c] > 0 {
			most = max(most, moved[c]/stiff[c])
		}
	}
	if most == 0 {
		return math.MaxInt
	}
	return int(math.Round(-1e6 * math.Log(most)))
}

// above reports whether a group has an eigenvalue above v: whether K - B/v has a negative
// pivot (Sturm).
func (t *task) above(v float64) bool {
	if !(v > 0) {
		return true
	}
	k := t.stiff.alike()
	shift := 1 / (v * (1 + alike))
	for i, m := range t.own.value {
		k.value[i] = t.stiff.value[i] - shift*m
	}
	negative, bad := k.factor()
	return negative > 0 || bad >= 0
}

// iterate returns the n greatest eigenvalues of a task, found to within the given error,
// by iteration of a block of vectors (Bathe, Finite Element Procedures, 11.6).
//
// Each turn takes the error of an eigenvalue down by about the same share q, so
// that what is left is about the last change times q / (1 - q). Of many posts that
// are nearly alike q is nearly 1: then the matrix is shifted.
func (f *Frame) iterate(t *task, n int, within float64) ([]eigen, error) {
	rows := t.to - t.from
	width := min(block, rows)
	if n == 1 {
		width = min(lane, rows) // one value needs fewer beside it
	}
	x, y, bx := f.blocks(rows, width)
	f.start(t.group, x, width)
	for i := range x {
		t.weights.apply(x[i], y[i])
	}
	factors, shift := t.factors, 0.0
	var values []float64
	var change [block]float64
	for shifts := range mostShifts {
		for turn := range patience {
			for i := range x {
				copy(x[i], y[i])
				factors.solve(x[i])
				t.weights.apply(x[i], bx[i])
			}
			if shifts == 0 && turn < blind {
				y, bx = bx, y
				continue
			}
			stiff, moved := project(x, y), project(x, bx)
			found, rotation, ok := small(&stiff, &moved, width)
			if !ok {
				return nil, errors.New("the modes could not be separated")
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
				return eigens(t.group, values[:min(n, width)], x), nil
			}
			rotate(bx, rotation)
			y, bx = bx, y
		}
		if factors, shift = t.shifted(values[0], firstClear/math.Pow(10, float64(shifts))); factors == nil {
			break
		}
	}
	return nil, errors.New("the modes did not settle")
}

// blocks returns room for three blocks of vectors, the first of them zero.
func (f *Frame) blocks(rows, width int) (x, y, bx []panel) {
	if f.room[0] == nil {
		most := 0
		for i := range f.groups {
			most = max(most, f.groups[i].to-f.groups[i].from)
		}
		for i := range f.room {
			f.room[i] = panels(most, block)
		}
	}
	var list [3][]panel
	for i, room := range f.room {
		for _, p := range room[:(width+lane-1)/lane] {
			list[i] = append(list[i], p[:rows])
		}
	}
	for _, p := range list[0] {
		clear(p)
	}
	return list[0], list[1], list[2]
}

// eigens returns values with their vectors, taken from the columns of x.
func eigens(g *group, values []float64, x []panel) []eigen {
	list := make([]eigen, len(values))
	for c, v := range values {
		list[c] = eigen{value: v, from: g.from, vector: make([]float64, len(x[0]))}
		for k := range x[0] {
			list[c].vector[k] = x[c/lane][k][c%lane]
		}
	}
	return list
}

// shifted returns the factors of K - s B, with s under 1/v by about a share, v
// being the greatest eigenvalue as far as it is found: where eigenvalues lie close
// together this sets them apart, so that a turn takes the error down by much
// more. The matrix keeps its pivots positive; nil where it does not.
func (t *task) shifted(v, clear float64) (*sparse, float64) {
	if !(v > 0) {
		return nil, 0
	}
	k := t.stiff.alike()
	for ; clear < 1; clear *= 4 {
		shift := (1 - clear) / v
		for i, m := range t.own.value {
			k.value[i] = t.stiff.value[i] - shift*m
		}
		if negative, bad := k.factor(); negative == 0 && bad < 0 {
			return k.sparse(), shift
		}
	}
	return nil, 0
}

// rounding is the change, as a share, under which an eigenvalue only trembles.
const rounding = 1e-13

// start fills in vectors to begin with: the whole group pulled along x, y and z and
// bent and turned, and then some that favour nothing.
func (f *Frame) start(g *group, x []panel, width int) {
	var middle r3.Vec
	for _, i := range g.bodies {
		middle = r3.Add(middle, r3.Scale(1/float64(len(g.bodies)), f.Bodies[i].At))
	}
	seed := uint64(1)
	for k, i := range g.bodies {
		body := &f.Bodies[i]
		rel := r3.Sub(body.At, middle)
		turned := r3.Cross(r3.Vec{Z: 1}, rel)
		pulls := [...]r3.Vec{{X: 1}, {Y: 1}, turned, {X: rel.Z}, {Y: rel.Z}}
		for c := range width {
			u := r3.Vec{X: noise(&seed), Y: noise(&seed), Z: noise(&seed)}
			if c < len(pulls) {
				u = pulls[c]
			}
			p, c := x[c/lane][six*k:], c%lane
			p[0][c], p[1][c], p[2][c] = u.X, u.Y, u.Z
			for k := 3; k < six; k++ {
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
