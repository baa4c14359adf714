package stand

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/wind"
	"stabile/param/design"
	"stabile/param/quantity"
)

// A Weight is what holds a sculpture down: itself, and ballast laid at the
// middle of its footprint.
type Weight struct {
	Mass    float64 // kg, without ballast
	CG      r3.Vec  // mm, without ballast; Z from the ground
	Top     float64 // mm, of the whole, from the ground
	Ballast float64 // kg
	Lies    float64 // mm, height of the ballast above the ground
	Floor   float64 // mm, height of what the footprint lies on; 0 for the ground
	Anchors int     // that hold the base to the ground; no factor counts on them
	Feet    bool    // it stands on feet: there is nothing to anchor or to lay ballast on
	Sunk    bool    // all that it stands on is set in concrete in the ground
	Hung    bool    // it is on a wall, which its anchors hold it to
	Block   bool    // it is bolted to a block, whose weight counts, and which nothing holds to the ground
}

// Tip is TipInWind without wind.
func Tip(footprint []r2.Vec, w Weight, site *design.Site, target float64) Tipping {
	return TipInWind(footprint, w, site, nil, target)
}

// TipInWind works out tipping about each edge of a footprint, which is convex
// and counter-clockwise; it may be empty. The site and the wind may be nil, and
// a target of 0 is DefaultTarget.
//
// About an edge with the outward normal n, at ground level, the moments are
//
//	level ground, push F at height h:  restoring W d,         overturning F h (v . n)
//	ground that slopes by a along n:   restoring W d cos(a),  overturning W z sin(a)
//	level ground, wind F_i at r_i:     restoring W d,         overturning that of all F_i
//	wind on the slope:                 restoring W d cos(a),  overturning W z sin(a) and that of all F_i
//
// with W the weight, d the lever from the edge in to the centre of gravity and
// z its height. The slope acts alone, and in every case of push and wind. A push above
// the top of the piece acts at the top. Wind that falls short of the least design
// force of its standard is taken at that (wind.Bearing.Scale), its lift as it is.
func TipInWind(footprint []r2.Vec, w Weight, site *design.Site, blowing *wind.Wind, target float64) Tipping {
	t := tip(footprint, w, site, blowing, target)
	t.Sunk, t.Hung = w.Sunk, w.Hung
	t.Bare = Bare{Factor: t.Factor, TipAngle: t.TipAngle, TipEdge: t.TipEdge, Case: t.WorstCase}
	if w.Ballast > 0 {
		w.Ballast = 0
		bare := tip(footprint, w, site, blowing, target)
		t.Bare = Bare{Factor: bare.Factor, TipAngle: bare.TipAngle, TipEdge: bare.TipEdge, Case: bare.WorstCase}
	}
	if site != nil {
		t.Method = Combinations(site.Method)[0]
	} else {
		t.Method = Practice
	}
	return t
}

// tip is TipInWind with the ballast alone.
func tip(footprint []r2.Vec, w Weight, site *design.Site, blowing *wind.Wind, target float64) Tipping {
	t := Tipping{Footprint: footprint, Target: target, Anchors: w.Anchors}
	if !(target > 0) {
		t.Target = DefaultTarget
	}
	if slim(footprint) {
		t.Footprint = nil
		return t
	}
	if site == nil {
		site = &design.Site{}
	}
	l := loads{push: site.Push, height: max(0, min(site.PushHeight, w.Top)-w.Floor), floor: w.Floor, slope: site.Slope, wind: blowing, lift: lifted(blowing)}
	middle := design.Centroid(footprint)
	least, most := 0.0, math.Inf(1) // kg, bounds on the ballast that reaches the target

	for i, from := range footprint {
		to := footprint[(i+1)%len(footprint)]
		side := r2.Unit(r2.Sub(to, from))
		normal := r2.Vec{X: side.Y, Y: -side.X}
		a := arms{
			mass: w.Mass, lever: r2.Dot(normal, r2.Sub(from, design.Plan(w.CG))), height: w.CG.Z - w.Floor,
			ballast: w.Ballast, ballastLever: r2.Dot(normal, r2.Sub(from, middle)), lies: w.Lies - w.Floor,
		}
		e := Edge{From: from, To: to, Lever: a.combined(), TipAngle: a.tipAngle(), Restoring: a.restoring(0)}
		for _, c := range l.cases(from, to, normal) {
			a.worst(&e, c)
			lo, hi := a.ballastFor(c, t.Target)
			least, most = max(least, lo), min(most, hi)
		}
		t.Edges = append(t.Edges, e)
		if e.TipAngle < t.Edges[t.TipEdge].TipAngle {
			t.TipEdge = i
		}
		if e.loaded() && (!t.Loaded || e.Factor < t.Edges[t.WorstEdge].Factor) {
			t.Loaded, t.WorstEdge = true, i
		}
	}
	t.TipAngle = t.Edges[t.TipEdge].TipAngle
	t.Sliding = l.slide(w)
	if t.Loaded {
		worst := t.Edges[t.WorstEdge]
		t.Factor, t.WorstCase = worst.Factor, worst.Case
		switch {
		case t.Factor >= t.Target:
			// Reached; what is left of least is rounding.
		case least > most:
			t.BallastFails = true
		default:
			t.Ballast = least
		}
	}
	return t
}

// Short reports whether the target is under the least that the site's method has.
func (t *Tipping) Short() bool { return t.Loaded && t.Target < t.Method.LeastFactor()-1e-9 }

// Stable reports whether the whole stands by itself: its centre of gravity,
// ballast included, lies over its footprint.
func (t *Tipping) Stable() bool {
	return len(t.Edges) > 0 && t.TipAngle > 0
}

// Reached reports whether the factor reaches the target. It is false where
// there is no factor.
func (t *Tipping) Reached() bool {
	return t.Loaded && len(t.Edges) > 0 && t.Factor >= t.Target
}

// Held reports whether the anchors must keep the whole from tipping under its
// loads: it stands by itself, but its weight does not reach the target. Whether the
// anchors hold is another check.
func (t *Tipping) Held() bool {
	return t.Loaded && t.Anchors > 0 && t.Stable() && !t.Reached()
}

// arms are the weights about one edge with their levers and heights.
type arms struct {
	mass, lever, height         float64 // kg, mm, mm
	ballast, ballastLever, lies float64 // kg, mm, mm
}

// combined returns the lever, in mm, of the centre of gravity with the ballast.
func (a arms) combined() float64 {
	m := a.mass + a.ballast
	if m == 0 {
		return a.lever
	}
	return (a.mass*a.lever + a.ballast*a.ballastLever) / m
}

// tipAngle returns how far the whole can be tilted over the edge before its
// centre of gravity stands above the edge; negative where it is past that.
func (a arms) tipAngle() float64 {
	return math.Atan2(a.mass*a.lever+a.ballast*a.ballastLever, a.mass*a.height+a.ballast*a.lies)
}

// restoring returns the restoring moment in N mm on ground of the given slope.
func (a arms) restoring(slope float64) float64 {
	return quantity.Gravity * math.Cos(slope) * (a.mass*a.lever + a.ballast*a.ballastLever)
}

// overturning returns the overturning moment in N mm of a load.
func (a arms) overturning(l load) float64 {
	return l.moment + quantity.Gravity*math.Sin(l.slope)*(a.mass*a.height+a.ballast*a.lies)
}

// worst keeps in e the case of the least factor.
func (a arms) worst(e *Edge, l load) {
	restoring, overturning := a.restoring(l.slope), a.overturning(l)
	if !(overturning > 0) {
		return
	}
	factor := max(0, restoring/overturning)
	if e.loaded() && factor >= e.Factor {
		return
	}
	e.Restoring, e.Overturning, e.Factor, e.Case = restoring, overturning, factor, l.Case
}

// ballastFor returns the least and the most further ballast, in kg, with which
// a load has at least the target factor; least is above most where none does.
//
// Both moments grow in proportion to the ballast x, so that the condition is
// linear in it: gain x >= want.
func (a arms) ballastFor(l load, target float64) (least, most float64) {
	sin, cos := math.Sincos(l.slope)
	want := target*a.overturning(l) - a.restoring(l.slope)
	gain := quantity.Gravity * (cos*a.ballastLever - target*sin*a.lies)
	switch {
	case gain > 0:
		return max(0, want/gain), math.Inf(1)
	case want <= 0 && gain < 0:
		return 0, want / gain
	case want <= 0:
		return 0, math.Inf(1)
	}
	return math.Inf(1), 0
}
