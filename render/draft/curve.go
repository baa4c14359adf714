package draft

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/param/design"
	"stabile/render/ink"
)

// turns is the number of steps in which a round edge is drawn: at 96 the chord
// leaves the curve by 0.05 % of its radius, less than a line is wide.
const turns = 96

// endOn is the cosine between a post and the line of sight beyond which the
// post is seen end on and has no silhouette.
const endOn = 0.99999

// A curve is a line of a part in space. Its hidden stretches are behind the
// part itself; what other parts hide is found later.
type curve struct {
	line   ink.Line
	path   []r3.Vec
	closed bool
	back   bool // behind the part's own body
	joint  bool // where two bodies meet: its own body may hide it, and is asked
	center r3.Vec
	round  float64 // radius of a curve that is seen as a circle about center; else 0
}

// curves returns the lines of a part that are seen in a projection. The shell is that of a
// ball.
func curves(p *fab.Part, sh *shell, proj Projection) []curve {
	switch {
	case p.Base != nil:
		return baseCurves(p, proj)
	case p.Post != nil:
		return append(postCurves(p, proj), holeCurves(p, proj)...)
	}
	return append(ballCurves(p.Part, sh, proj), holeCurves(p, proj)...)
}

// A shell is the lines on a ball that are the same in all views.
type shell struct {
	seams [][]r3.Vec
	edges []capEdge
	meets []curve // where it meets its neighbours
}

func shellOf(p *design.Part) shell { return shell{ballSeams(p), capEdges(p), meetings(p)} }

// postCurves returns the two silhouette lines between the trimmed rims, and
// the rims: the near half of each, and the whole of one that is seen from its
// open side; and the seams round a post in courses.
func postCurves(p *fab.Part, proj Projection) []curve {
	_, _, toward := proj.axes()
	post := p.Post
	cos := r3.Dot(post.Direction, toward)
	if math.Abs(cos) > endOn {
		near := 0
		if cos > 0 {
			near = 1
		}
		var cs []curve
		if !(near == design.Head && post.IsPointed()) {
			cs = append(cs, curve{path: slices.Clone(p.Body.Rims[near]), closed: true})
		}
		if post.Ends[1-near].Diameter > post.Ends[near].Diameter {
			rim := slices.Clone(p.Body.Rims[1-near])
			if 1-near == design.Foot && post.Sunk > 0 { // as it is seen, at the ground
				r := post.Ends[design.Foot].Diameter / 2
				rim = circle(post.Ends[design.Foot].At, r3.Vec{X: r}, r3.Vec{Y: r})
			}
			cs = append(cs, curve{path: rim, closed: true})
		}
		return append(cs, doublers(post)...)
	}
	slope := post.Slope()
	facing := func(q r3.Vec) float64 {
		rel := r3.Sub(q, post.Ends[design.Foot].At)
		radial := r3.Unit(r3.Sub(rel, r3.Scale(r3.Dot(rel, post.Direction), post.Direction)))
		return r3.Dot(r3.Sub(radial, r3.Scale(slope, post.Direction)), toward)
	}
	var cs []curve
	var ends [2][]r3.Vec // the silhouette's points on the foot's and the head's rim, left then right
	for i, rim := range p.Body.Rims {
		if i == design.Head && post.IsPointed() {
			ends[i] = []r3.Vec{post.Ends[i].At, post.Ends[i].At}
		}
		if len(rim) < 3 {
			continue
		}
		free := (i == 0 && post.Ends[design.Foot].Meets == design.Free && cos < 0) || (i == 1 && post.Ends[design.Head].Meets == design.Free && cos > 0)
		near, back, turn := halves(rim, facing)
		ends[i] = turn
		switch {
		case free || len(turn) != 2:
			cs = append(cs, curve{path: slices.Clone(rim), closed: true, back: !free && facing(rim[0]) < 0})
		default:
			cs = append(cs, curve{path: near}, curve{path: back, back: true})
		}
	}
	if len(ends[0]) == 2 && len(ends[1]) == 2 {
		right := proj.Flat(r3.Sub(ends[0][1], ends[0][0]))
		if r2.Dot(right, proj.Flat(r3.Sub(ends[1][1], ends[1][0]))) < 0 {
			slices.Reverse(ends[1])
		}
		for k := range 2 {
			cs = append(cs, curve{path: []r3.Vec{ends[0][k], ends[1][k]}})
		}
	}
	cs = append(cs, doublers(post)...)
	x, y := design.Tilt(post.Direction)
	for _, along := range p.Rounds {
		r := post.DiameterAt(along) / 2
		ring := circle(r3.Add(post.Ends[design.Foot].At, r3.Scale(along, post.Direction)), r3.Scale(r, x), r3.Scale(r, y))
		if near, _, turn := halves(ring, facing); len(turn) == 2 {
			cs = append(cs, curve{line: ink.Seam, path: near})
		}
	}
	return cs
}

// doublers returns the edges of the discs that double the walls of the balls that a post meets.
func doublers(post *design.Post) (cs []curve) {
	for i := range post.Ends {
		if _, ok := post.Ends[i].Doubled(); !ok {
			continue
		}
		middle, out, r := post.DoublerEdge(i)
		// Just outside of the ball, which would otherwise hide all of it.
		x, y := design.Tilt(out)
		middle = r3.Add(middle, r3.Scale(post.Ends[i].With.Metal.Thickness, out))
		cs = append(cs, curve{path: circle(middle, r3.Scale(r, x), r3.Scale(r, y)), closed: true})
	}
	return cs
}

// halves parts a closed rim where facing changes sign. It returns the stretch
// that faces the viewer, the stretch that does not, and the two points between
// them; or no points where the rim does not turn just twice.
func halves(rim []r3.Vec, facing func(r3.Vec) float64) (near, back, turn []r3.Vec) {
	n := len(rim)
	f := make([]float64, n)
	for i, q := range rim {
		f[i] = facing(q)
	}
	var at []int // the turn lies between i and i+1
	for i := range n {
		if (f[i] >= 0) != (f[(i+1)%n] >= 0) {
			at = append(at, i)
			j := (i + 1) % n
			t := f[i] / (f[i] - f[j])
			turn = append(turn, r3.Add(rim[i], r3.Scale(t, r3.Sub(rim[j], rim[i]))))
		}
	}
	if len(at) != 2 {
		return nil, nil, nil
	}
	stretch := func(a, b int) []r3.Vec {
		path := []r3.Vec{turn[a]}
		for i := (at[a] + 1) % n; ; i = (i + 1) % n {
			path = append(path, rim[i])
			if i == at[b] {
				break
			}
		}
		return append(path, turn[b])
	}
	first, second := stretch(0, 1), stretch(1, 0)
	if f[(at[0]+1)%n] >= 0 {
		return first, second, turn
	}
	return second, first, turn
}

// ballCurves returns a ball's true outline and its seams that face the viewer.
func ballCurves(p *design.Part, sh *shell, proj Projection) []curve {
	if p.Ball.Bowl {
		return append(bowlCurves(p, sh, proj), sh.meets...)
	}
	cs := append(shellCurves(p, sh, proj), capCurves(p, sh, proj)...)
	return append(cs, sh.meets...)
}

// ballOutline returns the outline of a ball without ridges: a circle, or of an egg the ellipse
// of the points that lie farthest out in each direction across the view.
func ballOutline(b *design.Ball, right, up r3.Vec) curve {
	if !b.IsEgg() {
		return curve{path: circle(b.Center, r3.Scale(b.Radius, right), r3.Scale(b.Radius, up)), closed: true, center: b.Center, round: b.Radius}
	}
	path := circle(r3.Vec{}, right, up)
	for i, way := range path {
		path[i] = r3.Add(b.Center, b.Far(way))
	}
	return curve{path: path, closed: true}
}

// shellCurves returns the lines of a ball that meets nothing.
func shellCurves(p *design.Part, sh *shell, proj Projection) []curve {
	b, seams := p.Ball, sh.seams
	right, up, toward := proj.axes()
	if b.IsZoned() {
		return zoneCurves(b, proj, seams)
	}
	if !b.IsLobed() {
		cs := []curve{ballOutline(b, right, up)}
		for _, s := range seams {
			cs = append(cs, facingStretches(s, func(q r3.Vec) bool { return r3.Dot(b.Normal(r3.Sub(q, b.Center)), toward) > 0 })...)
		}
		return cs
	}
	all := slices.Concat(seams...)
	for _, edge := range sh.edges {
		if b.Straight {
			all = append(all, lobedCap(p, edge)...)
		} else {
			all = append(all, domed(b, edge, proj)...)
		}
	}
	cs := []curve{{path: hull(all, proj), closed: true}}
	ridge, along := b.Radius/b.Ridge(), r3.Dot(b.Pole, toward)
	flat := (b.Radius / b.Polar()) * (b.Radius / b.Polar()) // what lies along the pole of an egg faces there so much less
	for k, s := range seams {
		// A ridge is seen where either of the gores beside it is.
		left := b.Meridian(2 * math.Pi * float64(k) / float64(b.Gores))
		next := b.Meridian(2 * math.Pi * float64(k+1) / float64(b.Gores))
		across := max(r3.Dot(left, toward), r3.Dot(next, toward))
		cs = append(cs, facingStretches(s, func(q r3.Vec) bool {
			rel := r3.Sub(q, b.Center)
			z := r3.Dot(rel, b.Pole)
			x := math.Sqrt(r3.Norm2(r3.Sub(rel, r3.Scale(z, b.Pole)))) * ridge
			return x*across+z*flat*along > 0
		})...)
	}
	return cs
}

// ballSeams returns the welded seams of a ball as lines in space: one for each
// gore, on its far side from the pole below to the pole above; of halves the
// equator; of a bought ball none. Those of a bowl end at its rim; one that is dished
// has none.
func ballSeams(p *design.Part) [][]r3.Vec {
	b := p.Ball
	side := r3.Cross(b.Pole, b.Prime)
	switch {
	case b.Build == design.Bought || b.Bowl && b.Gores == 0:
		return nil
	case b.Build == design.Halves:
		eq := circle(b.Center, r3.Scale(b.Radius, b.Prime), r3.Scale(b.Radius, side))
		return [][]r3.Vec{append(eq, eq[0])}
	case b.IsZoned():
		return ringSeams(b)
	case b.Gores == 0:
		return nil
	}
	profile := b.Profile()
	across, low, high := b.Radius, -profile.Drawn(p.CapLatitude(design.LowerPole)), profile.Drawn(p.CapLatitude(design.UpperPole))
	if b.IsLobed() {
		across = b.Ridge()
	}
	steps := turns / 2
	if b.Bowl {
		high, steps = b.Rim, turns/4
	}
	var seams [][]r3.Vec
	for k := range b.Gores {
		m := b.Meridian(2 * math.Pi * (float64(k) + 0.5) / float64(b.Gores))
		s := make([]r3.Vec, steps+1)
		for i := range s {
			sin, cos := math.Sincos(low + (high-low)*float64(i)/float64(steps))
			s[i] = r3.Add(b.Center, r3.Add(r3.Scale(across*cos, m), r3.Scale(b.Polar()*sin, b.Pole)))
		}
		seams = append(seams, s)
	}
	return seams
}

// facingStretches returns the stretches of a seam that are seen.
func facingStretches(path []r3.Vec, seen func(r3.Vec) bool) []curve {
	var cs []curve
	var run []r3.Vec
	flush := func() {
		if len(run) > 1 {
			cs = append(cs, curve{line: ink.Seam, path: run})
		}
		run = nil
	}
	for _, q := range path {
		if !seen(q) {
			flush()
			continue
		}
		if run == nil {
			run = make([]r3.Vec, 0, len(path))
		}
		run = append(run, q)
	}
	flush()
	return cs
}

// hull returns the points on the outline of a convex body that is the hull of
// the given points, counter-clockwise as seen: of two that are seen as one, the
// nearer.
func hull(points []r3.Vec, proj Projection) []r3.Vec {
	flat := make([]r2.Vec, len(points))
	_, _, toward := proj.axes()
	for i, q := range points {
		flat[i] = proj.Flat(q)
	}
	outline := design.Hull(flat)
	at := make(map[r2.Vec]int, len(outline)) // of each corner, the nearest point
	for _, p := range outline {
		at[p] = -1
	}
	for i, p := range flat {
		if k, ok := at[p]; ok && (k < 0 || r3.Dot(points[i], toward) > r3.Dot(points[k], toward)) {
			at[p] = i
		}
	}
	path := make([]r3.Vec, len(outline))
	for i, p := range outline {
		path[i] = points[at[p]]
	}
	return path
}

// circle returns points round a centre on the ellipse with the given half axes.
func circle(center, a, b r3.Vec) []r3.Vec {
	path := make([]r3.Vec, turns)
	for i := range path {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / turns)
		path[i] = r3.Add(center, r3.Add(r3.Scale(cos, a), r3.Scale(sin, b)))
	}
	return path
}
