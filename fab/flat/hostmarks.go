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
	t, ok := d.tube()
	if !ok {
		return
	}
	// A taper cut in pieces has its blanks in order, before any disc.
	count := 0
	for count < len(made.Blanks) && (made.Blanks[count].Shape == Tube || made.Blanks[count].Shape == Sector) {
		count++
	}
	draw := func(name string, line []r3.Vec, bearing float64) {
		angles := t.chart(line)
		for k := range count {
			b := &made.Blanks[k]
			from, to := t.turn*float64(k)/float64(count), t.turn*float64(k+1)/float64(count)
			for _, part := range t.pieces(angles, from, to) {
				path := make([]r2.Vec, len(part))
				for i, q := range part {
					path[i] = t.lay(q.X, q.Y, (from+to)/2)
				}
				b.Marks = append(b.Marks, Mark{
					Kind: Standing, From: path[0], To: path[len(path)-1], Path: path, Part: name, Bearing: bearing,
				})
			}
		}
	}
	for _, st := range s.standing[p] {
		bearing := t.bearing(st.line)
		draw(st.part.Name, st.line, bearing)
		for k := range count {
			made.Blanks[k].Notes = append(made.Blanks[k].Notes, StandsHere{st.part.Name, bearing})
		}
		if t.crossesSeam(st.line) {
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

// pieces returns the parts of a closed line that lie on the blank between two
// angles from the seam, short of the gap that is taken off at the second.
func (t *tube) pieces(line []r2.Vec, from, to float64) [][]r2.Vec {
	box := []r2.Vec{{X: from, Y: -far}, {X: t.edgeAt(to, 0, t.gap), Y: -far}}
	if t.gap > 0 {
		for k := range gapSteps + 1 {
			y := t.length * float64(k) / gapSteps
			box = append(box, r2.Vec{X: t.edgeAt(to, y, t.gap), Y: y})
		}
	}
	box = append(box, r2.Vec{X: t.edgeAt(to, t.length, t.gap), Y: far}, r2.Vec{X: from, Y: far})
	return wound(line, 2*math.Pi, box)
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

// crossesSeam reports whether the seam runs through what a closed line encloses.
func (t *tube) crossesSeam(line []r3.Vec) bool {
	low, high := math.Inf(1), math.Inf(-1)
	for _, q := range t.chart(line) {
		low, high = min(low, q.X), max(high, q.X)
	}
	return low < 0 || high > 2*math.Pi
}
