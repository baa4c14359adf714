package flat

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"
)

// A region is what a piece loses to something that it would run into: where a
// clearance, in mm, is below 0. It is followed in the piece's own chart, so that
// nothing has to be found that lies on the piece's continuation.
type region struct {
	*piece
	clear func(q r2.Vec) float64
	low   r2.Vec // of the grid's first node
	pitch r2.Vec
	nx    int
	value []float64 // at the nodes, row by row
}

const (
	// gridMost is the greatest number of steps of a grid along either side of a piece,
	// and gridLeast the least.
	gridMost, gridLeast = 120, 16
	// gridRim is the number of steps by which a grid reaches beyond its piece.
	gridRim = 2
	// regionHalvings is how often a step of the grid is halved at most.
	regionHalvings = 9
)

// lost returns the outlines, counter-clockwise in the piece's chart, of where the
// clearance is below 0. Step is how far apart, in mm, the nodes of the grid lie from
// which it starts: nothing smaller is seen.
func (p *piece) lost(step float64, clear func(q r2.Vec) float64) [][]r2.Vec {
	low, high := bounds(p.outline)
	size := r2.Sub(high, low)
	scale := p.scale(r2.Add(low, r2.Scale(0.5, size)))
	count := func(length float64) int { return int(min(max(math.Ceil(length/step), gridLeast), gridMost)) }
	nx, ny := count(size.X*scale.X), count(size.Y*scale.Y)
	g := region{piece: p, clear: clear, pitch: r2.Vec{X: size.X / float64(nx), Y: size.Y / float64(ny)}}
	g.low = r2.Sub(low, r2.Scale(gridRim, g.pitch))
	nx, ny = nx+1+2*gridRim, ny+1+2*gridRim
	g.nx = nx
	g.value = make([]float64, nx*ny)
	some := false
	for j := range ny {
		for i := range nx {
			// Beyond the piece all is clear, so that every outline closes.
			v := math.Inf(1)
			if i > 0 && j > 0 && i < nx-1 && j < ny-1 {
				v = clear(g.node(i, j))
			}
			g.value[j*nx+i] = v
			some = some || v < 0
		}
	}
	if !some {
		return nil
	}
	var outlines [][]r2.Vec
	for _, loop := range g.loops(ny) {
		// What would be an island within is cut away with the rest.
		if outline := g.refine(loop); enclosed(outline) > 0 {
			outlines = append(outlines, outline)
		}
	}
	return outlines
}

// scale returns how long, in mm, a step of one is in either direction of the chart.
func (p *piece) scale(at r2.Vec) r2.Vec {
	const h = 1e-5
	x := p.space(at, 0)
	return r2.Vec{
		X: r3.Norm(r3.Sub(p.space(r2.Vec{X: at.X + h, Y: at.Y}, 0), x)) / h,
		Y: r3.Norm(r3.Sub(p.space(r2.Vec{X: at.X, Y: at.Y + h}, 0), x)) / h,
	}
}

func (g *region) node(i, j int) r2.Vec {
	return r2.Vec{X: g.low.X + float64(i)*g.pitch.X, Y: g.low.Y + float64(j)*g.pitch.Y}
}

// A side is a side of a cell of the grid, from a node along it or up from it.
type side struct {
	node int
	up   bool
}

// loops returns the outlines as they cross the sides of the grid's cells, with what
// is below 0 at the left.
func (g *region) loops(ny int) [][]crossed {
	next := make(map[side]side)
	for j := range ny - 1 {
		for i := range g.nx - 1 {
			n := j*g.nx + i
			corners := [4]int{n, n + 1, n + 1 + g.nx, n + g.nx}
			sides := [4]side{{n, false}, {n + 1, true}, {n + g.nx, false}, {n, true}}
			below := [4]bool{}
			for k, c := range corners {
				below[k] = g.value[c] < 0
			}
			var ins, outs []int // sides by which the outline comes in and goes out
			for k := range sides {
				switch from, to := below[k], below[(k+1)%4]; {
				case from && !to:
					ins = append(ins, k)
				case to && !from:
					outs = append(outs, k)
				}
			}
			switch len(ins) {
			case 1:
				next[sides[ins[0]]] = sides[outs[0]]
			case 2:
				// Two corners across are below: the middle tells if they hang together.
				m := r2.Add(g.node(i, j), r2.Scale(0.5, g.pitch))
				joined := g.clear(m) < 0
				for _, k := range ins {
					to := (k + 3) % 4
					if joined {
						to = (k + 1) % 4
					}
					next[sides[k]] = sides[to]
				}
			}
		}
	}
	var loops [][]crossed
	for j := range ny {
		for i := range g.nx {
			for _, up := range [2]bool{false, true} {
				start := side{j*g.nx + i, up}
				if _, ok := next[start]; !ok {
					continue
				}
				var loop []crossed
				for s := start; ; {
					loop = append(loop, g.crossing(s))
					to, ok := next[s]
					delete(next, s)
					if !ok || to == start {
						break
					}
					s = to
				}
				loops = append(loops, loop)
			}
		}
	}
	return loops
}

// A crossed is where an outline crosses a side of the grid, or passes beyond the
// piece, where it may run anywhere.
type crossed struct {
	at     r2.Vec
	beyond bool
}

// crossing returns where the outline crosses a side.
func (g *region) crossing(s side) crossed {
	other := s.node + 1
	if s.up {
		other = s.node + g.nx
	}
	a, b := g.node(s.node%g.nx, s.node/g.nx), g.node(other%g.nx, other/g.nx)
	fa, fb := g.value[s.node], g.value[other]
	if math.IsInf(fa, 0) || math.IsInf(fb, 0) {
		return crossed{r2.Scale(0.5, r2.Add(a, b)), true}
	}
	return crossed{g.root(a, b, fa, fb), false}
}

// root returns where the clearance is 0 between two points, of which it is below 0
// at one: false position, kept from stalling at one end (Illinois).
func (g *region) root(a, b r2.Vec, fa, fb float64) r2.Vec {
	from, to := 0.0, 1.0
	at := 0.5
	for range 60 {
		at = (from*fb - to*fa) / (fb - fa)
		if !(at > from && at < to) {
			break
		}
		f := g.clear(r2.Add(a, r2.Scale(at, r2.Sub(b, a))))
		if math.Abs(f) < holeResolution {
			break
		}
		if (f < 0) == (fa < 0) {
			from, fa, fb = at, f, fb/2
		} else {
			to, fb, fa = at, f, fa/2
		}
	}
	return r2.Add(a, r2.Scale(min(max(at, 0), 1), r2.Sub(b, a)))
}

// refine puts points between those of an outline until its chords on the flat are
// near enough to it.
func (g *region) refine(loop []crossed) []r2.Vec {
	out := make([]r2.Vec, 0, 4*len(loop))
	for i, a := range loop {
		out = append(out, a.at)
		if b := loop[(i+1)%len(loop)]; !a.beyond && !b.beyond {
			out = g.between(out, a.at, b.at, regionHalvings)
		}
	}
	return out
}

// between adds the points that lie between two. The outline has kinks, so that its
// middle may lie on a chord from which it strays at either side: the quarters are
// looked at too.
func (g *region) between(out []r2.Vec, a, b r2.Vec, halvings int) []r2.Vec {
	if halvings == 0 {
		return out
	}
	for _, share := range [3]float64{0.5, 0.25, 0.75} {
		x, ok := g.onOutline(r2.Add(a, r2.Scale(share, r2.Sub(b, a))), r2.Sub(b, a))
		if ok && g.offChord(a, b, x) > holeSagitta/2 {
			out = g.between(out, a, x, halvings-1)
			out = append(out, x)
			return g.between(out, x, b, halvings-1)
		}
	}
	return out
}

// offChord returns how far, in mm on the flat, a point lies beside a chord.
func (g *region) offChord(a, b, x r2.Vec) float64 {
	if g.lay != nil {
		a, b, x = g.lay(a), g.lay(b), g.lay(x)
	}
	chord, rel := r2.Sub(b, a), r2.Sub(x, a)
	if long := r2.Norm(chord); long > 0 {
		return math.Abs(r2.Cross(chord, rel)) / long
	}
	return r2.Norm(rel)
}

// onOutline returns the point of the outline beside the middle of a chord, square to
// it.
func (g *region) onOutline(m, along r2.Vec) (r2.Vec, bool) {
	scale := g.scale(m)
	along = r2.Vec{X: along.X * scale.X, Y: along.Y * scale.Y}
	long := r2.Norm(along)
	f := g.clear(m)
	if !(long > 0) || math.Abs(f) < holeResolution {
		return m, long > 0
	}
	// What is lost lies at the left.
	way := r2.Vec{X: along.Y / long / scale.X, Y: -along.X / long / scale.Y}
	if f > 0 {
		way = r2.Scale(-1, way)
	}
	for step := min(2*math.Abs(f), long); step <= 2*long; step *= 2 {
		far := r2.Add(m, r2.Scale(step, way))
		if other := g.clear(far); (other < 0) != (f < 0) {
			return g.root(m, far, f, other), true
		}
	}
	return m, false
}
