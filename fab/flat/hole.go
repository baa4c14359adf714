package flat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/solid"
	"stabile/param/design"
	"stabile/param/quantity"
)

// holeSagitta is how far, in mm, the chords of a hole's outline may lie within the
// hole, and holeRoom how far its corners are moved out beyond the post so that they
// do not: the chords of a hole that runs slantwise over a curved piece bend on it
// besides, by up to half as much.
const (
	holeSagitta = 0.375 * edgeRoom
	holeRoom    = 1.5 * holeSagitta
)

// woundFiner is how many times more lines a hole in a ball of zones or of domed
// gores is found from: their charts are wound about the pole, and near that a
// straight chord of the chart bends on the flat.
const woundFiner = 3

// thread cuts the holes for the post that the ball is threaded on. A hole must
// clear the post through the whole of the sheet, which is cut square: looked at
// along the post's own lines, its edge is where the middle of the sheet is when
// its inner or outer face, or what lies between, meets the post.
func (d *developer) thread(list []piece, cuts []cutOut) (lines [2][]r3.Vec) {
	b := d.part.Ball
	around := b.Around
	p := around.Post
	thick := d.part.Metal.Thickness
	flare := 0.0
	if p.IsTaper() {
		flare = math.Atan(p.Slope())
	}
	wide := max(p.Ends[design.Foot].Diameter, p.Ends[design.Head].Diameter) / 2
	if !(wide > 0 && wide <= largest) || !quantity.Finite(b.Along, p.Length, r3.Norm(p.Ends[design.Foot].At), r3.Norm(p.Direction)) {
		return lines // the post itself is reported
	}
	n := 1
	if b.Gores > 0 {
		n = b.Gores
	}
	// As many lines for each gore as the chord needs, the first toward the middle
	// of a gore, so that holes alike come out alike.
	n *= int(math.Ceil(max(48, math.Pi*math.Sqrt(wide/(2*holeSagitta))) / float64(n)))
	if b.Build == design.Zones || b.Build == design.DomedGores {
		n *= woundFiner
	}
	u := p.Direction
	zero := r3.Sub(b.Prime, r3.Scale(r3.Dot(b.Prime, u), u))
	if r3.Norm(zero) < leastTurn {
		zero, _ = design.Tilt(u)
	}
	zero = r3.Unit(zero)
	right := r3.Cross(u, zero)
	center := r3.Add(p.Ends[design.Foot].At, r3.Scale(b.Along, u))
	radius := p.DiameterAt(b.Along) / 2
	sinF, cosF := math.Sincos(flare)
	outside := d.body(d.part).Outside()
	post := shaft{p.Ends[design.Foot].At, u, p.Ends[design.Foot].Diameter / 2, sinF / cosF}
	for side := range 2 {
		way := float64(1 - 2*side) // toward the head first
		axis := r3.Scale(way, u)
		ray := func(turn float64) line {
			sin, cos := math.Sincos(turn)
			out := r3.Add(r3.Scale(cos, zero), r3.Scale(sin, right))
			return line{
				from: r3.Add(center, r3.Scale(radius, out)),
				way:  r3.Scale(way, r3.Add(r3.Scale(cosF, u), r3.Scale(sinF, out))),
			}
		}
		rays := bundle{ray: ray, lines: make([]line, n)}
		for i := range rays.lines {
			rays.lines[i] = ray(rays.turn(i))
			t, ok := outside.Leave(rays.lines[i].from, rays.lines[i].way)
			if !ok {
				d.fail("diameter", "make the ball larger or the post thinner", "does not close round post '%s' that it is threaded on", around.Name)
				return lines
			}
			lines[side] = append(lines[side], rays.lines[i].at(t))
		}
		d.Thread += girdle(lines[side])
		d.hole(list, cuts, &post, &rays, lines[side], line{center, axis}, thick)
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

// A bundle is the lines of a post's outside, evenly round it, or those of the edge of a hole.
type bundle struct {
	ray   func(turn float64) line
	lines []line
}

// turn returns the angle at which a line of the bundle lies.
func (b *bundle) turn(i int) float64 { return 2 * math.Pi * float64(i) / float64(len(b.lines)) }

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
func (d *developer) hole(list []piece, cuts []cutOut, s *shaft, rays *bundle, toe []r3.Vec, axis line, thick float64) {
	for i := range list {
		p := &list[i]
		if !p.ring && r3.Dot(p.normal, axis.way) < farSide {
			continue
		}
		edge, ok := p.through(rays, toe, axis, func(middle solid.Surface, ray line) (r3.Vec, bool) {
			return p.clearing(s, middle, ray, thick)
		})
		if !ok {
			continue
		}
		c, why := &cuts[i], OpenedFor{d.part.Ball.Around.Name}
		for _, edge := range p.turned(edge) {
			c.open(edge, why)
		}
	}
}

// turned returns an outline in the piece's chart, and where it is once more: over the seam
// of a ring it is on the other side too.
func (p *piece) turned(edge []r2.Vec) [][]r2.Vec {
	list := [][]r2.Vec{edge}
	if low, high := bounds(edge); p.period > 0 && high.X-low.X < p.period {
		for _, turn := range [2]float64{-p.period, p.period} {
			moved := make([]r2.Vec, len(edge))
			for k, q := range edge {
				moved[k] = r2.Vec{X: q.X + turn, Y: q.Y}
			}
			list = append(list, moved)
		}
	}
	return list
}

// farSide is the cosine of the angle, between the way of a post and the normal
// in the middle of a gore or a disc, beyond which no hole reaches that piece:
// half of a gore on the side away.
const farSide = -0.7

// take takes a polygon out of what is left, and reports whether that changed it.
func (c *cutOut) take(edge []r2.Vec) (changed bool) {
	if c.trimmed != nil {
		c.trimmed.take(edge)
	}
	var left [][]r2.Vec
	for _, outline := range c.outlines {
		rest, inside := subtract(outline, edge)
		if inside {
			c.holes = append(c.holes, edge)
		}
		changed = changed || inside || len(rest) != 1 || &rest[0][0] != &outline[0]
		left = append(left, rest...)
	}
	c.outlines, c.changed = left, c.changed || changed
	return changed
}

// open takes a polygon out of what is left, for a reason that is written on the blank
// where anything was taken.
func (c *cutOut) open(edge []r2.Vec, why finding.Fact) {
	if c.take(edge) && !slices.Contains(c.why, why) {
		c.why = append(c.why, why)
	}
}

// through returns the outline, in a piece's chart and counter-clockwise, of what
// a bundle of lines takes out of it, far beyond the piece where the lines go
// round the pole. Out finds where one comes out of the middle of the piece's sheet. Lines
// that miss it come out by another piece, at their toe. It reports false where too few come
// through this one.
func (p *piece) through(rays *bundle, toe []r3.Vec, axis line, out func(middle solid.Surface, ray line) (r3.Vec, bool)) ([]r2.Vec, bool) {
	middle := p.surface(0)
	points := make([]r3.Vec, len(rays.lines), len(rays.lines)+4*p.lobes)
	missed := 0
	for i, ray := range rays.lines {
		x, ok := out(middle, ray)
		if !ok {
			x = toe[i]
			missed++
		}
		points[i] = x
	}
	if missed > len(rays.lines)*2/3 {
		return nil, false
	}
	points = p.overRidges(middle, rays, points, out)
	edge := p.trace(points)
	// A post that leaves a gore's cylinder behind the ball does so across the line
	// where its chart is cut open; a side of the hole from the one end of the chart to
	// the other would run over the gore.
	for i := range edge[1:] {
		edge[i+1].Y = nearTo(edge[i+1].Y, edge[i].Y, p.behind)
	}
	first, last := edge[0], edge[len(edge)-1]
	if p.period > 0 && math.Abs(last.X-first.X) > p.period/2 {
		// Round the pole that it goes on to.
		return p.round(edge, r3.Dot(axis.way, p.pole) > 0), true
	}
	t, ok := middle.Leave(axis.from, axis.way)
	if !ok {
		t = r3.Dot(r3.Sub(toe[0], axis.from), axis.way)
	}
	center := p.chart(axis.at(t))
	shift := nearTo(center.X, p.middle.X, p.period) - center.X
	for i := range edge {
		edge[i].X = nearTo(edge[i].X, center.X, p.period) + shift
	}
	if enclosed(edge) < 0 {
		slices.Reverse(edge)
	}
	return edge, true
}

// overRidges puts more points in the outline of a hole where it goes over the ridges of a
// piece that has any: it has kinks on them, and beside them where the inside of the sheet
// comes to the crease.
func (p *piece) overRidges(middle solid.Surface, rays *bundle, points []r3.Vec, leave func(middle solid.Surface, ray line) (r3.Vec, bool)) []r3.Vec {
	if p.lobes == 0 {
		return points
	}
	lobe := func(x r3.Vec) int {
		q := p.chart(x)
		return (int(math.Round(math.Atan2(q.Y, q.X)/(2*math.Pi)*float64(p.lobes))) + p.lobes) % p.lobes
	}
	n := len(points)
	over := make([]bool, n) // the steps that go over a ridge
	for i, x := range points {
		over[i] = lobe(x) != lobe(points[(i+1)%n])
	}
	out := make([]r3.Vec, 0, cap(points))
	for i, x := range points {
		out = append(out, x)
		if !over[i] && !over[(i+1)%n] && !over[(i+n-1)%n] {
			continue
		}
		turns := make([]float64, 0, ridgeSteps+2)
		from, to := rays.turn(i), rays.turn(i+1)
		for k := 1; k < ridgeSteps; k++ {
			turns = append(turns, from+(to-from)*float64(k)/ridgeSteps)
		}
		if over[i] {
			first := lobe(x)
			for range ridgeHalvings {
				mid := (from + to) / 2
				if m, ok := leave(middle, rays.ray(mid)); ok && lobe(m) == first {
					from = mid
				} else {
					to = mid
				}
			}
			turns = append(turns, from, to)
			slices.Sort(turns)
		}
		for _, turn := range turns {
			if m, ok := leave(middle, rays.ray(turn)); ok {
				out = append(out, m)
			}
		}
	}
	return out
}

// A step between two lines that goes over a ridge, and those beside it, are parted in so
// many steps, and toward the ridge is halved a number of times: one of 4 mm comes to less
// than a thousandth.
const (
	ridgeSteps    = 10
	ridgeHalvings = 13
)

// clearing moves a line of a post's outside out, square to the axis, until the
// whole thickness of the sheet where it comes out of the middle of a piece clears
// the post by holeRoom, and returns that place. It reports false where the line
// does not come out of the piece.
func (p *piece) clearing(s *shaft, middle solid.Surface, ray line, thick float64) (r3.Vec, bool) {
	out := s.out(ray.from)
	var at r3.Vec
	room := func(off float64) (float64, bool) {
		moved := line{r3.Add(ray.from, r3.Scale(off, out)), ray.way}
		t, ok := middle.Leave(moved.from, moved.way)
		if !ok {
			return 0, false
		}
		at = moved.at(t)
		clear := p.beside(func(q r2.Vec) float64 {
			return s.room(p.space(q, -thick/2), p.space(q, thick/2)) - holeRoom
		})
		return clear(p.chart(at)), true
	}
	low, lowRoom := 0.0, 0.0
	lowRoom, ok := room(0)
	if !ok {
		return at, false
	}
	high, highRoom := low, lowRoom
	for step := holeRoom - lowRoom; highRoom < 0; step *= 2 {
		low, lowRoom = high, highRoom
		high += step
		if highRoom, ok = room(high); !ok {
			// The piece ends before the sheet is clear.
			room(low)
			return at, true
		}
		if high > largest {
			return at, false
		}
	}
	// False position, kept from stalling at one end (Illinois).
	for range 60 {
		mid := (low*highRoom - high*lowRoom) / (highRoom - lowRoom)
		if !(high-low > holeResolution) || !(low < mid && mid < high) {
			break
		}
		r, ok := room(mid)
		if !ok || math.Abs(r) < holeResolution {
			break
		}
		if r < 0 {
			low, lowRoom, highRoom = mid, r, highRoom/2
		} else {
			high, highRoom, lowRoom = mid, r, lowRoom/2
		}
	}
	return at, true
}

// holeResolution is how finely the edge of a hole is found, in mm.
const holeResolution = 1e-5

// A shaft is the outside of a post, without ends.
type shaft struct {
	foot, along r3.Vec
	radius      float64 // mm, at the foot
	slope       float64 // mm of radius for each mm along
}

// out returns the direction from the axis to a point.
func (s *shaft) out(x r3.Vec) r3.Vec { return r3.Unit(s.across(r3.Sub(x, s.foot))) }

func (s *shaft) across(v r3.Vec) r3.Vec {
	return r3.Sub(v, r3.Scale(r3.Dot(v, s.along), s.along))
}

// room returns how far the straight line from one point to another clears the
// post at its nearest. Along it the distance from the axis is sqrt(a + 2 b v +
// c v^2) and the radius grows by m v, so that the room is least where b + c v = m
// sqrt((a c - b^2) / (c - m^2)), or at an end.
func (s *shaft) room(from, to r3.Vec) float64 {
	rel, way := r3.Sub(from, s.foot), r3.Sub(to, from)
	p, d := s.across(rel), s.across(way)
	a, b, c := r3.Norm2(p), r3.Dot(p, d), r3.Norm2(d)
	m := s.slope * r3.Dot(way, s.along)
	wide := s.radius + s.slope*r3.Dot(rel, s.along)
	at := func(v float64) float64 { return math.Sqrt(max(0, a+v*(2*b+v*c))) - wide - m*v }
	least := min(at(0), at(1))
	if c > m*m {
		if v := (m*math.Sqrt(max(0, a*c-b*b)/(c-m*m)) - b) / c; v > 0 && v < 1 {
			least = min(least, at(v))
		}
	}
	return least / math.Sqrt(1+s.slope*s.slope)
}

// round returns the outline of what lies beyond a line that goes round the pole,
// above or below it in the chart.
func (p *piece) round(edge []r2.Vec, upper bool) []r2.Vec {
	if edge[0].X > edge[len(edge)-1].X {
		slices.Reverse(edge)
	}
	// Two turns, which cover the piece wherever the lines start.
	start := nearTo(edge[0].X, p.middle.X-p.period/2, p.period)
	if start > p.middle.X-p.period/2 {
		start -= p.period
	}
	shift := start - edge[0].X
	out := make([]r2.Vec, 0, 3*len(edge)+2)
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
