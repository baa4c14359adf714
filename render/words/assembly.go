package words

import (
	"fmt"
	"math"
	"strings"

	"stabile/fab/assembly"
	"stabile/fab/corrosion"
	"stabile/fab/finding"
	"stabile/param/quantity"
	"stabile/param/stock"
)

// assembly says facts of package assembly.
func (w Writer) assembly(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case assembly.ClosesLoop:
		return "closes a loop, and cannot be brought into place once all that it meets is fixed: leave one of " + And(quoted(f.Hosts)) + " only tacked until it is in", true
	case assembly.Topples:
		return topples(f), true
	case assembly.UnlikeMetals:
		return unlike(f), true
	case assembly.NoVents:
		return w.noVents(f), true
	case assembly.Baked:
		return fmt.Sprintf("if the paint is baked, leave every vent open in the oven: at %s trapped air presses with %s, and trapped water or oil with far more", celsius(f.Celsius), w.pressure(f.Pressure)), true
	case assembly.NoDip:
		return noDip(f), true
	case assembly.ThinDip:
		return "thinner than " + w.Thickness(f.Least) + ", which may buckle in the zinc bath: ask for sprayed zinc or zinc paint instead", true
	case assembly.HeavyPart:
		return fmt.Sprintf("up to %s, above the %s that one person should lift: use a hoist or enough people", w.Weight(f.Mass), w.LiftLimit()), true
	case assembly.NotClosed:
		return "no step of the plan closes it: make sure that it has a hole before it is welded shut", true
	}
	for _, say := range [...]func(finding.Fact) (string, bool){w.making, w.placing, w.stepNote, w.weldRule} {
		if text, ok := say(f); ok {
			return strings.TrimSuffix(text, "."), true // of several sentences; who writes it ends it
		}
	}
	return "", false
}

// topples says from when to when the work is held down.
func topples(f assembly.Topples) string {
	end := "to the end: it does not stand by itself without ballast or anchors"
	if f.Until > 0 {
		end = fmt.Sprintf("until step %d is welded", f.Until)
	}
	how := "hold or prop the work from"
	if f.Base {
		how = "clamp or anchor the base down before"
	}
	return fmt.Sprintf("half built, its centre of gravity is not over its footprint, and it falls: %s step %d, and keep it so %s", how, f.From, end)
}

// unlike says how two unlike metals are joined.
// touching is what two bolted metals need between them.
var touching = map[corrosion.Contact]string{
	corrosion.Small:   ", the nobler metal being small beside the other",
	corrosion.Isolate: " with washers and sleeves that do not conduct, both faces painted",
	corrosion.Never:   ", with nothing that conducts between them and no run-off from one to the other",
}

func unlike(f assembly.UnlikeMetals) string {
	text := fmt.Sprintf("of %s on %s of %s: ", f.Alloy, part(f.Host), f.HostAlloy)
	if f.Zinc {
		return text + "the zinc burns off beside the weld, gives fumes, and what is left of it wears away beside the bare steel; make both of one metal, and galvanize the whole"
	}
	switch f.Joint {
	case stock.Apart:
		return text + string(f.Apart) + " does not fuse with it; bolt or bond that joint" + touching[f.Contact] + ", or change one metal"
	case stock.Brazed:
		return text + "braze that joint with a silicon bronze filler, and allow for the weaker seam"
	}
	return text + "ask the filler's maker for one that suits both, such as the 309L type, and keep water out of that joint, where the plainer metal rusts first"
}

// noVents says what a hollow lacks that is hot dipped.
func (w Writer) noVents(f assembly.NoVents) string {
	has := "closed, and will be hot dipped"
	switch {
	case f.Holes >= 2:
		has = "will be hot dipped, with vents of up to " + w.Fine(f.Vent)
	case f.Holes == 1:
		has = "will be hot dipped, with one hole of " + w.Fine(f.Vent)
	}
	if len(f.With) > 0 {
		has += " (one space with " + And(quoted(f.With)) + ")"
	}
	return fmt.Sprintf("%s: it needs a vent at its highest and a drain at its lowest point as it hangs, each %s or more; at %s trapped air presses with %s, trapped water bursts it, and zinc must run in and out. The galvaniser has the last word",
		has, w.AtLeast(f.Dip), celsius(f.Celsius), w.pressure(f.Pressure))
}

// noDip says why a metal may not be hot dipped, and what else to do.
func noDip(f assembly.NoDip) string {
	const apart = ", or give the whole a finish other than 'galvanize'; parts of carbon steel can be galvanised by themselves, before this is bolted to them with an insulating layer between, so that water does not bridge the two metals"
	switch f.Dip {
	case stock.Dissolves:
		return "of " + f.Alloy + ", which may not be hot dipped: molten zinc eats it away. Paint it or leave it bare" + apart
	case stock.Spoils:
		return "of " + f.Alloy + ", which may not be hot dipped: it dissolves in molten zinc and spoils the bath. Leave it bare or paint it" + apart
	}
	return "of " + f.Alloy + ": do not hot dip it, since molten zinc can crack it where it is welded or bent, through the wall and without a sign, and it needs no zinc. Leave it bare" + apart
}

// making says how a part is made.
func (w Writer) making(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case assembly.CutBase:
		text := "Cut " + part(f.Base)
		if f.Anchors > 0 {
			text += ", drill its " + Count(f.Anchors, "anchor hole")
		}
		return text + " and mark on it where everything stands.", true
	case assembly.RollTube:
		return w.rollTube(f), true
	case assembly.CutTube:
		its := "its"
		text := "Saw " + part(f.Post) + " to length from its " + bought(f.Pipe)
		if f.Ring > 0 {
			text = fmt.Sprintf("Saw the %d tubes of %s to length from their %s", f.Ring, part(f.Post), bought(f.Pipe))
			its = "their"
		}
		if f.Square {
			text += ", both ends square"
			if f.Filed {
				text += ", and file to fit"
			}
		} else {
			text += ", and trim " + its + " ends to the template"
		}
		text += ". Take the burr and the mill's oil off."
		if len(f.Disc) > 0 {
			text += " Let the disc into its head, flush, and weld it round" + welds(f.Disc) + "."
		}
		return text, true
	case assembly.DishHalves:
		if f.Bowl {
			return "Dish " + part(f.Ball) + " from its disc and trim it to its rim.", true
		}
		return "Dish the two halves of " + part(f.Ball) + ", trim them to the equator, and tack and weld half to half" + welds(f.Equator) + ".", true
	case assembly.HaveBall:
		return "Have the bought " + part(f.Ball) + " at hand: measure it and weigh it.", true
	case assembly.RollRings:
		rings := "rings"
		if f.Rings > 0 {
			rings = Count(f.Rings, "ring")
		}
		text := fmt.Sprintf("Roll the %s of %s and weld their seams%s.", rings, part(f.Ball), welds(f.Seams))
		if len(f.Edges) > 0 {
			text += " Weld ring to ring from the equator out" + welds(f.Edges) + "."
		}
		if len(f.Poles) > 0 {
			text += " Weld the discs at the poles in last" + welds(f.Poles) + "."
		}
		return text, true
	case assembly.MakeGores:
		how := "Roll"
		switch {
		case f.Domed:
			how = "Raise"
		case f.Egg:
			how = "Bend"
		}
		first := (f.Gores + 1) / 2
		text := fmt.Sprintf("%s the %d gores of %s. Tack them side by side into two shells, of %d and %d, then shell to shell, and weld their seams%s, opposite ones in turn.",
			how, f.Gores, part(f.Ball), first, f.Gores-first, welds(f.Seams))
		switch {
		case len(f.Caps) > 0 && f.Bowl:
			text += " Weld the cap in last" + welds(f.Caps) + "."
		case len(f.Caps) > 0:
			text += " Weld the caps in last" + welds(f.Caps) + "."
		}
		return text, true
	}
	return "", false
}

// rootGap says how far apart the edges of a seam are brought, after what brings them there.
func (w Writer) rootGap(gap float64) string {
	if gap > 0 {
		return " to " + w.Fine(gap) + " apart"
	}
	return ""
}

func (w Writer) rollTube(f assembly.RollTube) string {
	text := "Roll " + part(f.Post)
	if f.Ring > 0 {
		return fmt.Sprintf("Roll the %d tubes of %s, bring the edges of each together%s and tack and weld its seam%s.", f.Ring, part(f.Post), w.rootGap(f.Gap), welds(f.Seams))
	}
	if f.Taper {
		text += " to a taper"
		if len(f.Point) > 0 {
			text = "Form " + part(f.Post) + " to a cone"
		}
	}
	gap := w.rootGap(f.Gap)
	switch {
	case f.Courses > 0:
		text = fmt.Sprintf("Roll the %d courses of %s", f.Courses, part(f.Post))
		if f.Taper {
			text += ", each a taper"
		}
		text += ", bring the edges of each together" + gap + " and weld its seam"
		if f.Pieces > f.Courses {
			text = fmt.Sprintf("Roll the %d pieces of %s for its %d courses, close each course edge to edge%s and weld its seams", f.Pieces, part(f.Post), f.Courses, gap)
		}
		text += welds(f.Seams) + fmt.Sprintf(". Set them on each other from the foot up, in line, each seam turned by %s from the one below, and tack and weld them round", w.Bearing(f.Stagger))
		text += gap + welds(f.Rounds) + "."
	case f.Pieces > 1:
		text += fmt.Sprintf(" from its %d pieces, close it edge to edge%s and weld its seams", f.Pieces, gap)
	default:
		text += ", bring its edges together" + gap + ", and tack and weld its seam"
	}
	if f.Courses == 0 {
		text += welds(f.Seams) + "."
	}
	if len(f.Disc) > 0 {
		text += " Let the disc into its head, flush, and weld it round" + welds(f.Disc) + "."
	}
	if len(f.Point) > 0 {
		text += " Build up its point with weld and dress it" + welds(f.Point) + "."
	}
	return text
}

// placing says how parts are put together.
func (w Writer) placing(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case assembly.ThreadBall:
		return fmt.Sprintf("Thread %s on %s over its %s, before anything is on either end, until its centre is %s from the foot%s; weld it round on both sides%s.",
			part(f.Ball), part(f.Post), f.End, w.Long(f.Along), w.facing(f.Facing), welds(f.Weld)), true
	case assembly.SetOnBench:
		return "On the bench set " + unit(f.Unit) + " " + w.meeting(f.Meeting) + "; weld it round" + welds(f.Weld) + ".", true
	case assembly.CloseRing:
		return w.closeRing(f), true
	case assembly.LayBase:
		if f.Wall {
			return "Lay " + part(f.Base) + " flat on the bench, level and firm, its front face up; bearings and heights are from it as it lies.", true
		}
		return "Lay " + part(f.Base) + " level and firm.", true
	case assembly.StandUnit:
		return "Set " + unit(f.Unit) + " in its place, and hold it there.", true
	case assembly.SetUnit:
		return w.setUnit(f), true
	case assembly.FinishAll:
		text := "Let it cool. Dress the welds and inspect each one"
		if f.Ballast > 0 {
			text += "; lay the ballast of " + w.Weight(f.Ballast)
		}
		if f.Wall > 0 {
			return text + ". Where it will hang mark the anchors by the holes of the plate, its middle " + w.Long(f.Wall) + " over the floor, and set them; lift the piece to the wall, its upper side up, and hold or prop it until the last anchor is tight.", true
		}
		if f.Anchors {
			text += "; where it will stand fix the anchors before the last prop is taken away"
		}
		return text + ".", true
	}
	return "", false
}

// closeRing says how the tubes of a ring are put together.
func (w Writer) closeRing(f assembly.CloseRing) string {
	turned := ""
	if f.Turned {
		turned = ", every other one turned end for end"
	}
	return fmt.Sprintf("On the bench lay the %d tubes of %s in order, the head of each against the foot of the next, mitre to mitre, outsides out%s. Tack them all at the outside and the inside, check that the ring lies flat and is %s across in every way, and weld joint after opposite joint%s.",
		f.Tubes, part(f.Ring), turned, w.Long(f.Across), welds(f.Weld))
}

func (w Writer) setUnit(f assembly.SetUnit) string {
	text := "Set " + unit(f.Unit) + " "
	inUnit := len(f.Unit) == 0 || f.By == f.Unit[0]
	if !inUnit {
		text += "with " + part(f.By) + " "
	}
	text += w.meeting(f.Meeting)
	var also []string
	for _, a := range f.Also {
		name := part(a.Host)
		if len(f.Unit) > 0 && a.By != f.Unit[0] {
			name += " at " + part(a.By)
		}
		also = append(also, name)
	}
	if len(also) > 0 {
		text += ", and at the same time to " + And(also)
	}
	if len(f.Weld) > 0 {
		text += "; tack it, check it, and weld it" + welds(f.Weld)
	}
	what := "the middle of the head of"
	switch f.Top.Part.Kind {
	case "ball", "ring":
		what = "the centre of"
	case "bowl":
		what = "the middle of the rim of"
	}
	above := "the ground"
	if f.Top.Flat {
		above = "the bench"
	}
	return text + fmt.Sprintf(". Check: %s %s is %s above "+above+", over %s.", what, part(f.Top.Part), w.Long(f.Top.Z), w.place(f.Top.X, f.Top.Y))
}

// meeting says where a part meets what it is set on, from "on" on.
func (w Writer) meeting(f assembly.Meeting) string {
	switch f.Kind {
	case assembly.BallOnEnd, assembly.BallAtEnd:
		text := "on the " + f.End + " of " + part(f.Host)
		switch {
		case f.Kind == assembly.BallAtEnd:
			text = "against the " + f.End + " of " + part(f.Host)
		case f.Offset > 0:
			text += fmt.Sprintf(", its centre %s across from the post's axis toward %s", w.Long(f.Offset), w.Bearing(f.Toward))
		default:
			text += ", its centre on the post's axis"
		}
		return text + w.facing(f.Facing)
	case assembly.BallOnBall:
		text := "on " + part(f.Host) + ", straight above it"
		if f.Offset > 0 {
			text = fmt.Sprintf("on %s, its centre %s to the side toward %s", part(f.Host), w.Long(f.Offset), w.Bearing(f.Toward))
		}
		return text + ", seated on a circle " + w.Long(f.Seat) + " across" + w.facing(f.Facing)
	case assembly.PadOnGround:
		return "on the ground, the middle of the pad at " + w.place(f.X, f.Y) + " from the middle"
	case assembly.BallOnGround:
		return "on the ground at " + w.place(f.X, f.Y) + " from the middle" + w.facing(f.Facing)
	case assembly.BallOnBase:
		return "on " + part(f.Host) + " at " + w.place(f.X, f.Y) + " from the middle" + w.facing(f.Facing)
	case assembly.RingOnEnd:
		return "in the saddle of the " + f.End + " of " + part(f.Host) + w.ringWay(f)
	case assembly.RingOnBase:
		text := "on " + part(f.Host) + ", its centre over " + w.place(f.X, f.Y) + " from the middle"
		return text + w.ringWay(f)
	case assembly.Against:
		return "against " + part(f.Host)
	}
	line := ", its seam at bearing "
	switch {
	case f.Plain:
		return w.endMeeting(f) + ", " + w.leaning(f.Lean)
	case f.Bought:
		line = ", the line where its template met at bearing "
	}
	return w.endMeeting(f) + ", " + w.leaning(f.Lean) + line + w.Bearing(f.Seam)
}

// ringWay says which way a ring faces or lies.
func (w Writer) ringWay(f assembly.Meeting) string {
	if f.Level {
		return ", level, the middle of its tube 1 toward " + w.Bearing(f.Toward)
	}
	if f.Lean.Angle > 0 {
		return ", its axis leaning " + w.Degrees(f.Lean.Angle) + " from upright toward " + w.Bearing(f.Lean.Toward)
	}
	return ", upright, facing " + w.Bearing(f.Toward)
}

// endMeeting says where the end of a post meets what it is set on.
func (w Writer) endMeeting(f assembly.Meeting) string {
	host := part(f.Host)
	switch f.Kind {
	case assembly.EndInGround:
		return "in its hole, its ground line level with the ground, the middle of its " + f.End + " there at " + w.place(f.X, f.Y) + " from the middle, " + w.Long(f.Deep) + " below it; hold it so until the concrete is hard"
	case assembly.EndOnGround:
		return "on the ground, the middle of its " + f.End + " at " + w.place(f.X, f.Y) + " from the middle"
	case assembly.EndOnBase:
		return "on " + host + ", the middle of its " + f.End + " at " + w.place(f.X, f.Y) + " from the middle"
	case assembly.EndOnBall:
		text := "on " + host + ", over the outline marked there"
		if f.Offset > 0 {
			text += fmt.Sprintf(", the middle of its foot %s from the ball's middle toward %s", w.Long(f.Offset), w.Bearing(f.Toward))
		}
		return text
	case assembly.EndOnDisc:
		return "on the disc in the head of " + host
	case assembly.EndMitred:
		return "to the head of " + host + ", mitre to mitre"
	case assembly.EndOnEnd:
		return "on the head of " + host + ", edge to edge"
	}
	text := "against the side of " + host + ", over the outline marked there"
	if f.Placed {
		text += fmt.Sprintf(", its middle %s along from that post's foot", w.Long(f.Along))
	}
	if f.Sided {
		text += " at bearing " + w.Bearing(f.At)
	}
	return text
}

// stepNote says what to take care of in a step.
func (w Writer) stepNote(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case assembly.LoopWay:
		if f.Tight {
			return "It closes a loop and cannot slide into place once all that it meets is fixed: leave the last of those joints only tacked until it is in, and spring it open as far as needed", true
		}
		return "It closes a loop: bring it in " + w.heading(f) + ", which clears all that it meets", true
	case assembly.HoldIt:
		return w.hold(f), true
	case assembly.TipsThen:
		return "The work then tips when it leans by " + w.Degrees(f.Lean) + ": keep it held", true
	case assembly.ClosesHollow:
		return w.closesHollow(f), true
	case assembly.HeavyLift:
		it := "It"
		if f.Whole {
			it = "The whole"
		}
		return fmt.Sprintf("%s weighs up to %s, above %s: too heavy for one person: sling it or get help", it, w.Weight(f.Mass), w.LiftLimit()), true
	case assembly.ZincOff:
		return "Take the zinc off " + w.Long(f.Band) + " from every edge, both faces, before any heat", true
	case assembly.Care:
		switch f {
		case assembly.BackPurge:
			return "Keep argon on the back of the seams: without it they oxidise there and rust", true
		case assembly.ShowGalvanizer:
			return "Before the bath show the galvaniser every vent and drain: no hollow may be closed, and none may trap water", true
		case assembly.OpenInOven:
			return "Leave every vent open if the paint is baked; close or cover it only when the piece is cold", true
		}
		return "If a hole must not show, close it once the piece is cold, with a screw or a filled plug; out of doors leave one open at the lowest point to drain", true
	}
	return "", false
}

// hold says how something is held until it is joined.
func (w Writer) hold(f assembly.HoldIt) string {
	until := "it is welded all round"
	if f.Tied {
		until = "it is tied to the rest"
	}
	toward := w.Bearing(f.Toward)
	switch f.Hold {
	case assembly.Chock:
		return "Chock it: it rolls until " + until
	case assembly.Outside:
		return fmt.Sprintf("Its centre of gravity lies %s outside of the joint, toward %s: prop it there, or hang it, until %s", w.Long(f.Over), toward, until)
	case assembly.OverEdge:
		return fmt.Sprintf("Its centre of gravity lies over the very edge of the joint, toward %s: prop it there, or hang it, until %s", toward, until)
	case assembly.Tippy:
		return fmt.Sprintf("Loose, it falls when it leans %s, soonest toward %s: hold it until %s", w.Degrees(f.Tips), toward, until)
	}
	return "Hold it until " + until
}

// closesHollow says which hollow a step closes, and what to drill first.
func (w Writer) closesHollow(f assembly.ClosesHollow) string {
	name := "it"
	if len(f.Parts) > 0 {
		name = And(quoted(Copies(f.Parts)))
	}
	const bath = ", at what will be its highest and its lowest point as it hangs; they stay open"
	switch {
	case f.Bought && f.Dip > 0:
		return "It may be closed all round: before anything is welded to it drill a vent and a drain for the bath, each " + w.AtLeast(f.Dip) + " or more" + bath
	case f.Bought:
		return "It may be closed all round: before anything is welded to it drill a hole of " + w.AtLeast(f.Least) + " or more, which stays open until all is cold"
	case f.Dip > 0:
		return fmt.Sprintf("This closes %s: first drill a vent and a drain for the bath, each %s or more%s", name, w.AtLeast(f.Dip), bath)
	case f.Holes > 0:
		return fmt.Sprintf("This closes %s: drill its vent of %s before the last seam; it stays open until all is welded and cold", name, w.Fine(f.Vent))
	}
	return fmt.Sprintf("Closes %s: first drill a hole of %s or more out of sight, open until all is cold", name, w.AtLeast(f.Least))
}

// weldRule says a rule by which welds were planned.
func (w Writer) weldRule(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case assembly.TackRule:
		return fmt.Sprintf("Tacks: as far apart as the shop says, but no further than %s thicknesses of the sheet; on a ring at least %d. Along a seam the ends first, of a gore the middle, then always half way between two; round a ring opposite points one after the other. Common practice, no source.",
			quantity.Decimal(f.Thicknesses, 0), f.Ring), true
	case assembly.CleanRule:
		return "Before welding clean " + w.Long(f.Band) + " from each edge, both faces, and where something stands on a face as far around. Common practice, no source.", true
	case assembly.FillerRule:
		return "Filler: butts as a bead of 1.5 times the thickness squared, joints as a fillet with a leg of the thickness; stubs and spatter not counted. Common practice, no source.", true
	case assembly.HollowRule:
		return fmt.Sprintf("Never weld on or heat a closed hollow. Air trapped at %s presses with %s above the pressure outside at %s, and %s at %s: it blows the last of the weld out, and trapped water or oil does far worse.",
			celsius(f.Shop), w.pressure(f.OvenPressure), celsius(f.Oven), w.pressure(f.BathPressure), celsius(f.Bath)), true
	case assembly.RunsRule:
		return "Weld in short runs from the middle out, opposite sides in turn, and let it cool between. Common practice, no source.", true
	}
	return "", false
}

// LiftLimit returns the limit of a lift for one person, assembly.OneLift, as it is
// published in either system.
func (w Writer) LiftLimit() string {
	if w.Units == quantity.Inch {
		return "51 lb"
	}
	return "23 kg"
}

// part names a part by what it is, or the ground.
func part(n assembly.Named) string {
	if n == (assembly.Named{}) {
		return "the ground"
	}
	return n.Kind + " '" + n.Name + "'"
}

// unit names what is moved as one: the part by which it stands, and what is on it.
func unit(list []assembly.Named) string {
	names := make([]string, len(list))
	for i, n := range list {
		names[i] = part(n)
	}
	if len(names) < 2 {
		return And(names)
	}
	return names[0] + ", with " + And(names[1:]) + " on it,"
}

// welds refers to welds by their numbers, after a space.
func welds(numbers []int) string {
	list := make([]string, len(numbers))
	for i, n := range numbers {
		list[i] = fmt.Sprint(n)
	}
	switch len(list) {
	case 0:
		return ""
	case 1:
		return " (weld " + list[0] + ")"
	}
	return " (welds " + And(list) + ")"
}

// place returns a place in plan.
func (w Writer) place(x, y float64) string { return "(" + w.Long(x) + ", " + w.Long(y) + ")" }

// upright is the lean, in rad, up to which a post is upright.
const upright = 1.5e-6

// leaning says how a post stands.
func (w Writer) leaning(l assembly.Lean) string {
	switch {
	case l.Angle <= upright:
		return "upright"
	case l.Angle >= math.Pi-upright:
		return "straight down"
	}
	return "leaning " + w.Degrees(l.Angle) + " toward " + w.Bearing(l.Toward)
}

// facing says how a ball is turned, after a comma; "" where it does not matter.
func (w Writer) facing(f assembly.Facing) string {
	text := ""
	switch f.Turning {
	case assembly.FirstGore:
		text = ", the middle of its gore 1 toward " + w.Bearing(f.First)
	case assembly.RingSeam1:
		text = ", the seam of its ring toward " + w.Bearing(f.First)
	case assembly.RingSeams:
		text = ", the seams of its rings toward " + w.Bearing(f.First) + " and " + w.Bearing(f.Then) + " by turns"
		if f.Several {
			text += ", of a ring in several pieces one of its seams"
		}
	case assembly.LeastSeen:
		text = ", turned so that its seam shows least"
	}
	switch {
	case f.Mouth && f.Pole.Angle > 0:
		text += ", its mouth leaning " + w.Degrees(f.Pole.Angle) + " toward " + w.Bearing(f.Pole.Toward)
	case f.Mouth:
		text += ", its rim level"
	case text != "" && f.Pole.Angle > 0:
		text += ", its pole leaning " + w.Degrees(f.Pole.Angle) + " toward " + w.Bearing(f.Pole.Toward)
	}
	return text
}

// heading says along which way something is moved.
func (w Writer) heading(f assembly.LoopWay) string {
	const level = 2.5 * math.Pi / 180 // the slope under which a way counts as level
	toward := "toward " + w.Bearing(math.Round(f.Toward*180/math.Pi)*math.Pi/180)
	steep := w.deg(quantity.Decimal(math.Abs(f.Slope)*180/math.Pi, 0))
	switch {
	case f.Slope < -math.Pi/2+level:
		return "straight down"
	case f.Slope > math.Pi/2-level:
		return "straight up"
	case f.Slope < -level:
		return toward + ", " + steep + " downward"
	case f.Slope > level:
		return toward + ", " + steep + " upward"
	}
	return toward + ", level"
}

// celsius returns a temperature given in °C.
func celsius(c float64) string { return quantity.Decimal(c, 0) + " °C" }

// pressure returns a pressure given in kPa as a gauge reads it.
func (w Writer) pressure(kpa float64) string {
	if w.Units == quantity.Inch {
		return quantity.Decimal(kpa/6.894757, 0) + " psi"
	}
	return quantity.Decimal(kpa, 0) + " kPa"
}
