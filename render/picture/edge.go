package picture

import (
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/render/picture/cast"
)

// finish gives the pixels of a tile their colours, with more samples where
// something changes from one pixel to the next.
func (w *worker) finish(x0, y0 int) {
	w.gather(x0, y0)
	side := w.side
	if w.slight = w.hasSlight(); w.slight {
		side = fine
		for i := range w.edges {
			w.edges[i] = true
		}
	} else {
		w.findEdges(x0, y0)
	}
	for y := y0; y < min(y0+tile, w.h); y++ {
		for x := x0; x < min(x0+tile, w.w); x++ {
			if w.edges[(y-y0)*tile+x-x0] {
				w.put(x, y, w.many(x, y, side))
				continue
			}
			w.put(x, y, w.overlay(x, y, w.light[y*w.w+x].rgb()))
		}
	}
}

// slightest is the width in pixels under which a solid can slip between the
// middles of pixels.
const slightest = 1.5

// hasSlight reports whether a tile may show a solid that its pixels' middles
// could miss, so that all of it needs more samples.
func (w *worker) hasSlight() bool {
	if w.win.parallel {
		return false
	}
	for _, i := range w.among {
		b := &w.world.Solids[i]
		wide := b.Hull
		if b.Kind == cast.Tube {
			wide = min(b.Radius, b.Radius+b.Slope*b.Length)
		}
		// A plate is seen edge on, which its own top and bottom tell.
		if b.Kind != cast.Box && 2*wide < slightest*w.win.pixel*norm(r3.Sub(b.Middle, w.win.eye)) {
			return true
		}
	}
	return false
}

// findEdges marks the pixels of a tile that differ from one of their neighbours.
func (w *worker) findEdges(x0, y0 int) {
	clear(w.edges[:])
	if w.empty {
		return // all that changes there does so slowly
	}
	mark := func(x, y int) {
		if x >= x0 && y >= y0 && x < x0+tile && y < y0+tile {
			w.edges[(y-y0)*tile+x-x0] = true
		}
	}
	right, bottom := min(x0+tile, w.w-1), min(y0+tile, w.h-1)
	for y := max(y0-1, 0); y <= bottom; y++ {
		row := w.light[y*w.w : (y+1)*w.w]
		below := w.light[min(y+1, w.h-1)*w.w:][:w.w]
		for x := max(x0-1, 0); x <= right; x++ {
			// Each pair of neighbours once: beside, below and on both slants.
			p, next := &row[x], min(x+1, w.w-1)
			if p.parts(&row[next]) {
				mark(x, y)
				mark(next, y)
			}
			if p.parts(&below[x]) {
				mark(x, y)
				mark(x, y+1)
			}
			if p.parts(&below[next]) {
				mark(x, y)
				mark(next, y+1)
			}
			if row[next].parts(&below[x]) {
				mark(next, y)
				mark(x, y+1)
			}
		}
	}
}

// parts reports whether something changes from one pixel to another.
func (p *pixel) parts(q *pixel) bool {
	return q.what != p.what || q.face != p.face || p.differs(q)
}

// step is the change of tone from a pixel to the next, as a share, that asks for
// more samples.
const step = 0.055

// differs reports whether two pixels are not of about one light.
func (p *pixel) differs(q *pixel) bool { return differ(p.even, q.even) }

func differ(a, b float32) bool {
	d := a - b
	if d < 0 {
		d = -d
	}
	return d > step*(a+b+0.025)
}

// An around is what is seen at and about one pixel, with its light, so that
// samples of what is even there need only be distinguished, not shaded again.
type around struct {
	seen [9]thing
	n    int
}

// A thing is a face of a solid, or the ground or sky, that is seen in some of nine pixels.
type thing struct {
	first  *pixel // its light in one of them
	middle *pixel // in the pixel itself; nil where that shows something else
	sum    rgb
	n      int  // of the nine
	x, y   int  // the sums of how far these lie from the middle one
	same   bool // in all of these its light is about the same
	even   bool // so it is all over the pixel
	shaded several
}

// light returns the light of a thing that is even: that in the pixel itself,
// or else the mean of its neighbours'.
func (e *thing) light() rgb {
	if e.middle != nil {
		return e.middle.rgb()
	}
	return e.sum.scale(1 / float64(e.n))
}

// A several is the light of several samples.
type several struct {
	sum, low, high rgb
	n              int
}

func (s *several) add(c rgb) {
	if s.n == 0 {
		s.low, s.high = c, c
	}
	s.n++
	s.sum = s.sum.add(c)
	s.low = rgb{min(s.low.r, c.r), min(s.low.g, c.g), min(s.low.b, c.b)}
	s.high = rgb{max(s.high.r, c.r), max(s.high.g, c.g), max(s.high.b, c.b)}
}

func (s *several) mean() rgb { return s.sum.scale(1 / float64(s.n)) }

// alike reports whether the samples are near enough to each other that more of
// them would not be seen.
func (s *several) alike() bool {
	const most = 0.08 // as a share
	near := func(a, b float64) bool { return b-a <= most*(a+b+0.025) }
	return near(s.low.r, s.high.r) && near(s.low.g, s.high.g) && near(s.low.b, s.high.b)
}

// enough is the number of pixels, of nine, in which a thing must be seen to be
// taken as even: of one that is thinner each tells too little.
const enough = 3

// thin reports whether a thing that is seen in just enough pixels about the one at
// x, y shows them all in a line, and no more of the same light beside them. How its
// light changes across the line is not known: along a face that is seen nearly edge
// on a shadow may run between the middles of all of them.
func (w *worker) thin(x, y int, e *thing) bool {
	switch {
	case e.n > enough:
		return false
	case e.middle != nil:
		return e.x == 0 && e.y == 0 // the other two lie on opposite sides of it
	case e.x == -enough || e.x == enough:
		x += 2 * e.x / enough
	case e.y == -enough || e.y == enough:
		y += 2 * e.y / enough
	default:
		return false
	}
	if x < 0 || y < 0 || x >= w.w || y >= w.h {
		return true
	}
	return e.first.parts(&w.light[y*w.w+x])
}

// lookAbout finds what is even about a pixel.
func (w *worker) lookAbout(x, y int, a *around) {
	middle := &w.light[y*w.w+x]
	left, right := max(x-1, 0), min(x+1, w.w-1)
	for at := max(y-1, 0); at <= min(y+1, w.h-1); at++ {
		row := w.light[at*w.w+left : at*w.w+right+1]
		for i := range row {
			p := &row[i]
			e := a.find(p.what, p.face)
			if e == nil {
				e = &a.seen[a.n]
				*e = thing{first: p, same: true}
				a.n++
			}
			e.n++
			e.x, e.y = e.x+left+i-x, e.y+at-y
			e.sum = e.sum.add(held(p.rgb()))
			if p == middle {
				e.middle = p
			}
			e.same = e.same && !e.first.differs(p)
		}
	}
	for i := range a.n {
		e := &a.seen[i]
		e.even = e.same && e.n >= enough && !w.thin(x, y, e)
	}
}

func (a *around) find(what, face int32) *thing {
	for i := range a.n {
		if f := a.seen[i].first; f.what == what && f.face == face {
			return &a.seen[i]
		}
	}
	return nil
}

// again returns the light of one more sample of a pixel, of which each thing that
// is not the same about there is shaded at least a number of times.
func (w *worker) again(x, y float64, times int, a *around, cache *sky) rgb {
	r := w.win.ray(x, y)
	var v sight
	w.sight(&r, &v)
	shade := func() rgb {
		c, _ := w.shadeAt(x, y, w.win.pixel, &r, &v, cache)
		return held(c)
	}
	var c rgb
	switch e := a.find(v.what, v.hit.Face); {
	case e == nil:
		c = shade()
	case e.even:
		c = e.light()
	case e.shaded.n >= times && e.shaded.alike():
		c = e.shaded.mean()
	default:
		c = shade()
		e.shaded.add(c)
	}
	if w.mask.at(int(x+0.5), int(y+0.5)) > 0 {
		c = w.figure.over(c, w.before(int(x+0.5), int(y+0.5), &r, v.t))
	}
	return c
}

// many returns the mean light of a pixel over n by n samples. Each lies in its
// own cell of the square, and in columns and rows n times finer each has its own
// as well, so that an edge which is nearly upright or level crosses as many
// samples as one on a slant (multi-jittered sampling, Chiu, Shirley and Wang,
// 1994). The first n of them lie in a row and a column each, and are all that is
// asked where one thing is seen and they hardly differ. Where one thing is seen that
// changes its tone, twice as many are enough: there is no edge to be smooth.
func (w *worker) many(x, y, n int) rgb {
	var all several
	var cache sky
	var about around
	w.lookAbout(x, y, &about)
	for k := range n * n {
		if about.n == 1 && !w.slight && (k == n && all.alike() || k == 2*n) {
			break
		}
		u, v := w.jitter(x, y, k, n)
		all.add(w.again(float64(x)+u, float64(y)+v, n, &about, &cache))
	}
	return all.mean()
}

// jitter returns where sample k of n by n lies in a pixel, from its middle.
func (w *worker) jitter(x, y, k, n int) (u, v float64) {
	step := 1 / float64(n)
	i := k % n
	j := ((2*i+1)%(n+1) + k/n) % n // a column and a row each for the first n
	h := hash(uint32(x), uint32(y), uint32(j*n+i), w.seed)
	u = (float64(i) + (float64(j)+uniform(h&0xffff0000))*step) * step
	v = (float64(j) + (float64(i)+uniform(h<<16))*step) * step
	return u - 0.5, v - 0.5
}

// held holds back light that is far over white, so that one glint in a sample
// does not make a bright pixel beside dark ones.
func held(c rgb) rgb {
	const most = 3
	if l := c.luminance(); l > most {
		return c.scale(most / l)
	}
	return c
}
