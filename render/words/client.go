package words

import (
	"fmt"
	"math"
	"slices"

	"stabile/fab"
	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/param/design"
)

// A Standing is how far a piece was checked, in a client's words. An empty list
// says nothing.
type Standing struct {
	Holds, Open, Fails []string // what was checked and holds, is not decided, and fails
	Absent             []string // what its place is said not to have, so that nothing was checked for it
	Unmet              []string // what was required of it and is not met
	Ready              bool     // nothing fails that stands in the way of building it
}

// concerns are what a client calls the checks of what may injure, in the order in
// which they are read. Checks that concern the shop alone are not among them.
var concerns = []struct {
	name   string
	ids    []check.ID
	absent string // what there is none of where nothing was checked
}{
	{"standing by its own weight", []check.ID{check.Balance}, ""},
	{"tipping over", []check.ID{check.Tipping}, ""},
	{"sliding", []check.ID{check.Sliding}, ""},
	{"wind", []check.ID{check.Wind}, ""},
	{"the strength of its parts and joints", []check.ID{check.Post, check.Weld, check.BallWall, check.PostWall, check.Plate, check.Buckling}, ""},
	{"swaying and humming in wind", []check.ID{check.Frequency, check.Gust, check.Shedding}, ""},
	{"its fixings and footing", []check.ID{check.AnchorSteel, check.AnchorGround, check.Footing}, ""},
	{"people leaning on it or climbing it", []check.ID{check.People}, "people who come near"},
	{"gaps that could trap a child", []check.ID{check.Entrapment}, "children"},
	{"earthquake", []check.ID{check.Earthquake}, "earthquakes"},
	{"ice", []check.ID{check.Ice}, "ice"},
}

// Client returns how far a job was checked, in a client's words. What concerns the
// shop alone, and what the piece costs, is left out.
func (w Writer) Client(j *fab.Job) Standing {
	s := Standing{Ready: j.Verdict != check.Fails}
	for _, about := range concerns {
		var of []check.Check
		for _, c := range j.Checks {
			for _, id := range about.ids {
				if c.ID == id && c.Concern == finding.Life {
					of = append(of, c)
				}
			}
		}
		if len(of) == 0 {
			continue
		}
		name := about.name
		if of[0].ID == check.AnchorSteel && j.Tipping.Hung {
			name = "its anchors in the wall"
		}
		if of[0].ID == check.People && j.Reach() == fab.TableTop {
			name = "being knocked or grasped"
		}
		none := func(c check.Check) bool { return c.Why == fab.NoneHere{} }
		switch worst := check.Worst(of); {
		case slices.ContainsFunc(of, none) && worst == check.Holds:
			s.Absent = append(s.Absent, about.absent)
		case worst == check.Holds:
			s.Holds = append(s.Holds, name)
		case worst == check.Undecided:
			s.Open = append(s.Open, name)
		default:
			s.Fails = append(s.Fails, name)
		}
	}
	for i := range j.Requirements {
		if r := &j.Requirements[i]; r.Verdict == check.Fails && r.Why != "" {
			s.Unmet = append(s.Unmet, r.Why)
		}
	}
	return s
}

// Tilt says how far the piece may be tilted before it turns over, in whole degrees
// and never more than it is; "" where that was not worked out.
func (w Writer) Tilt(j *fab.Job) string {
	for _, c := range j.Checks {
		if c.ID != check.Balance || c.Verdict == check.Undecided || j.Tipping.Sunk || j.Tipping.Hung {
			continue
		}
		degrees := math.Floor(c.Found * 180 / math.Pi)
		if degrees < 1 {
			return "It does not stand by its own weight alone."
		}
		without := ""
		if j.Mass.Ballast > 0 {
			without = " without ballast,"
		}
		if j.Mass.Block > 0 {
			return fmt.Sprintf("Bolted to its block,%s it tips over when tilted by about %.0f°.", without, degrees)
		}
		return fmt.Sprintf("Standing free,%s it tips over when tilted by about %.0f°.", without, degrees)
	}
	return ""
}

// TipsInWind says in what wind the piece tips over; "" where none does, or it was not
// worked out.
func (w Writer) TipsInWind(j *fab.Job) string {
	t := j.Tipping
	if t == nil || !(t.WindToTip > 0) {
		return ""
	}
	kind := "in gusts"
	if t.WindBy == design.EN1991 {
		kind = "mean of 10 minutes"
	}
	text := fmt.Sprintf("tips over in a wind of about %s (%s)", w.Speed(t.WindToTip), kind)
	if t.Anchors > 0 {
		text += " where its anchors do not hold"
	}
	return text
}
