package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/param/design"
	"stabile/param/quantity"
)

// A Plate is the bending of the base plate, in its worst case, as a strip that
// sticks out from the post that bears the greatest moment at its foot.
type Plate struct {
	Post    *design.Part
	Case    string
	Foot    float64 // N mm, the moment at its foot
	How     string  // what bends it
	Force   float64 // N, at the far end of the strip
	Lever   float64 // mm, from the face of the post to the force
	Width   float64 // mm, of the strip: twice the lever, a spread of 45 deg each way
	Moment  float64 // N mm
	Stress  float64 // MPa, elastic
	Allowed float64 // N mm, of moment: Fy Z / 1.67, AISC 360 F11
	Ratio   float64
}

// Anchors is the pull on the anchors, the plate stiff and turning about an edge
// of the footprint. Prying is not included.
type Anchors struct {
	Tension  float64 // N, the greatest on one anchor; 0 where weight holds it down
	Anchor   int     // the one that bears it
	Edge     int     // the edge about which it tips
	Case     string
	Moment   float64 // N mm, that tips it over the edge, less what the weight holds
	Lever    float64 // mm, from the edge to the anchor
	Shear    float64 // N, the greatest level force, shared evenly, on one anchor
	Ignoring string  // what is left out, in words

	// ForTarget is the pull in N on one anchor with which the target against
	// tipping would be reached, in ForCase; 0 where weight alone reaches it. The
	// steel of a bolt bears it where Ratio is 1 or less: Bolt is its diameter in
	// mm, for its hole, and Allowed its limit in N. All are 0 without a hole's
	// diameter.
	ForTarget, Bolt, Allowed, Ratio float64
	ForCase                         string
}

const (
	// boltStress is the nominal tensile stress in MPa of the weakest bolts in use,
	// ASTM A307 (45 ksi) or grade 4.6, AISC 360 Table J3.2, and boltSafety the
	// factor of safety on it, J3.6.
	boltStress = 310.0
	boltSafety = 2.0

	// boltPlay is by how much an anchor's hole is wider than its bolt: 1/16 in and
	// 2 mm are standard holes, AISC 360 Table J3.3 (for bolts up to 24 mm); base
	// plates often have more.
	boltPlay = 2.0
)

// Bolt returns the diameter in mm of the bolt for an anchor's hole, and the pull
// in N that its steel may bear: Fnt A / 2, AISC 360 J3.6, on the area of its
// shank.
func Bolt(hole float64) (diameter, allowed float64) {
	diameter = max(0, hole-boltPlay)
	return diameter, boltStress * math.Pi / 4 * diameter * diameter / boltSafety
}

// Tensions returns the pull in N on each anchor, the levers from the tipping
// edge in mm, under a moment in N mm: it grows evenly from the edge,
// M y / sum of y2. Anchors on or outside the edge bear nothing.
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

// reactions returns what the ground bears in every column, ballast included.
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

// tipping returns the moment that the loads, which are the opposite of what the
// ground bears, tip over an edge with, weight taken off.
func tipping(w frame.Wrench, from, to r2.Vec) float64 {
	a, b := r3.Vec{X: from.X, Y: from.Y}, r3.Vec{X: to.X, Y: to.Y}
	way := r3.Unit(r3.Sub(b, a))
	return -r3.Dot(r3.Sub(w.Moment, r3.Cross(a, w.Force)), way)
}

// anchors works out the pull on each anchor about each edge, and keeps the
// greatest.
func (s *Strength) anchors(c *cases, in Input) {
	if len(in.Anchors) == 0 || len(in.Footprint) < 3 {
		return
	}
	a := &Anchors{Ignoring: "the anchors' hold in the ground, prying, the give of the plate and of the anchors"}
	columns, at, forAt := c.reactions(in), len(c.list), len(c.list)
	target := max(1, in.Target)
	moments, levers := make([]float64, len(columns)), make([]float64, len(in.Anchors))
	for e, from := range in.Footprint {
		to := in.Footprint[(e+1)%len(in.Footprint)]
		for k, w := range columns {
			moments[k] = tipping(w, from, to)
		}
		most, wanted := greatest{0, -1}, greatest{0, -1}
		for n := range c.list {
			all := c.list[n].scalar(moments)
			most.take(all, n)
			// What the weight holds is its share straight down.
			held := c.list[n].terms[0].share * moments[weightZ]
			wanted.take(held+target*(all-held), n)
		}
		side := r2.Unit(r2.Sub(to, from))
		for i, p := range in.Anchors {
			levers[i] = r2.Cross(side, r2.Sub(p, from))
		}
		for i, pull := range Tensions(most.value, levers) {
			if pull > a.Tension || pull == a.Tension && pull > 0 && most.at < at {
				a.Tension, a.Anchor, a.Edge, a.Moment, a.Lever = pull, i, e, most.value, levers[i]
				at = most.at
				a.Case = c.name(at)
			}
		}
		for _, pull := range Tensions(wanted.value, levers) {
			if pull > a.ForTarget || pull == a.ForTarget && pull > 0 && wanted.at < forAt {
				a.ForTarget, forAt = pull, wanted.at
				a.ForCase = c.name(forAt)
			}
		}
	}
	if in.AnchorHole > 0 {
		if a.Bolt, a.Allowed = Bolt(in.AnchorHole); a.Allowed > 0 {
			a.Ratio = a.ForTarget / a.Allowed
		}
	}
	for n := range c.list {
		var x, y float64
		for _, t := range c.list[n].terms[:c.list[n].count] {
			x += t.share * columns[t.column].Force.X
			y += t.share * columns[t.column].Force.Y
		}
		a.Shear = max(a.Shear, math.Hypot(x, y)/float64(len(in.Anchors)))
	}
	s.Anchors = a
}

// foot takes note of a post on the plate whose foot bears more moment than that
// of any before.
func (s *Strength) foot(c *cases, look *search, p *design.Part) {
	if s.Plate == nil {
		s.Plate = &Plate{Foot: -1}
	}
	if look.bending.value > s.Plate.Foot {
		s.Plate.Foot, s.Plate.Post, s.Plate.Case = look.bending.value, p, c.name(look.bending.at)
	}
}

// base checks the plate as a strip that sticks out: from the post with the
// greatest moment at its foot to the nearest anchor that could pull, or, without
// anchors, to the nearest edge, on which the whole weight stands when the piece
// is about to tip.
func (s *Strength) base(f *frame.Frame, c *cases, in Input) {
	p, pl := in.Design.Base(), s.Plate
	if pl == nil || p == nil || p.Base.Shape == design.Feet || p.Metal == nil || len(in.Footprint) < 3 {
		s.Plate = nil
		return
	}
	at, r := design.Plan(pl.Post.Post.Foot), pl.Post.Post.Diameter[0]/2
	if len(in.Anchors) > 0 {
		// All of the moment at the foot goes down one anchor across the post: the
		// push of the post's other side is at its far face.
		lever := math.Inf(1)
		for _, a := range in.Anchors {
			lever = min(lever, r2.Norm(r2.Sub(a, at)))
		}
		pl.How = "the moment at the post's foot, held by the nearest anchor"
		pl.Lever = max(0, lever-r)
		pl.Force = pl.Foot / max(lever, r)
	} else {
		reach := math.Inf(1)
		for e, q := range in.Footprint {
			side := r2.Unit(r2.Sub(in.Footprint[(e+1)%len(in.Footprint)], q))
			reach = min(reach, r2.Cross(side, r2.Sub(at, q)))
		}
		most := 0.0
		down := make([]float64, c.width())
		for k, w := range c.reactions(in) {
			down[k] = w.Force.Z
		}
		for n := range c.list {
			most = max(most, c.list[n].scalar(down))
		}
		pl.How = "the whole weight on the edge nearest to the post, as when it is about to tip"
		pl.Lever = max(0, reach-r)
		pl.Force = most
	}
	t := p.Metal.Thickness
	yield, _ := Yield(p.Metal)
	pl.Width = max(2*pl.Lever, 2*r)
	pl.Moment = pl.Force * pl.Lever
	pl.Stress = 6 * pl.Moment / (pl.Width * t * t)
	pl.Allowed = yield * pl.Width * t * t / 4 / omega
	pl.Ratio = pl.Moment / pl.Allowed
	if len(f.Posts) > 1 {
		s.lack("bending of the plate between several posts", "", Place{Part: p, As: "beyond the strip at", With: pl.Post})
	}
}
