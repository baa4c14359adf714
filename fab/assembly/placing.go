package assembly

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
)

// endName names an end of a post.
func endName(end int) string { return [...]string{design.Foot: "foot", design.Head: "head"}[end] }

// weldOf returns the number of the weld of a link, if it has one.
func (m *maker) weldOf(links ...int) []int {
	var list []int
	for _, k := range links {
		if w := m.links[k].weld; w >= 0 {
			list = append(list, m.plan.Welds[w].Number)
		}
	}
	return list
}

// onBench returns how a guest is joined to its host on the bench.
func (m *maker) onBench(k, host, guest int) finding.Fact {
	h, g := m.part(host), m.part(guest)
	if m.links[k].Kind == design.ThreadJoint {
		end := design.Head
		if !fromHead(h.Post) {
			end = design.Foot
		}
		return ThreadBall{named(g), named(h), endName(end), g.Ball.Along, m.facing(g), m.weldOf(k)}
	}
	return SetOnBench{m.namedUnit(m.together(guest)), m.meeting(k, guest), m.weldOf(k)}
}

// inPlace returns how a unit is set in its place.
func (m *maker) inPlace(p *placing) finding.Fact {
	u := &m.units[p.unit]
	first := m.part(u.items[0])
	if len(p.links) == 0 {
		if first.Base != nil {
			return LayBase{named(first), m.wall != nil}
		}
		return StandUnit{m.namedUnit(u.items)}
	}
	main := m.mainLink(p)
	mine, _ := m.sides(p, main)
	f := SetUnit{Unit: m.namedUnit(u.items), By: m.namedUnit([]int{mine})[0], Meeting: m.meeting(main, mine), Weld: m.weldOf(main), Top: m.top(u)}
	for _, k := range p.links {
		if k != main && !m.lies(p.links) {
			mine, host := m.sides(p, k)
			f.Also = append(f.Also, Also{named(m.part(host)), m.namedUnit([]int{mine})[0]})
		}
	}
	if len(p.links) > 1 {
		f.Weld = m.weldOf(p.links...)
	}
	return f
}

// mainLink returns the link by which the place of a unit is given: that of the
// foot of its post, else the first.
func (m *maker) mainLink(p *placing) int {
	first := m.units[p.unit].items[0]
	for _, k := range p.links {
		if l := &m.links[k]; l.Post == first && l.welds(design.Foot) {
			return k
		}
	}
	return p.links[0]
}

// meeting returns where a part meets the other side of a link.
func (m *maker) meeting(k, mine int) Meeting {
	l := &m.links[k]
	p, host := m.part(mine), m.part(l.Other(mine))
	f := Meeting{Host: named(host)}
	switch r := m.ringOf(mine); {
	case r != nil && l.Post != mine:
		return m.ringMeeting(l, r, host)
	case p.Post != nil && l.Post == mine:
		return m.endMeeting(l, p, host)
	case host == nil && p.Base != nil:
		f.Kind, f.X, f.Y = PadOnGround, l.At.X, l.At.Y
	case host == nil:
		f.Kind, f.X, f.Y = BallOnGround, p.Ball.Center.X, p.Ball.Center.Y
		f.Facing = m.facing(p)
	case p.Ball != nil && host.Post != nil && l.Post == l.Other(mine):
		f.Kind, f.End = BallOnEnd, endName(design.Head)
		if l.welds(design.Foot) {
			f.End = endName(design.Foot)
		}
		if p.Ball.On != host {
			f.Kind = BallAtEnd
		}
		f.Offset, f.Toward = max(p.Ball.Offset, 0), p.Ball.OffsetBear
		f.Facing = m.facing(p)
	case p.Ball != nil && host.Ball != nil && p.Ball.On == host:
		f.Kind, f.Seat = BallOnBall, p.Ball.Seat
		f.Offset, f.Toward = max(p.Ball.Offset, 0), p.Ball.OffsetBear
		f.Facing = m.facing(p)
	case p.Ball != nil && host.Base != nil:
		f.Kind, f.X, f.Y = BallOnBase, p.Ball.Center.X, p.Ball.Center.Y
		f.Facing = m.facing(p)
	}
	return f
}

// endMeeting returns where the end of a post meets its host.
func (m *maker) endMeeting(l *link, p, host *design.Part) Meeting {
	post := p.Post
	f := Meeting{Kind: EndOnSide, Host: named(host), End: endName(l.End), Lean: Lean{tilt(post.Direction), design.BearingOf(post.Direction)}, Seam: post.Seam, Bought: post.Bought != nil}
	if f.Bought {
		f.Plain = !slices.ContainsFunc(m.in.Items[m.at[p]].Blanks, func(b flat.Blank) bool { return b.Templated() })
	}
	atFoot := l.welds(design.Foot)
	switch {
	case host == nil && post.Sunk > 0:
		f.Kind, f.X, f.Y, f.Deep = EndInGround, l.At.X, l.At.Y, post.Sunk
	case host == nil:
		f.Kind, f.X, f.Y = EndOnGround, l.At.X, l.At.Y
	case host.Base != nil:
		f.Kind, f.X, f.Y = EndOnBase, l.At.X-host.Base.At.X, l.At.Y-host.Base.At.Y
	case host.Ball != nil:
		f.Kind = EndOnBall
		if atFoot && !post.Between && post.Offset > 0 {
			f.Offset, f.Toward = post.Offset, design.BearingOf(r3.Sub(l.At, host.Ball.Center))
		}
	case post.Ends[l.End].Meets == design.OnHead:
		f.Kind = EndOnEnd
		switch {
		case host.Post != nil && host.Post.Ends[design.Head].With != p:
			f.Kind = EndOnDisc
		case r3.Norm(r3.Add(host.Post.Inward(design.Head), post.Inward(l.End))) > 1e-9:
			f.Kind = EndMitred
		}
	case atFoot && !post.Between:
		f.Placed, f.Sided, f.Along, f.At = true, true, post.Along, post.AlongBear
	case host.Post != nil && post.Between:
		f.Placed, f.Along = true, r3.Dot(r3.Sub(l.At, host.Post.Ends[design.Foot].At), host.Post.Direction)
	}
	return f
}

// facing returns how a ball is turned.
func (m *maker) facing(p *design.Part) Facing {
	b := p.Ball
	f := Facing{First: design.BearingOf(b.Prime)}
	switch b.Build {
	case design.RolledGores, design.DomedGores:
		f.Turning = FirstGore
	case design.Zones:
		m.ringsFacing(p, &f)
	case design.Halves:
		if !b.Bowl {
			f.Turning = LeastSeen
		}
	default:
		if !b.Bowl {
			return Facing{}
		}
	}
	f.Mouth = b.Bowl
	if b.Pole.Z < 1-1e-12 && r3.Norm(b.Pole) > 0 {
		f.Pole = Lean{tilt(b.Pole), design.BearingOf(b.Pole)}
	}
	return f
}

// ringsFacing fills in where the seams of a ball's rings lie, from the bearing of
// its prime direction.
func (m *maker) ringsFacing(p *design.Part, f *Facing) {
	turns := flat.RingTurns()
	f.Turning = RingSeams
	f.First, f.Then = f.First+turns[0], f.First+turns[1]
	if p.Ball.Zones == 1 {
		f.Turning = RingSeam1
		return
	}
	seams := 0
	for _, s := range m.in.Items[m.at[p]].Seams {
		if s.Kind == flat.RingSeam {
			seams += s.Count
		}
	}
	f.Several = seams > p.Ball.Zones
}

// top returns what to measure before a unit is welded: how high its top part is.
func (m *maker) top(u *unit) Top {
	last := u.items[len(u.items)-1]
	if r := m.ringOf(last); r != nil {
		return Top{Named{ringKind, r.Name}, r.Center.X, r.Center.Y, r.Center.Z, m.wall != nil}
	}
	p := m.part(last)
	if b := p.Ball; b != nil && b.Bowl {
		at := b.Mouth()
		return Top{named(p), at.X, at.Y, at.Z, m.wall != nil}
	}
	if b := p.Ball; b != nil {
		return Top{named(p), b.Center.X, b.Center.Y, b.Center.Z, m.wall != nil}
	}
	at := p.Post.Ends[design.Head].At
	return Top{named(p), at.X, at.Y, at.Z, m.wall != nil}
}
