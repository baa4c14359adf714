package plate

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/lapack/lapack64"
	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/internal/domain"
)

// A Plate is a base plate of any convex outline that stands free of the ground on its anchors.
type Plate struct {
	Outline   []r2.Vec // convex, counter-clockwise
	Anchors   []r2.Vec // each holds the plate up and down and lets it turn
	Posts     []Post
	Thickness float64
	Modulus   float64
}

// A Post is the stiff end of a tube on the plate.
type Post struct {
	At     r2.Vec
	Radius float64 // outside
}

// A Spring is how stiff the plate is under one post, nothing else being on it.
type Spring struct {
	// Rotational is in N mm/rad, against leaning toward x and toward y.
	Rotational [2]float64
	// Axial is in N/mm, against a force down or up.
	Axial float64
}

// Softer is what the elements' springs are multiplied by. They leave shear out and hold the
// plate at points: without it they are 1.02 to 1.05 times as stiff as solid bricks (1.11 where
// the post comes near to its anchors), with it 0.96 to 1.05.
const Softer = 0.94

// fineness is how many elements go across the plate at least.
const fineness = 6

// Springs returns the spring under each post, by thin plate elements of four corners and twelve
// unknowns. A post is a stiff square (see the code). The ground is not counted on: rigid ground
// adds 13 to 45 %. All is Softer times what the elements give.
//
// It takes a few ms; the answers for the last plates are kept, since the plate of many variations
// is one.
//
// It needs three anchors that are not in a line, all of them on the plate and outside of posts.
func (p Plate) Springs() ([]Spring, error) {
	return known.of(p.key(), p.springs)
}

func (p Plate) springs() ([]Spring, error) {
	fail := func(err error) ([]Spring, error) { return nil, fmt.Errorf("plate: %w", err) }
	if err := p.check(); err != nil {
		return fail(err)
	}
	g, err := p.grid()
	if err != nil {
		return fail(err)
	}
	k, err := g.condense(3 * len(p.Posts))
	if err != nil {
		return fail(err)
	}
	var flex mat.Dense
	if err := flex.Inverse(k); err != nil {
		return fail(fmt.Errorf("the anchors do not hold it: %w", err))
	}
	unit := Softer * p.Modulus * math.Pow(p.Thickness, 3) / (12 * (1 - poisson*poisson))
	list := make([]Spring, len(p.Posts))
	for i := range list {
		for n, to := range [3]*float64{&list[i].Axial, &list[i].Rotational[0], &list[i].Rotational[1]} {
			give := flex.At(3*i+n, 3*i+n)
			if !(give > 0) || math.IsInf(give, 0) {
				return fail(fmt.Errorf("the anchors do not hold it"))
			}
			*to = unit / give
		}
	}
	return list, nil
}

func (p Plate) check() error {
	if n := len(p.Outline); n < 3 || n > 200 {
		return fmt.Errorf("an outline of %d corners: there must be 3 to 200", n)
	}
	if n := len(p.Anchors); n < 3 || n > 40 {
		return fmt.Errorf("%d anchors: there must be 3 to 40", n)
	}
	if n := len(p.Posts); n < 1 || n > 20 {
		return fmt.Errorf("%d posts: there must be 1 to 20", n)
	}
	values := []domain.Value{domain.Length("thickness", p.Thickness), domain.Stress("modulus", p.Modulus)}
	for _, list := range [][]r2.Vec{p.Outline, p.Anchors} {
		for _, q := range list {
			values = append(values, domain.Offset("point", q.X), domain.Offset("point", q.Y))
		}
	}
	for _, q := range p.Posts {
		values = append(values, domain.Offset("point", q.At.X), domain.Offset("point", q.At.Y), domain.Length("post radius", q.Radius))
	}
	if err := domain.Check(values...); err != nil {
		return err
	}
	line := 0.0 // the greatest area of a triangle of anchors
	for i, a := range p.Anchors {
		if !within(p.Outline, a, 1e-6) {
			return fmt.Errorf("anchor %d is not on it", i+1)
		}
		for _, q := range p.Posts {
			if s := square(q); math.Abs(a.X-q.At.X) < s && math.Abs(a.Y-q.At.Y) < s {
				return fmt.Errorf("anchor %d is under a post", i+1)
			}
		}
		line = max(line, math.Abs(r2.Cross(r2.Sub(p.Anchors[1], p.Anchors[0]), r2.Sub(a, p.Anchors[0]))))
	}
	if !(line > 0) {
		return fmt.Errorf("the anchors are in a line")
	}
	for i, q := range p.Posts {
		s := square(q)
		for _, c := range []r2.Vec{{X: s, Y: s}, {X: -s, Y: s}, {X: -s, Y: -s}, {X: s, Y: -s}} {
			if !within(p.Outline, r2.Add(q.At, c), 0) {
				return fmt.Errorf("post %d is not on it", i+1)
			}
		}
		for _, o := range p.Posts[:i] {
			if d := r2.Sub(q.At, o.At); max(math.Abs(d.X), math.Abs(d.Y)) <= s+square(o) {
				return fmt.Errorf("post %d is on another", i+1)
			}
		}
	}
	return nil
}

// square returns half the side of the stiff square that stands for a post. With 0.82 of its
// radius round plates come to within 2 % of Annulus; a square of the same area would be up to a
// third too stiff.
func square(q Post) float64 { return 0.82 * q.Radius }

// within reports whether a point is in a convex outline, or outside of it by no more than a length.
func within(outline []r2.Vec, q r2.Vec, slack float64) bool {
	for i, a := range outline {
		side := r2.Sub(outline[(i+1)%len(outline)], a)
		if l := r2.Norm(side); l > 0 && r2.Cross(side, r2.Sub(q, a))/l < -slack {
			return false
		}
	}
	return true
}

// lines returns the grid lines along an axis: through each place that must have one, and between
// them closer to the posts than far away.
func lines(low, high float64, must []float64, posts [][2]float64) []float64 {
	span := high - low
	slices.Sort(must)
	const apart = 1e-3 // of the span: nearer ones are one
	list := []float64{low}
	for _, x := range append(must, high) {
		if x-list[len(list)-1] > apart*span && (high-x > apart*span || x == high) {
			list = append(list, x)
		}
	}
	list[len(list)-1] = high
	// Halve what is too wide: a share of the span, and beside a post its own half width and
	// half of how far it is.
	for i := 0; i+1 < len(list) && len(list) < 200; {
		a, b := list[i], list[i+1]
		most := span / fineness
		for _, p := range posts {
			gap := max(0, a-p[0]-p[1], p[0]-p[1]-b)
			most = min(most, max(p[1], 0.02*span)+gap)
		}
		if b-a > most*(1+1e-9) {
			list = slices.Insert(list, i+1, (a+b)/2)
			continue
		}
		i++
	}
	return list
}

// A grid is the plate in elements. An unknown of a node is free, or held at an anchor, or goes
// with a post's three.
type grid struct {
	xs, ys []float64
	cells  [][2]int // of elements that are plate
	post   []int    // of each node, the post that it goes with; -1
	held   []bool   // of each node
	number []int    // of each unknown of each node; -1 where it is not free
	free   int
	posts  []Post
}

func (p Plate) grid() (*grid, error) {
	low, high := p.Outline[0], p.Outline[0]
	for _, q := range p.Outline {
		low, high = r2.Vec{X: min(low.X, q.X), Y: min(low.Y, q.Y)}, r2.Vec{X: max(high.X, q.X), Y: max(high.Y, q.Y)}
	}
	var mustX, mustY []float64
	var postX, postY [][2]float64
	for _, a := range p.Anchors {
		mustX, mustY = append(mustX, a.X), append(mustY, a.Y)
	}
	for _, q := range p.Posts {
		s := square(q)
		mustX, mustY = append(mustX, q.At.X-s, q.At.X+s), append(mustY, q.At.Y-s, q.At.Y+s)
		postX, postY = append(postX, [2]float64{q.At.X, s}), append(postY, [2]float64{q.At.Y, s})
	}
	if !(high.X > low.X) || !(high.Y > low.Y) {
		return nil, fmt.Errorf("the outline has no area")
	}
	g := &grid{xs: lines(low.X, high.X, mustX, postX), ys: lines(low.Y, high.Y, mustY, postY), posts: p.Posts}
	n := len(g.xs) * len(g.ys)
	g.post, g.held, g.number = make([]int, n), make([]bool, n), make([]int, 3*n)
	used := make([]bool, n)
	for i := range len(g.xs) - 1 {
		for j := range len(g.ys) - 1 {
			if within(p.Outline, r2.Vec{X: (g.xs[i] + g.xs[i+1]) / 2, Y: (g.ys[j] + g.ys[j+1]) / 2}, 0) {
				g.cells = append(g.cells, [2]int{i, j})
				for _, c := range g.corners(i, j) {
					used[c] = true
				}
			}
		}
	}
	// An anchor holds the nearest node that is plate.
	for i, a := range p.Anchors {
		best, at := math.Inf(1), -1
		for c := range used {
			if d := r2.Norm(r2.Sub(g.at(c), a)); used[c] && d < best {
				best, at = d, c
			}
		}
		if at < 0 {
			return nil, fmt.Errorf("anchor %d is on no element", i+1)
		}
		g.held[at] = true
	}
	for c := range n {
		g.post[c] = -1
		at := g.at(c)
		for i, q := range p.Posts {
			// Lines that were taken as one may stand off by a little.
			s := square(q) * (1 + 1e-9)
			if math.Abs(at.X-q.At.X) <= s && math.Abs(at.Y-q.At.Y) <= s {
				g.post[c] = i
			}
		}
		for k := range 3 {
			g.number[3*c+k] = -1
			if used[c] && g.post[c] < 0 && (k > 0 || !g.held[c]) {
				g.number[3*c+k] = g.free
				g.free++
			}
		}
	}
	for i := range p.Posts {
		if !slices.Contains(g.post, i) {
			return nil, fmt.Errorf("post %d is too thin for its plate", i+1)
		}
	}
	return g, nil
}

func (g *grid) node(i, j int) int { return i*len(g.ys) + j }

func (g *grid) at(node int) r2.Vec {
	return r2.Vec{X: g.xs[node/len(g.ys)], Y: g.ys[node%len(g.ys)]}
}

func (g *grid) corners(i, j int) [4]int {
	return [4]int{g.node(i, j), g.node(i+1, j), g.node(i+1, j+1), g.node(i, j+1)}
}

// A share is how an unknown goes with a post's three.
type share struct {
	master int
	factor float64
}

// shares returns how an unknown of a node goes with its post's deflection and slopes.
func (g *grid) shares(node, k int) []share {
	first := 3 * g.post[node]
	if k > 0 {
		return []share{{first + k, 1}}
	}
	arm := r2.Sub(g.at(node), g.posts[g.post[node]].At)
	return []share{{first, 1}, {first + 1, arm.X}, {first + 2, arm.Y}}
}

// condense returns the stiffness against what the posts do, over the plate's stiffness: for each
// post its deflection and its slopes along x and y.
func (g *grid) condense(masters int) (*mat.SymDense, error) {
	band := 0
	for _, c := range g.cells {
		low, high := math.MaxInt, -1
		for _, n := range g.corners(c[0], c[1]) {
			for k := range 3 {
				if f := g.number[3*n+k]; f >= 0 {
					low, high = min(low, f), max(high, f)
				}
			}
		}
		band = max(band, high-low)
	}
	if g.free == 0 {
		return nil, fmt.Errorf("all of it is under posts")
	}
	free := mat.NewSymBandDense(g.free, band, nil)
	cross := mat.NewDense(g.free, masters, nil)
	own := mat.NewSymDense(masters, nil)
	for _, c := range g.cells {
		k := stiffness(g.xs[c[0]+1]-g.xs[c[0]], g.ys[c[1]+1]-g.ys[c[1]])
		nodes := g.corners(c[0], c[1])
		for i := range unknowns {
			ni, ki := nodes[i/3], i%3
			fi := g.number[3*ni+ki]
			for j := range unknowns {
				nj, kj := nodes[j/3], j%3
				fj := g.number[3*nj+kj]
				switch {
				case fi >= 0 && fj >= fi:
					free.SetSymBand(fi, fj, free.At(fi, fj)+k[i][j])
				case fi >= 0 && g.post[nj] >= 0:
					for _, s := range g.shares(nj, kj) {
						cross.Set(fi, s.master, cross.At(fi, s.master)+k[i][j]*s.factor)
					}
				case g.post[ni] >= 0 && g.post[nj] >= 0:
					for _, a := range g.shares(ni, ki) {
						for _, b := range g.shares(nj, kj) {
							if a.master <= b.master {
								own.SetSym(a.master, b.master, own.At(a.master, b.master)+k[i][j]*a.factor*b.factor)
							}
						}
					}
				}
			}
		}
	}
	// Without an estimate of how well the equations stand, which would take longer than they do.
	factor, ok := lapack64.Pbtrf(free.RawSymBand())
	if !ok {
		return nil, fmt.Errorf("it does not hold together")
	}
	moved, back := mat.DenseCopyOf(cross), &mat.Dense{}
	lapack64.Pbtrs(factor, moved.RawMatrix())
	back.Mul(cross.T(), moved)
	for i := range masters {
		for j := i; j < masters; j++ {
			own.SetSym(i, j, own.At(i, j)-(back.At(i, j)+back.At(j, i))/2)
		}
	}
	return own, nil
}
