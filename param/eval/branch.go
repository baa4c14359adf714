package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
)

// branch starts a post from the side of another: its foot is on the outer
// surface of the host, the given length along the host's axis, on the side that
// the bearing faces on the host standing upright.
func (b *body) branch(p *placed, post *design.Post, host *placed) bool {
	on := host.part.Post
	at := b.find("at")
	along, bearing, ok := b.branchAt(at, host)
	if !ok {
		return false
	}
	out := on.Facing(bearing)
	start := r3.Add(on.Ends[design.Foot].At, r3.Scale(along, on.Direction))
	post.Ends[design.Foot].At = r3.Add(start, r3.Scale(on.DiameterAt(along)/2, out))
	post.Along, post.AlongBear = along, bearing
	if !b.leanBranch(post, on.Direction, out) {
		return false
	}
	words := b.spanOf("lean")
	if words == b.at {
		words = at.at
	}
	// The axis must leave the host at its foot, and not go through it first.
	if s, _, ok := sideOf(on).cross(post.Ends[design.Foot].At, post.Direction).exit(); ok && s > coincidence {
		b.report(words, "lean it the other way", "%s runs into %s instead of away from it", b.what, host.what)
		return false
	}
	if _, ok := b.meetsSide(host, post.Ends[design.Foot].At, post.Direction, post.Ends[design.Foot].Diameter/2, words); !ok {
		return false
	}
	p.ties = []tie{{with: host, end: design.Foot, meets: design.OnSide, at: post.Ends[design.Foot].At}}
	return true
}

// branchAt returns how far along the host a branch leaves it, and the bearing
// of that side.
func (b *body) branchAt(at *given, host *placed) (along, bearing float64, ok bool) {
	on := host.part.Post
	along = at.args[0].value.q.Number
	if along > on.Length {
		have, end := b.mms(along, on.Length)
		b.report(at.args[0].at, "make 'at' less than "+b.down(on.Length), "%s would leave %s at %s, but that is %s long", b.what, host.what, have, end)
		return 0, 0, false
	}
	if !at.args[1].isGiven() {
		b.report(at.at, "write it as "+at.at.Text()+" toward 90 deg", "'at' does not say on which side")
		return 0, 0, false
	}
	axis := r3.Add(on.Ends[design.Foot].At, r3.Scale(along, on.Direction))
	bearing, ok = b.sideBearing(at.args[1], on, axis, host.what)
	return along, bearing, ok
}

// leanBranch sets the direction of a branch that faces out from its host:
// straight out, or leaning toward a bearing, or leaning in the plane of the
// host's axis, so that the axes meet.
func (b *body) leanBranch(post *design.Post, on, out r3.Vec) (ok bool) {
	g := b.find("lean")
	if g != nil && g.args[1].isGiven() {
		return b.lean(post)
	}
	u := out
	if g != nil {
		lean := g.args[0].value.q.Number
		if u, ok = leanWithin(lean, on, out); !ok {
			b.report(g.at, "say which way it leans: "+g.at.Text()+" toward 90 deg",
				"a branch from this side that leans %s from upright cannot meet the middle of the post", quantity.Degrees(lean))
			return false
		}
	}
	aim(post, u)
	post.Ends[design.Head].At = r3.Add(post.Ends[design.Foot].At, r3.Scale(post.Length, post.Direction))
	return true
}

// leanWithin returns the direction in the plane of a post's axis and the
// direction out from it that leans from upright by the given angle. Of two it is
// the one nearer to straight out.
//
// With u = out cos(a) + on sin(a), the height of u is that of out times cos(a)
// plus that of on times sin(a): m sin(a + d).
func leanWithin(lean float64, on, out r3.Vec) (r3.Vec, bool) {
	m, d := math.Hypot(on.Z, out.Z), math.Atan2(out.Z, on.Z)
	height := math.Cos(lean)
	if math.Abs(height) > m*(1+sameness) || m < sameness {
		return r3.Vec{}, false
	}
	first := math.Asin(max(-1, min(1, height/m)))
	nearest, found := math.Pi/2, false
	for _, a := range [2]float64{first - d, math.Pi - first - d} {
		if a = math.Remainder(a, 2*math.Pi); math.Abs(a) < math.Abs(nearest) {
			nearest, found = a, true
		}
	}
	sin, cos := math.Sincos(nearest)
	return r3.Add(r3.Scale(cos, out), r3.Scale(sin, on)), found
}
