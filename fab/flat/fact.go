package flat

import (
	"stabile/fab/finding"
	"stabile/param/design"
)

// A Target is what an end of a post meets.
type Target struct {
	Meets design.Meeting
	Kind  string // of the part, "post", "ball" or "base", or "ring" for the next tube of one; "" for the ground and for a free end
	Name  string
}

// targetOf returns what an end meets.
func targetOf(end design.End) Target {
	t := Target{Meets: end.Meets}
	if end.With != nil {
		t.Kind, t.Name = end.With.Kind(), end.With.Name
		if q := end.With.Post; q != nil && q.Ring != nil && end.Meets == design.OnHead {
			t.Kind, t.Name = "ring", q.Ring.Name
		}
	}
	return t
}

// What the bench must know of a tube's or a taper's blank. Ends are "foot" and
// "head".
type (
	// SeamEdge says at which bearing the left edge, the seam, lies.
	SeamEdge struct {
		Bearing float64 // rad
	}

	// PieceEdges says at which bearings the edges of one piece of a taper lie.
	PieceEdges struct {
		Piece, Of   int
		Left, Right float64 // rad
	}

	// RootGap says that the width leaves the gap of the seam.
	RootGap struct {
		Gap float64 // mm
	}

	// Shrinks says what is added for what seams draw their edges together.
	Shrinks struct {
		Width, Length float64 // mm
	}

	// GapOff says to take the gap of the seam off along the right edge.
	GapOff struct {
		Gap float64 // mm
	}

	// SquareEnd is cut square, of a taper along its arc.
	SquareEnd struct {
		End string
		Arc bool
	}

	// FiledEnd is cut square, of a taper along its arc, and filed to fit: its curve is
	// nearer to that than a hand cuts.
	FiledEnd struct {
		End string
		Arc bool
		On  Target
		Off float64 // mm, by which the curve rises and falls
	}

	// CourseEnd is cut square, of a taper along its arc, and welded round to the next
	// course.
	CourseEnd struct {
		End string
		Arc bool
		Gap float64 // mm, root gap between the two
	}

	// CurvedEnd is cut along a curve.
	CurvedEnd struct {
		End string
		On  Target
	}

	// WrapTemplate says at which bearing the edges of a template meet that is wrapped
	// round what is bought.
	WrapTemplate struct {
		Bearing float64 // rad
	}

	// SawnEnd is sawn along a plane.
	SawnEnd struct {
		End   string
		On    Target
		Angle float64 // rad, from square
		Long  float64 // rad, the bearing where the tube is longest
	}

	// CopedEnd is cut to the edge of a template, square through the wall.
	CopedEnd struct {
		End string
		On  Target
	}

	// Scallops says how far an end follows the lobes of a ball or a bowl.
	Scallops struct {
		End, Ball string
		Depth     float64 // mm, deeper than for a round ball, at most
		Bowl      bool    // it is a bowl
	}

	// Doubles says what a disc that doubles the wall of a ball is for, and how it is set.
	Doubles struct {
		Ball string
		End  string // of the post on it
	}

	// InConcrete says how much of a tube goes into concrete in the ground, plumb.
	InConcrete struct{ Deep float64 }

	// FootBelow says how far a foot reaches below where the axis meets what it is on.
	FootBelow struct {
		By float64 // mm
		On Target
	}

	// HeadBeyond says how far a head reaches beyond the post's length.
	HeadBeyond struct {
		By float64 // mm
	}

	// Dividers says how wide dividers are set to mark where a square foot stands on a
	// ball.
	Dividers struct {
		Opening float64 // mm
	}

	// StandsHere says which post stands where it is outlined.
	StandsHere struct {
		Post    string
		Bearing float64 // rad, of its middle
		Up      float64 // mm, of its middle from the lower edge of the blank; 0 on a cone
	}
)

// What the bench must know of other blanks.
type (
	// Arcs says how a sector is laid out.
	Arcs struct {
		Large, Small, Chord float64 // mm, radii, and from corner to corner of the large arc
		Angle               float64 // rad, included
		Long                bool    // too long to be struck about the point: laid out by their chords
	}

	// ConeRing says to which radii a ball's ring is rolled.
	ConeRing struct {
		Wide, Narrow float64 // mm, mean radii; the wide edge lies toward the equator
	}

	// RingPieces says of how many pieces a ring is made.
	RingPieces struct{ Count int }

	// DishEgg says how deep half of an egg is dished, at equal area.
	DishEgg struct {
		Depth float64 // mm
	}

	// DishHalf says how deep half of a ball is dished, at equal area.
	DishHalf struct {
		Depth float64 // mm, to the middle of the sheet
	}

	// TrimHalf says what is left on all round, to be trimmed to the equator.
	TrimHalf struct {
		Left  float64 // mm
		Short float64 // mm, by which the edge then ends short of the equator, for the root gap; below 0 beyond it, for shrinkage
	}

	// SeamGaps says that the edges of a ball's piece leave the root gap of its seams.
	SeamGaps struct {
		Gap float64 // mm
	}

	// Groove says how wide the groove is, at most, that square edges leave at the outside
	// once they are set together.
	Groove struct {
		Top  float64 // mm, across the outside, root gaps left out
		File float64 // mm, to file off the inner corner of each edge so that they meet at the middle of the sheet; 0 where the inner corners meet
	}

	// FlatCap says that a cap stays flat.
	FlatCap struct {
		Rise float64 // mm, if it were dished
	}

	// DishCap says how a cap is dished, at equal area.
	DishCap struct {
		Across, Depth float64 // mm, at the middle of the sheet
	}

	// Slivers says what a round cap leaves beside it in its opening.
	Slivers struct {
		Corners int
		Width   float64 // mm, at most
	}

	// RaiseGore says how high a gore is raised.
	RaiseGore struct {
		Crown float64 // mm, across its widest place
	}

	// UnequalEnds says how far from the equator the ends of a gore lie, toward the lower
	// pole and the upper.
	UnequalEnds struct {
		Lower, Upper float64 // mm, along the meridian
	}

	// Stretches says how sheet stretches and shrinks in a domed gore, as shares of
	// length.
	Stretches struct {
		Middle, Edges float64 // along the equator; of an egg's at most
		Mean          float64 // over the whole gore
		Egg           bool
	}

	// Sided says how a cap with straight sides is laid out: chords stepped off a circle.
	Sided struct {
		Sides        int
		Side, Corner float64 // mm, the length of one, and the radius of the circle
	}

	// PoleDisc says what a disc at a pole closes: gores end where their points would be too narrow.
	PoleDisc struct {
		Narrow float64 // mm
		Small  bool    // small enough to fill the hole with weld instead
	}

	// BluntTips says where gores are cut blunt, and the hole that this leaves.
	BluntTips struct {
		Narrow float64 // mm, that tips are not narrower than
		Hole   float64 // mm across, at each pole
		Welded bool    // narrow enough to fill with weld
	}

	// OpenedFor says for which post a piece is opened.
	OpenedFor struct{ Post string }

	// Pierced says which of the design's holes are in a blank or in its edge.
	Pierced struct {
		Holes  string // their names, parted by commas
		Formed bool   // the blank is stretched when it is formed, so that they are cut after
	}

	// DrilledThrough says which holes are drilled straight through the wall of what is bought.
	DrilledThrough struct{ Holes string }

	// SitsIn says which ball sits in a piece that is opened for it, and whether the two are open to each
	// other.
	SitsIn struct {
		Ball    string
		Through bool
	}

	// DrillVent says which vent to drill.
	DrillVent struct {
		Diameter float64 // mm
		Drain    bool    // it is a drain
	}

	// DrillAt says where a vent or a drain is drilled in a tube's flat.
	DrillAt struct {
		Diameter   float64 // mm
		Drain      bool
		Bearing    float64 // rad
		Across, Up float64 // mm, from the left and the bottom edge of the rectangle about the flat
	}
)

// A Care is what the bench must know of a blank that has no figures.
type Care int

// The cares.
const (
	FromAbove  Care = iota // which way a plate lies
	OneWay                 // a rolled gore is bent one way only
	FitsInside             // the disc in a head
	FromFront              // which way a plate on a wall lies
)

// What is found of a part.
type (
	// NarrowGores says that gores are narrower at the caps than can be welded.
	NarrowGores struct {
		Width, Least float64 // mm
	}

	// DishBowl says how deep a bowl is dished, at the middle of its sheet.
	DishBowl struct {
		Depth float64 // mm
	}

	// TrimBowl says what is left on round a bowl, to be trimmed to its rim after dishing.
	TrimBowl struct {
		Left float64 // mm
	}

	// GrindRim says how far the inner edge of a rim stands above the outer, which it is
	// ground flat with.
	GrindRim struct {
		Proud float64 // mm
	}

	// HoldsRain says what a bowl holds that has no drain.
	HoldsRain struct {
		Weight float64 // kg, of water up to where it runs over
	}

	// BuildPoint says where the sheet of a cone with a point ends, and how far the weld
	// goes on to the point.
	BuildPoint struct {
		Height float64 // mm along the axis, from the outer edge of the sheet's end
		Across float64 // mm, outside, of that edge
	}

	// SharpPoint says how high a point is that may hurt.
	SharpPoint struct {
		Height float64 // mm, over the ground
	}

	// FillsUp says that slivers are left out where a ball is cut open.
	FillsUp struct {
		Count   int
		Thin    float64 // mm, that they are narrower than on average
		Longest float64 // mm, about, the longest
	}

	// CutByHand says where a bought ball is cut open for the larger bought one that it is
	// welded to.
	CutByHand struct {
		Other  string
		Across float64 // mm, of the circle
	}

	// CapsGone says that caps do nothing, since an opening takes both away.
	CapsGone struct {
		Caps float64 // mm
		Post string
	}

	// OpenHead says that an end stands on a head that is wider and open.
	OpenHead struct{ End, Post string }

	// Overhangs says that an end hangs over an end of the post on whose side it stands.
	Overhangs struct {
		End, Of, Post string
		By            float64 // mm
	}

	// SeamsMeet says that a seam comes as near another part's as welds should not.
	SeamsMeet struct {
		With         string
		Apart, Least float64 // mm
	}

	// HolesOnSeams says which holes lie across seams: in two pieces, or over the end of a seam
	// where three pieces meet or more.
	HolesOnSeams struct{ Across, Ends string }

	// HolesBesideSeams says which holes leave less sheet beside a seam than holds.
	HolesBesideSeams struct {
		Holes string
		Least float64 // mm
	}

	// DrillByHand says which holes are drilled in what is bought.
	DrillByHand struct{ Holes string }

	// SeamUnder says that a seam runs under the joint of another post.
	SeamUnder struct{ Post string }

	// NoVent says that there is no room for a vent clear of seams and joints.
	NoVent struct {
		Vent  float64 // mm
		Drain bool    // it is a drain
	}

	// ThickDisc says that the disc in a head is thicker than the post is long.
	ThickDisc struct{}

	// NotDeveloped says that a flat is not trimmed, since what an end meets is not known.
	NotDeveloped struct{ End string }
)

// Fact marks the type.
func (SeamEdge) Fact() {}

// Fact marks the type.
func (PieceEdges) Fact() {}

// Fact marks the type.
func (RootGap) Fact() {}

// Fact marks the type.
func (Shrinks) Fact() {}

// Fact marks the type.
func (GapOff) Fact() {}

// Fact marks the type.
func (SquareEnd) Fact() {}

// Fact marks the type.
func (FiledEnd) Fact() {}

// Fact marks the type.
func (CourseEnd) Fact() {}

// Fact marks the type.
func (CurvedEnd) Fact() {}

// Fact marks the type.
func (WrapTemplate) Fact() {}

// Fact marks the type.
func (SawnEnd) Fact() {}

// Fact marks the type.
func (CopedEnd) Fact() {}

// Fact marks the type.
func (Scallops) Fact() {}

// Fact marks the type.
func (Doubles) Fact()    {}
func (FootBelow) Fact()  {}
func (InConcrete) Fact() {}

// Fact marks the type.
func (HeadBeyond) Fact() {}

// Fact marks the type.
func (Dividers) Fact() {}

// Fact marks the type.
func (StandsHere) Fact() {}

// Fact marks the type.
func (Arcs) Fact() {}

// Fact marks the type.
func (ConeRing) Fact() {}

// Fact marks the type.
func (RingPieces) Fact() {}

// Fact marks the type.
func (DishHalf) Fact() {}
func (DishEgg) Fact()  {}

// Fact marks the type.
func (TrimHalf) Fact() {}

// Fact marks the type.
func (SeamGaps) Fact() {}

// Fact marks the type.
func (Groove) Fact() {}

// Fact marks the type.
func (FlatCap) Fact() {}

// Fact marks the type.
func (DishCap) Fact() {}

// Fact marks the type.
func (Slivers) Fact() {}

// Fact marks the type.
func (RaiseGore) Fact() {}

// Fact marks the type.
func (UnequalEnds) Fact() {}

// Fact marks the type.
func (Stretches) Fact() {}

// Fact marks the type.
func (Sided) Fact() {}

// Fact marks the type.
func (PoleDisc) Fact() {}

// Fact marks the type.
func (BluntTips) Fact() {}

// Fact marks the type.
func (OpenedFor) Fact() {}

// Fact marks the type.
func (SitsIn) Fact() {}

// Fact marks the type.
func (DrillVent) Fact() {}

// Fact marks the type.
func (DrillAt) Fact() {}

// Fact marks the type.
func (Care) Fact() {}

// Fact marks the type.
func (NarrowGores) Fact() {}

// Fact marks the type.
func (DishBowl) Fact() {}

// Fact marks the type.
func (TrimBowl) Fact() {}

// Fact marks the type.
func (GrindRim) Fact() {}

// Fact marks the type.
func (HoldsRain) Fact() {}

// Fact marks the type.
func (BuildPoint) Fact() {}

// Fact marks the type.
func (SharpPoint) Fact() {}

// Fact marks the type.
func (FillsUp) Fact() {}

// Fact marks the type.
func (CutByHand) Fact() {}

// Fact marks the type.
func (CapsGone) Fact() {}

// Fact marks the type.
func (OpenHead) Fact() {}

// Fact marks the type.
func (Overhangs) Fact() {}

// Fact marks the type.
func (SeamsMeet) Fact() {}

// Fact marks the type.
func (Pierced) Fact() {}

// Fact marks the type.
func (DrilledThrough) Fact() {}

// Fact marks the type.
func (HolesOnSeams) Fact() {}

// Fact marks the type.
func (HolesBesideSeams) Fact() {}

// Fact marks the type.
func (DrillByHand) Fact() {}

// Fact marks the type.
func (SeamUnder) Fact() {}

// Fact marks the type.
func (NoVent) Fact() {}

// Fact marks the type.
func (ThickDisc) Fact() {}

// Fact marks the type.
func (NotDeveloped) Fact() {}

// Join implements finding.Joiner: the deepest.
func (s Scallops) Join(other finding.Fact) (finding.Fact, bool) {
	o, ok := other.(Scallops)
	if !ok {
		return nil, false
	}
	s.Depth = max(s.Depth, o.Depth)
	if o.End != s.End {
		s.End = ""
	}
	if o.Ball != s.Ball {
		s.Ball = ""
	}
	return s, true
}

// Join implements finding.Joiner: the widest.
func (s Slivers) Join(other finding.Fact) (finding.Fact, bool) {
	o, ok := other.(Slivers)
	if !ok || o.Corners != s.Corners {
		return nil, false
	}
	s.Width = max(s.Width, o.Width)
	return s, true
}

// Join implements finding.Joiner: the largest hole.
func (b BluntTips) Join(other finding.Fact) (finding.Fact, bool) {
	o, ok := other.(BluntTips)
	if !ok || o.Narrow != b.Narrow || o.Welded != b.Welded {
		return nil, false
	}
	b.Hole = max(b.Hole, o.Hole)
	return b, true
}

// Join implements finding.Joiner: the narrowest.
func (n NarrowGores) Join(other finding.Fact) (finding.Fact, bool) {
	o, ok := other.(NarrowGores)
	if !ok || o.Least != n.Least {
		return nil, false
	}
	n.Width = min(n.Width, o.Width)
	return n, true
}
