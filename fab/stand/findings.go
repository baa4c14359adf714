package stand

import (
	"fmt"
	"math"
	"strconv"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/param/design"
	"stabile/param/quantity"
)

// BarelyStands is the tip angle, in rad, under which a piece is told to be easily
// knocked over, and what stands loose is held for falling: 10 degrees, the tilt by
// which IEC 62368-1 tries floor-standing equipment.
const BarelyStands = 10 * math.Pi / 180

// Findings returns what there is to say of the standing of the weight w on the
// site, in the given units.
func (t *Tipping) Findings(w Weight, site *design.Site, units quantity.System) []finding.Finding {
	var list []finding.Finding
	add := func(level finding.Level, format string, args ...any) {
		list = append(list, finding.Finding{Level: level, Text: fmt.Sprintf(format, args...)})
	}
	if len(t.Edges) == 0 {
		add(finding.Fault, "there is no footprint: what touches the ground is a point or a line, so it falls over by itself and tipping was not worked out")
		return list
	}
	if e := t.Edges[t.TipEdge]; !t.Stable() {
		add(finding.Fault, "falls over by itself: its centre of gravity lies %s outside the footprint toward %s; it takes more than %s at the middle of the footprint to bring it back",
			units.Length(-e.Lever, quantity.Coarse), quantity.Bearing(e.Bearing()), units.Weight(t.counterweight(w)))
	}
	if t.Stable() && t.TipAngle < BarelyStands {
		add(finding.Caution, "falls over when it is leaned by %s: under %s a knock or soft ground does that; widen the footprint, bring the weight down or %s",
			quantity.Degrees(t.TipAngle), quantity.Degrees(BarelyStands), w.hold())
	}
	short := fmt.Sprintf("factor %s against a target of %s, under %s", Factor(t.Factor), Factor(t.Target), t.WorstCase)
	ballast := units.Weight(t.Ballast) + " of ballast at the middle of the footprint reaches it"
	if t.BallastFails {
		ballast = "no ballast at the middle of the footprint reaches it"
	}
	switch {
	case !t.Loaded || t.Reached():
	case t.Held():
		add(finding.Caution, "stands by its anchors: without them it has a %s, and %s. The %d anchors must hold it down; whether they do in their ground was not checked", short, ballast, t.Anchors)
	case t.BallastFails:
		add(finding.Fault, "tips too easily: %s; %s, so widen the footprint, bring the weight down or %s", short, ballast, w.hold())
	case w.Feet:
		add(finding.Fault, "tips too easily: %s; %s, for which a plate must be there: give it one, or spread its feet", short, ballast)
	default:
		add(finding.Fault, "tips too easily: %s; %s", short, ballast)
	}
	if !t.Loaded {
		add(finding.Caution, "tipping under loads was not worked out: the design gives no push, no slope and no wind of its site")
	}
	if s := t.Sliding; s != nil && s.Factor < t.Target {
		level, what, help := finding.Caution, "may slide", w.hold()+" or lay more ballast"
		if w.Feet {
			help = "stand it on a plate, to be anchored or to bear ballast"
		}
		if w.Anchors > 0 {
			level, what, help = finding.Note, "would slide without its anchors", "the anchors must hold the rest; whether they do in their ground was not checked"
		}
		add(level, "%s under %s: friction, taken as %s of the weight for steel on concrete (common practice), holds %s against %s, factor %s, less than the %s wanted against tipping; %s",
			what, s.Case, quantity.Decimal(Friction, 2), units.Force(s.Holding), units.Force(s.Driving), Factor(s.Factor), Factor(t.Target), help)
	}
	if site != nil && site.Push > 0 && site.PushHeight > w.Top {
		add(finding.Note, "the push is given at %s, above the top of the piece; it is taken at the top, %s",
			units.Length(site.PushHeight, quantity.Coarse), units.Length(w.Top, quantity.Coarse))
	}
	return list
}

// hold says how what stands is held to the ground.
func (w Weight) hold() string {
	if w.Feet {
		return "anchor it by a plate"
	}
	return "anchor it"
}

// Factor returns a factor against tipping as it is written: to a hundredth, with
// its zeros, and rounded down, so that one that falls short never reads as reached.
func Factor(x float64) string {
	if quantity.Decimal(x, 9) != quantity.Decimal(x, 2) {
		// Not a whole number of hundredths but for rounding.
		x = max(0, math.Floor(x*100)/100)
	}
	return strconv.FormatFloat(x, 'f', 2, 64)
}

// Bearing returns the bearing, in rad, that the edge faces.
func (e Edge) Bearing() float64 {
	side := r2.Sub(e.To, e.From)
	return design.BearingOf(r3.Vec{X: side.Y, Y: -side.X})
}

// counterweight returns the ballast, in kg, with which the centre of gravity
// would stand just above the edge of the footprint.
func (t *Tipping) counterweight(w Weight) float64 {
	middle, most := design.Centroid(t.Footprint), 0.0
	for _, e := range t.Edges {
		side := r2.Unit(r2.Sub(e.To, e.From))
		lever := r2.Cross(side, r2.Sub(middle, e.From))
		most = max(most, -e.Lever*(w.Mass+w.Ballast)/lever)
	}
	return most
}
