package strength

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/frame"
	"stabile/fab/ground"
	"stabile/param/design"
	"stabile/param/quantity"
)

// A Grip is what the concrete holds of the anchors, in the case that uses most of it.
type Grip struct {
	ground.Hold
	Case     check.Case
	Use      float64 // the greatest share used of the anchors' hold, 1 the limit
	Drilled  bool    // the maker's approval decides about pull-out
	Edgeless bool    // no footing is given: no edge is taken to be near
}

// A Bed is how the footing presses on the ground, in the case that uses most of it.
type Bed struct {
	ground.Press
	Case    check.Case
	Use     float64 // the greatest of overturning, sliding and pressure, 1 the limit
	Allowed float64 // kPa
}

// Factors on what anchors in concrete and a footing hold against, by ASCE 7 2.3.1 and 2.4.1
// and by EN 1990 A1.2(A). Dead is on weight that holds, load on what overturns, strength
// level; service is on wind under a footing, whose limits are for allowable stresses. Hang is on
// weight that pulls at the anchors: 1.4 of ASCE 7 2.3.1, 1.35 of EN 1990 A1.2(B).
type factors struct{ dead, load, service, hang float64 }

func (in *Input) factors() factors {
	site := siteOf(in.Design)
	f := factors{0.9, 1.6, 1, 1.4}
	switch {
	case in.Method() == design.EN1991:
		f.load, f.hang = 1.5, 1.35
	case in.Wind != nil && !(site.Push > 0) && in.people == nil:
		f.load, f.service = 1, 0.6
	}
	if in.shake > 0 {
		f.load, f.service = in.shake, 1
	}
	return f
}

// Method returns the family of codes of a design: that of its wind, else that of its
// units.
func (in *Input) Method() design.WindMethod {
	switch m := siteOf(in.Design).Method; {
	case m != design.NoMethod:
		return m
	case in.Design.Units == quantity.Millimetre:
		return design.EN1991
	}
	return design.ASCE7
}

// bolt returns the anchor for a hole and an embedment: the weakest bolt in use, A307 or
// 4.6, of which three quarters of the shank are left in the thread, with a hexagon head
// 1.5 diameters across flats (common practice, no source).
func boltIn(hole, depth float64, drilled bool) ground.Anchor {
	d := max(0.1, hole-boltPlay)
	shank := math.Pi / 4 * d * d
	a := ground.Anchor{Diameter: d, Stress: 0.75 * shank, Ultimate: 400, Yield: 240, Embedment: depth, Bearing: math.Sqrt(3)/2*2.25*d*d - shank}
	if drilled {
		a.Kind, a.Bearing = ground.PostInstalled, 0
	}
	return a
}

// grip works out what the concrete holds of the anchors and how a footing presses on the
// ground, where the base says enough of them.
func (s *Strength) grip(c *cases, in Input) error {
	part := in.plated()
	if s.Anchors == nil || part == nil {
		return nil
	}
	base := part.Base
	if base.Concrete > 0 && base.AnchorDepth > 0 && in.AnchorHole > boltPlay {
		if err := s.concrete(c, in, base); err != nil {
			return fmt.Errorf("anchors of %s: %w", part.Name, err)
		}
	}
	if base.Footing.Given() && (base.Ground > 0 || soilOf(in).Bearing > 0) {
		if err := s.bed(c, in, base); err != nil {
			return fmt.Errorf("footing of %s: %w", part.Name, err)
		}
	}
	return nil
}

// concrete checks, for each edge, the case that pulls most over it, and the case that
// pushes most, by ACI 318 or EN 1992-4.
func (s *Strength) concrete(c *cases, in Input, base *design.Base) error {
	f := in.factors()
	anchor := boltIn(in.AnchorHole, base.AnchorDepth, base.AnchorsDrilled)
	// Cracked is the safe side where it is not known.
	concrete := ground.Concrete{Strength: base.Concrete, Cracked: true, Depth: 3 * base.AnchorDepth}
	b := base.Footing
	if base.Block.Given() {
		b = base.Block
	}
	if b.Given() {
		concrete.Depth = b.Height
		concrete.Min, concrete.Max = r2.Vec{X: -b.Width / 2, Y: -b.Depth / 2}, r2.Vec{X: b.Width / 2, Y: b.Depth / 2}
	}
	hold := ground.ACI
	if in.Method() == design.EN1991 {
		hold = ground.EN
	}
	g := &Grip{Drilled: base.AnchorsDrilled, Edgeless: !b.Given()}
	columns := c.reactions(in)
	spots := around(in.Anchors)
	edge := in.edging(columns)
	// The shove of a case, its weight with the factor of what hangs: on level ground it has none.
	shove := func(n int) (level r2.Vec, twist float64) {
		level, twist = c.shove(columns, n, spots.middle)
		still := c.list[n].terms[0].share
		down := frame.Wrench{Force: r3.Scale(still, columns[weightZ].Force), Moment: r3.Scale(still, columns[weightZ].Moment)}
		weight, turn := shoved(down, spots.middle)
		return r2.Add(r2.Scale(f.load, level), r2.Scale(f.hang-f.load, weight)), f.load*twist + (f.hang-f.load)*turn
	}
	try := func(n int) error {
		level, twist := shove(n)
		shear := spots.shear(level, twist) * float64(len(in.Anchors))
		pull := ground.Loads{At: in.Anchors, Tension: edge.tensions(edge.tug(&c.list[n], f.dead, f.hang, f.load))}
		if long := r2.Norm(level); long > 0 {
			pull.Shear = r2.Scale(shear/long, level)
		}
		h, err := hold(anchor, concrete, pull)
		if err != nil {
			return err
		}
		if use := max(h.Tension, h.Shear, h.Interaction); use > g.Use || g.Source == "" {
			g.Hold, g.Use, g.Case = h, use, c.load(n)
		}
		return nil
	}
	for e, from := range in.Footprint {
		to := in.Footprint[(e+1)%len(in.Footprint)]
		edge.over(in, from, to, columns)
		most, pushed := greatest{math.Inf(-1), -1}, greatest{-1, -1}
		for n := range c.list {
			if x := edge.most(edge.tug(&c.list[n], f.dead, f.hang, f.load)); x > most.value {
				most = greatest{x, n}
			}
			level, _ := shove(n)
			pushed.take(r2.Norm(level), n)
		}
		for _, n := range []int{most.at, pushed.at} {
			if err := try(n); err != nil {
				return err
			}
		}
	}
	s.Anchors.Grip = g
	return nil
}

// shove returns the level force in N of a case, and its twist in N mm about a point.
func (c *cases) shove(columns []frame.Wrench, n int, middle r2.Vec) (level r2.Vec, twist float64) {
	return shoved(c.wrench(columns, n), middle)
}

// shoved returns the level force in N behind a reaction, and its twist in N mm about a point.
func shoved(w frame.Wrench, middle r2.Vec) (level r2.Vec, twist float64) {
	level = r2.Vec{X: -w.Force.X, Y: -w.Force.Y}
	return level, -w.Moment.Z - r2.Cross(middle, level)
}

// wrench returns what the ground carries in a case.
func (c *cases) wrench(columns []frame.Wrench, n int) (w frame.Wrench) {
	l := &c.list[n]
	for _, t := range l.terms[:l.count] {
		w.Force = r3.Add(w.Force, r3.Scale(t.share, columns[t.column].Force))
		w.Moment = r3.Add(w.Moment, r3.Scale(t.share, columns[t.column].Moment))
	}
	return w
}

// soilOf returns the ground of the site, zero where it is not known.
func soilOf(in Input) ground.Soil {
	names := map[string]int{"bedrock": 0, "rock": 1, "gravel": 2, "sand": 3, "clay": 4}
	if i, ok := names[siteOf(in.Design).Soil]; ok {
		return ground.Soils[i]
	}
	return ground.Soil{}
}

// bed checks a footing in every case. All of the moment is taken across its shorter side,
// which is the safe side where it comes at a slant.
func (s *Strength) bed(c *cases, in Input, base *design.Base) error {
	soil := soilOf(in)
	if base.Ground > 0 {
		soil.Bearing = base.Ground
	}
	block := base.Footing
	footing := ground.Footing{Length: min(block.Width, block.Depth), Width: max(block.Width, block.Depth), Depth: block.Height}
	f := in.factors()
	columns := c.reactions(in)
	b := &Bed{Allowed: soil.Bearing}
	for n := range c.list {
		dead, all := c.list[n].terms[0].share, c.wrench(columns, n)
		still := columns[weightZ]
		// The weight counts in full, what is not weight with the factor of service.
		part := func(w, d float64) float64 { return dead*d + f.service*(w-dead*d) }
		down := part(all.Force.Z, still.Force.Z)
		level := math.Hypot(part(all.Force.X, still.Force.X), part(all.Force.Y, still.Force.Y))
		moment := math.Hypot(part(all.Moment.X, still.Moment.X), part(all.Moment.Y, still.Moment.Y))
		p, err := footing.Press(soil, max(0, down), level, moment)
		if err != nil {
			return err
		}
		if use := max(p.TippingUse, p.Sliding, p.Bearing); use > b.Use {
			b.Press, b.Use, b.Case = p, use, c.load(n)
		}
	}
	s.Anchors.Bed = b
	return nil
}

// grips adds the checks of what the concrete and the ground hold.
func (c *checks) grips() {
	a := c.s.Anchors
	part := c.in.plated()
	if a == nil || part == nil {
		return
	}
	base := part.Base
	loaded := a.ForTarget > 0 || a.ShearForTarget > 0
	k := check.Check{ID: check.AnchorGround, Part: part.Name, Limit: 1}
	switch g := a.Grip; {
	case g != nil && g.PullOutOpen && g.Use <= 1:
		k.Verdict, k.Why = check.Undecided, PullOutOpen{Tension: a.ForTarget}
		c.add(k)
	case g != nil:
		k.Found, k.Case, k.Source = g.Use, g.Case, g.Source
		c.judge(k)
	case loaded && base.Block.Given() && base.Block.Of != design.Concrete:
		k.Verdict, k.Why = check.Undecided, HoldOfStone{Of: base.Block.Of, Tension: a.ForTarget, Shear: a.ShearForTarget}
		c.add(k)
	case loaded:
		k.Verdict, k.Why = check.Undecided, GroundUnknown{
			Tension: a.ForTarget, Shear: a.ShearForTarget, Depth: base.AnchorDepth > 0, Concrete: base.Concrete > 0, Wall: base.OnWall(),
		}
		c.add(k)
	}
	if !base.Footing.Given() {
		return
	}
	k = check.Check{ID: check.Footing, Part: part.Name, Limit: 1, Source: "linear pressure without tension; IBC 1806.2 and 1807.2.3, 2.0 against tipping is practice"}
	switch b := a.Bed; {
	case b == nil:
		k.Verdict, k.Why = check.Undecided, SoilUnknown{}
		c.add(k)
	case b.SlidingOpen && b.Use <= 1:
		k.Verdict, k.Why = check.Undecided, NoFriction{}
		c.add(k)
	default:
		k.Found, k.Case = b.Use, b.Case
		c.judge(k)
	}
}

// PullOutOpen: the approval of a drilled anchor decides how much it holds before it
// pulls out.
type PullOutOpen struct{ Tension float64 } // N, on one

// HoldOfStone: no rule says what anchors hold in a block of stone.
type HoldOfStone struct {
	Of             design.Stone
	Tension, Shear float64 // N, on one
}

// SoilUnknown: what the ground under the footing carries is not given.
type SoilUnknown struct{}

// NoFriction: the ground under the footing has no coefficient of friction, so that
// sliding is not decided.
type NoFriction struct{}

// GripFails: the anchors do not hold in the concrete.
type GripFails struct {
	Use  float64
	Case check.Case
	Wall bool // the concrete is a wall
}

// BedFails: the footing tips, slides or presses too hard on the ground.
type BedFails struct {
	Use  float64
	Case check.Case
	Tips bool
}

// Fact marks the facts.
func (PullOutOpen) Fact() {}
func (HoldOfStone) Fact() {}
func (SoilUnknown) Fact() {}
func (NoFriction) Fact()  {}
func (GripFails) Fact()   {}
func (BedFails) Fact()    {}
