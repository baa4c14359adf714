package strength

import (
	"iter"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/param/design"
)

// foot takes note of a post that has an end on the plate, and of the greatest moment
// there.
func (s *Strength) foot(look *search, p *design.Part, end int) {
	foot := footing{part: p, head: end == design.Head, moment: look.bending.value, at: look.bending.at}
	if with := p.Post.Ends[end].With; with != nil && with.Base != nil && with.Base.Pad {
		if s.onPads == nil {
			s.onPads = map[*design.Part]footing{}
		}
		s.onPads[p] = foot
		return
	}
	if s.Plate == nil {
		s.Plate = &Plate{}
	}
	s.Plate.feet = append(s.Plate.feet, foot)
}

// base checks the plate as strips that stick out from each post on it, and keeps
// the worst.
//
// Toward an anchor, all of the moment at the post's foot goes down that anchor
// alone: F = M / e, with e from the axis. From the anchor the force spreads by 45
// deg each way, so that at the face of the post the strip is twice the lever wide
// (AISC Design Guide 1, 3.4, from memory).
//
// Toward an edge, with L from the axis to the edge, the ground carries at most
//
//	F = max(W, M / L)
//
// of a post that brings down the weight W and the moment M. Where what holds its
// other side down or carries it is d from the axis, statics has F (L + d) = M + W d,
// and F goes from M / L to W as d grows from nothing, whichever is more. A plate that
// is not anchored can be rocked onto its edge, and lifts what lies on it: W then counts
// that too, with the plate's own weight, all that the other posts do not bring down.
// Where all stands on one post that is the whole weight, as when it is about to tip.
// The strip is as wide as the post at least, since the edge bears along a line.
//
// What a plate does not have of the strip is clipped. A strip is checked at the
// face of the post: both the moment and, in a convex outline, the width shrink from
// there on, but the moment by no less.
func (s *Strength) base(f *frame.Frame, c *cases, in Input) {
	p, pl := in.plated(), s.Plate
	s.Plate = nil
	if pl == nil && p != nil {
		s.lack(PlateWithoutPost, Place{Part: p.Name})
	}
	if pl == nil || p == nil || p.Metal == nil || len(in.Footprint) < 3 {
		return
	}
	posts := make(map[*design.Part]*frame.Post, len(f.Posts))
	for i := range f.Posts {
		posts[f.Posts[i].Part] = &f.Posts[i]
	}
	rest := c.reactions(in)[weightZ].Force.Z // N, what posts do not bring down
	for i := range pl.feet {
		foot := &pl.feet[i]
		lift := c.lifted(f, posts, foot)
		foot.least = c.leastAxial(lift, 0)
		rest += lift[weightZ]
	}
	if len(in.Anchors) > 0 {
		rest = 0
	}
	var best Plate
	for i := range pl.feet {
		foot := &pl.feet[i]
		at, r := foot.spot()
		for strip := range foot.strips(in, max(0, rest)-foot.least) {
			face := r2.Add(at, r2.Scale(r, strip.toward))
			if strip.work(p.Metal, chord(in.Footprint, face, strip.toward, strip.Spread)); strip.Ratio > best.Ratio*(1+tie) {
				best = strip
			}
		}
		for _, a := range in.Anchors {
			if r2.Norm(r2.Sub(a, at)) <= r {
				s.lack(PlateAtAnchor, Place{Part: p.Name, With: foot.part.Name})
				break
			}
		}
	}
	if pair := pl.between(in, p.Metal); pair.Post != nil && pair.Ratio > best.Ratio {
		best = pair
	}
	if best.Post == nil {
		return // it sticks out beside no post
	}
	n := best.foot.at
	if best.weighs {
		n = c.leastAt(c.lifted(f, posts, best.foot))
	}
	best.Case, best.How = c.load(n), best.bending(len(pl.feet), len(in.Anchors))
	s.Plate = &best
}

// strips goes through the strips that stick out from a post, given what it and what
// lies on the plate weighs in N: toward each anchor, then toward each edge.
func (t *footing) strips(in Input, weight float64) iter.Seq[Plate] {
	at, r := t.spot()
	return func(yield func(Plate) bool) {
		strip := Plate{Post: t.part, Foot: t.moment, foot: t}
		for _, a := range in.Anchors {
			arm := r2.Sub(a, at)
			e := r2.Norm(arm)
			if e <= r {
				continue
			}
			strip.Force, strip.Lever, strip.Spread, strip.toward = t.moment/e, e-r, 2*(e-r), r2.Unit(arm)
			strip.anchor = true
			if !yield(strip) {
				return
			}
		}
		for n, q := range in.Footprint {
			side := r2.Unit(r2.Sub(in.Footprint[(n+1)%len(in.Footprint)], q))
			reach := r2.Cross(side, r2.Sub(at, q))
			if reach <= r {
				continue
			}
			strip.toward = r2.Vec{X: side.Y, Y: -side.X}
			strip.Lever, strip.Spread = reach-r, max(2*(reach-r), 2*r)
			strip.Force, strip.anchor = max(weight, t.moment/reach), false
			strip.weighs = weight > t.moment/reach
			if !yield(strip) {
				return
			}
		}
	}
}

// work works out the share of its strength that a strip of the given width in mm uses.
func (p *Plate) work(m *design.Metal, width float64) {
	if !(width > 0) {
		return // off the plate
	}
	t := m.Thickness
	stress, _ := Yield(m)
	p.Width, p.Moment = width, p.Force*p.Lever
	p.Stress = 6 * p.Moment / (width * t * t)
	p.Allowed = stress * width * t * t / 4 / omega
	p.Ratio = p.Moment / p.Allowed
}

// spot returns where the end of the post is on the plate, and its outer radius.
func (t *footing) spot() (at r2.Vec, radius float64) {
	if ball := t.part.Ball; ball != nil {
		return design.Plan(ball.Center), restRing(t.part) / 2
	}
	end := &t.part.Post.Ends[design.Foot]
	if t.head {
		end = &t.part.Post.Ends[design.Head]
	}
	return design.Plan(end.With.Base.Own(end.At)), end.Diameter / 2
}

// seated takes note of a ball that rests on the plate, as of a post as wide as the ring on
// which it is welded.
func (s *Strength) seated(seat *seated) {
	on := seat.ball.Ball.On
	if on == nil || on.Base == nil || on.Base.Pad {
		return
	}
	idle := true
	for _, it := range s.Frame.Items {
		p := it.Part
		for k := range ends {
			idle = idle && !(p.Post != nil && p.Post.Ends[k].With == seat.ball)
		}
		idle = idle && !(p.Ball != nil && p.Ball.On == seat.ball)
	}
	if s.Plate == nil {
		s.Plate = &Plate{}
	}
	s.Plate.feet = append(s.Plate.feet, footing{part: seat.ball, beam: seat.beam, idle: idle, moment: seat.look.bending.value, at: max(0, seat.look.bending.at)})
}

// lifted returns the force in N on the plate of what stands there, upward or out of its face, in
// every column.
func (c *cases) lifted(f *frame.Frame, posts map[*design.Part]*frame.Post, foot *footing) []float64 {
	if post := posts[foot.part]; post != nil {
		return c.lift(f, post, foot.head)
	}
	return c.liftAt(&f.Beams[foot.beam], foot.beam, 0, r3.Vec{Z: 1})
}

// lift returns that of a post on the plate.
func (c *cases) lift(f *frame.Frame, post *frame.Post, head bool) []float64 {
	beam, end, k := post.First, 0, design.Foot
	if head {
		beam, end, k = beam+post.Beams()-1, 1, design.Head
	}
	out := post.Part.Post.Ends[k].With.Base.Out()
	if head {
		out = r3.Scale(-1, out)
	}
	return c.liftAt(&f.Beams[beam], beam, end, out)
}

// liftAt returns the force along a way at an end of a beam, in every column.
func (c *cases) liftAt(b *frame.Beam, beam, end int, up r3.Vec) []float64 {
	along, y, z := b.Local(up)
	list := make([]float64, c.width())
	for k, n := range c.solved.SectionForces(beam, end, nil) {
		list[k] = along*n.Axial + y*n.Shear[0] + z*n.Shear[1]
	}
	return list
}

// leastAt returns the case in which a sum of columns is least.
func (c *cases) leastAt(columns []float64) int {
	least, at := math.Inf(1), 0
	for n := range c.list {
		if x := c.list[n].scalar(columns); x < least-1e-9*math.Abs(x) {
			least, at = x, n
		}
	}
	return at
}

// chord returns how much of a strip of the given width in mm, square to a way and
// with its middle at a point, lies in a convex outline that runs counter-clockwise.
func chord(outline []r2.Vec, middle, way r2.Vec, width float64) float64 {
	across := r2.Vec{X: -way.Y, Y: way.X}
	from, to := -width/2, width/2
	for i, p := range outline {
		side := r2.Sub(outline[(i+1)%len(outline)], p)
		// Within is where in + s slope >= 0.
		in, slope := r2.Cross(side, r2.Sub(middle, p)), r2.Cross(side, across)
		switch {
		case slope > 0:
			from = max(from, -in/slope)
		case slope < 0:
			to = min(to, -in/slope)
		case in < 0:
			return 0
		}
	}
	return max(0, to-from)
}

// A PlateBending is what bends a strip of the plate.
type PlateBending struct {
	By     BentBy
	Head   bool    // of By MomentOnAnchor and MomentOnEdge: the post's head is on the plate
	Ball   bool    // it is a ball that rests on the plate
	Toward float64 // rad, the bearing of the strip
}

// BentBy is what bends a strip.
type BentBy string

// What bends a strip.
const (
	MomentOnAnchor BentBy = "moment-on-anchor" // the moment at the post, held by one anchor
	MomentBetween  BentBy = "moment-between"   // the moment at the post, against another post
	MomentOnEdge   BentBy = "moment-on-edge"   // the moment at the post, on one edge
	WeightOnEdge   BentBy = "weight-on-edge"   // the weight on the post, all on one edge
	RockedOnEdge   BentBy = "rocked-on-edge"   // the weight on the post and on the plate, as when it is about to tip
	WholeOnEdge    BentBy = "whole-on-edge"    // the whole weight, as when it is about to tip
)

// bending returns what bends the strip, of a plate with a number of posts and anchors.
func (p *Plate) bending(posts, anchors int) PlateBending {
	b := PlateBending{By: MomentOnEdge, Head: p.foot.head, Ball: p.foot.part.Ball != nil, Toward: design.BearingOf(r3.Vec{X: p.toward.X, Y: p.toward.Y})}
	switch {
	case p.pair:
		b.By = MomentBetween
	case p.anchor:
		b.By = MomentOnAnchor
	case p.weighs && anchors > 0:
		b.By = WeightOnEdge
	case p.weighs && posts > 1:
		b.By = RockedOnEdge
	case p.weighs:
		b.By = WholeOnEdge
	}
	return b
}

// Fact marks the bending.
func (PlateBending) Fact() {}
