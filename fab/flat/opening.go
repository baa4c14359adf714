package flat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

// openings cuts and marks the pieces of a ball for what its neighbours ask:
// holes where it is threaded on a post, a vent, and the lines where posts and
// other balls stand. A joint welded from outside needs no hole.
func (d *developer) openings() {
	b := d.part.Ball
	stands := d.standing[d.part]
	if !d.opened() {
		return // what stands on it is left to MarkStanding
	}
	list := d.pieces()
	for _, s := range stands {
		d.mark(list, s)
	}
	cuts := make([]cutOut, len(list))
	for i := range list {
		cuts[i].outlines = [][]r2.Vec{list[i].outline}
	}
	var keepOff []r3.Vec
	for _, s := range stands {
		keepOff = append(keepOff, s.line...)
	}
	if b.Around != nil && b.Around.Post != nil {
		lines := d.thread(list, cuts)
		keepOff = append(keepOff, append(lines[0], lines[1]...)...)
	}
	d.vent(list, cuts, keepOff)
	d.partCuts(list, cuts)
}

// opened reports whether anything is cut out of the ball's blanks.
func (d *developer) opened() bool {
	b := d.part.Ball
	return b.Build != design.Bought && (b.Around != nil || b.Vent > 0)
}

// MarkStanding marks on the blanks of balls, as All made them for the design,
// where posts and other balls stand on them. All does that only for balls that
// are cut open, since these marks are for drawings and most variations of a
// design are never drawn.
func MarkStanding(d *design.Design, made []Developed) {
	s := newSetting(d.Units, nil)
	for i, p := range d.Parts {
		if p.Post != nil {
			s.stand(p, &made[i])
		}
	}
	s.seats(d.Joints)
	for i, p := range d.Parts {
		stands := s.standing[p]
		if p.Ball == nil || p.Ball.Build == design.Bought || len(stands) == 0 {
			continue
		}
		dev := developer{Developed: made[i], setting: s, part: p}
		if dev.opened() {
			continue
		}
		list := dev.pieces()
		for _, st := range stands {
			dev.mark(list, st)
		}
		made[i] = dev.Developed
	}
}

// A cutOut is what is left of a piece, and the holes in it, in its chart; a vent
// is drilled in the flat.
type cutOut struct {
	outlines [][]r2.Vec
	holes    [][]r2.Vec
	vent     *Hole
	changed  bool
}

// mark draws the line where another part stands on the pieces that it crosses.
// Where those are cut alike, the mark tells the piece that bears it.
func (d *developer) mark(list []piece, s standing) {
	longest := longestStep(s.line)
	for i := range list {
		p := &list[i]
		for _, part := range p.crossed(s.line, longest) {
			if len(part) < 2 {
				continue
			}
			path := p.onFlat(part)
			d.Blanks[p.blank].Marks = append(d.Blanks[p.blank].Marks, Mark{
				Kind: Standing, From: path[0], To: path[len(path)-1], Path: path, Label: s.part.Name, Piece: p.number,
			})
		}
	}
}

// crossed returns the parts of a closed line in space, of which the longest step
// is given, that lie on the piece.
func (p *piece) crossed(line []r3.Vec, longest float64) [][]r2.Vec {
	if p.wedge != nil {
		if runs, some := p.wedge.runs(line, longest); some {
			var parts [][]r2.Vec
			for _, run := range runs {
				parts = append(parts, clip(p.trace(run), p.outline)...)
			}
			return parts
		}
	}
	points := p.trace(line)
	n := len(points)
	// A chart that is cut open behind the ball tears a line that runs there.
	var tears []int
	if p.period == 0 {
		low, high := bounds(p.outline)
		for i := range points {
			if r2.Norm(r2.Sub(points[(i+1)%n], points[i])) > (high.Y-low.Y)/2 {
				tears = append(tears, i+1)
			}
		}
	}
	if len(tears) == 0 {
		return wound(points, p.period, p.outline)
	}
	var parts [][]r2.Vec
	for k, from := range tears {
		to := tears[(k+1)%len(tears)]
		if to <= from {
			to += n
		}
		var run []r2.Vec
		for i := from; i < to; i++ {
			run = append(run, points[i%n])
		}
		if len(run) > 1 {
			parts = append(parts, clip(run, p.outline)...)
		}
	}
	return parts
}

// longestStep returns the longest side of a closed line, in mm.
func longestStep(line []r3.Vec) float64 {
	longest := 0.0
	for i, x := range line {
		longest = max(longest, r3.Norm2(r3.Sub(line[(i+1)%len(line)], x)))
	}
	return math.Sqrt(longest)
}

// runs returns the stretches of a closed line that could cross the gore in the
// wedge, where some of the line is far from it. Near is within the longest step
// of the line, so that no step passes through the wedge unseen.
func (w *wedge) runs(line []r3.Vec, longest float64) (runs [][]r3.Vec, some bool) {
	n := len(line)
	far := slices.IndexFunc(line, func(x r3.Vec) bool { return w.misses(x, longest) })
	if far < 0 {
		return nil, false
	}
	// Once round from a far point: a run has one far point at either end.
	var run []r3.Vec
	last := line[far]
	for i := 1; i <= n; i++ {
		x := line[(far+i)%n]
		switch near := !w.misses(x, longest); {
		case near && run == nil:
			run = append(make([]r3.Vec, 0, 16), last, x)
		case near:
			run = append(run, x)
		case run != nil:
			runs = append(runs, append(run, x))
			run = nil
		}
		last = x
	}
	return runs, true
}

// trace returns a line in the chart, unwound.
func (p *piece) trace(line []r3.Vec) []r2.Vec {
	out := make([]r2.Vec, len(line), len(line)+1)
	last := p.middle.X
	for i, x := range line {
		q := p.chart(x)
		q.X = nearTo(q.X, last, p.period)
		last = q.X
		out[i] = q
	}
	return out
}

// holeSagitta is how far, in mm, the chords of a hole's outline may lie from it.
const holeSagitta = 0.4 * Chord

// thread cuts the holes for the post that the ball is threaded on. A hole must
// clear the post through the whole of the sheet, which is cut square: looked at
// along the post's own lines, its edge is where the middle of the sheet is when
// its inner or outer face, or what lies between, meets the post.
func (d *developer) thread(list []piece, cuts []cutOut) (lines [2][]r3.Vec) {
	b := d.part.Ball
	around := b.Around
	post := around.Post
	thick := d.part.Metal.Thickness
	flare := 0.0
	if post.IsTaper() {
		flare = math.Atan2((post.Diameter[1]-post.Diameter[0])/2, post.Length)
	}
	wide := max(post.Diameter[0], post.Diameter[1]) / 2
	if !(wide > 0 && wide <= largest) || !finite(b.Along, post.Length, r3.Norm(post.Foot), r3.Norm(post.Direction)) {
		return lines // the post itself is reported
	}
	n := 1
	if b.Gores > 0 {
		n = b.Gores
	}
	// As many lines for each gore as the chord asks, the first toward the middle
	// of a gore, so that holes alike come out alike.
	n *= int(math.Ceil(max(48, math.Pi*math.Sqrt(wide/(2*holeSagitta))) / float64(n)))
	u := post.Direction
	zero := r3.Sub(b.Prime, r3.Scale(r3.Dot(b.Prime, u), u))
	if r3.Norm(zero) < leastTurn {
		zero, _ = design.Tilt(u)
	}
	zero = r3.Unit(zero)
	right := r3.Cross(u, zero)
	center := r3.Add(post.Foot, r3.Scale(b.Along, u))
	radius := post.DiameterAt(b.Along) / 2
	sinF, cosF := math.Sincos(flare)
	outside := d.outside(d.part)
	for side := range 2 {
		way := float64(1 - 2*side) // toward the head first
		axis := r3.Scale(way, u)
		rays := make([]line, n)
		for i := range rays {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			out := r3.Add(r3.Scale(cos, zero), r3.Scale(sin, right))
			rays[i] = line{
				from: r3.Add(center, r3.Scale(radius, out)),
				way:  r3.Scale(way, r3.Add(r3.Scale(cosF, u), r3.Scale(sinF, out))),
			}
			t, ok := outside.Leave(rays[i].from, rays[i].way)
			if !ok {
				d.fail("diameter", "make the ball larger or the post thinner", "does not close round post '%s' that it is threaded on", around.Name)
				return lines
			}
			lines[side] = append(lines[side], rays[i].at(t))
		}
		d.Thread += girdle(lines[side])
		d.hole(list, cuts, rays, lines[side], line{center, axis}, thick)
	}
	if d.threaded == nil {
		d.threaded = make(map[*design.Part][]thread)
	}
	d.threaded[around] = append(d.threaded[around], thread{d.part, lines})
	return lines
}

// A line is a way from a point along a unit vector.
type line struct{ from, way r3.Vec }

func (l line) at(t float64) r3.Vec { return r3.Add(l.from, r3.Scale(t, l.way)) }

// girdle returns the length of a closed line of points.
func girdle(points []r3.Vec) float64 {
	length := 0.0
	for i, x := range points {
		length += r3.Norm(r3.Sub(points[(i+1)%len(points)], x))
	}
	return length
}

// hole takes what a bundle of lines encloses about an axis out of the pieces.
// toe is where they come out of the ball.
func (d *developer) hole(list []piece, cuts []cutOut, rays []line, toe []r3.Vec, axis line, thick float64) {
	for i := range list {
		p := &list[i]
		if !p.ring && r3.Dot(p.normal, axis.way) < farSide {
			continue
		}
		edge, ok := p.through(rays, toe, axis, thick)
		if !ok {
			continue
		}
		c := &cuts[i]
		c.take(edge)
		if low, high := bounds(edge); p.period > 0 && high.X-low.X < p.period {
			// Over the seam of a ring it is on the other side too.
			for _, turn := range [2]float64{-p.period, p.period} {
				moved := make([]r2.Vec, len(edge))
				for k, q := range edge {
					moved[k] = r2.Vec{X: q.X + turn, Y: q.Y}
				}
				c.take(moved)
			}
		}
	}
}

// farSide is the cosine of the angle, between the way of a post and the normal
// in the middle of a gore or a disc, beyond which no hole reaches that piece:
// half of a gore on the side away.
const farSide = -0.7

// take takes a polygon out of what is left.
func (c *cutOut) take(edge []r2.Vec) {
	var left [][]r2.Vec
	for _, outline := range c.outlines {
		rest, inside := subtract(outline, edge)
		if inside {
			c.holes = append(c.holes, edge)
		}
		c.changed = c.changed || inside || len(rest) != 1 || &rest[0][0] != &outline[0]
		left = append(left, rest...)
	}
	c.outlines = left
}

// through returns the outline, in a piece's chart and counter-clockwise, of what
// a bundle of lines takes out of it, far beyond the piece where the lines go
// round the pole. Lines that miss the piece's surface come out by another piece,
// at their toe. It reports false where too few come through this one.
func (p *piece) through(rays []line, toe []r3.Vec, axis line, thick float64) ([]r2.Vec, bool) {
	middle := p.surface(0)
	layers := [3]solid.Surface{p.surface(-thick / 2), middle, p.surface(thick / 2)}
	edges := [3][]r2.Vec{}
	for w, s := range layers {
		points := make([]r3.Vec, len(rays))
		missed := 0
		for i, ray := range rays {
			t, ok := s.Leave(ray.from, ray.way)
			if !ok {
				points[i] = toe[i]
				missed++
				continue
			}
			points[i] = ray.at(t)
		}
		if missed > len(rays)*2/3 {
			return nil, false
		}
		edges[w] = p.trace(points)
	}
	first, last := edges[1][0], edges[1][len(rays)-1]
	if p.period > 0 && math.Abs(last.X-first.X) > p.period/2 {
		return p.round(edges), true
	}
	t, ok := middle.Leave(axis.from, axis.way)
	if !ok {
		t = r3.Dot(r3.Sub(toe[0], axis.from), axis.way)
	}
	center := p.chart(axis.at(t))
	for _, e := range edges {
		for i := range e {
			e[i].X = nearTo(e[i].X, center.X, p.period)
		}
	}
	// What any layer of the sheet asks for, along rays from the middle.
	edge := make([]r2.Vec, len(rays))
	for i, q := range edges[1] {
		way := r2.Sub(q, center)
		reach := 1.0
		for _, e := range [2][]r2.Vec{edges[0], edges[2]} {
			reach = max(reach, alongRay(e, center, way, i))
		}
		edge[i] = r2.Add(center, r2.Scale(reach, way))
	}
	if enclosed(edge) < 0 {
		slices.Reverse(edge)
	}
	// Bring it to where the piece is.
	shift := nearTo(center.X, p.middle.X, p.period) - center.X
	for i := range edge {
		edge[i].X += shift
	}
	return edge, true
}

// alongRay returns how far a ray from a point goes before it leaves a closed line
// about that point, as a share of the ray's vector; 0 where it does not cross it
// near its side i.
func alongRay(line []r2.Vec, from, way r2.Vec, i int) float64 {
	n := len(line)
	reach := 0.0
	for k := -n / 8; k <= n/8; k++ {
		a, b := line[(i+k+n)%n], line[(i+k+1+n)%n]
		side, rel := r2.Sub(b, a), r2.Sub(a, from)
		turn := r2.Cross(way, side)
		if turn == 0 {
			continue
		}
		if u := r2.Cross(rel, way) / turn; u >= -onEdge && u <= 1+onEdge {
			reach = max(reach, r2.Cross(rel, side)/turn)
		}
	}
	return reach
}

// round returns the outline of what lies beyond lines that go round the pole.
func (p *piece) round(edges [3][]r2.Vec) []r2.Vec {
	// Rings are charted toward their own pole, gores from the equator.
	upper := p.middle.Y > 0 || edges[1][0].Y > 0
	for _, e := range edges {
		if e[0].X > e[len(e)-1].X {
			slices.Reverse(e)
		}
	}
	edge := edges[1]
	n := len(edge)
	for i := range edge {
		for _, e := range [2][]r2.Vec{edges[0], edges[2]} {
			if y := levelAt(e, edge[i].X, i, p.period); upper == (y < edge[i].Y) {
				edge[i].Y = y
			}
		}
	}
	// Two turns, which cover the piece wherever the lines start.
	start := nearTo(edge[0].X, p.middle.X-p.period/2, p.period)
	if start > p.middle.X-p.period/2 {
		start -= p.period
	}
	shift := start - edge[0].X
	out := make([]r2.Vec, 0, 2*n+3)
	for turn := range 3 {
		for _, q := range edge {
			out = append(out, r2.Vec{X: q.X + shift + float64(turn)*p.period, Y: q.Y})
		}
	}
	y := far
	if !upper {
		y = -far
	}
	out = append(out, r2.Vec{X: out[len(out)-1].X, Y: y}, r2.Vec{X: out[0].X, Y: y})
	if enclosed(out) < 0 {
		slices.Reverse(out)
	}
	return out
}

// levelAt returns the second coordinate, at a first one, of a line that goes once
// round, near its side i.
func levelAt(line []r2.Vec, x float64, i int, period float64) float64 {
	n := len(line)
	best, y := math.Inf(1), line[i].Y
	for k := -n / 8; k <= n/8; k++ {
		a, b := line[(i+k+n)%n], line[(i+k+1+n)%n]
		from, to := nearTo(a.X, x, period), nearTo(b.X, x, period)
		if from == to {
			continue
		}
		u := (x - from) / (to - from)
		if off := math.Abs(u - 0.5); off < best {
			best, y = off, a.Y+(b.Y-a.Y)*min(max(u, 0), 1)
		}
	}
	return y
}
