package flat

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
)

// markPost draws on a post's flats where branches stand on it and where balls
// are threaded on it. A branch is welded on from outside: no hole is cut.
func markPost(made *Developed, p *design.Part, s *setting) {
	if len(made.Blanks) == 0 {
		return
	}
	d := developer{part: p, setting: s}
	draw := func(name string, line []r3.Vec, bearing float64) {
		for k := range made.walls {
			w := &made.walls[k]
			b := &made.Blanks[w.blank]
			for _, part := range w.pieces(w.chart(line)) {
				path := make([]r2.Vec, len(part))
				for i, q := range part {
					path[i] = w.lay(q.X, q.Y, w.middle())
				}
				b.Marks = append(b.Marks, Mark{
					Kind: Standing, From: path[0], To: path[len(path)-1], Path: path, Part: name, Bearing: bearing,
				})
			}
		}
	}
	for _, st := range s.standing[p] {
		bearing := made.walls[0].bearing(st.line)
		draw(st.part.Name, st.line, bearing)
		under := false
		for k := range made.walls {
			w := &made.walls[k]
			if w.holds(st.line) {
				b := &made.Blanks[w.blank]
				b.Notes = append(b.Notes, StandsHere{st.part.Name, bearing, w.up(st.line, b)})
			}
			under = under || w.crossesSeam(st.line)
		}
		if under && p.Post.Bought == nil {
			made.Findings = append(made.Findings, d.finding(finding.Caution, SeamUnder{st.part.Name}))
		}
	}
	for _, th := range s.threaded[p] {
		for _, line := range th.lines {
			draw(th.ball.Name, line, 0)
		}
	}
}

// chart returns, for points on the outside of the wall, the angle from the seam,
// unwound, and the height.
func (t *tube) chart(line []r3.Vec) []r2.Vec {
	out := make([]r2.Vec, len(line))
	last := 0.0
	for i, x := range line {
		rel := r3.Sub(x, t.foot)
		east, north, up := r3.Dot(rel, t.zero), r3.Dot(rel, t.right), r3.Dot(rel, t.along)
		angle := math.Atan2(north, east) - t.seam
		if i == 0 {
			angle = bearingOf(angle)
		} else {
			angle = nearTo(angle, last, 2*math.Pi)
		}
		last = angle
		out[i] = r2.Vec{X: angle, Y: up*t.cos + (math.Hypot(east, north)-t.mean)*t.sin}
	}
	return out
}

// pieces returns the parts of a closed line that lie on the wall, short of the gap that
// is taken off at its edge.
func (w *wall) pieces(line []r2.Vec) [][]r2.Vec {
	low, high := max(w.low, 0), min(w.high, w.length)
	bottom, top := max(w.low, -far), min(w.high, far)
	box := []r2.Vec{{X: w.from, Y: bottom}, {X: w.edgeAt(w.to, low, w.gap), Y: bottom}}
	if w.gap > 0 {
		for k := range gapSteps + 1 {
			y := low + (high-low)*float64(k)/gapSteps
			box = append(box, r2.Vec{X: w.edgeAt(w.to, y, w.gap), Y: y})
		}
	}
	box = append(box, r2.Vec{X: w.edgeAt(w.to, high, w.gap), Y: top}, r2.Vec{X: w.from, Y: top})
	return wound(line, 2*math.Pi, box)
}

// holds reports whether some of a closed line lies between the heights of the wall.
func (w *wall) holds(line []r3.Vec) bool {
	low, high := bounds(w.chart(line))
	return high.Y > w.low && low.Y < w.high
}

// up returns how far above the lower edge of a course's blank the middle of a line lies; 0
// for a cone, whose blank has no lower edge to measure from.
func (w *wall) up(line []r3.Vec, b *Blank) float64 {
	if w.flare != 0 {
		return 0
	}
	low, high := bounds(w.chart(line))
	edge, _ := bounds(b.Outline)
	return (low.Y+high.Y)/2 - edge.Y
}

// gapSteps is the number of chords that stand for the edge beside a gap where
// marks end at it: of a gap of 3 mm on a taper from 300 to 100 mm in 600 they leave
// it by 3 micrometres.
const gapSteps = 32

// bearing returns the bearing of the middle of a closed line that does not go
// round the post.
func (t *tube) bearing(line []r3.Vec) float64 {
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range t.chart(line) {
		low, high = min(low, q.X), max(high, q.X)
	}
	return bearingOf(t.seam + (low+high)/2)
}

// crossesSeam reports whether the seam at the wall's left edge runs through what a closed
// line encloses.
func (w *wall) crossesSeam(line []r3.Vec) bool {
	if w.from > 0 {
		return false
	}
	chart := w.chart(line)
	low, high := math.Inf(1), math.Inf(-1)
	for i, a := range chart {
		b := chart[(i+1)%len(chart)]
		for _, seam := range [3]float64{-2 * math.Pi, 0, 2 * math.Pi} {
			if (a.X < seam) != (b.X < seam) {
				y := a.Y + (b.Y-a.Y)*(seam-a.X)/(b.X-a.X)
				low, high = min(low, y), max(high, y)
			}
		}
	}
	return high > w.low && low < w.high
}
