package assembly

import (
	"fmt"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/quantity"
)

// benchText says how a guest is joined to its host on the bench.
func (m *maker) benchText(k, host, guest int) string {
	h, g := m.part(host), m.part(guest)
	if m.links[k].kind == design.ThreadJoint {
		end := "head"
		if !fromHead(h.Post) {
			end = "foot"
		}
		return fmt.Sprintf("Thread %s on %s over its %s, before anything is on either end, until its centre is %s from the foot%s; weld it round on both sides%s.",
			call(g), call(h), end, m.mm(g.Ball.Along), m.facing(g), m.ref(k))
	}
	text := "On the bench set " + call(g)
	if group := m.withThreads(guest); len(group) > 1 {
		text = "On the bench set " + m.unitName(&unit{items: group})
	}
	return text + " " + m.meeting(k, guest) + "; weld it round" + m.ref(k) + "."
}

// placeText says how a unit is set in its place.
func (m *maker) placeText(p *placing) string {
	u := &m.units[p.unit]
	first := m.part(u.items[0])
	if len(p.links) == 0 {
		switch {
		case first.Base != nil && first.Base.Shape == design.Feet:
			return ""
		case first.Base != nil:
			return "Lay " + call(first) + " level and firm."
		}
		return "Set " + m.unitName(u) + " in its place, and hold it there."
	}
	main := m.mainLink(p)
	mine, _ := m.sides(p, main)
	text := "Set " + m.unitName(u) + " "
	if mine != u.items[0] {
		text += "with " + call(m.part(mine)) + " "
	}
	text += m.meeting(main, mine)
	weld := m.ref(main)
	var also []string
	for _, k := range p.links {
		if k == main {
			continue
		}
		mine, host := m.sides(p, k)
		other := call(m.part(host))
		if mine != u.items[0] {
			other += " at " + call(m.part(mine))
		}
		also = append(also, other)
	}
	if len(also) > 0 {
		text += ", and at the same time to " + and(also)
	}
	if len(p.links) > 1 {
		var numbers []int
		for _, k := range p.links {
			if w := m.links[k].weld; w >= 0 {
				numbers = append(numbers, m.plan.Welds[w].Number)
			}
		}
		weld = weldRefs(numbers)
	}
	if weld != "" {
		text += "; tack it, check it, and weld it" + weld
	}
	return text + ". " + m.check(u)
}

// mainLink returns the link by which the place of a unit is told: that of the
// foot of its post, else the first.
func (m *maker) mainLink(p *placing) int {
	first := m.units[p.unit].items[0]
	for _, k := range p.links {
		if l := &m.links[k]; l.post == first && l.welds(design.Foot) {
			return k
		}
	}
	return p.links[0]
}

// meeting says where a part meets the other side of a link, from "on" on.
func (m *maker) meeting(k, mine int) string {
	l := &m.links[k]
	p, host := m.part(mine), m.part(l.other(mine))
	switch {
	case p.Post != nil && l.post == mine:
		return m.endMeeting(l, p, host)
	case p.Ball != nil && host.Post != nil && l.post == l.other(mine):
		end := "head"
		if l.welds(design.Foot) {
			end = "foot"
		}
		text := "on the " + end + " of " + call(host)
		switch {
		case p.Ball.On != host:
			text = "against the " + end + " of " + call(host)
		case p.Ball.Offset > 0:
			text += fmt.Sprintf(", its centre %s across from the post's axis toward %s", m.mm(p.Ball.Offset), quantity.Bearing(p.Ball.OffsetBear))
		default:
			text += ", its centre on the post's axis"
		}
		return text + m.facing(p)
	case p.Ball != nil && host.Ball != nil && p.Ball.On == host:
		text := "on " + call(host)
		if p.Ball.Offset > 0 {
			text += fmt.Sprintf(", its centre %s to the side toward %s", m.mm(p.Ball.Offset), quantity.Bearing(p.Ball.OffsetBear))
		} else {
			text += ", straight above it"
		}
		return text + ", seated on a circle " + m.mm(p.Ball.Seat) + " across" + m.facing(p)
	case p.Ball != nil && host.Base != nil:
		return m.onBase(host) + " at " + m.place(p.Ball.Center) + " from the middle" + m.facing(p)
	case p.Ball != nil && host.Ball != nil:
		return "against " + call(host)
	}
	return "against " + call(host)
}

// endMeeting says where the end of a post meets its host.
func (m *maker) endMeeting(l *link, p, host *design.Part) string {
	post := p.Post
	end, name := post.Ends[l.end], [...]string{design.Foot: "foot", design.Head: "head"}[l.end]
	stands := leaning(post) + ", its seam at bearing " + quantity.Bearing(post.Seam)
	at := ""
	switch {
	case host.Base != nil:
		at = m.onBase(host) + ", the middle of its " + name + " at " + m.place(l.at) + " from the middle"
	case host.Ball != nil:
		rel := r3.Sub(l.at, host.Ball.Center)
		at = "on " + call(host) + ", over the outline marked there"
		if l.welds(design.Foot) && !post.Between && post.Offset > 0 {
			at += fmt.Sprintf(", the middle of its foot %s from the ball's middle toward %s", m.mm(post.Offset), quantity.Bearing(design.BearingOf(rel)))
		}
	case end.Meets == design.OnHead:
		switch {
		case host.Post != nil && host.Post.Ends[design.Head].With != p:
			at = "on the disc in the head of " + call(host)
		case r3.Norm(r3.Sub(host.Post.Direction, post.Direction)) > 1e-9:
			at = "to the head of " + call(host) + ", mitre to mitre"
		default:
			at = "on the head of " + call(host) + ", edge to edge"
		}
	default:
		at = fmt.Sprintf("against the side of %s, over the outline marked there", call(host))
		if l.welds(design.Foot) && !post.Between {
			at += fmt.Sprintf(", its middle %s along from that post's foot at bearing %s", m.mm(post.Along), quantity.Bearing(post.AlongBear))
		}
	}
	return at + ", " + stands
}

// onBase says what stands on a base.
func (m *maker) onBase(p *design.Part) string {
	if p.Base.Shape == design.Feet {
		return "on the ground"
	}
	return "on " + call(p)
}

// facing says how a ball is turned, after a comma; "" where it is all one.
func (m *maker) facing(p *design.Part) string {
	b := p.Ball
	prime := design.BearingOf(b.Prime)
	text := ""
	switch b.Build {
	case design.RolledGores, design.DomedGores:
		text = ", the middle of its gore 1 toward " + quantity.Bearing(prime)
	case design.Zones:
		text = ", " + m.ringsFacing(p, prime)
	case design.Halves:
		text = ", turned so that its seam shows least"
	}
	if text != "" && b.Pole.Z < 1-1e-12 && r3.Norm(b.Pole) > 0 {
		text += ", its pole leaning " + quantity.Degrees(tilt(b.Pole)) + " toward " + quantity.Bearing(design.BearingOf(b.Pole))
	}
	return text
}

// ringsFacing says where the seams of a ball's rings lie, from the bearing of its
// prime direction.
func (m *maker) ringsFacing(p *design.Part, prime float64) string {
	turns := flat.RingTurns()
	first, second := quantity.Bearing(prime+turns[0]), quantity.Bearing(prime+turns[1])
	if p.Ball.Zones == 1 {
		return "the seam of its ring toward " + first
	}
	seams := 0
	for _, s := range m.in.Items[m.at[p]].Seams {
		if s.Kind == flat.RingSeam {
			seams += s.Count
		}
	}
	text := "the seams of its rings toward " + first + " and " + second + " by turns"
	if seams > p.Ball.Zones {
		text += ", of a ring in several pieces one of them"
	}
	return text
}

// check says what to measure before a unit is welded: how high its top part is.
func (m *maker) check(u *unit) string {
	top := m.part(u.items[len(u.items)-1])
	if b := top.Ball; b != nil {
		return fmt.Sprintf("Check: the centre of %s is %s above the ground, over %s.", call(top), m.mm(b.Center.Z), m.place(b.Center))
	}
	h := top.Post.Ends[design.Head].At
	return fmt.Sprintf("Check: the middle of the head of %s is %s above the ground, over %s.", call(top), m.mm(h.Z), m.place(h))
}
