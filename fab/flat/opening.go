package flat

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/solid"
	"stabile/param/design"
)

// openings cuts and marks the pieces of a ball for what its neighbours need:
// holes where it is threaded on a post, a vent, and the lines where posts and
// other balls stand. A joint welded from outside needs no hole.
func (d *developer) openings() {
	b := d.part.Ball
	if !d.opened() {
		d.joins()
		return // what stands on it is left to MarkStanding
	}
	stands := d.traced(d.part)
	list := d.pieces()
	for _, s := range stands {
		if !d.opensTo(s.part) {
			d.mark(list, s)
		}
	}
	cuts := make([]cutOut, len(list))
	for i := range list {
		cuts[i] = list[i].uncut()
	}
	var keepOff []r3.Vec
	for _, s := range stands {
		keepOff = append(keepOff, s.line...)
	}
	if b.Around != nil && b.Around.Post != nil {
		lines := d.thread(list, cuts)
		keepOff = append(keepOff, append(lines[0], lines[1]...)...)
	}
	d.unseat(list, cuts)
	keepOff = append(keepOff, d.drillBall(list, cuts)...)
	keepOff = d.bore(list, cuts, keepOff, b.Drain, b.DrainBear, false, true)
	d.bore(list, cuts, keepOff, b.Vent, b.VentBear, b.Drain > 0, false)
	d.partCuts(list, cuts)
	d.cutJoins(list, cuts)
}

// opened reports whether anything is cut out of the ball's blanks.
func (d *developer) opened() bool {
	b := d.part.Ball
	return b.Build != design.Bought && (b.Around != nil || b.Vent > 0 || b.Drain > 0 || len(d.sunk[d.part]) > 0 || len(d.part.Holes) > 0)
}

// MarkStanding marks on the blanks of balls and base plates, as All made them for the
// design, where posts and other balls stand on them. All does that only for balls that
// are cut open, since these marks are for drawings and most variations of a
// design are never drawn.
func MarkStanding(d *design.Design, made []Developed) {
	s := settingOf(d, nil)
	s.bodies = make(map[*design.Part]*solid.Body, len(made))
	for i, p := range d.Parts {
		s.bodies[p] = made[i].Body
		if p.Post != nil {
			s.stand(p, &made[i])
		}
	}
	s.seats(d.Joints)
	markFeet(d, made)
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
	trimmed  *cutOut // what is left once the allowance is trimmed off; nil without one
	bores    []bore
	drilled  []drilledHole  // the design's holes, of which some or all is in the piece
	why      []finding.Fact // what it is opened for
	changed  bool
}

// uncut returns all of a piece.
func (p *piece) uncut() cutOut {
	c := cutOut{outlines: [][]r2.Vec{p.outline}}
	if p.trimmed != nil {
		c.trimmed = &cutOut{outlines: [][]r2.Vec{p.trimmed}}
	}
	return c
}

// mark draws the line where another part stands on the pieces that it crosses.
// Where those are cut alike, the mark names the piece that has it.
func (d *developer) mark(list []piece, s standing) {
	if len(s.line) == 0 {
		return // its end misses, which is reported with the post
	}
	longest := longestStep(s.line)
	for i := range list {
		p := &list[i]
		for _, part := range p.crossed(s.line, longest) {
			if len(part) < 2 {
				continue
			}
			path := p.onFlat(part)
			d.Blanks[p.blank].Marks = append(d.Blanks[p.blank].Marks, Mark{
				Kind: Standing, From: path[0], To: path[len(path)-1], Path: path, Part: s.part.Name, Piece: p.number,
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
				parts = append(parts, clip(p.trace(p.bent(run)), p.outline)...)
			}
			return parts
		}
	}
	if p.period > 0 {
		line = p.bent(append(slices.Clone(line), line[0]))
		line = line[:len(line)-1]
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

// bent returns a line with points between its own where a chord of the chart,
// which is wound about the pole, strays from a chord in space: near the pole.
func (p *piece) bent(line []r3.Vec) []r3.Vec {
	if p.period == 0 || p.lay == nil {
		return line
	}
	out := make([]r3.Vec, 0, len(line))
	var between func(a, b r3.Vec, from, to r2.Vec, halvings int)
	between = func(a, b r3.Vec, from, to r2.Vec, halvings int) {
		m := r3.Scale(0.5, r3.Add(a, b))
		q := p.chart(m)
		to.X = nearTo(to.X, from.X, p.period)
		q.X = nearTo(q.X, from.X, p.period)
		if halvings == 0 || !(r2.Norm(r2.Sub(p.lay(q), p.lay(r2.Scale(0.5, r2.Add(from, to))))) > kinked) {
			return
		}
		between(a, m, from, q, halvings-1)
		out = append(out, m)
		between(m, b, q, to, halvings-1)
	}
	from := p.chart(line[0])
	for i, x := range line {
		if i > 0 {
			to := p.chart(x)
			between(line[i-1], x, from, to, bendHalvings)
			from = to
		}
		out = append(out, x)
	}
	return out
}

// bendHalvings is how often a step of a line is halved near the pole: a common
// one of 4 mm comes to a thirtieth of a millimetre.
const bendHalvings = 7

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
