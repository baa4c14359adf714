package strength

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/frame"
	"stabile/param/design"
	"stabile/param/quantity"
)

// A Plate is the bending of the base plate, in its worst case, as a strip that
// sticks out from a post: of all posts on it, toward every anchor and every edge.
type Plate struct {
	Post    *design.Part
	Case    check.Case
	Foot    float64 // N mm, the moment at its end on the plate
	How     PlateBending
	Force   float64 // N, at the far end of the strip
	Lever   float64 // mm, from the face of the post to the force
	Spread  float64 // mm, the width of the strip at the face of the post on a plate without end
	Width   float64 // mm, what the plate has of it
	Moment  float64 // N mm
	Stress  float64 // MPa, elastic
	Allowed float64 // N mm, of moment: Fy Z / 1.67, AISC 360 F11
	Ratio   float64

	feet   []footing // that are on the plate, until it is checked
	foot   *footing  // that the strip sticks out from
	toward r2.Vec    // the way that it does
	anchor bool      // it goes to an anchor, not to an edge
	weighs bool      // weight bends it, not the moment
	pair   bool      // it goes to another post
}

// A footing is an end of a post on the plate, or the seat of a ball on it.
type footing struct {
	part   *design.Part
	beam   int     // of the ball's seat in the frame
	idle   bool    // a ball that carries nothing, and so turns nothing against it
	head   bool    // it is the post's head
	moment float64 // N mm, the greatest
	at     int     // its case
	least  float64 // N upward on the plate, the least of it: below 0 it bears down
}

// Anchors is the tension in the anchors, the plate stiff and turning about an edge
// of the footprint, and the shear on them. Prying is not included.
type Anchors struct {
	Tension float64 // N, the greatest on one anchor; 0 where weight holds it down
	Anchor  int     // the one that carries it
	Edge    int     // the edge about which it tips
	Case    check.Case
	Moment  float64 // N mm, that tips it over the edge, less what the weight holds and what goes with Lift
	Lift    float64 // N, straight off what it is bolted to, which all anchors share
	Lever   float64 // mm, from the edge to the anchor
	Shear   float64 // N, the greatest level force, shared evenly, on one anchor

	Wall bool // they are in a wall, where no target against tipping is asked for

	Grip *Grip // in concrete; nil where that is not known
	Bed  *Bed  // of a footing; nil where there is none, or the ground is not known

	// ForTarget is the tension in N in one anchor with which the target against
	// tipping would be reached, in ForCase; 0 where weight alone reaches it. The
	// steel of a bolt carries it where Ratio is 1 or less: Bolt is its diameter in
	// mm, for its hole, and Allowed its limit in N. All are 0 without a hole's
	// diameter.
	ForTarget, Bolt, Allowed, Ratio float64
	ForCase                         check.Case

	// ShearForTarget is the shear in N on one anchor under the loads times the target, in
	// ShearCase: of the level force, from which no friction is taken off, and of
	// the twist about the upright, carried by Sharing anchors. The steel carries it
	// where ShearRatio is 1 or less, ShearAllowed being its limit in N.
	ShearForTarget, ShearAllowed, ShearRatio float64
	ShearCase                                check.Case
	Sharing                                  int

	// Interaction is what tension and shear of one case use of the steel, 1 the limit,
	// in InteractionCase; 0 where neither is there or the bolt is not known.
	Interaction     float64
	InteractionCase check.Case

	// Bearing is what the shear of ShearCase uses of the plate at a bolt, 1 the limit; 0
	// where the bolt or the plate is not known.
	Bearing float64
}

// Worst returns the greatest share of its limit that the steel of the bolts uses,
// in tension, in shear or in both.
func (a *Anchors) Worst() float64 { return max(a.Ratio, a.ShearRatio, a.Interaction, a.Bearing) }

// WorstCase returns the case of the share that Worst returns.
func (a *Anchors) WorstCase() check.Case {
	switch a.Worst() {
	case a.Ratio:
		return a.ForCase
	case a.ShearRatio, a.Bearing:
		return a.ShearCase
	}
	return a.InteractionCase
}

const (
	// boltStress and boltShear are the nominal tensile and shear stress in MPa of
	// the weakest bolts in use, ASTM A307 (45 and 27 ksi) or grade 4.6, AISC 360
	// Table J3.2, and boltSafety the factor of safety on both, J3.6.
	boltStress = 310.0
	boltShear  = 186.0
	boltSafety = 2.0

	// boltBoth is what the shares of tension and shear may add up to, AISC 360 (J3-3b).
	boltBoth = 1.3

	// boltPlay is by how much an anchor's hole is wider than its bolt: 1/16 in and
	// 2 mm are standard holes, AISC 360 Table J3.3 (for bolts up to 24 mm); base
	// plates often have more.
	boltPlay = 2.0

	// sharing is how many anchors carry the shear at most: with play in the holes it
	// is two that touch first, AISC Design Guide 1, 3.5 (from memory).
	sharing = 2
)

// Bolt returns the diameter in mm of the bolt for an anchor's hole, and the tension
// in N that its steel may carry: Fnt A / 2, AISC 360 J3.6, on the area of its
// shank.
func Bolt(hole float64) (diameter, allowed float64) {
	diameter = max(0, hole-boltPlay)
	return diameter, boltStress * math.Pi / 4 * diameter * diameter / boltSafety
}

// BoltShear returns the shear in N that the steel of a bolt of a diameter in mm
// may carry: Fnv A / 2, AISC 360 J3.6, whether or not its thread is cut across.
func BoltShear(diameter float64) float64 {
	return boltShear * math.Pi / 4 * diameter * diameter / boltSafety
}

// Bearing returns the shear in N that a plate may carry at a bolt: the lesser of 1.2 lc t Fu,
// tearing out to the edge, and 2.4 d t Fu, over 2, AISC 360 J3.10. The clear distance lc from
// the hole to the edge, the bolt's diameter and the plate's thickness are in mm; Fy in MPa stands
// for Fu, which is more.
func Bearing(bolt, clear, thickness, yield float64) float64 {
	return min(1.2*max(0, clear), 2.4*bolt) * thickness * yield / boltSafety
}

// Interaction returns what shares of the tension and of the shear that a bolt may
// carry use together; 1 is the limit. AISC 360 J3.7 has F'nt = 1.3 Fnt - 2 Fnt/Fnv f,
// at most Fnt, with f the shear stress: divided by Fnt / 2 it is t <= 1.3 - v.
func Interaction(tension, shear float64) float64 {
	return max(tension, shear, (tension+shear)/boltBoth)
}

// Tensions returns the tension in N in each anchor, the levers from the tipping
// edge in mm, under a moment in N mm: it grows evenly from the edge,
// M y / sum of y2. Anchors on or outside the edge carry nothing.
func Tensions(moment float64, levers []float64) []float64 {
	sum := 0.0
	for _, y := range levers {
		sum += max(0, y) * max(0, y)
	}
	list := make([]float64, len(levers))
	if !(moment > 0) || sum == 0 {
		return list
	}
	for i, y := range levers {
		list[i] = moment * max(0, y) / sum
	}
	return list
}

// reactions returns the reaction of the ground in every column, ballast included, or of
// the wall, in the frame of the plate on it.
func (c *cases) reactions(in Input) []frame.Wrench {
	if c.ground == nil {
		c.ground = make([]frame.Wrench, c.width())
		for k := range c.ground {
			c.ground[k] = c.solved.Reaction(k)
		}
		for k, up := range [common]r3.Vec{weightZ: {Z: 1}, weightX: {X: -1}, weightY: {Y: -1}} {
			if k == weightZ || c.slope > 0 {
				force := r3.Scale(quantity.Gravity*in.Ballast, up)
				c.ground[k].Force = r3.Add(c.ground[k].Force, force)
				c.ground[k].Moment = r3.Add(c.ground[k].Moment, r3.Cross(in.BallastAt, force))
			}
		}
		if base := in.Design.Wall(); base != nil {
			for k, w := range c.ground {
				// About the middle of the back of the plate, in its own frame.
				w.Moment = r3.Sub(w.Moment, r3.Cross(base.InSpace(r3.Vec{}), w.Force))
				c.ground[k] = frame.Wrench{Force: base.OwnWay(w.Force), Moment: base.OwnWay(w.Moment)}
			}
		}
	}
	return c.ground
}

// scalar returns the sum of a case, given what each column comes to.
func (c *loadCase) scalar(columns []float64) (sum float64) {
	for _, t := range c.terms[:c.count] {
		sum += t.share * columns[t.column]
	}
	return sum
}

// tipping returns the moment with which the loads, which are the opposite of the
// ground's reaction, tip over an edge at a height in mm, less what the weight holds.
func tipping(w frame.Wrench, from, to r2.Vec, floor float64) float64 {
	a, b := r3.Vec{X: from.X, Y: from.Y, Z: floor}, r3.Vec{X: to.X, Y: to.Y, Z: floor}
	way := r3.Unit(r3.Sub(b, a))
	return -r3.Dot(r3.Sub(w.Moment, r3.Cross(a, w.Force)), way)
}

// floor returns the height in mm of what the plate is bolted to.
func (in Input) floor() float64 {
	if p := in.plated(); p != nil {
		return p.Base.Under()
	}
	return 0
}

// An edging is how the columns of the loads turn the plate over one of its edges and lift it.
type edging struct {
	levers  []float64 // mm, of each anchor from the edge
	middle  float64   // mm, of all anchors
	moments []float64 // N mm, over the edge
	lifts   []float64 // N, straight off what it is bolted to
	each    float64   // N on the anchor farthest from the edge, of each N mm
}

// edging returns room for what each edge comes to.
func (in Input) edging(columns []frame.Wrench) *edging {
	e := &edging{levers: make([]float64, len(in.Anchors)), moments: make([]float64, len(columns)), lifts: make([]float64, len(columns))}
	for k, w := range columns {
		e.lifts[k] = -w.Force.Z
	}
	return e
}

// over works out with which moments the reaction of the ground tips over an edge, and how
// far the anchors are from it.
func (e *edging) over(in Input, from, to r2.Vec, columns []frame.Wrench) {
	floor := in.floor()
	for k, w := range columns {
		e.moments[k] = tipping(w, from, to, floor)
	}
	side := r2.Unit(r2.Sub(to, from))
	e.middle = 0
	for i, p := range in.Anchors {
		e.levers[i] = r2.Cross(side, r2.Sub(p, from))
		e.middle += e.levers[i] / float64(len(in.Anchors))
	}
	e.each = slices.Max(Tensions(1, e.levers))
}

// A tug is what a case does to the anchors about an edge: what lifts the plate straight off,
// in N, they share alike, and what is left of the moment, in N mm, turns it over the edge.
type tug struct{ moment, lift float64 }

// tug returns that of a case, with factors on its weight, which may be given for weight that
// holds and for weight that pulls, and on the other loads.
func (e *edging) tug(c *loadCase, hold, hang, load float64) tug {
	factored := func(columns []float64) float64 {
		// What the weight does is its share straight down.
		weight, all := c.terms[0].share*columns[weightZ], c.scalar(columns)
		if weight > 0 {
			return hang*weight + load*(all-weight)
		}
		return hold*weight + load*(all-weight)
	}
	t := tug{moment: factored(e.moments), lift: max(0, factored(e.lifts))}
	t.moment -= t.lift * e.middle
	return t
}

// most returns the tension in N in the anchor that has the most of it; below 0 where the plate
// is held down.
func (e *edging) most(t tug) float64 { return t.moment*e.each + t.lift/float64(len(e.levers)) }

// tensions returns the tension in N in each anchor.
func (e *edging) tensions(t tug) []float64 {
	list := Tensions(t.moment, e.levers)
	for i := range list {
		list[i] += t.lift / float64(len(list))
	}
	return list
}

// anchors works out the tension in each anchor about each edge, and the shear, and
// keeps the greatest.
func (s *Strength) anchors(c *cases, in Input) {
	if len(in.Anchors) == 0 || len(in.Footprint) < 3 {
		return
	}
	a := &Anchors{Wall: in.Design.Wall() != nil}
	columns, at, forAt := c.reactions(in), len(c.list), len(c.list)
	target := max(1, in.Target)
	over := in.edging(columns)
	pulls := make([]float64, len(c.list)) // of each case, with the target, on one anchor
	for e, from := range in.Footprint {
		to := in.Footprint[(e+1)%len(in.Footprint)]
		over.over(in, from, to, columns)
		most, wanted := greatest{0, -1}, greatest{0, -1}
		for n := range c.list {
			most.take(over.most(over.tug(&c.list[n], 1, 1, 1)), n)
			pull := over.most(over.tug(&c.list[n], 1, 1, target))
			wanted.take(pull, n)
			pulls[n] = max(pulls[n], pull)
		}
		var worst, asked tug
		if most.at >= 0 {
			worst = over.tug(&c.list[most.at], 1, 1, 1)
		}
		if wanted.at >= 0 {
			asked = over.tug(&c.list[wanted.at], 1, 1, target)
		}
		for i, pull := range over.tensions(worst) {
			if pull > a.Tension || pull == a.Tension && pull > 0 && most.at < at {
				a.Tension, a.Anchor, a.Edge, a.Moment, a.Lift, a.Lever = pull, i, e, worst.moment, worst.lift, over.levers[i]
				at = most.at
				a.Case = c.load(at)
			}
		}
		for _, pull := range over.tensions(asked) {
			if pull > a.ForTarget || pull == a.ForTarget && pull > 0 && wanted.at < forAt {
				a.ForTarget, forAt = pull, wanted.at
				a.ForCase = c.load(forAt)
			}
		}
	}
	if in.AnchorHole > 0 {
		if a.Bolt, a.Allowed = Bolt(in.AnchorHole); a.Allowed > 0 {
			a.Ratio = a.ForTarget / a.Allowed
			a.ShearAllowed = BoltShear(a.Bolt)
		}
	}
	a.shove(c, columns, in.Anchors, target, pulls)
	if p := in.plated(); p != nil && p.Metal != nil && a.Bolt > 0 && p.Base.AnchorEdge > 0 {
		yield, _ := Yield(p.Metal)
		if limit := Bearing(a.Bolt, p.Base.AnchorEdge-in.AnchorHole/2, p.Metal.Thickness, yield); limit > 0 {
			a.Bearing = a.ShearForTarget / limit
		}
	}
	s.Anchors = a
}

// shove works out the shear on the anchors, and what it does together with the
// pulls of the same cases.
func (a *Anchors) shove(c *cases, columns []frame.Wrench, anchors []r2.Vec, target float64, pulls []float64) {
	a.Sharing = min(sharing, len(anchors))
	x, y, twist := make([]float64, len(columns)), make([]float64, len(columns)), make([]float64, len(columns))
	spots := around(anchors)
	for k, w := range columns {
		x[k], y[k] = w.Force.X, w.Force.Y
		twist[k] = w.Moment.Z - r2.Cross(spots.middle, r2.Vec{X: w.Force.X, Y: w.Force.Y})
	}
	worst, both := greatest{0, -1}, greatest{0, -1}
	for n := range c.list {
		l := &c.list[n]
		level := r2.Vec{X: l.scalar(x), Y: l.scalar(y)}
		a.Shear = max(a.Shear, r2.Norm(level)/float64(len(anchors)))
		shear := target * spots.shear(level, l.scalar(twist)) * float64(len(anchors)) / float64(a.Sharing)
		worst.take(shear, n)
		if a.Allowed > 0 {
			both.take(Interaction(pulls[n]/a.Allowed, shear/a.ShearAllowed), n)
		}
	}
	const rounding = 1e-6 // N
	if worst.value > rounding {
		a.ShearForTarget, a.ShearCase = worst.value, c.load(worst.at)
	}
	if both.at >= 0 {
		a.ShearRatio = a.ShearForTarget / a.ShearAllowed
		a.Interaction, a.InteractionCase = both.value, c.load(both.at)
	}
}

// A boltGroup is a group of anchors that carries shear.
type boltGroup struct {
	middle r2.Vec
	arms   []r2.Vec // from the middle to each
	square float64  // mm2, the sum of the squares of the arms
}

func around(anchors []r2.Vec) boltGroup {
	var g boltGroup
	for _, p := range anchors {
		g.middle = r2.Add(g.middle, r2.Scale(1/float64(len(anchors)), p))
	}
	for _, p := range anchors {
		arm := r2.Sub(p, g.middle)
		g.arms = append(g.arms, arm)
		g.square += r2.Norm2(arm)
	}
	return g
}

// shear returns the greatest shear in N on one anchor, all alike, of a level force
// in N and a twist in N mm about the middle of the group: V/n and, square to its
// arm, T r / sum of r2, the elastic method of AISC's Manual, part 7 (from memory).
// A lone anchor holds no twist.
func (g *boltGroup) shear(level r2.Vec, twist float64) float64 {
	even := r2.Scale(1/float64(len(g.arms)), level)
	if g.square == 0 {
		return r2.Norm(even)
	}
	most, turn := 0.0, twist/g.square
	for _, arm := range g.arms {
		most = max(most, math.Hypot(even.X-turn*arm.Y, even.Y+turn*arm.X))
	}
	return most
}
