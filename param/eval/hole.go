package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/source"
	"stabile/param/syntax"
)

// widestHole is how wide a hole may be, as a share of the diameter of the ball or the post
// that it is cut in: at more its edge would run along the wall. Common practice, no source.
const widestHole = 0.8

// placeHole works out a hole and gives it to its part.
func (e *evaluator) placeHole(d *syntax.Declaration, table *Declaration, s *scope) {
	name, ok := e.holeName(d, s)
	if !ok {
		return
	}
	h := e.hold(d, table, s)
	b := e.readBody(d, table, "hole '"+name+"'", h.host, s)
	defer b.done()
	if !h.sound() || b.failed {
		return
	}
	host := h.to[0]
	if host.feet {
		e.report(h.at[0], "give the base a plate, or cut the hole in another part", "%s has no plate to cut a hole in", host.what)
		return
	}
	hole := &design.Hole{Name: name, Span: d.Name.At, Props: b.spans(), Through: b.has("through")}
	hole.Width = b.number("diameter")
	hole.Height = hole.Width
	if g := b.find("slot"); g != nil {
		hole.Width, hole.Height = g.args[0].value.q.Number, g.args[1].value.q.Number
	}
	if !b.put(hole, host) {
		return
	}
	if turn := b.number("turn"); turn != 0 {
		sin, cos := math.Sincos(turn)
		hole.Up = r3.Add(r3.Scale(cos, hole.Up), r3.Scale(sin, hole.Across()))
	}
	if b.holeFits(hole, host) {
		host.part.Holes = append(host.part.Holes, hole)
	}
}

// holeName returns the name of a hole with its index. Holes share their names with parts
// and values.
func (e *evaluator) holeName(d *syntax.Declaration, s *scope) (string, bool) {
	name, ok := e.partName(d, s)
	if !ok {
		return "", false
	}
	first, twice := e.holes[name]
	if p := e.parts[name]; p != nil {
		first, twice = p.at, true
	}
	if b := s.lookup(name); b != nil {
		first, twice = b.name.At, true
	}
	if !twice {
		e.holes[name] = d.Name.At
		if len(e.holes) > MaxParts {
			e.stop(d.Name.At, "", "the design has more than %d holes", MaxParts)
			return "", false
		}
		return name, true
	}
	e.twice(d, name, first, "'%s' is defined twice", "first defined here")
	return "", false
}

// isHole tells of a name at a place that it is that of a hole. It reports false where none has
// been declared.
func (e *evaluator) isHole(name string, at source.Span) bool {
	_, ok := e.holes[name]
	if ok {
		e.report(at, "name the part that the hole is in", "'%s' is a hole, which nothing stands on and of which nothing is read", name)
	}
	return ok
}

// put finds where a hole is and which way it faces.
func (b *body) put(hole *design.Hole, host *placed) bool {
	if g := b.find("joint"); g != nil {
		if o := b.find("through"); o != nil {
			note(b.report(o.word, "leave it out", "%s lies in a joint, and goes through the wall there alone", b.what), g.word, "the joint is given here")
			return false
		}
		for _, other := range [...]string{"at", "toward", "up"} {
			if o := b.find(other); o != nil {
				note(b.report(o.word, "keep one of the two", "'joint' and '%s' both say where %s is", other, b.what), g.word, "first given here")
				return false
			}
		}
		return b.inJoint(hole, host, g)
	}
	switch part := host.part; {
	case part.Ball != nil:
		return b.inBall(hole, part.Ball)
	case part.Post != nil:
		return b.inPost(hole, host)
	}
	x, y, ok := b.spot("at")
	inPlate(hole, host.part.Base, x, y)
	return ok
}

func inPlate(hole *design.Hole, base *design.Base, x, y float64) {
	hole.At, hole.Way, hole.Up = base.Face(x, y), base.Out(), base.UpFace()
}

// inBall finds a hole in a ball by the bearing that it faces and how far up.
func (b *body) inBall(hole *design.Hole, ball *design.Ball) (ok bool) {
	if !b.roundEnough(ball) {
		return false
	}
	hole.Rise = b.number("up")
	steep := math.Abs(hole.Rise) > math.Pi/2-sameness
	if g := b.find("toward"); g != nil {
		if hole.Bearing, ok = b.bearing(g.args[0], ball.Center, "centre", b.what); !ok {
			return false
		}
	} else if !steep {
		b.lacking("toward 40 deg", "%s does not say which way it faces", b.what)
		return false
	}
	face(hole, ball.Center, ball.Radius)
	return true
}

// roundEnough reports that no holes are cut in eggs.
func (b *body) roundEnough(ball *design.Ball) bool {
	if ball.IsEgg() {
		b.report(b.at, "cut it in a post or a plate beside, or make the ball round: leave its 'tall' out; its 'vent' and its 'drain' are drilled all the same",
			"%s would be in an egg, whose blanks are not cut for holes", b.what)
		return false
	}
	return true
}

// lacking reports a property that must be there, unless a word was not understood that may be
// it.
func (b *body) lacking(example, format string, args ...any) {
	if !b.lost {
		b.missing(b.at, "add a line such as "+example, format, args...)
	}
}

// face turns a hole in a ball to its bearing and its rise. One that faces straight up or
// down has its top toward its bearing.
func face(hole *design.Hole, center r3.Vec, radius float64) {
	sin, cos := math.Sincos(hole.Bearing)
	up, level := math.Sincos(hole.Rise)
	hole.Way = r3.Vec{X: level * cos, Y: level * sin, Z: up}
	hole.Up = r3.Vec{X: -up * cos, Y: -up * sin, Z: level}
	hole.At = r3.Add(center, r3.Scale(radius, hole.Way))
}

// inPost finds a hole in the side of a post.
func (b *body) inPost(hole *design.Hole, host *placed) (ok bool) {
	g := b.find("at")
	if g == nil {
		b.lacking("at 4 in toward 180 deg", "%s does not say where in %s it is", b.what, host.what)
		return false
	}
	on := host.part.Post
	along := g.args[0].value.q.Number
	if along > on.Length {
		have, end := b.mms(along, on.Length)
		b.report(g.args[0].at, "make 'at' less than "+b.down(on.Length), "%s would be at %s along %s, but that is %s long", b.what, have, host.what, end)
		return false
	}
	if !g.args[1].isGiven() {
		b.report(g.at, "write it as "+g.at.Text()+" toward 90 deg", "'at' does not say on which side")
		return false
	}
	axis := r3.Add(on.Ends[design.Foot].At, r3.Scale(along, on.Direction))
	bearing, ok := b.sideBearing(g.args[1], on, axis, host.what)
	if ok {
		onSide(hole, on, along, bearing)
	}
	return ok
}

func onSide(hole *design.Hole, on *design.Post, along, bearing float64) {
	hole.Along, hole.Bearing = along, bearing
	hole.Way, hole.Up = on.Facing(bearing), on.Direction
	axis := r3.Add(on.Ends[design.Foot].At, r3.Scale(along, on.Direction))
	hole.At = r3.Add(axis, r3.Scale(on.DiameterAt(along)/2, hole.Way))
}

// holeFits checks that a hole is no larger than the part has room for, and lies within it.
func (b *body) holeFits(hole *design.Hole, host *placed) bool {
	word := "diameter"
	if b.has("slot") {
		word = "slot"
	}
	part := host.part
	var wide, across float64 // what it may be no wider than, and how wide it is
	switch {
	case hole.Disc:
		wide, across = part.Post.Ends[design.Head].Diameter, max(hole.Width, hole.Height)
	case part.Ball != nil:
		wide, across = 2*part.Ball.Radius, max(hole.Width, hole.Height)
	case part.Post != nil:
		wide, across = part.Post.DiameterAt(hole.Along), 2*hole.Extent(r3.Cross(hole.Way, part.Post.Direction))
	default:
		return b.onPlate(hole, host, word)
	}
	if across > widestHole*wide {
		size, have := b.mms(across, wide)
		b.report(b.spanOf(word), "make it "+b.down(widestHole*wide)+" or less", "%s of %s across is too wide for %s, which is %s: more than four fifths", b.what, size, host.what, have)
		return false
	}
	if part.Post == nil || hole.Disc {
		return true
	}
	up := hole.Extent(part.Post.Direction)
	at := "at"
	if !b.has(at) {
		at = "joint"
	}
	switch over := hole.Along + up - part.Post.Length; {
	case hole.Along < up:
		b.report(b.spanOf(at), "make 'at' more than "+b.up(up), "%s runs off the foot of %s, by %s", b.what, host.what, b.mm(up-hole.Along))
	case over > 0:
		b.report(b.spanOf(at), "make 'at' less than "+b.down(part.Post.Length-up), "%s runs off the head of %s, by %s", b.what, host.what, b.mm(over))
	default:
		return true
	}
	return false
}

// onPlate checks that a hole lies within a plate.
func (b *body) onPlate(hole *design.Hole, host *placed, word string) bool {
	outline := host.part.Base.Outline()
	half, radius := hole.Core()
	over := math.Inf(-1)
	for _, sign := range [2]float64{-1, 1} {
		end := r3.Add(hole.At, r3.Scale(sign, half))
		over = max(over, outline.Distance(design.Plan(host.part.Base.Own(end)))+radius)
	}
	if over < 0 {
		return true
	}
	at := "at"
	if !b.has(at) {
		at = word
	}
	b.report(b.spanOf(at), "move it inward, or make it smaller", "%s runs over the edge of %s, by %s", b.what, host.what, b.mm(over))
	return false
}

// inJoint finds a hole in the middle of a joint: of the part that it is cut in with another.
func (b *body) inJoint(hole *design.Hole, host *placed, g *given) bool {
	other := g.args[0].value.part
	joint, ok := host.jointWith(other)
	if !ok {
		b.report(g.args[0].at, "name a part that is welded to "+host.name, "%s is not joined to %s", other.what, host.what)
		return false
	}
	hole.Joint = other.part
	if hole.Joint == nil {
		b.report(g.args[0].at, "", "%s is no part that carries anything", other.what)
		return false
	}
	open := func(why string) bool {
		b.report(g.at, "leave the hole out", "%s needs no hole where %s meets it: %s", host.what, other.what, why)
		return false
	}
	switch part, with := host.part, other.part; {
	case joint.kind == design.ThreadJoint:
		return open("the post goes through the ball")
	case joint.kind == design.RestJoint:
		resting, under := host, other
		if joint.part == with {
			resting, under = other, host
		}
		b.report(g.at, "give the place of a hole in each of the two", "%s rests on one point of %s, and a hole there would leave nothing to stand on", resting.what, under.what)
		return false
	case part.Base != nil:
		at := part.Base.Own(joint.at)
		inPlate(hole, part.Base, at.X, at.Y)
	case part.Ball != nil && !b.roundEnough(part.Ball):
		return false
	case part.Ball != nil && with.Post != nil:
		faceJoint(hole, with.Post.Inward(joint.end), joint.at)
	case part.Ball != nil && with.Ball != nil:
		lower, upper := part, with
		if with.Ball.On != part {
			lower, upper = with, part
		}
		under, over := design.SeatOpens(lower, upper)
		if part == lower && under || part == upper && over {
			return open("it is cut open there")
		}
		way := r3.Unit(r3.Sub(with.Ball.Center, part.Ball.Center))
		faceJoint(hole, way, r3.Add(part.Ball.Center, r3.Scale(part.Ball.Radius, way)))
	case part.Post != nil && with.Post != nil && joint.meets == design.OnSide && joint.part == with:
		underBranch(hole, part.Post, with.Post, joint)
		return true
	case part.Post != nil && with.Post != nil && joint.meets == design.OnHead && joint.part == with && host.carries:
		hole.Disc = true
		hole.At, hole.Way = part.Post.Ends[design.Head].At, part.Post.Direction
		_, hole.Up = design.Tilt(hole.Way)
	default:
		return open("its end is open there")
	}
	if inside := insideOf(other.part, joint.end); inside > 0 && max(hole.Width, hole.Height) >= inside {
		size, room := b.mms(max(hole.Width, hole.Height), inside)
		b.report(g.at, "make it smaller than "+b.down(inside), "%s of %s does not lie within %s, which is %s wide inside", b.what, size, other.what, room)
		return false
	}
	return true
}

// faceJoint turns a hole in a ball along the axis of what is joined there.
func faceJoint(hole *design.Hole, way, at r3.Vec) {
	hole.Bearing, hole.Rise = design.BearingOf(way), math.Asin(max(-1, min(1, way.Z)))
	face(hole, r3.Vec{}, 0)
	hole.At, hole.Way = at, way
}

// underBranch finds a hole in the side of a post, square to it, under the end of another.
func underBranch(hole *design.Hole, on, branch *design.Post, j joined) {
	rel := r3.Sub(j.at, on.Ends[design.Foot].At)
	along := r3.Dot(rel, on.Direction)
	out := r3.Sub(rel, r3.Scale(along, on.Direction))
	if r3.Norm(out) < coincidence { // the end is given by its axis
		in := branch.Inward(j.end)
		out = r3.Sub(in, r3.Scale(r3.Dot(in, on.Direction), on.Direction))
		// Where that axis leaves the side.
		if n := r3.Norm(out); n > sameness {
			along += on.DiameterAt(along) / 2 * r3.Dot(in, on.Direction) / n
		}
	}
	onSide(hole, on, along, on.BearingTo(out))
}

// insideOf returns how wide a post is inside at an end, in mm; 0 of other parts.
func insideOf(p *design.Part, end int) float64 {
	if p.Post == nil || p.Metal == nil {
		return 0
	}
	return p.Post.Ends[end].Diameter - 2*p.Metal.Thickness
}

// A joined is a tie of two parts as either of them sees it: the part that is tied by it.
type joined struct {
	tie
	part *design.Part
}

// jointWith returns the tie between a part and another.
func (p *placed) jointWith(other *placed) (joined, bool) {
	for _, t := range p.ties {
		if t.with == other {
			return joined{t, p.part}, true
		}
	}
	for _, t := range other.ties {
		if t.with == p {
			return joined{t, other.part}, true
		}
	}
	return joined{}, false
}
