package flat

import (
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/shop"
	"stabile/param/design"
	"stabile/param/quantity"
)

// leastSide is the shortest side, in mm, that a tube may have left between its
// cut ends: two curves that each lie within Chord of the true one cannot cross
// at twice that.
const leastSide = 2 * Chord

// endName returns the name of a post's end by its index.
func endName(i int) string { return [2]string{"foot", "head"}[i] }

// edgeOf returns the edge of a post's end by its index.
func edgeOf(i int) Edge { return [2]Edge{FootEdge, HeadEdge}[i] }

// post develops a rolled tube: a rectangle as wide as the tube is round at the
// middle of its wall, with an end cut to what it meets. A taper comes to an
// annular sector: see cone.go.
//
// In the frame of the flat x is the mean radius times the angle from the seam,
// so that bearing = seam + x / mean radius, as it reads on the outside face with
// the head up; y = 0 is the foot point.
func (d *developer) post() {
	p := d.part.Post
	t, ok := d.tube()
	if !ok {
		return
	}
	var ends [2]trim
	var on [2]meeting
	round := t.round()
	for i := range ends {
		e := &ends[i]
		e.tube, e.head, e.hand, e.curve = &t, i == 1, ByHand(d.units).Trim, d.curves[i]
		surface, ok := d.surface(i)
		if !ok {
			return
		}
		on[i] = e.meet(surface)
		met := e.run(&on[i], &round)
		d.curves[i] = e.curve
		if !met {
			d.misses(e, i)
			return
		}
		low, high := e.reach()
		least := min(t.girth(low), t.girth(high))
		pointed := i == 1 && p.IsPointed() // it ends where it can be welded: see blunt
		if !pointed && !(least > t.outer-t.mean) {
			d.fail("diameter", "make it longer, or less of a taper", "comes to a point before its %s has met %s all round",
				endName(i), meetsName(p.Ends[i]))
			return
		}
		if !pointed && t.gap >= least {
			d.wideGap()
			return
		}
		if m := p.Ends[i].Meets; m == design.OnSide || m == design.OnBall && (!d.unmarked || p.InCourses()) {
			d.Toes[i] = e.toes(&on[i])
			d.overhang(i)
		}
	}
	foot, head := &ends[0], &ends[1]
	if side, at := shortest(foot, head); side < leastSide {
		d.fail("length", fmt.Sprintf("make it longer by %s or more", d.length(leastSide-side)),
			"is too short for its two cut ends: at bearing %s they leave %s of tube",
			quantity.Bearing(t.seam+at), d.length(side))
		return
	}
	levels, ok := d.levels(&ends)
	if !ok {
		return
	}
	var lowest, highest laid
	if len(levels) > 0 {
		lowest, highest = d.inCourses(&ends, &on, levels)
		if head = &highest.ends[1]; d.Toes[1] != nil {
			d.Toes[1] = head.toes(&on[1])
		}
	} else {
		d.roll(&ends, &on, course{})
		lowest = laid{&ends, 0, len(d.Blanks)}
		highest = lowest
	}
	if len(d.wrong) > 0 {
		return
	}
	if !d.drillPost(foot, head) {
		return
	}
	d.boresOfPost(lowest, highest)
	d.seamsApart(len(levels) + 1)
	d.Rims = [2][]r3.Vec{foot.rim(), head.rim()}
	d.Welds = [2]float64{foot.weld, head.weld}
	if p.IsPointed() {
		d.Rims[1] = nil
		d.point(head.tube)
	}
	free := p.Ends[design.Head].Meets == design.Free || p.Ends[design.Head].Meets == design.OnHead && head.square
	if p.Ends[design.Head].Disc && free {
		d.headDisc(head.tube)
	}
	for i := range p.Ends {
		d.doubler(i)
	}
	b := &d.Blanks[0]
	if !quantity.Finite(d.Mass, d.CG.X, d.CG.Y, d.CG.Z, b.Length, b.Width, b.Area) {
		d.fail("length", "", "is not a number: a size is out of range")
	}
}

// roll makes the blanks of a course, or of all of a post.
func (d *developer) roll(ends *[2]trim, on *[2]meeting, c course) {
	if ends[0].flare != 0 {
		d.taper(ends, on, c)
	} else {
		d.straight(ends, on, c)
	}
}

// straight makes the blank of a tube.
func (d *developer) straight(ends *[2]trim, on *[2]meeting, c course) {
	foot, head := &ends[0], &ends[1]
	t := foot.tube
	d.outline = foot.edge(d.outline[:0], 0, t.turn, t.turn/2)
	from := len(d.outline)
	d.outline = head.edge(d.outline, 0, t.turn, t.turn/2)
	slices.Reverse(d.outline[from:])
	outline := slices.Clone(d.outline)
	low, high := bounds(outline)
	b := Blank{
		Shape: Tube, Quantity: 1,
		Outline: outline,
		Area:    t.mean * (head.sum - foot.sum),
		Width:   t.lie * t.turn,
		Length:  high.Y - low.Y,
		Forming: Forming{How: "roll", Axis: "y", MeanRadius: t.mean},
		Bought:  d.part.Post.Bought,
	}
	if b.Bought != nil {
		b.Forming = Forming{How: "saw"}
	}
	c.name(&b, d.part.Name, 1, 1)
	b.Marks = d.witness(ends, on, 0, t.turn, t.turn/2)
	b.Ordinates = ordinates(foot, head, low.Y, high.Y)
	b.Notes = d.tubeNotes(foot, head, low.Y, high.Y, c)
	d.stand(ends, 0, t.turn, c)
	d.add(b)
	d.CG = t.balance(foot, head)
	if b.Bought != nil {
		return // its own seam, if it has one, is the mill's
	}
	d.sew(Seam{Kind: TubeSeam, Count: 1, Length: head.curve[0].y - foot.curve[0].y, Bearing: bearingOf(t.seam), Course: c.index()})
}

// tube checks the sizes of a post and returns its wall.
func (d *developer) tube() (tube, bool) {
	p := d.part.Post
	thick, ok := d.sheet()
	if !ok {
		return tube{}, false
	}
	if !d.bounded("length", p.Length) || !d.bounded("diameter", p.Ends[design.Foot].Diameter, p.Ends[design.Head].Diameter) {
		return tube{}, false
	}
	least := p.Narrowest() / 2
	t := tube{along: p.Direction, foot: p.Ends[design.Foot].At, seam: p.Seam, length: p.Length, cos: 1}
	if p.IsTaper() && p.Length > 0 {
		t.flare = math.Atan(p.Slope())
		t.sin, t.cos = math.Sincos(t.flare)
		t.length = p.Length / t.cos
		t.foot = r3.Add(p.Ends[design.Foot].At, r3.Scale(thick/2*t.sin, p.Direction))
	}
	t.mean = p.Ends[design.Foot].Diameter/2 - thick/2*t.cos
	t.inner, t.outer = t.mean-thick/2, t.mean+thick/2
	if p.IsPointed() && t.sin < 0 {
		t.length = t.blunt(thick, p.Gap, shop.Narrowest(p.Narrow))
	}
	if t.lie = t.mean; p.Bought != nil {
		t.lie, t.bought = t.outer, true
	}
	middle := t.girth(t.length / 2)
	switch {
	case !quantity.Finite(p.Seam, p.Gap, r3.Norm(p.Ends[design.Foot].At), r3.Norm(p.Direction)):
		d.fail("length", "", "has a place or an angle that is not a number")
	case !(thick < least*t.cos):
		d.fail("diameter", "take a larger diameter or a thinner metal",
			"of %s across has no hollow with a wall of %s", d.length(2*least), d.length(thick))
	case !(p.Length > 0):
		d.fail("length", "", "has no length")
	case p.Gap < 0 || p.Gap >= math.Pi*middle:
		d.wideGap()
	}
	if len(d.wrong) > 0 {
		return tube{}, false
	}
	t.zero, t.right = p.Bearings()
	t.turn = 2*math.Pi - (p.Gap-d.shrink)/middle
	if t.flare != 0 {
		t.turn, t.gap = 2*math.Pi+d.shrink/middle, p.Gap
	}
	return t, true
}

// wideGap reports a seam that cannot be as wide as the design gives it.
func (d *developer) wideGap() {
	d.fail("gap", "the gap is the root opening of the seam, some tenths of the thickness",
		"cannot have a seam gap of %s", d.length(d.part.Post.Gap))
}

// round returns the even steps from edge to edge of the blank.
func (t *tube) round() [steps + 1]direction {
	var round [steps + 1]direction
	for i := range round {
		c := &round[i]
		c.angle = t.turn * float64(i) / steps
		c.sin, c.cos = math.Sincos(t.seam + c.angle)
	}
	return round
}

// shortest returns the least length of the tube's side, and its angle from the
// seam.
func shortest(foot, head *trim) (side, angle float64) {
	side = math.Inf(1)
	i, j := 0, 0
	f, h := foot.curve, head.curve
	for i < len(f) && j < len(h) {
		at := min(f[i].angle, h[j].angle)
		if s := level(h, j, at) - level(f, i, at); s < side {
			side, angle = s, at
		}
		if f[i].angle <= at {
			i++
		}
		if h[j].angle <= at {
			j++
		}
	}
	return side, angle
}

// level returns the height of a polyline at an angle that is at most that of
// its point i and at least that of the point before.
func level(curve []point, i int, angle float64) float64 {
	b := curve[i]
	if i == 0 || b.angle == angle {
		return b.y
	}
	a := curve[i-1]
	return a.y + (b.y-a.y)*(angle-a.angle)/(b.angle-a.angle)
}

// balance returns the centre of gravity of the trimmed wall. Across the wall
// the mean of r^2 dr is that of the mean radius, enlarged by t^2/12 over its
// square.
func (t *tube) balance(foot, head *trim) r3.Vec {
	sum := head.sum - foot.sum
	along := (head.moment - foot.moment) / sum
	wall := t.outer - t.inner
	across := t.mean * (1 + wall*wall/(12*t.mean*t.mean)) / sum
	cg := r3.Add(t.foot, r3.Scale(along, t.along))
	cg = r3.Add(cg, r3.Scale(across*(head.east-foot.east), t.zero))
	return r3.Add(cg, r3.Scale(across*(head.north-foot.north), t.right))
}

// headDisc adds the disc that closes a free head, let in flush.
func (d *developer) headDisc(t *tube) {
	p := d.part.Post
	m := d.part.Sheet()
	thick, wall := m.Thickness, d.part.Metal.Thickness
	mass, cg := d.Mass, d.CG
	// In a taper it must pass where its lower face comes to lie, too.
	radius := t.skin(t.length) - wall/t.cos - max(0, thick*t.sin/t.cos)
	if !(radius > 0) {
		return
	}
	b := disc(d.part.Name+" head disc", 2*radius, 0)
	b.Forming = Forming{How: "flat"}
	b.Notes = []finding.Fact{FitsInside}
	for _, h := range d.part.Holes {
		if h.Disc {
			b.Holes = append(b.Holes, d.drillFlat(h, func(q r2.Vec) r2.Vec { return q }))
			b.Area -= h.Area()
		}
	}
	d.addOf(m, b)
	at := r3.Add(p.Ends[design.Foot].At, r3.Scale(p.Length-thick/2, t.along))
	d.CG = balanced(mass, cg, d.Mass-mass, at)
	d.sew(Seam{Kind: DiscEdge, Count: 1, Length: 2 * math.Pi * radius, Bearing: t.seam})
	if p.Length < thick {
		d.note(finding.Caution, ThickDisc{})
	}
}

// balanced returns the centre of gravity of two masses together.
func balanced(a float64, at r3.Vec, b float64, other r3.Vec) r3.Vec {
	return r3.Scale(1/(a+b), r3.Add(r3.Scale(a, at), r3.Scale(b, other)))
}

// stand takes note of where the wall of the next blank stands: between two angles from
// the seam of a course.
func (d *developer) stand(ends *[2]trim, from, to float64, c course) {
	w := wall{*ends[0].tube, from, to, math.Inf(-1), math.Inf(1), len(d.Blanks)}
	if !c.ownEnd(0) {
		w.low = ends[0].curve[0].y
	}
	if !c.ownEnd(1) {
		w.high = ends[1].curve[0].y
	}
	d.walls = append(d.walls, w)
}

// seamsApart cautions of a seam that comes too near another at an end of the post.
func (d *developer) seamsApart(courses int) {
	least := design.SeamThicknesses * d.part.Metal.Thickness
	part, post := *d.part, *d.part.Post
	post.Courses, post.CourseLength = courses, 0
	part.Post = &post
	if room, with := part.SeamRoom(post.Seam, nil); room < least {
		d.note(finding.Caution, SeamsMeet{with.Name, max(0, room), least})
	}
}
