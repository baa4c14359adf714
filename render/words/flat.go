package words

import (
	"fmt"
	"math"
	"strings"

	"stabile/fab/finding"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/quantity"
)

// flat says facts of package flat.
func (w Writer) flat(f finding.Fact) (string, bool) {
	for _, say := range [...]func(finding.Fact) (string, bool){w.tubeBlank, w.blank, w.partMade} {
		if text, ok := say(f); ok {
			return text, true
		}
	}
	return "", false
}

// tubeBlank says what the bench must know of a tube's or a taper's blank.
func (w Writer) tubeBlank(f finding.Fact) (string, bool) {
	exact := w.Units.Exact
	switch f := f.(type) {
	case flat.SeamEdge:
		return "Left edge is the seam at bearing " + w.Bearing(f.Bearing) + "; outside face up and head up, bearings grow to the right", true
	case flat.PieceEdges:
		return fmt.Sprintf("Piece %d of %d: left edge at bearing %s, right edge at %s; outside face up and head up", f.Piece, f.Of, w.Bearing(f.Left), w.Bearing(f.Right)), true
	case flat.RootGap:
		return "Width leaves " + exact(f.Gap) + " of root gap at the seam", true
	case flat.Shrinks:
		length := ""
		if f.Length > 0 {
			length = " and the length " + exact(f.Length)
		}
		return "For the shrinkage of its seams the width has " + exact(f.Width) + length + " more (common practice, no source)", true
	case flat.GapOff:
		return "Then take " + exact(f.Gap) + " off along the right edge, parallel to it: the root gap of the seam", true
	case flat.SquareEnd:
		if f.Arc {
			return "Cut the " + f.End + " along its arc", true
		}
		return "Cut the " + f.End + " square", true
	case flat.FiledEnd:
		cut := " square"
		if f.Arc {
			cut = " along its arc"
		}
		return "Cut the " + f.End + cut + "; file to fit " + Target(f.On) + " within " + exact(f.Off), true
	case flat.CourseEnd:
		cut, next, gap := " square", "above", ""
		if f.End == "foot" {
			next = "below"
		}
		if f.Arc {
			cut = " along its arc"
		}
		if f.Gap > 0 {
			gap = ", with a root gap of " + exact(f.Gap)
		}
		return "Cut the " + f.End + cut + "; it is welded round to the course " + next + gap, true
	case flat.CurvedEnd:
		return "Cut the " + f.End + " square through the sheet along its curve, which fits " + Target(f.On) + " where the wall touches first", true
	case flat.WrapTemplate:
		return "Wrap the template round the outside, head up, its ends meeting at bearing " + w.Bearing(f.Bearing), true
	case flat.SawnEnd:
		return fmt.Sprintf("Saw the %s %s off square, flat through the whole wall, longest at bearing %s: it fits %s", f.End, w.Laid(f.Angle), w.Bearing(f.Long), Target(f.On)), true
	case flat.CopedEnd:
		return "Cope the " + f.End + " along the template, square through the wall: it fits " + Target(f.On) + " where the wall touches first", true
	case flat.Scallops:
		end, ball := "an end", "its ball"
		if f.End != "" {
			end = "the " + f.End
		}
		if f.Ball != "" {
			ball = "ball '" + f.Ball + "'"
			if f.Bowl {
				ball = "bowl '" + f.Ball + "'"
			}
		}
		return fmt.Sprintf("%s follows the lobes of %s: scallops up to %s deeper than for a round ball", end, ball, exact(f.Depth)), true
	case flat.Doubles:
		return fmt.Sprintf("Lies on the outside of ball '%s', its middle under the %s of the post: bed it without a gap, weld it round its edge, and drill 1/8 in (3 mm) through it inside the post's ring, so that the gap is not sealed", f.Ball, f.End), true
	case flat.InConcrete:
		return "The lowest " + w.Fine(f.Deep) + " of its foot goes into concrete, measured plumb: scribe the ground line", true
	case flat.FootBelow:
		return "Foot reaches " + exact(f.By) + " below the point where the axis meets " + Target(f.On), true
	case flat.HeadBeyond:
		return "Head reaches " + exact(f.By) + " beyond the post's length", true
	case flat.Dividers:
		return "To mark where it stands, set dividers to " + exact(f.Opening) + " from the middle of the foot on the ball", true
	case flat.BuildPoint:
		return fmt.Sprintf("The sheet ends %s across, where it can just be closed: build up the last %s to the point with weld, and dress it", exact(f.Across), exact(f.Height)), true
	case flat.StandsHere:
		up := ""
		if f.Up > 0 {
			up = exact(f.Up) + " up from the lower edge, "
		}
		return fmt.Sprintf("Post '%s' stands where it is outlined, its middle %sat bearing %s; weld it on from outside, no hole is cut", f.Post, up, w.Bearing(f.Bearing)), true
	}
	return "", false
}

// blank says what the bench must know of other blanks.
func (w Writer) blank(f finding.Fact) (string, bool) {
	exact := w.Units.Exact
	switch f := f.(type) {
	case flat.Care:
		switch f {
		case flat.FromAbove:
			return "Seen from above; the right side faces bearing " + w.deg("0") + ", the upper side away from the viewer", true
		case flat.FromFront:
			return "Seen from the front, as it is on the wall: its upper side is up; bearings on it turn from the right side up", true
		case flat.OneWay:
			return "Roll one way only, with the bend lines along the rolls: it stays straight across", true
		}
		return "Fits inside the tube, its face flush with the tube's end: the tube keeps its full length", true
	case flat.Arcs:
		if f.Long {
			return fmt.Sprintf("Arcs of radius %s and %s about one point, %s apart at the corners of the large one, at an included angle of %s: longer than a beam compass, so lay them out by their chords",
				exact(f.Large), exact(f.Small), exact(f.Chord), w.Laid(f.Angle)), true
		}
		return fmt.Sprintf("Strike arcs of radius %s and %s about one point, %s apart at the corners of the large one: an included angle of %s",
			exact(f.Large), exact(f.Small), exact(f.Chord), w.Laid(f.Angle)), true
	case flat.ConeRing:
		return fmt.Sprintf("Roll to a cone: mean radius %s at the wide edge, which lies toward the equator, and %s at the narrow one", exact(f.Wide), exact(f.Narrow)), true
	case flat.RingPieces:
		return fmt.Sprintf("The ring is made of %d such pieces, since one would not fit the sheet", f.Count), true
	case flat.DishEgg:
		return "Dish to half of the egg at equal area: " + exact(f.Depth) + " deep to the middle of the sheet", true
	case flat.DishHalf:
		return "Dish to half of the ball at equal area: " + exact(f.Depth) + " deep to the middle of the sheet", true
	case flat.TrimHalf:
		where := "to the equator"
		switch {
		case f.Short > 0:
			where = exact(f.Short) + " short of the equator, half of the root gap,"
		case f.Short < 0:
			where = exact(-f.Short) + " beyond the equator, half of what the seam shrinks (common practice, no source),"
		}
		return exact(f.Left) + " is left on all round: trim " + where + " after dishing", true
	case flat.DishBowl:
		return "Dish at equal area, " + exact(f.Depth) + " deep to the middle of the sheet at the bottom", true
	case flat.TrimBowl:
		return exact(f.Left) + " is left on all round: trim to the rim after dishing, square through the sheet", true
	case flat.GrindRim:
		return "The rim is ground flat in one plane when all is welded: its inner edge stands " + exact(f.Proud) + " above the outer", true
	case flat.SeamGaps:
		return "Its edges leave a root gap of " + exact(f.Gap) + " at every seam", true
	case flat.Groove:
		if f.File > 0 {
			return "File up to " + exact(f.File) + " off the inner corners of its edges to fit them; the groove outside is then up to " + exact(f.Top) + " wide", true
		}
		return "Set it with inner corners touching: the groove outside, up to " + exact(f.Top) + " wide, is for the weld", true
	case flat.FlatCap:
		return "Stays flat: dished it would rise by " + exact(f.Rise) + ", no more than its thickness", true
	case flat.DishCap:
		return "Dish at equal area to " + exact(f.Across) + " across and " + exact(f.Depth) + " deep, at the middle of the sheet", true
	case flat.Sided:
		return fmt.Sprintf("%d straight sides of %s: step them off round a circle of radius %s", f.Sides, exact(f.Side), exact(f.Corner)), true
	case flat.PoleDisc:
		small := ""
		if f.Small {
			small = "; so small that you may fill the hole with weld instead"
		}
		return "Closes the pole, where the points of the gores would be narrower than " + exact(f.Narrow) + small, true
	case flat.Slivers:
		return fmt.Sprintf("the opening for a round cap has %d corners, which leave slivers up to %s wide beside it: dress them in or fill them with weld", f.Corners, exact(f.Width)), true
	case flat.UnequalEnds:
		return fmt.Sprintf("Its ends differ, as the caps do: from the equator %s to the lower end and %s to the upper", exact(f.Lower), exact(f.Upper)), true
	case flat.RaiseGore:
		return "Raise a crown of " + exact(f.Crown) + " across its widest place, to nothing at the tips", true
	case flat.Stretches:
		if f.Egg {
			return fmt.Sprintf("The middle stretches by up to %s and the edges shrink by up to %s; over the whole gore %s in the mean", w.PercentTenths(f.Middle), w.PercentTenths(f.Edges), w.PercentTenths(f.Mean)), true
		}
		return fmt.Sprintf("Along the equator the middle stretches by %s and the edges shrink by %s; over the whole gore %s in the mean", w.PercentTenths(f.Middle), w.PercentTenths(f.Edges), w.PercentTenths(f.Mean)), true
	case flat.BluntTips:
		closed := "close it with a disc let in"
		if f.Welded {
			closed = "fill it with weld"
		}
		return fmt.Sprintf("tips narrower than %s are cut off blunt, which leaves a hole up to %s across at each pole: %s, or give the ball 'caps'", exact(f.Narrow), exact(f.Hole), closed), true
	case flat.OpenedFor:
		return "Opened for post '" + f.Post + "': the edge is cut square and clears the post through the whole of the sheet", true
	case flat.SitsIn:
		if f.Through {
			return "Opened to ball '" + f.Ball + "': cut square, the outer edges of the two meet and leave a groove inside", true
		}
		return "Opened where ball '" + f.Ball + "' sits in: cut square, the edge touches its outside", true
	case flat.Pierced:
		if f.Formed {
			return Capital(holes(f.Holes)) + ": mark on the flat, and cut when the piece is formed: forming would draw the shape out", true
		}
		return Capital(holes(f.Holes)) + ": cut to the line before forming; bent, the shape comes out true", true
	case flat.DrilledThrough:
		return Capital(holes(f.Holes)) + ": trace from the template, and cut straight through the wall, square to the axis", true
	case flat.DrillVent:
		return "Drill the " + boreName(f.Drain) + " of " + exact(f.Diameter) + " before forming, and keep it open", true
	case flat.DrillAt:
		return fmt.Sprintf("Drill the %s of %s before rolling, its middle %s from the left and %s up from the bottom of the rectangle, at bearing %s; keep it open",
			boreName(f.Drain), exact(f.Diameter), exact(f.Across), exact(f.Up), w.Bearing(f.Bearing)), true
	}
	return "", false
}

// partMade says what is found of a part as it is made.
func (w Writer) partMade(f finding.Fact) (string, bool) {
	exact := w.Units.Exact
	switch f := f.(type) {
	case flat.NarrowGores:
		return fmt.Sprintf("gores down to %s wide at the caps, less than the %s that can be welded: use larger 'caps' or fewer 'gores'", exact(f.Width), exact(f.Least)), true
	case flat.HoldsRain:
		return "holds " + w.Weight(f.Weight) + " of rain, which is in no weight or load here; where it freezes it bends the bowl: give it a 'drain', or tilt it", true
	case flat.SharpPoint:
		return "its point, " + w.Long(f.Height) + " above the ground, may injure: dress it blunt, or put it where nobody walks or falls into it (common practice, no source)", true
	case flat.FillsUp:
		them := "them"
		if f.Count == 1 {
			them = "it"
		}
		return fmt.Sprintf("where it is cut open %s, narrower than %s and up to %s long, would be left: fill %s with weld", Count(f.Count, "sliver"), exact(f.Thin), w.Long(f.Longest), them), true
	case flat.CutByHand:
		return fmt.Sprintf("is bought, as is '%s', which sits in it: before they are welded cut it open by hand, round a circle of %s", f.Other, exact(f.Across)), true
	case flat.CapsGone:
		return fmt.Sprintf("'caps' of %s do nothing here, since the opening for post '%s' takes both of them away: leave 'caps' out, or make them wider than the post", exact(f.Caps), f.Post), true
	case flat.OpenHead:
		return fmt.Sprintf("its %s stands on the head of post '%s', which is wider and open: give that 'head disc'", f.End, f.Post), true
	case flat.Overhangs:
		return fmt.Sprintf("its %s hangs over the %s of post '%s' by %s: move it along", f.End, f.Of, f.Post, exact(f.By)), true
	case flat.SeamsMeet:
		return fmt.Sprintf("its seam comes within %s of a seam of '%s', less than the %s that welds keep apart: turn one of them with 'seam'", exact(f.Apart), f.With, exact(f.Least)), true
	case flat.HolesOnSeams:
		return holesOnSeams(f), true
	case flat.HolesBesideSeams:
		return holes(f.Holes) + " leave less than " + exact(f.Least) + " of sheet beside a seam: move them off it or onto it, or weld the seam before they are cut", true
	case flat.DrillByHand:
		return "is bought: drill " + holes(f.Holes) + " by hand", true
	case flat.SeamUnder:
		return "its seam runs under the joint of post '" + f.Post + "': turn the seam with 'seam'", true
	case flat.NoVent:
		return "no room for a " + boreName(f.Drain) + " of " + exact(f.Vent) + " clear of seams and joints: drill it where it can be", true
	case flat.ThickDisc:
		return "the head disc is thicker than the post is long", true
	case flat.NotDeveloped:
		return "flat blank not worked out: what its " + f.End + " meets is not known; its weight is that of the plain piece before trimming", true
	}
	return "", false
}

// holes names holes.
func holes(names string) string {
	if strings.Contains(names, ",") {
		return "holes " + names
	}
	return "hole " + names
}

// holesOnSeams says which holes lie across seams.
func holesOnSeams(f flat.HolesOnSeams) string {
	var parts []string
	if f.Across != "" {
		parts = append(parts, holes(f.Across)+" across a seam")
	}
	if f.Ends != "" {
		parts = append(parts, holes(f.Ends)+" over the end of a seam")
	}
	return strings.Join(parts, ", and ") + ": each piece has its share in its edge; weld up to the hole and dress it round"
}

// Target names what an end meets.
func Target(t flat.Target) string {
	switch {
	case t.Kind == "ring":
		return "the next tube of ring '" + t.Name + "'"
	case t.Name != "" && t.Meets == design.OnSide:
		return "the side of post '" + t.Name + "'"
	case t.Name != "" && t.Meets == design.OnHead:
		return "the end of post '" + t.Name + "'"
	case t.Name != "":
		return t.Kind + " '" + t.Name + "'"
	case t.Meets == design.OnPlate:
		return "the ground"
	}
	return "nothing"
}

// Mark returns what is written beside a mark on a blank; it may be empty.
func (w Writer) Mark(m *flat.Mark) string {
	switch {
	case m.Kind == flat.Standing:
		return m.Part
	case m.Kind == flat.Witness:
		return w.Bearing(m.Bearing)
	case m.Equator:
		return "equator"
	case m.FromSeam > 0:
		return w.deg(quantity.Decimal(math.Mod(m.FromSeam*180/math.Pi, 360), 1)) + " from the seam"
	}
	return ""
}

// Ordinate says what the ordinates of a table are measured from.
func Ordinate(l flat.Line) string {
	return [...]string{
		flat.FromBottom:   "up from the bottom edge of the rectangle",
		flat.FromTop:      "down from the top edge of the rectangle",
		flat.FromRim:      "both ways from the centre line",
		flat.FromCentre:   "both ways from the centre line",
		flat.FromSmallArc: "out from the small arc, along the radial line",
		flat.FromLargeArc: "in from the large arc, along the radial line",
	}[l]
}

// Station says what the stations of a table are measured along, and from where.
func Station(l flat.Line) string {
	switch l {
	case flat.FromRim:
		return "along the centre line from the rim down"
	case flat.FromCentre:
		return "along the centre line from the middle, both ways alike"
	case flat.FromSmallArc, flat.FromLargeArc:
		return "along the arc from the left edge, by even angles between radial lines"
	}
	return "across the blank from its left edge, the seam"
}

// boreName names a hole that lets air out, or water.
func boreName(drain bool) string {
	if drain {
		return "drain"
	}
	return "vent"
}
