package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// What a bolt takes up over the plate, by the diameter of its hole, which is a
// little wider than the bolt. Its washer reaches out by about the bolt's diameter:
// ISO 7089 has 12 mm for M12, ASTM F436 17/32 in for 1/2 in (from memory). Washer,
// nut and the end of the thread stand up by about one and a half of it: 0.2, 0.9
// and two turns of the thread, ISO 7089 and 4032 (from memory).
const (
	boltReach = 1.0
	boltRise  = 1.5
)

// clearAnchors checks that a bolt with its washer and nut has room at each anchor
// hole, beside what stands on the base or hangs low over it. The weld of a post is
// a fillet with a leg of the post's thickness.
func (e *evaluator) clearAnchors() {
	for _, p := range e.placed {
		if p.part != nil && p.part.Base != nil && p.part.Base.Anchors > 0 {
			e.clearAnchorsOf(p)
		}
	}
}

func (e *evaluator) clearAnchorsOf(on *placed) {
	at := on.part.At("anchor_edge")
	base := *on.part.Base
	p, free, want := e.crowded(&base)
	if p == nil {
		return
	}
	other, hint := "move it away from the hole", "move it away from the hole, or make the base larger"
	if base.Pad { // in whose middle its post stands
		other, hint = "make the pad larger", "make the pad larger"
	}
	if edge, ok := e.clearEdge(base); ok {
		hint = "reduce 'anchor_edge' to " + e.down(edge) + ", or " + other
	}
	if free <= 0 {
		note(e.report(at, hint, "an anchor hole of %s lies under %s, where no bolt can go", on.what, p.what), p.at, "that is declared here")
		return
	}
	have, need := e.mms(free, want)
	note(e.report(at, hint, "an anchor hole of %s has no room for a washer and a nut beside %s: its middle is %s from it, and it needs %s",
		on.what, p.what, have, need), p.at, "that is declared here")
}

// clearEdge returns a lesser edge distance, in mm, with which all anchors have room.
func (e *evaluator) clearEdge(base design.Base) (float64, bool) {
	clear := func(edge float64) bool {
		base.AnchorEdge = edge
		p, _, _ := e.crowded(&base)
		return p == nil
	}
	// A hole needs 1.25 of its diameter of plate at least, about what AISC 360 J3.4
	// has for a bolt.
	lo, hi := 1.25*base.AnchorDiameter, base.AnchorEdge
	if lo >= hi || !clear(lo) {
		return 0, false
	}
	for range 20 {
		if mid := (lo + hi) / 2; clear(mid) {
			lo = mid
		} else {
			hi = mid
		}
	}
	return lo, lo-e.tick() > 1.25*base.AnchorDiameter && clear(lo-e.tick())
}

// crowded returns the first part that leaves an anchor hole too little room: how
// far in mm its middle is from the part, 0 for under it, and how far it should be.
func (e *evaluator) crowded(base *design.Base) (p *placed, free, want float64) {
	rise, reach := boltRise*base.AnchorDiameter, boltReach*base.AnchorDiameter
	centers := base.AnchorCenters()
	for _, p := range e.placed {
		if p.part == nil {
			continue
		}
		for _, c := range centers {
			switch part := p.part; {
			case part.Ball != nil:
				// The ball is widest, of what is no higher than the bolt, at the bolt's
				// top.
				at := base.Own(part.Ball.Center)
				up := max(0, at.Z-base.Top-rise)
				high := part.Ball.Reach(base.Out())
				if up >= high {
					continue
				}
				// Of an egg no more than what all of it is within.
				within := max(part.Ball.Radius, part.Ball.Polar()) / high * math.Sqrt((high-up)*(high+up))
				if d := r2.Norm(r2.Sub(c, design.Plan(at))) - within; d < reach {
					return p, d, reach
				}
			case part.Post != nil:
				room := reach + part.Metal.Thickness
				if d := besideFeet(part.Post, base, c, rise, room); d < room {
					return p, d, room
				}
			}
		}
	}
	return nil, 0, 0
}

// besideFeet returns how far in mm a point is in plan, or on the face of a plate on a wall,
// from the ends of a post that stand on the base, as far out as a bolt rises; farther than
// room where it is that.
func besideFeet(post *design.Post, base *design.Base, at r2.Vec, rise, room float64) float64 {
	least := math.Inf(1)
	for i, end := range post.Ends {
		if end.Meets != design.OnPlate {
			continue
		}
		foot, u := post.Ends[design.Foot].At, post.Direction
		if i == 1 {
			foot, u = post.Ends[design.Head].At, r3.Scale(-1, u)
		}
		foot, u = base.Own(foot), base.OwnWay(u)
		outside := post.Ends[i].Diameter / 2
		shift := r2.Scale(rise/u.Z, design.Plan(u))
		long := outside / u.Z
		if r2.Norm(r2.Sub(at, design.Plan(foot))) > long+r2.Norm(shift)+room {
			continue
		}
		const steps = 8 // apart by less than a bolt is wide, but for a post that nearly lies
		for k := range steps + 1 {
			mid := r2.Add(design.Plan(foot), r2.Scale(float64(k)/steps, shift))
			ring := ellipse{x: mid.X, y: mid.Y, across: outside, along: long, bearing: design.BearingOf(u)}
			least = min(least, ring.away(at))
		}
	}
	return least
}

// away returns how far a point is from the ellipse; 0 for within it.
func (o ellipse) away(p r2.Vec) float64 {
	local := r2.Rotate(r2.Sub(p, r2.Vec{X: o.x, Y: o.y}), -o.bearing, r2.Vec{})
	if u, v := local.X/o.along, local.Y/o.across; u*u+v*v <= 1 {
		return 0
	}
	return -peak(func(t float64) float64 {
		s, c := math.Sincos(t)
		return -math.Hypot(local.X-o.along*c, local.Y-o.across*s)
	})
}
