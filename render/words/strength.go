package words

import (
	"fmt"
	"slices"
	"strings"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/strength"
	"stabile/param/quantity"
)

// weakestBolts are the bolts that anchors are checked with.
const weakestBolts = "the weakest in use, A307 or 4.6"

// strength returns the sentence of a fact of package strength.
func (w Writer) strength(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case strength.OverLimit:
		return w.overLimit(f), true
	case strength.Buckles:
		return fmt.Sprintf("buckles sideways under its own weight and loads: they are %s of what it carries; make the posts wider or shorter", Use(f.Ratio)), true
	case strength.WallBreaks:
		return w.wallBreaks(f), true
	case strength.PlateBends:
		return fmt.Sprintf("bends: %s of its limit beside %s, by %s", Use(f.Ratio), f.Post, w.bending(f.How)) + w.advised(f.Advice, f.Cures, "make the plate thicker, or weld ribs out from the post"), true
	case strength.AnchorTension:
		return w.anchorTension(f), true
	case strength.AnchorShear:
		return w.anchorShear(f), true
	case strength.AnchorInteraction:
		return fmt.Sprintf("the anchors break in tension and shear together in %s: %s of what the steel of a bolt of %s carries (%s), though each alone is within its limit; use wider anchors, or more weight",
			w.Case(f.Case), Use(f.Ratio), w.Units.Exact(f.Bolt), weakestBolts), true
	case strength.SlowSway:
		return fmt.Sprintf("natural frequency %s: below %s gusts build up its sway, and the wind's gust factor is too low; make it stiffer, or have an engineer work out the gusts",
			Hertz(f.Frequency), Hertz(f.Limit)), true
	case strength.ModeMissed:
		return "a natural frequency lower than those given may have been missed", true
	case strength.NotSwung:
		return "natural frequencies were not worked out for this comparison; a report has them", true
	case strength.Vibrates:
		return w.vibrates(f), true
	case strength.NothingPushed:
		return fmt.Sprintf("the push is not applied: there is no post or ball at its height of %s; checked for %s only", w.Units.Exact(f.Height), besides(f.Wind)), true
	case strength.NotPushed:
		return fmt.Sprintf("not reached by the push: checked for %s only", besides(f.Wind)), true
	case strength.Unchecked:
		return "not checked, no rule here covers it: " + w.unchecked(f), true
	case strength.Aid:
		return "strength, sway and wind are aids to judgement; a licensed engineer and the local code decide for anything that people can reach", true
	case strength.NoHoles:
		return "the bolts of the anchors are not checked: give the diameter of the anchor holes", true
	case strength.GroundUnknown:
		return w.groundUnknown(f), true
	case strength.FreeToMove:
		return "free to move: nothing ties it to the ground; strength was not worked out. Weld it to something that stands", true
	case strength.Failed:
		return "strength was not worked out: " + f.Reason, true
	case strength.Spot:
		return w.Spot(f), true
	case strength.ModeShape:
		return w.modeShape(f), true
	case strength.PlateBending:
		return w.bending(f), true
	case strength.WallTerm:
		return "slenderness of the wall: " + string(f.Class), true
	case strength.PlateForceTerm:
		return "force at the end of the strip: " + w.bending(f.How), true
	case strength.SharingTerm:
		return fmt.Sprintf("shear per anchor, shared by %d, without friction", f.Sharing), true
	}
	return "", false
}

func (w Writer) overLimit(f strength.OverLimit) string {
	where := at(f.Where, f.Joint)
	if f.Weld {
		where = "the weld " + where
	}
	ratio := Use(f.Ratio)
	if f.Several {
		ratio = "up to " + ratio
	}
	text := fmt.Sprintf("%s: %s of its limit in %s", where, ratio, w.Case(f.Case))
	switch f.Advice {
	case strength.WorseFirst:
		text += "; mend the posts that are further over their limit first: what helps is worked out for them"
	case strength.TooManyParts:
		text += fmt.Sprintf("; what helps is worked out only for pieces of up to %d parts", strength.MostAdvised)
	case strength.Advised:
		cures := w.Cures(f.Cures)
		if cures == "" {
			cures = "shorten it, or bring down the weight and the wind that it carries"
		}
		text += "; " + cures
	}
	return text
}

func (w Writer) wallBreaks(f strength.WallBreaks) string {
	where := "at the seat between it and " + f.With
	if f.Where != check.Seat {
		where = fmt.Sprintf("at the %s of %s", f.Where, f.With)
	}
	text := fmt.Sprintf("its wall gives way %s: %s of its limit under %s", where, Use(f.Ratio), w.Case(f.Case))
	return text + w.advised(f.Advice, f.Cures, "bring down what it carries there")
}

// builds are what another way to make a ball is called.
var builds = map[strength.Build]string{strength.OfDomed: "domed gores", strength.OfHalves: "halves"}

// Cures returns what each cure brings; "" for none.
func (w Writer) Cures(list []strength.Cure) string {
	var cures []string
	for _, c := range list {
		what, of := w.Units.Exact(c.Diameter)+" across", " of "
		switch build := builds[c.Build]; {
		case c.Doubler > 0:
			what, of = "with a doubler of "+w.Units.Exact(c.Doubler), " "
		case c.Pipe.NPS != "":
			what = Pipe(c.Pipe)
		case build != "" && c.Gauge > 0:
			what = fmt.Sprintf("%s of %d gauge", build, c.Gauge)
		case build != "" && c.Thickness > 0:
			what = build + " of " + w.Thickness(c.Thickness)
		case build != "":
			what = build
		case c.Gauge > 0:
			what = fmt.Sprintf("%d gauge", c.Gauge)
		case c.Thickness > 0:
			what, of = w.Thickness(c.Thickness)+" thick", " "
		}
		if c.Of != "" {
			what = c.Of + of + what
		}
		cures = append(cures, what+" brings "+Use(c.Ratio))
	}
	return strings.Join(cures, ", ")
}

// advised returns what helps after a text, from a semicolon on: the cures that were tried, or
// what to do where none of them brings it within its limit; nothing where none was tried.
func (w Writer) advised(a strength.Advice, cures []strength.Cure, otherwise string) string {
	switch {
	case a == strength.WorseFirst:
		return "; mend what is further over its limit first: what helps is worked out for that"
	case a == strength.TooManyParts:
		return fmt.Sprintf("; what helps is worked out only for pieces of up to %d parts", strength.MostAdvised)
	case len(cures) > 0:
		return "; " + w.Cures(cures)
	case a == strength.Advised:
		return "; no gauge or width that was tried brings it within its limit: " + otherwise
	}
	return ""
}

// ofBolt returns a share of what a bolt carries.
func (w Writer) ofBolt(ratio, bolt float64) string {
	return fmt.Sprintf("%s of what the steel of a bolt of %s carries", Use(ratio), w.Units.Exact(bolt))
}

func (w Writer) anchorTension(f strength.AnchorTension) string {
	text := "no anchor is in tension under these loads"
	if f.Tension > 0 {
		text = fmt.Sprintf("tension per anchor up to %s in %s", w.Force(f.Tension), w.Case(f.Case))
	}
	if !f.Wall {
		text += fmt.Sprintf("; at the target factor %s against tipping: %s", Factor(f.Target), w.Force(f.ForTarget))
	}
	switch {
	case f.Bolt == 0:
		text += "; the bolt is not checked: give the diameter of the anchor holes"
	case f.Over && f.Wall:
		text += fmt.Sprintf(", which is %s (%s): use more or wider anchors, or a higher plate", w.ofBolt(f.Ratio, f.Bolt), weakestBolts)
	case f.Over:
		text += fmt.Sprintf(", which is %s (%s): use more or wider anchors, or more weight", w.ofBolt(f.Ratio, f.Bolt), weakestBolts)
	default:
		text += fmt.Sprintf(", %s (%s)", w.ofBolt(f.Ratio, f.Bolt), weakestBolts)
	}
	switch {
	case f.Gripped:
		return text
	case f.Wall:
		return text + "; the anchor's hold in the wall is not checked: have the anchors chosen for this tension and for what the wall is of"
	}
	return text + "; the anchor's hold in the ground is not checked: give anchor_depth and concrete, and have the anchors chosen for this tension"
}

func (w Writer) anchorShear(f strength.AnchorShear) string {
	play := ""
	if f.Sharing > 1 {
		play = fmt.Sprintf("; holes have play, so only %d of the anchors carry it", f.Sharing)
	}
	shear := fmt.Sprintf("shear per anchor at the target factor %s: %s in %s (without friction%s)", Factor(f.Target), w.Force(f.Shear), w.Case(f.Case), play)
	if f.Wall {
		shear = fmt.Sprintf("shear per anchor %s in %s (without friction%s)", w.Force(f.Shear), w.Case(f.Case), play)
	}
	switch {
	case f.Bolt == 0 && f.Wall:
		return "the anchors carry it: " + shear + "; neither the bolt nor its hold in the wall is checked"
	case f.Over && f.Wall:
		return fmt.Sprintf("the anchors shear off: %s, which is %s (%s); use wider anchors, or more of them", shear, w.ofBolt(f.Ratio, f.Bolt), weakestBolts)
	case f.Bolt == 0:
		return "the anchors hold it against sliding: " + shear + "; neither the bolt nor its hold in the ground is checked"
	case f.Over:
		return fmt.Sprintf("the anchors shear off: %s, which is %s (%s); use wider anchors, or a stop that keeps the plate from sliding", shear, w.ofBolt(f.Ratio, f.Bolt), weakestBolts)
	}
	return shear + ", " + w.ofBolt(f.Ratio, f.Bolt)
}

func (w Writer) vibrates(f strength.Vibrates) string {
	speed := w.Speed(f.Least)
	if most := w.Speed(f.Most); most != speed {
		speed = fmt.Sprintf("%s (%s) to %s (%s)", speed, f.First, most, f.Last)
	}
	how := "vibrates"
	if f.Windless {
		how = "may vibrate"
	}
	return fmt.Sprintf("%s in a steady wind of %s (vortex shedding: eddies leave it at its natural frequency, and it hums), by up to %s, which tires the welds of %s: a stress range of %s, above the %s that does no harm",
		how, speed, w.Units.Exact(f.Amplitude), f.At, w.Units.Stress(f.Range), w.Units.Stress(f.Cutoff)) + w.advised(f.Advice, f.Cures, "sand inside, or a tie to a neighbour, damps it; a post up to six times as long as wide does not vibrate so")
}

// besides returns the loads besides a push.
func besides(wind bool) string {
	if wind {
		return "own weight and wind"
	}
	return "own weight"
}

var gaps = map[strength.Gap][2]string{ // what, and the cure
	strength.SlenderWall:      {"wall thinner than the rule for round tubes covers", "thicker sheet or a narrower post brings it under the rule"},
	strength.RigidPost:        {"post fixed at both ends to one stiff body", ""},
	strength.LooseFeet:        {"feet that stand loose on the ground: results assume fixed feet", "a plate that they are welded to, anchored pads or concrete in the ground holds them"},
	strength.WallRidges:       {"wall of a ball at a joint on rolled gores or on rings: too weak if it is taken as a cylinder, not if as a sphere", "wider caps, 'bend domed' or halves make it a sphere there; or run the post through it with 'around', if it is round"},
	strength.WallPole:         {"wall of a ball of rings at its flat pole", "lay its pole level, or make it of gores or halves"},
	strength.WallFlatCap:      {"wall of a ball at a joint on a flat cap", "wider caps are dished, and under the rule"},
	strength.WallRange:        {"wall of a ball outside the rule's range of thickness to radius", "another gauge brings it under the rule"},
	strength.WallHoled:        {"wall at a joint with a hole cut beside it", "move the hole away from the joint, or make it smaller"},
	strength.WallCrossed:      {"wall of a ball where two joints run into each other", "move them apart, or run one post through the ball with 'around', if it is round"},
	strength.WallRim:          {"wall of a bowl under a joint near its open rim", "move the joint toward the bottom, or make the bowl deeper"},
	strength.WallOblique:      {"wall of a ball under a post far from upright on it", "bring its foot nearer to the line of its axis through the ball's middle"},
	strength.WallUnknown:      {"wall of a bought ball, whose thickness is not given", "give it the metal that it is made of, with its thickness"},
	strength.SeatWeld:         {"weld of one ball on another", ""},
	strength.ThreadWeld:       {"welds of a ball around a post", ""},
	strength.RestWeld:         {"weld of a ball or a ring on the base", ""},
	strength.PostWallAtJoint:  {"wall of a post beside the joint of another, where that is far from square to it, or the walls are not known", "turn it nearer to square"},
	strength.PlateAtAnchor:    {"plate at an anchor under a post", ""},
	strength.PlateWithoutPost: {"bending of the plate: no post stands on it", ""},
	strength.Prying:           {"prying on the anchors", ""},
}

// unchecked returns what no rule covers after the names of its parts: with the other
// parts at its places, and the cure.
func (w Writer) unchecked(u strength.Unchecked) string {
	gap := gaps[u.Gap]
	text := gap[0]
	several := slices.ContainsFunc(u.Places, func(p strength.Place) bool { return p.Part != u.Places[0].Part })
	var places []string
	for _, p := range u.Places {
		if beside := w.besidePart(u.Gap, p); beside != "" {
			if several {
				beside = p.Part + ": " + beside
			}
			places = append(places, beside)
		}
	}
	if len(places) > 0 {
		text += " (" + strings.Join(places, ", ") + ")"
	}
	if gap[1] != "" {
		text += "; " + gap[1]
	}
	return text
}

// besidePart returns what is at a place besides the part itself.
func (w Writer) besidePart(gap strength.Gap, p strength.Place) string {
	switch {
	case p.Slenderness > 0:
		return fmt.Sprintf("D/t %s, the rule ends at %s", quantity.Decimal(p.Slenderness, 0), quantity.Decimal(p.Limit, 0))
	case p.With == "":
		return ""
	case p.Caps > 0:
		return fmt.Sprintf("%s, cleared by caps of %s", besideEnd(p), w.Long(p.Caps))
	case gap == strength.PlateAtAnchor:
		return "under " + p.With
	}
	return besideEnd(p)
}

// besideEnd returns the part beside a place, with its end.
func besideEnd(p strength.Place) string {
	if p.End == check.Anywhere {
		return "with " + p.With
	}
	return fmt.Sprintf("%s of %s", p.End, p.With)
}

// Unchecked returns what no rule covers, with its places by name and the cure.
func (w Writer) Unchecked(u strength.Unchecked) string {
	var places []string
	for _, p := range u.Places {
		place := p.Part
		if beside := w.besidePart(u.Gap, p); beside != "" {
			place += " (" + beside + ")"
		}
		places = append(places, place)
	}
	gap := gaps[u.Gap]
	text := gap[0]
	if len(places) > 0 {
		text += ": " + Names(places)
	}
	if gap[1] != "" {
		text += "; " + gap[1]
	}
	return text
}

// Spot returns where the greatest ratio is.
func (w Writer) Spot(s strength.Spot) string {
	text := ""
	switch s.Check {
	case check.Post:
		text = s.Part + ", " + Place(s.Where, s.Joint)
	case check.Weld:
		text = s.Part + ", weld at the " + Place(s.Where, s.Joint)
	case check.BallWall, check.PostWall:
		text = fmt.Sprintf("the wall of %s at %s", s.Part, s.Joint)
	case check.Plate:
		text = "the base plate beside " + s.Part
	case check.AnchorSteel:
		text = "the anchors"
	default:
		return ""
	}
	if load := w.Case(s.Case); load != "" {
		text += ", in " + load
	}
	return text
}

// bending returns what bends a strip of the plate.
func (w Writer) bending(b strength.PlateBending) string {
	end, way := "post's foot", w.Bearing(b.Toward)
	switch {
	case b.Ball:
		end = "ball's seat"
	case b.Head:
		end = "post's head"
	}
	switch b.By {
	case strength.MomentBetween:
		return fmt.Sprintf("the moment at the %s, against the post toward %s", end, way)
	case strength.MomentOnAnchor:
		return fmt.Sprintf("the moment at the %s, held by the anchor toward %s alone", end, way)
	case strength.WeightOnEdge:
		return "the weight on it, all on the edge toward " + way
	case strength.RockedOnEdge:
		return "the weight on it and on the plate itself, all on the edge toward " + way + ", as when it is about to tip"
	case strength.WholeOnEdge:
		return "the whole weight on the edge toward " + way + ", as when it is about to tip"
	}
	return fmt.Sprintf("the moment at the %s, all on the edge toward %s", end, way)
}

// modeShape returns what moves in a mode.
func (w Writer) modeShape(s strength.ModeShape) string {
	if s.Part == "" {
		return "nothing moves"
	}
	way := "toward " + w.Bearing(s.Toward) + " and back"
	switch s.Way {
	case strength.UpAndDown:
		way = "up and down"
	case strength.Oblique:
		way = "at a slant, " + way
	}
	text := s.Part + " moves most, " + way
	if len(s.With) > 0 {
		text += "; with it " + Names(s.With)
	}
	if len(s.Against) > 0 {
		text += "; against it " + Names(s.Against)
	}
	return text
}
