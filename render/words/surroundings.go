package words

import (
	"fmt"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/people"
	"stabile/fab/strength"
	"stabile/param/design"
	"stabile/param/quantity"
)

// surroundings returns the sentence of a fact of people, earthquake, ice and the ground.
func (w Writer) surroundings(f finding.Fact) (string, bool) {
	switch f := f.(type) {
	case fab.PeopleUnknown:
		does := "can be leant on"
		if f.Climbs {
			does = "is a foothold"
		}
		return fmt.Sprintf("%s %s within reach, below %s: write people leaning, people 1 climbing or people none in the site", f.Part, does, w.Long(f.Reach)), true
	case fab.NoneHere:
		return "there is none, the site says, so nothing was worked out", true
	case fab.QuakeUnknown:
		return "write seismic 0.5 in the site, S_DS of ASCE 7 or a_g S of EN 1998-1 as your code's map has it, or seismic 0 where there are no earthquakes", true
	case fab.QuakeStrong:
		return fmt.Sprintf("its level force is %s of the weight, too much for the method here: have an engineer work it out", Use(f.Share)), true
	case fab.IceUnknown:
		return "write ice " + w.thin() + " in the site, as your code's map has it, or ice 0 " + w.short() + " where there is none", true
	case fab.LoadFails:
		return w.loadFails(f), true
	case fab.Trapped:
		return w.trapped(f), true
	case fab.TrapsUnknown:
		return w.trapped(f.Trapped) + "; write people leaning, people 1 climbing or people none in the site", true
	case fab.WallGap:
		return fmt.Sprintf("its gap to the wall, %s wide from %s above the floor, would hold a %s that gets in there: have somebody judge it, or bring the part closer to the wall or farther out", w.Long(f.Width), w.Long(f.Height), f.Trap), true
	case fab.Unjoined:
		return unjoined(f), true
	case strength.PullOutOpen:
		return fmt.Sprintf("the pull-out of drilled anchors is in their maker's approval: choose one approved for %s of tension in cracked concrete, or cast headed ones in (anchor_kind headed)", w.Force(f.Tension)), true
	case strength.HoldOfStone:
		return fmt.Sprintf("no rule says what anchors hold in %s: have a stonemason set and pull-test them for %s of tension and %s of shear each, or make the block of concrete", f.Of, w.Force(f.Tension), w.Force(f.Shear)), true
	case strength.SetUnknown:
		return "what the ground about its concrete holds is not known: write soil gravel, sand or clay in the site", true
	case strength.SetFails:
		if f.Sinks {
			return fmt.Sprintf("its footing presses too hard on the ground: %s of its limit in %s; make it wider", Use(f.Use), w.Case(f.Case)), true
		}
		return fmt.Sprintf("the ground does not hold its footing: %s of its limit in %s; set it %s deep, or in wider concrete", Use(f.Use), w.Case(f.Case), w.AtLeast(f.Depth)), true
	case strength.SetInGround:
		return "set in concrete: dig to undisturbed ground and below frost, by the local code; slope the concrete away from the tube, and coat the tube a hand's width above and below the ground line, where it rusts first; sway and frequency take the ground as unyielding", true
	case strength.SoilUnknown:
		return "write ground " + w.bearing() + " in the base, the pressure that the ground may carry, or soil sand in the site", true
	case strength.NoFriction:
		return "how far friction keeps the footing from sliding is not known: write soil sand, gravel, rock or bedrock in the site; clay holds by cohesion, which an engineer must judge", true
	case strength.GripFails:
		if f.Wall {
			return fmt.Sprintf("the anchors break out of the wall: %s of what they hold in its concrete, in %s; set them deeper or farther apart", Use(f.Use), w.Case(f.Case)), true
		}
		return fmt.Sprintf("the anchors break out of the concrete: %s of what they hold in it, in %s; set them deeper or farther apart, use stronger concrete or a wider footing", Use(f.Use), w.Case(f.Case)), true
	case strength.BedFails:
		what := "presses too hard on the ground, slides or tips"
		if f.Tips {
			what = "tips over"
		}
		return fmt.Sprintf("the footing %s: %s of its limit in %s; make it wider or heavier", what, Use(f.Use), w.Case(f.Case)), true
	}
	return "", false
}

// unjoined says what a post ends on, and how to join it.
func unjoined(f fab.Unjoined) string {
	at := func(name string, head bool) string {
		if head {
			return name + ".head"
		}
		return name
	}
	end := "foot"
	if f.End == design.Head {
		end = "head"
	}
	does := fmt.Sprintf("its %s ends on %s '%s' and is not joined to it: ", end, f.Kind, f.With)
	if f.From == "" {
		return does + "run a post from there, or move it clear"
	}
	return does + fmt.Sprintf("declare it 'from %s to %s', or move it clear", at(f.From, f.FromHead), at(f.With, f.AtHead))
}

// loads names the loads of a site.
var siteLoads = map[check.ID]string{
	check.People: "people who lean on it or climb it", check.Earthquake: "the earthquake of the site", check.Ice: "ice, and the wind with it",
}

// loadCures returns what helps where a piece does not bear a load of its site.
func (w Writer) loadCures(f fab.LoadFails) string {
	keep := ""
	if f.Of == check.People {
		keep = ", or keep people away"
	}
	switch {
	case f.Check.ID == check.Footing:
		return "; make it deeper or wider" + keep
	case len(f.Cures) > 0:
		return "; " + w.Cures(f.Cures) + keep
	case f.Tried:
		return "; no gauge or width that was tried brings it within its limit: bring down what it carries" + keep
	}
	return ""
}

func (w Writer) loadFails(f fab.LoadFails) string {
	under := siteLoads[f.Of]
	if f.Check.Case.Part != "" {
		under += ", on " + f.Check.Case.Part
	}
	if f.Check.ID != check.Tipping && f.Check.ID != check.Sliding {
		return fmt.Sprintf("is too weak for %s: %s is at %s of its limit", under, w.Subject(f.Check), Use(f.Check.Use())) + w.loadCures(f)
	}
	does, help := "tips over", "anchor it, or widen the footprint"
	if f.Check.ID == check.Sliding {
		does, help = "slides", "anchor it: friction alone is not accepted in an earthquake"
	}
	if f.Block {
		help = "make the block wider or heavier"
	}
	if f.Held {
		help = "the anchors do not hold it"
	}
	return fmt.Sprintf("%s under %s: %s of what holds it; %s", does, under, Use(f.Check.Use()), help)
}

// trapped says what a gap holds fast.
func (w Writer) trapped(f fab.Trapped) string {
	cure := "close it, or make it wider"
	switch f.Trap {
	case people.NeckTrap:
		cure = "open it to 55° or more, or fill its foot"
	case people.FingerTrap:
		cure = "make it under " + w.Long(people.FingerLeast) + " or over " + w.Long(people.FingerMost)
	case people.HeadTrap:
		cure = "make it under " + w.Long(people.Torso) + " or at least " + w.Long(people.Head)
	}
	if f.Hole != "" {
		return fmt.Sprintf("may trap a %s in its hole %s, %s wide, from %s above the ground: %s", f.Trap, f.Hole, w.Long(f.Width), w.Long(f.Height), cure)
	}
	return fmt.Sprintf("may trap a %s in its gap to %s, %s wide, from %s above the ground: %s", f.Trap, f.With, w.Long(f.Width), w.Long(f.Height), cure)
}

// thin, short and carries are measures as a design of these units writes them.
func (w Writer) thin() string {
	if w.Units == quantity.Inch {
		return "1/4 in"
	}
	return "6 mm"
}

func (w Writer) short() string {
	if w.Units == quantity.Inch {
		return "in"
	}
	return "mm"
}

func (w Writer) bearing() string {
	if w.Units == quantity.Inch {
		return "1500 psf"
	}
	return "72 kPa"
}

// groundUnknown says what the anchors must hold, and what to write for it to be decided.
func (w Writer) groundUnknown(f strength.GroundUnknown) string {
	write := ""
	depth, concrete := "anchor_depth 6 in", "concrete 3000 psi"
	if w.Units != quantity.Inch {
		depth, concrete = "anchor_depth 150 mm", "concrete 25 MPa"
	}
	switch {
	case !f.Depth && !f.Concrete:
		write = depth + " and " + concrete
	case !f.Depth:
		write = depth
	default:
		write = concrete
	}
	if f.Wall {
		of := "what the wall is of is not known, nor how much the anchors hold in it: in a wall of concrete write " + write + " in the base; in another"
		if f.Concrete {
			of = "how much the anchors hold in the wall is not known: write " + write + " in the base; or"
		}
		return fmt.Sprintf("%s have them chosen for %s of tension and %s of shear per anchor", of, w.Force(f.Tension), w.Force(f.Shear))
	}
	return fmt.Sprintf("how much the anchors hold in the concrete is not known: write %s in the base, or have them chosen for %s of tension and %s of shear per anchor", write, w.Force(f.Tension), w.Force(f.Shear))
}
