package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// sameWay is how far the unit vectors of two axes may differ and still be the
// same: a hundred times their rounding.
const sameWay = 1e-13

// standOnHead starts a post from the centre of another's head. It goes on the
// same way, or leans from upright as 'lean' says. Tubes of one diameter butt or
// make a mitre; a smaller one stands on the disc of the other's head.
func (b *body) standOnHead(p *placed, post *design.Post, host *placed) bool {
	if !b.takeHead(p, host) {
		return false
	}
	on := host.part.Post
	post.Ends[design.Foot].At = on.Ends[design.Head].At
	p.ties = []tie{{with: host, end: design.Foot, meets: design.OnHead, at: post.Ends[design.Foot].At}}
	if b.has("lean") {
		if !b.lean(post) {
			return false
		}
	} else {
		post.Direction, post.Lean, post.LeanBearing = on.Direction, on.Lean, on.LeanBearing
		post.Ends[design.Head].At = r3.Add(post.Ends[design.Foot].At, r3.Scale(post.Length, post.Direction))
	}
	return b.joinsHead(post, design.Foot, host)
}

// joinsHead joins an end of a post, which lies there, to another's head. Tubes of one
// diameter butt or make a mitre; a smaller one stands on the disc of the other's head.
func (b *body) joinsHead(post *design.Post, end int, host *placed) bool {
	on, own := host.part.Post, &post.Ends[end]
	bent := r3.Norm(r3.Add(post.Inward(end), on.Inward(design.Head))) > sameWay
	switch size := order(own.Diameter, on.Ends[design.Head].Diameter); {
	case size < 0:
		host.carries = true
		return b.standsOnDisc(post, end, host)
	case size > 0:
		d, have := b.mms(own.Diameter, on.Ends[design.Head].Diameter)
		wording := "%s of %s is thicker than the head of %s of %s, on which it stands"
		if bent {
			wording = "%s of %s makes no mitre with %s of %s: the two must have the same diameter"
		}
		b.report(b.spanOf("diameter"), "make the two "+b.mm(on.Ends[design.Head].Diameter)+", or this one smaller", wording, b.what, d, host.what, have)
		return false
	}
	if !post.IsTaper() {
		post.Ends[1-end].Diameter = on.Ends[design.Head].Diameter
	}
	own.Diameter = on.Ends[design.Head].Diameter // but for rounding it is
	return !bent || b.mitres(post, end, host)
}

// takeHead takes the head of a post for the part at hand, and tells if it is
// taken.
func (b *body) takeHead(p, host *placed) bool {
	first := host.load
	switch {
	case host.part.Post.IsPointed():
		b.report(p.at, "branch it off the side with 'at', or give that post a second diameter of more than 0", "%s ends in a point, on which nothing stands", host.what)
		return false
	case host.part.Post.Ring != nil:
		b.report(p.at, "branch it off the side: 'at L toward B'", "the head of %s is not free: it is mitred to the next tube of its ring", host.what)
		return false
	case first != nil && host.part.Post.Between:
		note(b.report(p.at, "put it on something else, or branch it off the side", "the head of %s is not free: it meets %s", host.what, first.what),
			first.at, "that is declared here")
		return false
	case first != nil:
		note(b.report(p.at, "put one of the two on something else", "two parts stand on the head of %s", host.what),
			first.at, "the first is declared here")
		return false
	}
	host.load = p // even if p fails, so that the head is not taken as free
	return true
}

// mitres checks that two bent tubes of one diameter make a mitre: neither is a
// taper, whose ends would not match, and the cut, which runs up one side by
// radius x tan(half the bend), leaves something of that side.
func (b *body) mitres(post *design.Post, end int, host *placed) bool {
	on := host.part.Post
	taper, which := post.IsTaper(), b.what
	if on.IsTaper() {
		taper, which = true, host.what
	}
	if taper {
		hint := "leave 'lean' out, or make it a straight tube"
		if post.Between {
			hint = "make it a straight tube"
		}
		b.report(b.spanOf("lean"), hint, "a mitre joins straight tubes, and %s is a taper", which)
		return false
	}
	// tan(half) = |u - v| / |u + v| for unit vectors, one into the joint and one out of it.
	cut := math.Inf(1)
	u, v := post.Inward(end), on.Direction
	if sum := r3.Norm(r3.Add(u, v)); sum > sameWay {
		cut = post.Ends[end].Diameter / 2 * r3.Norm(r3.Sub(u, v)) / sum
	}
	least, short := post.Length, b.what
	if on.Length < least {
		least, short = on.Length, host.what
	}
	if cut < least {
		return true
	}
	b.report(b.spanOf("lean"), "bend it less, or make the tubes longer",
		"%s and %s bend so sharply that their mitre cuts through the whole length of %s", b.what, host.what, short)
	return false
}

// standsOnDisc checks that a smaller tube stands wholly on the disc of the
// other's head.
func (b *body) standsOnDisc(post *design.Post, end int, host *placed) bool {
	on := host.part.Post
	if !host.headOpen.IsZero() {
		note(b.report(b.at, "close that head: leave 'head open' out", "%s has nothing to stand on: the head of %s is open", b.what, host.what),
			host.headOpen, "it is opened here")
		return false
	}
	over, less := "lean it the other way, or less", "lean it less away from "+host.what+", or make it smaller"
	if post.Between {
		over = "turn " + host.what + " toward it, or end it on a ball there"
		less = over + ", or make it smaller"
	}
	slope := r3.Dot(post.Inward(end), on.Direction)
	if slope <= sameWay {
		b.report(b.spanOf("lean"), over, "%s runs into %s instead of away from it", b.what, host.what)
		return false
	}
	long, edge := post.Ends[end].Diameter/2/slope, on.Ends[design.Head].Diameter/2
	if long <= edge+flush {
		return true
	}
	b.report(b.spanOf("lean"), less,
		"%s hangs over the edge of the head of %s by %s", b.what, host.what, b.mm(long-edge))
	return false
}
