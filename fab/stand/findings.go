package stand

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/people"
	"stabile/param/design"
)

// BarelyStands is the tip angle, in rad, under which a piece that is not anchored
// is too easily knocked over: 10 degrees, the tilt at which IEC 62368-1 tests
// floor-standing equipment.
const BarelyStands = 10 * math.Pi / 180

// Findings returns what there is to say of the standing of the weight w on the
// site, which may be nil.
func (t *Tipping) Findings(w Weight, site *design.Site) []finding.Finding {
	var list []finding.Finding
	add := func(level finding.Level, id check.ID, fact finding.Fact) {
		list = append(list, finding.Finding{Level: level, Concern: finding.Life, Check: string(id), Fact: fact})
	}
	anchored := w.Anchors > 0
	if t.Sunk || t.Hung {
		pushed(w, site, add)
		return list
	}
	if len(t.Edges) == 0 {
		add(finding.Danger, check.Balance, NoFootprint{})
		return list
	}
	switch e := t.Edges[t.TipEdge]; {
	case !t.Stable():
		add(finding.Danger, check.Balance, FallsOver{
			Outside: -e.Lever, Toward: e.Bearing(), Counterweight: t.counterweight(w), Anchored: anchored,
		})
	case t.Bare.TipAngle < BarelyStands:
		level := finding.Danger
		if anchored {
			level = finding.Caution
		}
		add(level, check.Balance, EasilyKnocked{TipAngle: t.Bare.TipAngle, Least: BarelyStands, Ballast: w.Ballast, Anchored: anchored, Feet: w.Feet, Block: w.Block})
	}
	switch {
	case !t.Loaded:
		add(finding.Caution, check.Tipping, NoLoads{})
	case t.Reached() && t.Factor >= LeastFactor:
	case t.Held():
		add(finding.Caution, check.Tipping, HeldByAnchors{
			Factor: t.Factor, Target: t.least(), Case: t.WorstCase, Ballast: t.Ballast, BallastFails: t.BallastFails, Anchors: t.Anchors,
		})
	default:
		add(finding.Danger, check.Tipping, TipsEasily{
			Factor: t.Factor, Target: t.least(), Case: t.WorstCase, Ballast: t.Ballast, BallastFails: t.BallastFails, Feet: w.Feet, Block: w.Block,
		})
	}
	if t.Loaded && w.Ballast > 0 && t.Factor >= LeastFactor {
		level := finding.Note
		if t.Bare.Factor < LeastFactor && !anchored {
			level = finding.Caution
		}
		add(level, check.Tipping, WithoutBallast{
			Ballast: w.Ballast, Factor: t.Bare.Factor, With: t.Factor, TipAngle: t.Bare.TipAngle, Case: t.Bare.Case, Anchored: anchored,
		})
	}
	if t.Short() {
		add(finding.Caution, check.Tipping, TargetShort{Target: t.Target, Least: t.Method.LeastFactor(), Method: t.Method})
	}
	pushed(w, site, add)
	if s := t.Sliding; s != nil && s.Factor < t.Target {
		level := finding.Caution
		switch {
		case anchored:
			level = finding.Note
		case s.Factor < LeastFactor:
			level = finding.Danger
		}
		add(level, check.Sliding, Slides{
			Factor: s.Factor, Target: t.Target, Holding: s.Holding, Driving: s.Driving, Case: s.Case, Anchored: anchored, Feet: w.Feet, Block: w.Block,
		})
	}
	return list
}

// pushed adds what there is to say of the push of a site.
func pushed(w Weight, site *design.Site, add func(finding.Level, check.ID, finding.Fact)) {
	if site == nil || !(site.Push > 0) {
		return
	}
	if least := people.LeastPush(site.Method); site.Push < least {
		add(finding.Caution, check.People, PushShort{Push: site.Push, Least: least})
	}
	if site.PushHeight > w.Top {
		add(finding.Note, check.Tipping, PushLowered{Height: site.PushHeight, Top: w.Top})
	}
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
