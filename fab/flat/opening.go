package flat

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/solid"
	"stabile/param/design"
)

// openings cuts and marks the pieces of a ball for what its neighbours ask:
// holes where it is threaded on a post, a vent, and the lines where posts and
// other balls stand. A joint welded from outside needs no hole.
func (d *developer) openings() {
	b := d.part.Ball
	stands := d.standing[d.part]
	if b.Around == nil && !(b.Vent > 0) && len(stands) == 0 || b.Build == design.Bought {
		return
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
	for i := range list {
		p := &list[i]
		line := p.trace(s.line)
		line = append(line, line[0])
		if p.period > 0 && math.Abs(line[len(line)-2].X-line[0].X) > p.period/2 {
			// Round the pole: on to where it started, a turn further.
			turn := math.Copysign(p.period, line[len(line)-2].X-line[0].X)
			line[len(line)-1].X += turn
			if line[0].X > line[len(line)-1].X {
				slices.Reverse(line)
			}
			before := make([]r2.Vec, 0, 2*len(line))
			for _, q := range line[:len(line)-1] {
				before = append(before, r2.Vec{X: q.X - p.period, Y: q.Y})
			}
			line = append(before, line...)
		}
		for _, part := range clip(line, p.outline) {
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
		d.hole(list, cuts, rays, line{center, axis}, thick)
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
func (d *developer) hole(list []piece, cuts []cutOut, rays []line, axis line, thick float64) {
	for i := range list {
		p := &list[i]
		if r3.Dot(p.normal, axis.way) < -0.7 {
			continue // on the far side
		}
		edge, ok := p.through(rays, axis, thick)
		if !ok {
			continue
		}
		c := &cuts[i]
		var left [][]r2.Vec
		for _, outline := range c.outlines {
			rest, inside := subtract(outline, edge)
			if inside {
				c.holes = append(c.holes, edge)
			}
			c.changed = c.changed || inside || len(rest) != 1 || len(rest[0]) != len(outline) || &rest[0][0] != &outline[0]
			left = append(left, rest...)
		}
		c.outlines = left
	}
}

// through returns the outline, in a piece's chart and counter-clockwise, of what
// a bundle of lines takes out of it, far beyond the piece where the lines go
// round the pole. It reports false where they do not all come through the
// piece's surface.
func (p *piece) through(rays []line, axis line, thick float64) ([]r2.Vec, bool) {
	middle := p.surface(0)
	t, ok := middle.Leave(axis.from, axis.way)
	if !ok {
		return nil, false
	}
	center := p.chart(axis.at(t))
	layers := [3]solid.Surface{p.surface(-thick / 2), middle, p.surface(thick / 2)}
	edges := [3][]r2.Vec{}
	for w, s := range layers {
		points := make([]r3.Vec, len(rays))
		for i, ray := range rays {
			t, ok := s.Leave(ray.from, ray.way)
			if !ok {
				return nil, false
			}
			points[i] = ray.at(t)
		}
		edges[w] = p.trace(points)
	}
	first, last := edges[1][0], edges[1][len(rays)-1]
	if p.period > 0 && math.Abs(last.X-first.X) > p.period/2 {
		return p.round(edges), true
	}
	edge := edges[0]
	scale := 1.0
	if p.lay != nil && p.period > 0 {
		at := p.lay(r2.Add(center, r2.Vec{X: 1e-3}))
		scale = r2.Norm(r2.Sub(at, p.lay(center))) / 1e-3
	}
	off := func(q r2.Vec) float64 {
		return math.Hypot(scale*(nearTo(q.X, center.X, p.period)-center.X), q.Y-center.Y)
	}
	for i := range edge {
		for _, e := range edges[1:] {
			if off(e[i]) > off(edge[i]) {
				edge[i] = e[i]
			}
		}
		edge[i].X = nearTo(edge[i].X, center.X, p.period)
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

// round returns the outline of what lies beyond lines that go round the pole.
func (p *piece) round(edges [3][]r2.Vec) []r2.Vec {
	upper := edges[1][0].Y > p.middle.Y
	for _, e := range edges {
		if e[0].X > e[len(e)-1].X {
			slices.Reverse(e)
		}
	}
	edge := edges[1]
	n := len(edge)
	for i := range edge {
		for _, e := range edges {
			if upper == (e[i].Y < edge[i].Y) {
				edge[i].Y = e[i].Y
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

// ventClear is the least distance, in mm, of a vent's edge from a seam or a
// joint. Common practice, no source.
const ventClear = 8.0

// ventSpots is the number of steps along the middle of a piece at which a vent
// is tried.
const ventSpots = 12

// vent drills the ball's vent: as low as it can be and away from the viewer, in
// the middle of a piece, clear of every joint.
func (d *developer) vent(list []piece, cuts []cutOut, keepOff []r3.Vec) {
	b := d.part.Ball
	if !(b.Vent > 0) {
		return
	}
	best, score := -1, math.Inf(-1)
	var place r2.Vec
	for i := range list {
		p := &list[i]
		if cuts[i].changed {
			continue
		}
		low, high := bounds(p.outline)
		for k := 1; k < ventSpots; k++ {
			at := r2.Vec{X: p.middle.X, Y: low.Y + (high.Y-low.Y)*float64(k)/ventSpots}
			x := p.space(at)
			s := (x.Y-b.Center.Y)/2 - (x.Z - b.Center.Z)
			if s <= score+square {
				continue
			}
			if p.lay != nil {
				at = p.lay(at)
			}
			room := d.room(p, at)
			for _, y := range keepOff {
				room = min(room, r3.Norm(r3.Sub(x, y)))
			}
			if room >= b.Vent/2+ventClear {
				best, score, place = i, s, at
			}
		}
	}
	if best < 0 {
		d.note(finding.Caution, fmt.Sprintf("there is no room for a vent of %s clear of seams and joints: drill it where it can be", d.length(b.Vent)))
		return
	}
	cuts[best].vent = &Hole{Center: place, Diameter: b.Vent, Outline: circle(place, b.Vent/2, holePoints)}
	cuts[best].changed = true
}

// room returns how far a place on a piece's flat lies within its edges.
func (d *developer) room(p *piece, at r2.Vec) float64 {
	outline := d.Blanks[p.blank].Outline
	if !within(at, outline) {
		return math.Inf(-1)
	}
	room := math.Inf(1)
	for i, a := range outline {
		side := r2.Sub(outline[(i+1)%len(outline)], a)
		rel := r2.Sub(at, a)
		u := min(max(r2.Dot(rel, side)/r2.Norm2(side), 0), 1)
		room = min(room, r2.Norm(r2.Sub(rel, r2.Scale(u, side))))
	}
	return room
}
