package assembly

import (
	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
)

// make returns how a part is made from its blanks.
func (m *maker) make(i int) finding.Fact {
	p := m.part(i)
	switch {
	case p.Post != nil:
		return m.makeTube(i)
	case p.Ball != nil:
		return m.makeBall(i)
	}
	return CutBase{named(p), p.Base.Anchors}
}

func (m *maker) makeTube(i int) finding.Fact {
	p := m.part(i)
	if b := p.Post.Bought; b != nil {
		f := CutTube{Post: named(p), Pipe: b.Pipe, Square: true, Disc: m.numbers(i, DiscEdge)}
		for _, b := range m.in.Items[i].Blanks {
			f.Square = f.Square && len(b.Ordinates) == 0
			f.Filed = f.Filed || b.Filed()
		}
		return f
	}
	f := RollTube{Post: named(p), Taper: p.Post.IsTaper(), Gap: max(p.Post.Gap, 0), Seams: m.numbers(i, TubeSeam), Disc: m.numbers(i, DiscEdge), Point: m.numbers(i, PointFill), Rounds: m.numbers(i, CourseSeam)}
	for k := range m.in.Items[i].Blanks {
		if b := &m.in.Items[i].Blanks[k]; b.Shape != flat.Disc {
			f.Pieces += b.Quantity
		}
	}
	for _, k := range m.seams[i] {
		if w := &m.plan.Welds[k]; w.Kind == CourseSeam {
			f.Courses += w.Count
		}
	}
	if f.Courses > 0 {
		f.Courses++
		f.Stagger = p.Post.Stagger
	}
	return f
}

func (m *maker) makeBall(i int) finding.Fact {
	p := m.part(i)
	b := p.Ball
	switch b.Build {
	case design.Halves:
		return DishHalves{named(p), m.numbers(i, Equator), b.Bowl}
	case design.Bought:
		return HaveBall{named(p)}
	case design.Zones:
		f := RollRings{Ball: named(p), Seams: m.numbers(i, RingSeam), Edges: m.numbers(i, RingEdge), Poles: m.numbers(i, PoleEdge)}
		if b.Around == nil && !m.sunk(i) { // else an opening may leave fewer
			f.Rings = b.Zones
		}
		return f
	}
	return MakeGores{named(p), b.Build == design.DomedGores, b.IsEgg(), b.Bowl, b.Gores, m.numbers(i, GoreSeam), m.numbers(i, CapEdge)}
}

// sunk reports whether a ball is cut open where another sits in it.
func (m *maker) sunk(i int) bool {
	for _, k := range m.touches[i] {
		l := &m.links[k]
		a, b := m.part(l.A), m.part(l.B)
		if l.Kind != design.SeatJoint || a == nil || a.Ball == nil || b.Ball == nil {
			continue
		}
		if under, over := design.SeatOpens(a, b); under && l.A == i || over && l.B == i {
			return true
		}
	}
	return false
}

// numbers returns those of the welds of a kind within an item.
func (m *maker) numbers(i int, kind Kind) []int {
	var list []int
	for _, k := range m.seams[i] {
		if w := &m.plan.Welds[k]; w.Kind == kind {
			list = append(list, w.Number)
		}
	}
	return list
}

// makeNotes returns what to take care of in making a part.
func (m *maker) makeNotes(i int) []finding.Fact {
	metal := m.part(i).Metal
	if metal == nil || len(m.seams[i]) == 0 {
		return nil
	}
	switch alloy := metal.Is(); {
	case alloy.Purge:
		return []finding.Fact{BackPurge}
	case alloy.Coat:
		return []finding.Fact{ZincOff{CleanBand}}
	}
	return nil
}

// closeNote warns of the space that a step closes.
func (m *maker) closeNote(s *Step, k int) ClosesHollow {
	space, first := &m.plan.Spaces[k], m.part(m.first[k])
	f := ClosesHollow{Holes: space.Holes, Vent: space.Vent, Dip: space.Dip, Least: WeldVent}
	f.Bought = first.Ball != nil && first.Ball.Build == design.Bought && s.Work == MakePart
	if s.Work != MakePart || len(space.Parts) > 1 {
		f.Parts = space.Parts
	}
	return f
}

// rules are the rules by which welds were planned.
func (m *maker) rules() []finding.Fact {
	return []finding.Fact{
		TackRule{thinTack, ringTacks},
		CleanRule{CleanBand},
		FillerRule{},
		HollowRule{shopHeat, Oven, ZincBath, SealedPressure(Oven), SealedPressure(ZincBath)},
		RunsRule{},
	}
}
