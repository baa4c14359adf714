package eval

import (
	"fmt"
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
	"stabile/param/syntax"
)

// ringFacing is the way that a ring faces that says nothing else: toward the viewer.
const ringFacing = 3 * math.Pi / 2

// ringSeam is how far, in rad, the seams of a ring's tubes lie from the middle of their
// insides, to one side and the other by turns: those of neighbours do not meet, and the
// blanks are alike, every other one turned end for end.
const ringSeam = math.Pi / 4

// A madeRing is a ring with the text that made it.
type madeRing struct {
	*design.Ring
	decl *syntax.Declaration
	lost bool // it has failed, and its tubes are not there
}

// placeRing works out a ring and enters its tubes as posts of their own.
func (e *evaluator) placeRing(d *syntax.Declaration, table *Declaration, s *scope) {
	name, ok := e.partName(d, s)
	if !ok {
		return
	}
	if !e.isNewPart(d, name) {
		return
	}
	made := &madeRing{Ring: &design.Ring{Name: name}, decl: d, lost: true}
	h := e.hold(d, table, s)
	b := e.readBody(d, table, "ring '"+name+"'", h.host, s)
	defer b.done()
	defer func() { e.rings[name] = made }() // only then can it be read: not by itself
	pipe, ok := b.pipe()
	if !h.sound() || b.failed || b.lost || !ok { // a word that was not understood may be the one that it lies by
		return
	}
	first := b.part(&placed{name: indexed(name, 1), at: d.Name.At})
	first.Post = &design.Post{Gap: b.number("gap")}
	first.Post.Ends[design.Foot].Diameter = b.number("diameter")
	first.Post.Ends[design.Head].Diameter = b.number("diameter")
	if !b.buy(first, pipe) || !b.tubeSound(first) {
		return
	}
	tubes, ok := b.tubes(first, made.Ring, d)
	if !ok {
		return
	}
	made.Tubes = make([]*design.Part, len(tubes))
	for k, p := range tubes {
		made.Tubes[k] = p.part
	}
	if !b.layRing(made.Ring, tubes, &h) {
		return
	}
	b.closeRing(made.Ring, tubes)
	made.lost = false
	e.design.Rings = append(e.design.Rings, made.Ring)
	for _, p := range tubes {
		e.placed = append(e.placed, p)
		e.parts[p.name] = p
		e.design.Parts = append(e.design.Parts, p.part)
	}
}

// tubes returns the tubes of a ring, which are not in their places yet, like the first.
func (b *body) tubes(first *design.Part, r *design.Ring, d *syntax.Declaration) ([]*placed, bool) {
	e := b.evaluator
	r.Across, r.Flat = b.number("across"), b.has("flat")
	thick := first.Post.Ends[design.Foot].Diameter
	if r.Across <= 2*thick {
		across, have := b.mms(r.Across, thick)
		b.report(b.spanOf("across"), "make it more than "+b.up(2*thick)+", or its tubes thinner", "%s of %s has no opening: its tubes are %s thick", b.what, across, have)
		return nil, false
	}
	n := usualTubes
	if b.has("segments") {
		n = int(b.number("segments"))
	}
	if len(e.placed)+n > MaxParts {
		e.stop(d.Name.At, "", "the design has more than %d parts", MaxParts)
		return nil, false
	}
	list := make([]*placed, n)
	for k := range list {
		name := indexed(r.Name, k+1)
		if !e.isNewPart(d, name) {
			return nil, false
		}
		post := *first.Post
		post.Ring = r
		part := *first
		part.Name, part.Post = name, &post
		list[k] = &placed{name: name, what: fmt.Sprintf("tube '%s'", name), at: d.Name.At, part: &part}
	}
	return list, true
}

// layRing finds where a ring is, sets its tubes there and ties it to what it rests on.
func (b *body) layRing(r *design.Ring, tubes []*placed, h *hold) bool {
	from, ok := b.start(h)
	if !ok {
		return false
	}
	facing := ringFacing
	if g := b.find("facing"); g != nil {
		if facing, ok = b.bearing(g.args[0], from, "middle", b.what); !ok {
			return false
		}
	}
	sin, cos := math.Sincos(facing)
	r.Axis, r.First = square(r3.Vec{X: cos, Y: sin}), r3.Vec{Z: -1}
	if r.Flat {
		r.Axis, r.First = design.Upright, r.Axis
	}
	switch h.host {
	case OnBase:
		return b.ringOnBase(r, tubes, h.to[0])
	case OnPost:
		return b.ringOnPost(r, tubes, h.to[0])
	}
	tubes[0].outright, r.Center = h.at[0], from
	b.setTubes(r)
	low := r.Across / 2
	if r.Flat {
		low = r.Tubes[0].Post.Ends[design.Foot].Diameter / 2
	}
	if from.Z < low-flush {
		b.report(h.at[0], "raise z to "+b.up(low), "%s reaches %s below the ground", b.what, b.mm(low-from.Z))
		return false
	}
	return true
}

// square returns a unit vector without what rounding adds to one along an axis.
func square(v r3.Vec) r3.Vec {
	clean := func(x float64) float64 {
		if math.Abs(x) < sameWay {
			return 0
		}
		return x
	}
	return r3.Unit(r3.Vec{X: clean(v.X), Y: clean(v.Y), Z: clean(v.Z)})
}

// setTubes puts the tubes of a ring round its centre. With the distance a of their axes from
// there each is 2 a tan(pi / n) long.
func (b *body) setTubes(r *design.Ring) {
	n := len(r.Tubes)
	half := design.HalfTurn(n)
	apothem := r.Apothem()
	for k, p := range r.Tubes {
		post := p.Post
		post.Ends[design.Foot].At = r.At(apothem/math.Cos(half), float64(2*k-1)*half)
		post.Ends[design.Head].At = r.At(apothem/math.Cos(half), float64((2*k+1)%(2*n))*half)
		post.Length = 2 * apothem * math.Tan(half)
		sin, cos := math.Sincos(float64(2*k) * half)
		aim(post, square(r3.Sub(r3.Scale(cos, r3.Cross(r.Axis, r.First)), r3.Scale(sin, r.First))))
		post.Seam = math.Pi + ringSeam
		switch {
		case post.Bought != nil:
			post.Seam = math.Pi // where its template begins
		case k%2 == 1:
			post.Seam = math.Pi - ringSeam
		case k == n-1 && n%2 == 1: // between two that lie alike
			post.Seam = 0
		}
	}
}

// ringOnBase sets a ring down on the base: its tube 1 with its middle where 'at' says, or
// lying with its centre there.
func (b *body) ringOnBase(r *design.Ring, tubes []*placed, host *placed) bool {
	if host.onWall() {
		b.report(tubes[0].at, "put it on a post that comes out of the wall", "%s has nothing to lie on: %s is on a wall", b.what, host.what)
		return false
	}
	x, y, ok := b.spot("at")
	if !ok {
		return false
	}
	thick := r.Tubes[0].Post.Ends[design.Foot].Diameter
	r.On = host.onto()
	r.Center = r3.Vec{X: x, Y: y, Z: host.part.Base.Top + r.Across/2}
	down := tubes[:1]
	if r.Flat {
		r.Center.Z = host.part.Base.Top + thick/2
		down = tubes
	}
	b.setTubes(r)
	for _, p := range down {
		post := p.part.Post
		post.Lies = true
		line := post.LyingLine()
		at := r3.Scale(0.5, r3.Add(line[0], line[1]))
		p.ties = append(p.ties, tie{with: host, kind: design.RestJoint, at: at})
		for _, end := range line {
			if host.feet || host.part.Base.Outline().Distance(design.Plan(end)) <= flush {
				continue
			}
			// It reaches as far to the other side of the place that 'at' gives.
			d := r3.Vec{X: end.X - x, Y: end.Y - y}
			b.liesOn(ellipse{x: x, y: y, along: r3.Norm(d), bearing: design.BearingOf(d)}, host, "hangs over the edge")
			return false
		}
	}
	return true
}

// ringOnPost sets tube 1 of a ring on the head of a post, which is trimmed to its side: the
// axis of the post, where its head is, meets that of the tube.
func (b *body) ringOnPost(r *design.Ring, tubes []*placed, host *placed) bool {
	if !b.takeHead(tubes[0], host) {
		return false
	}
	post, thick := host.part.Post, r.Tubes[0].Post.Ends[design.Foot].Diameter
	head := &post.Ends[design.Head]
	if order(head.Diameter, thick) > 0 {
		d, have := b.mms(head.Diameter, thick)
		b.report(b.spanOf("diameter"), "make its tubes "+b.up(head.Diameter)+" thick or more, or that post thinner",
			"%s of %s tubes does not rest on %s, which is %s thick", b.what, have, host.what, d)
		return false
	}
	along := r3.Cross(r.Axis, r.First)
	up := r3.Sub(post.Direction, r3.Scale(r3.Dot(post.Direction, along), along))
	if r3.Norm(up) < sameness || up.Z <= 0 {
		b.report(b.spanOf("facing"), "turn it to face another way, or let that post lean less", "%s does not rest on %s, which runs along its tube", b.what, host.what)
		return false
	}
	middle := r3.Add(head.At, r3.Scale(thick/2, r3.Unit(up)))
	r.On, r.Center = host.part, r3.Sub(middle, r3.Scale(r.Apothem(), r.First))
	b.setTubes(r)
	if w, ok := sideOf(r.Tubes[0].Post).saddle(head.At, post.Inward(design.Head), head.Diameter/2); !ok || w.lo < -flush || w.hi > r.Tubes[0].Post.Length+flush {
		wide, have := b.mms(head.Diameter, r.Tubes[0].Post.Length)
		b.report(b.spanOf("segments"), "give it fewer segments, or make that post thinner",
			"the head of %s, %s thick, does not fit under tube 1 of %s, which is %s long along its axis", host.what, wide, b.what, have)
		return false
	}
	tubes[0].ties = append(tubes[0].ties, tie{with: host, kind: design.EndJoint, end: design.Head, meets: design.OnSide, at: head.At, under: true})
	return true
}

// closeRing joins the head of each tube to the foot of the next.
func (b *body) closeRing(r *design.Ring, tubes []*placed) {
	n := len(tubes)
	for k, p := range tubes {
		p.load = tubes[(k+1)%n] // its head is taken
		if k > 0 {
			p.ties = append(p.ties, tie{with: tubes[k-1], end: design.Foot, meets: design.OnHead, at: p.part.Post.Ends[design.Foot].At})
		}
	}
	last := tubes[n-1]
	last.ties = append(last.ties, tie{with: tubes[0], end: design.Head, meets: design.OnHead, closes: true, at: last.part.Post.Ends[design.Head].At})
}

// rowOf returns what an index picks from: the name of a row of parts, and the row itself,
// which of the tubes of one ring of several is such as hoop[2].
func (e *evaluator) rowOf(x syntax.Expression, s *scope) (of *syntax.Ident, row string, ok bool) {
	switch x := x.(type) {
	case *syntax.Ident:
		return x, x.Name, true
	case *syntax.Index:
		id, named := x.Of.(*syntax.Ident)
		if !named || !e.families[id.Name].ring {
			break
		}
		n, ok := e.count(x.Index, s, "an index is")
		return id, indexed(id.Name, n), ok
	}
	e.report(x.Span(), "write it as reed[2]", "only the name of a part takes an index")
	return nil, "", false
}

// ringOf returns the ring that an expression names, or nil.
func (e *evaluator) ringOf(x syntax.Expression, s *scope) *madeRing {
	switch x := x.(type) {
	case *syntax.Ident:
		return e.rings[x.Name]
	case *syntax.Index:
		if id, ok := x.Of.(*syntax.Ident); ok && e.families[id.Name].ring {
			if v := e.eval(x.Index, s); v.is(quantity.Number) {
				return e.rings[indexed(id.Name, int(v.q.Number))]
			}
		}
	}
	return nil
}

// tubeOf reports a ring that is named where one of its tubes is meant.
func (e *evaluator) tubeOf(r *madeRing, at source.Span) value {
	if !r.lost {
		e.report(at, fmt.Sprintf("say which of its tubes, such as %s", r.Tubes[0].Name), "'%s' is a ring of %d tubes", r.Name, len(r.Tubes))
	}
	return value{}
}

// ringMembers are the numbers that can be read of a ring.
var ringMembers = []string{"across", "centre", "diameter", "segments", "top"}

// ofRing reads a number of a ring.
func (e *evaluator) ofRing(x *syntax.Member, r *madeRing) value {
	if r.lost {
		return value{}
	}
	switch name := syntax.British(x.Name.Text); name {
	case "across":
		return millimetres(r.Across)
	case "centre":
		return space(r.Center)
	case "diameter":
		return millimetres(r.Tubes[0].Post.Ends[design.Foot].Diameter)
	case "segments":
		return plain(float64(len(r.Tubes)))
	case "top":
		return millimetres(r.Top())
	default:
		e.report(x.Name.At, e.suggest(name, ringMembers, "it has "+strings.Join(ringMembers, ", ")), "a ring has no '%s'", name)
	}
	return value{}
}
