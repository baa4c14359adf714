package strength

import (
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/param/design"
)

// A Gap is a kind of thing that no rule here covers.
type Gap string

// The gaps.
const (
	SlenderWall      Gap = "slender-wall"       // thinner than the rule for round tubes covers
	RigidPost        Gap = "rigid-post"         // both ends are fixed to one stiff body
	LooseFeet        Gap = "loose-feet"         // the results are those of fixed feet
	WallRidges       Gap = "wall-ridges"        // of a ball whose wall is curved one way: more than a cylinder carries, less than a sphere does
	WallPole         Gap = "wall-pole"          // of a ball of zones, on the flat ring at its pole
	WallFlatCap      Gap = "wall-flat-cap"      // of a ball, on a cap so small that it is flat
	WallRange        Gap = "wall-range"         // of a ball that is thinner or thicker than the rule covers
	WallCrossed      Gap = "wall-crossed"       // of a ball, where two joints run into each other
	WallRim          Gap = "wall-rim"           // of a bowl, under a joint near its open rim
	WallOblique      Gap = "wall-oblique"       // of a ball, under a post far from its radius
	WallHoled        Gap = "wall-holed"         // of a ball or a post, with a hole cut beside the joint
	WallUnknown      Gap = "wall-unknown"       // of a ball that is bought
	SeatWeld         Gap = "seat-weld"          // of one ball on another, one of them bought
	ThreadWeld       Gap = "thread-weld"        // of a ball around a post
	RestWeld         Gap = "rest-weld"          // of a ball on the ground, of a bought one on the base, or of a ring along it
	PostWallAtJoint  Gap = "post-wall"          // beside the joint of another post
	PlateAtAnchor    Gap = "plate-at-anchor"    // an anchor is under a post
	PlateWithoutPost Gap = "plate-without-post" // no post stands on it from which it sticks out
	Prying           Gap = "prying"             // on anchors in tension, and the bearing of bolts in the holes
)

// A Place is where a gap is.
type Place struct {
	Part string
	With string      // the part beside it; "" for none
	End  check.Where // of With, where it is a post that ends there

	// Slenderness is D/t of a wall that is thinner than Limit, where the rule ends;
	// 0 for other gaps.
	Slenderness, Limit float64

	// Caps is the diameter in mm of the caps that would clear a joint on seams; 0 for
	// other gaps, and where none would.
	Caps float64
}

// Unchecked is what no rule here covers: one kind of thing, with all its places.
type Unchecked struct {
	Gap    Gap
	Places []Place
}

// Fact marks the fact.
func (Unchecked) Fact() {}

// Join adds the places of another of the same kind.
func (u Unchecked) Join(other finding.Fact) (finding.Fact, bool) {
	o, ok := other.(Unchecked)
	if !ok || o.Gap != u.Gap {
		return nil, false
	}
	return Unchecked{u.Gap, append(u.Places[:len(u.Places):len(u.Places)], o.Places...)}, true
}

// parts returns the names of the parts, each once.
func (u Unchecked) parts() []string {
	var list []string
	seen := make(map[string]bool, len(u.Places))
	for _, p := range u.Places {
		if !seen[p.Part] {
			seen[p.Part] = true
			list = append(list, p.Part)
		}
	}
	return list
}

// lack notes a place that no rule covers.
func (s *Strength) lack(gap Gap, at Place) {
	for i := range s.Unchecked {
		if u := &s.Unchecked[i]; u.Gap == gap {
			u.Places = append(u.Places, at)
			return
		}
	}
	s.Unchecked = append(s.Unchecked, Unchecked{gap, []Place{at}})
}

// cover notes what no rule here covers.
func (s *Strength) cover(in Input) {
	var last *design.Part // members of a part follow each other
	for i := range s.Members {
		if m := &s.Members[i]; m.Class == Outside && m.Part != last {
			last = m.Part
			_, _, most := Walls(m.Yield, m.Part.Metal.Modulus)
			s.lack(SlenderWall, Place{Part: m.Part.Name, Slenderness: m.Section.Slenderness(), Limit: most})
		}
	}
	for _, it := range in.Items {
		if members, _ := s.of(it.Part); it.Part.Post != nil && len(members) == 0 {
			s.lack(RigidPost, Place{Part: it.Part.Name})
		}
	}
	if in.loose() {
		s.Unchecked = append(s.Unchecked, Unchecked{Gap: LooseFeet})
	}
	for i := range s.Shells {
		sh := &s.Shells[i]
		if sh.Gap != "" && !(sh.Gap.fails() && sh.Ratio > 1) {
			s.lack(sh.Gap, sh.place())
		}
	}
	for _, j := range in.Design.Joints {
		if j.A == nil || j.B == nil {
			continue
		}
		if s.sits(j) {
			continue
		}
		if gap, ok := map[design.JointKind]Gap{design.SeatJoint: SeatWeld, design.ThreadJoint: ThreadWeld, design.RestJoint: RestWeld}[j.Kind]; ok {
			s.lack(gap, Place{Part: j.A.Name, With: j.B.Name})
		}
	}
	// A plate that carries the pull of an anchor by itself, as a strip from the post, does not
	// pry: AISC Manual part 9 (from memory). One that does not fails.
	if a := s.Anchors; a != nil && a.ForTarget > 0 && s.Plate == nil {
		s.lack(Prying, Place{Part: baseName(in)})
	}
}

// place returns where the shell is.
func (s *Shell) place() Place {
	at := Place{Part: s.Ball.Name, With: s.With.Name, End: s.Where, Caps: s.Caps}
	if s.Where == check.Seat {
		at.End = check.Anywhere
	}
	return at
}

// sits reports whether a joint of two parts is a seat that was checked.
func (s *Strength) sits(j design.Joint) bool {
	for i := range s.Shells {
		if sh := &s.Shells[i]; sh.Where == check.Seat && (sh.Ball == j.A && sh.With == j.B || sh.Ball == j.B && sh.With == j.A) {
			return true
		}
	}
	return false
}

// loose reports whether the piece stands on feet that nothing holds.
func (in Input) loose() bool { return in.Design.Base() == nil && !in.Design.Planted() }

// baseName returns the name of the base; "" without one.
func baseName(in Input) string {
	if p := in.plated(); p != nil {
		return p.Name
	}
	return ""
}
