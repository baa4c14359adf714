package eval

import (
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// span runs a post between two parts: its axis is on the line through their
// centres, and its foot and head are where that line meets their surfaces. Of a post
// whose head is named it is that head, of one with a height the point so far up its axis.
func (b *body) span(p *placed, post *design.Post, h *hold) bool {
	if h.to[0] == h.to[1] {
		b.report(h.at[1], "name two different parts", "%s runs from %s to itself", b.what, h.to[0].what)
		return false
	}
	if post.IsPointed() {
		b.report(b.find("diameter").args[1].at, "give its head a diameter of more than 0, or say 'on' for 'from' and 'to'", "%s ends in a point, which does not join %s", b.what, h.to[1].what)
		return false
	}
	if !b.spanOnPad(p, h) {
		return false
	}
	from, to, ok := b.centres(h)
	if !ok {
		return false
	}
	line := r3.Sub(to, from)
	far := r3.Norm(line)
	if far < coincidence {
		b.report(h.at[1], "put the two parts in different places", "%s has no direction: the centres of %s and %s are at the same place",
			b.what, h.to[0].what, h.to[1].what)
		return false
	}
	u := r3.Scale(1/far, line)
	aim(post, u)
	post.Length, post.Between, post.Ends[design.Head].Disc = far, true, false
	post.Ends[design.Foot].At, post.Ends[design.Head].At = from, to
	ends := [2]r3.Vec{from, to}
	for i, host := range h.to {
		within, ok := 0.0, true // from the centre to where the axis meets the surface
		if h.head[i] {
			ok = b.takeHead(p, host)
		} else {
			within, ok = b.reach(host, ends[i], post.Inward(i), post.Ends[i].Diameter/2, h, i)
		}
		if !ok {
			return false
		}
		post.Length -= within
		post.Ends[i].At = r3.Add(ends[i], r3.Scale(within, post.Inward(i)))
	}
	if post.Length < leastSize {
		b.report(h.at[1], "move them apart, or make them smaller", "%s has no room: %s and %s touch", b.what, h.to[0].what, h.to[1].what)
		return false
	}
	p.load = h.to[1] // its head is taken
	for i, host := range h.to {
		t := tie{with: host, end: i, meets: meeting(host), at: post.Ends[i].At}
		if h.head[i] {
			if t.meets = design.OnHead; !b.joinsHead(post, i, host) {
				return false
			}
		}
		p.ties = append(p.ties, t)
	}
	return true
}

// meeting returns what the end of a post that runs to a part's centre meets.
func meeting(host *placed) design.Meeting {
	switch host.kind() {
	case OnBase:
		return design.OnPlate
	case OnBall, OnBowl:
		return design.OnBall
	}
	return design.OnSide
}

// centre returns the point of a part to which the axis runs.
func (b *body) centre(h *hold, i int) r3.Vec {
	part := h.to[i].part
	switch {
	case h.head[i]:
		return part.Post.Ends[design.Head].At
	case h.along[i] != nil:
		return r3.Add(part.Post.Ends[design.Foot].At, r3.Scale(*h.along[i], part.Post.Direction))
	}
	return middle(part)
}

// centres returns the points between which the axis runs. On a base that is the
// one that 'at' gives, or the one straight under the other part, on a wall behind it.
func (b *body) centres(h *hold) (from, to r3.Vec, ok bool) {
	c := [2]r3.Vec{b.centre(h, 0), b.centre(h, 1)}
	at := b.find("at")
	for i, host := range h.to {
		if host.kind() != OnBase {
			continue
		}
		base := host.part.Base
		other := base.Own(c[1-i])
		x, y := other.X, other.Y
		if at != nil {
			var ok bool
			if x, y, ok = b.spot("at"); !ok {
				return from, to, false
			}
		}
		c[i] = base.Face(x, y)
		if other.Z-base.Top < coincidence {
			if base.OnWall() {
				b.report(h.at[1-i], "bring that part further out", "%s does not come out of the wall: the centre of %s is not in front of %s", b.what, h.to[1-i].what, host.what)
				return from, to, false
			}
			b.report(h.at[1-i], "put that part higher", "%s has no direction: the centre of %s is not above %s", b.what, h.to[1-i].what, host.what)
			return from, to, false
		}
		return c[0], c[1], true
	}
	if at != nil {
		b.report(at.word, "leave 'at' out", "'at' says where a post meets the base, and %s does not reach one", b.what)
		return from, to, false
	}
	return c[0], c[1], true
}

// reach returns how far from a part's centre a line out of it meets the part's
// surface, and tells if a tube of the given outside radius does not fit there.
func (b *body) reach(host *placed, centre, out r3.Vec, outside float64, h *hold, end int) (float64, bool) {
	switch host.kind() {
	case OnBase:
		return 0, b.standsOnPlate(centre, out, outside, host)
	case OnBall:
		ball := host.part.Ball
		if half := ball.Beside(out); outside >= half {
			return 0, b.tooThick(outside, half, host)
		}
		return ball.From(out), true
	case OnBowl:
		ball := host.part.Ball
		return ball.Radius, b.fitsBall(outside, host) && b.onBowl(ball, out, outside, host.what, h.at[end])
	}
	w, ok := b.meetsSide(host, centre, out, outside, h.at[end])
	return w.foot, ok
}
