// Package check has what was decided about a design, check by check, as data.
// Verdicts are given here and in the packages of fab that work the figures out;
// nobody after them compares a figure with a limit again.
package check

import (
	"slices"

	"stabile/fab/finding"
)

// An ID names a kind of check. It does not change from version to version.
type ID string

// The checks.
const (
	Tipping      ID = "tipping"       // turning over under loads
	Balance      ID = "balance"       // standing by its own weight: the tilt at which it turns over
	Sliding      ID = "sliding"       // being pushed along under loads
	Wind         ID = "wind"          // whether the wind is known at all
	Post         ID = "post"          // stress, buckling and slenderness of a post
	Weld         ID = "weld"          // the weld at an end of a post, or of a ball
	BallWall     ID = "ball-wall"     // the wall of a ball under a post or another ball
	PostWall     ID = "post-wall"     // the wall of a post beside the joint of another
	Plate        ID = "plate"         // bending of the base plate
	Buckling     ID = "buckling"      // of the whole, sideways
	AnchorSteel  ID = "anchor-steel"  // the bolts of the anchors
	AnchorGround ID = "anchor-ground" // their hold in the ground
	Footing      ID = "footing"       // a footing against overturning, and the pressure under it
	Frequency    ID = "frequency"     // stiff enough for the gust factor in use
	Gust         ID = "gust"          // the answer to gusts of what is not stiff
	Shedding     ID = "shedding"      // vibration in a steady wind
	People       ID = "people"        // leaning and climbing
	Entrapment   ID = "entrapment"    // gaps that hold a head or a limb
	Earthquake   ID = "earthquake"
	Ice          ID = "ice"
	Lift         ID = "lift"   // whether one person can lift it
	Hollow       ID = "hollow" // closed spaces that heat or a zinc bath bursts
	Metal        ID = "metal"  // metals that cannot be joined or finished as the design says
	Making       ID = "making" // whether the parts come out as drawn
	Stock        ID = "stock"  // sheets large enough
	Saw          ID = "saw"    // pipe and tube long enough
	Shear        ID = "shear"  // whether the shop can cut it
	Rolls        ID = "rolls"  // whether the rolls take it
	Cost         ID = "cost"   // whether a price can be worked out
	Require      ID = "requirement"
)

// A Verdict is what came of a check.
type Verdict string

// The verdicts.
const (
	Holds     Verdict = "holds"
	Fails     Verdict = "fails"
	Undecided Verdict = "undecided" // a rule or an input is missing: see Check.Why
)

// A Unit is that of a figure, in SI as used inside: "" for a plain ratio.
type Unit string

// The units.
const (
	Ratio      Unit = ""
	Millimetre Unit = "mm"
	Kilogram   Unit = "kg"
	Newton     Unit = "N"
	Radian     Unit = "rad"
	Hertz      Unit = "Hz"
	MPerS      Unit = "m/s"
	Money      Unit = "money" // in the shop's currency
)

// A Check is one thing that was looked at and what came of it.
type Check struct {
	ID      ID
	Part    string // the part that it is about; "" for the whole
	With    string // the other part, where there are two
	Of      string // of a requirement: its text
	Verdict Verdict

	// Found and Limit are figures in Unit, for the governing case. They mean
	// nothing where the verdict is Undecided. Found must be no more than Limit,
	// or no less where AtLeast is set; but for Held.
	Found, Limit float64
	Unit         Unit
	AtLeast      bool
	Held         bool // the weight alone falls short of the limit, and the anchors hold it

	Case    Case
	Source  string       // the clause or the rule, with its title
	Why     finding.Fact // of an undecided check: what is missing, and what the maker can do
	Concern finding.Concern
}

// Judge sets the verdict of a check by its figures.
func (c Check) Judge() Check {
	c.Verdict = Fails
	if c.AtLeast && c.Found >= c.Limit || !c.AtLeast && c.Found <= c.Limit {
		c.Verdict = Holds
	}
	return c
}

// A Case is the load that governs a check.
type Case struct {
	Kind    Kind
	Bearing float64 // rad, that the wind or the push comes from, or toward which the ground slopes down
	Around  bool    // from any bearing alike: Bearing means nothing
	Speed   float64 // m/s, of the wind
	Sloping bool    // on the slope of the ground
	Least   bool    // the wind is brought up to the least design force of its standard
	Part    string  // the part that is pushed, or climbed on; "" for the whole
	Where   Where   // on that part
	Along   float64 // where it is Inside: how far from the foot, as a share of the part's length
}

// A Kind is a kind of load.
type Kind string

// The kinds of load.
const (
	NoLoad     Kind = ""
	OwnWeight  Kind = "own-weight"
	Slope      Kind = "slope"
	Push       Kind = "push"
	WindLoad   Kind = "wind"
	PeopleLoad Kind = "people"
	IceLoad    Kind = "ice"
	QuakeLoad  Kind = "earthquake"
)

// Where is a place on a part.
type Where string

// The places.
const (
	Anywhere Where = ""
	Foot     Where = "foot"
	Head     Where = "head"
	Inside   Where = "inside"     // between its ends
	Joint    Where = "joint"      // where another part is fastened to it
	Seat     Where = "seat"       // where a ball rests on what is below it
	Round    Where = "round seam" // where two courses of a post are welded round
	Holed    Where = "holes"      // between its ends, where holes are cut in it
)

// Worst returns the verdict of several checks together: fails where one fails,
// else undecided where one is, else holds.
func Worst(list []Check) Verdict {
	worst := Holds
	for i := range list {
		switch list[i].Verdict {
		case Fails:
			return Fails
		case Undecided:
			worst = Undecided
		}
	}
	return worst
}

// Graver reports whether a check matters more than another of its kind: it fails
// while the other does not, it is not decided while the other holds, or it comes
// nearer to its limit, or further past it.
func (c Check) Graver(o Check) bool {
	order := func(v Verdict) int { return map[Verdict]int{Holds: 0, Undecided: 1, Fails: 2}[v] }
	if a, b := order(c.Verdict), order(o.Verdict); a != b {
		return a > b
	}
	return c.Use() > o.Use()
}

// Use returns the share of the limit that is used; 0 where there is none.
func (c Check) Use() float64 {
	switch {
	case c.Verdict == Undecided || c.Limit == 0 || c.AtLeast && c.Found == 0:
		return 0
	case c.AtLeast:
		return c.Limit / c.Found
	}
	return c.Found / c.Limit
}

// Never is the use of something that holds nothing.
const Never = 1e9

// Share returns how much of what is held is taken, 1 the limit: 0 where nothing is
// taken, and Never where something is and nothing holds it.
func Share(taken, held float64) float64 {
	switch {
	case !(taken > 0):
		return 0
	case held > taken/Never:
		return taken / held
	}
	return Never
}

// A Group is checks of one kind: the first of them, and how many there are.
type Group struct {
	First Check
	Count int
}

// Groups gathers checks by their kind, in the order in which the kinds come.
func Groups(list []Check) []Group {
	var groups []Group
	for _, kind := range ByKind(list) {
		groups = append(groups, Group{kind[0], len(kind)})
	}
	return groups
}

// ByKind returns checks kind by kind, in the order in which the kinds come.
func ByKind(list []Check) [][]Check {
	var kinds [][]Check
	for _, c := range list {
		i := slices.IndexFunc(kinds, func(kind []Check) bool { return kind[0].ID == c.ID })
		if i < 0 {
			i = len(kinds)
			kinds = append(kinds, nil)
		}
		kinds[i] = append(kinds[i], c)
	}
	return kinds
}
