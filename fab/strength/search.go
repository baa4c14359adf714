package strength

import (
	"math"

	"stabile/fab/frame"
	"stabile/fab/shell"
)

// Most cases are nowhere near the worst. What a whole group of them comes to at
// most, from whatever bearing, is had from its columns at once; only groups that
// could be worse than what is known are gone through case by case.

// A bound is what no case of a group goes above.
type bound struct {
	tension, compression, shear, bending, twist float64
}

// above is a little more than 1: the rounding by which a case could go above its
// bound.
const above = 1 + 1e-9

// bound returns the bound of a group at a cut, given its columns.
func (c *cases) bound(g *group, columns []frame.SectionForces) bound {
	sin, cos := 0.0, 1.0
	if c.slope > 0 && g.count > 1 {
		sin, cos = c.tilted(c.slope)
	}
	var base, most frame.SectionForces // of most only Pull, Shear[0], Twist and Moment[0] count
	base.Add(cos, &columns[weightZ])
	if sin > 0 {
		turned(&most, sin, &columns[weightX], &columns[weightY])
	}
	switch g.kind {
	case inWind:
		if c.lifts {
			base.Add(1, &columns[c.uplift()])
		}
		var axial, shear, twist, moment float64 // shear and moment squared
		for k, share := range c.blows {
			d := &columns[common+k]
			axial, twist = max(axial, share*math.Abs(d.Axial)), max(twist, share*math.Abs(d.Twist))
			shear = max(shear, share*share*(d.Shear[0]*d.Shear[0]+d.Shear[1]*d.Shear[1]))
			moment = max(moment, share*share*(d.Moment[0]*d.Moment[0]+d.Moment[1]*d.Moment[1]))
		}
		most.Axial, most.Twist = most.Axial+axial, most.Twist+twist
		most.Shear[0], most.Moment[0] = most.Shear[0]+math.Sqrt(shear), most.Moment[0]+math.Sqrt(moment)
	case pushed:
		k, at := 1.0, c.push+c.each*g.push
		if c.each > 2 {
			var down float64
			k, down = c.pushes[g.push].most()
			turned(&most, down, &columns[at+2], &frame.SectionForces{})
		}
		turned(&most, k, &columns[at], &columns[at+1])
	}
	axial, shear, bending, twist := base.Resultants()
	return bound{
		tension: above * max(0, most.Axial+axial), compression: above * max(0, most.Axial-axial),
		shear: above * (most.Shear[0] + shear), bending: above * (most.Moment[0] + bending), twist: above * (most.Twist + twist),
	}
}

// turned adds the most that a cos(v) + b sin(v) come to, times a factor, from
// whatever bearing v.
func turned(most *frame.SectionForces, k float64, a, b *frame.SectionForces) {
	most.Axial += k * math.Sqrt(a.Axial*a.Axial+b.Axial*b.Axial)
	most.Twist += k * math.Sqrt(a.Twist*a.Twist+b.Twist*b.Twist)
	most.Shear[0] += k * longest(a.Shear, b.Shear)
	most.Moment[0] += k * longest(a.Moment, b.Moment)
}

// longest returns the longest of a cos(v) + b sin(v): half the greater axis of an
// ellipse, of which a and b are two half diameters.
func longest(a, b [2]float64) float64 {
	square := a[0]*a[0] + a[1]*a[1] + b[0]*b[0] + b[1]*b[1]
	area := a[0]*b[1] - a[1]*b[0]
	return math.Sqrt((square + math.Sqrt(max(0, square*square-4*area*area))) / 2)
}

// axialBound returns what no case of a group has a lower axial force than, given its
// columns.
func (c *cases) axialBound(g *group, columns []float64) float64 {
	sin, cos := 0.0, 1.0
	if c.slope > 0 && g.count > 1 {
		sin, cos = c.tilted(c.slope)
	}
	base, most := cos*columns[weightZ], sin*math.Hypot(columns[weightX], columns[weightY])
	switch g.kind {
	case inWind:
		if c.lifts {
			base += columns[c.uplift()]
		}
		blown := 0.0
		for k, share := range c.blows {
			blown = max(blown, share*math.Abs(columns[common+k]))
		}
		most += blown
	case pushed:
		k, at := 1.0, c.push+c.each*g.push
		if c.each > 2 {
			var down float64
			k, down = c.pushes[g.push].most()
			most += down * math.Abs(columns[at+2])
		}
		most += k * math.Hypot(columns[at], columns[at+1])
	}
	return base - most
}

// A greatest is the greatest of some values, not negative, and the first case that
// has it.
type greatest struct {
	value float64
	at    int // -1 for none
}

// tie is the share under which two values are the same but for rounding: well under
// what a bound allows for.
const tie = 1e-10

func (g *greatest) take(value float64, n int) {
	switch {
	case value > g.value*(1+tie):
		g.value, g.at = value, n
	case n < g.at && value >= g.value*(1-tie):
		g.value, g.at = max(value, g.value), n
	}
}

// A search is what is looked for at a cut across a post.
type search struct {
	allow   Allowable
	grow    float64  // of bending, by amplification
	elastic float64  // MPa, the elastic buckling stress behind allow
	member  greatest // ratio

	looked   bool // at an end of a post, what is fastened there included
	weld     bool
	round    bool     // a butt between two courses
	diameter float64  // mm, of the ring
	line     greatest // N/mm

	shell    bool
	out      [3]float64 // of the ball, along the beam's axes
	sign     float64    // 1 where what is carried acts on the ball, -1 where the ball carries it
	capacity shell.Capacity
	wall     greatest // use of the ball's wall
	load     shell.Load

	foot    bool
	bending greatest // N mm
}

// newSearch returns a search for a member worse than a ratio.
func newSearch(a Allowable, grow, ratio float64) search {
	none := greatest{-1, -1}
	return search{allow: a, grow: grow, member: greatest{ratio, -1}, line: none, wall: none, bending: none}
}

// take looks at a case.
func (s *search) take(n int, r *frame.SectionForces) {
	axial, shear, bending, twist := r.Resultants()
	s.member.take(s.allow.Ratio(axial, shear, s.grow*bending, twist), n)
	if s.weld {
		s.line.take(LineForce(s.diameter, axial, shear, s.grow*bending, twist), n)
	}
	if s.round {
		s.line.take(ButtForce(s.diameter, axial, shear, s.grow*bending, twist), n)
	}
	if s.shell {
		force := r.Axial*s.out[0] + r.Shear[0]*s.out[1] + r.Shear[1]*s.out[2]
		about := r.Twist*s.out[0] + r.Moment[0]*s.out[1] + r.Moment[1]*s.out[2]
		load := shell.Load{
			Force: s.sign * force, Shear: math.Sqrt(max(0, axial*axial+shear*shear-force*force)),
			Moment: s.grow * math.Sqrt(max(0, bending*bending+twist*twist-about*about)), Torque: math.Abs(about),
		}
		if s.wall.take(s.capacity.Use(load).Interaction, n); s.wall.at == n {
			s.load = load
		}
	}
	if s.foot {
		s.bending.take(bending, n)
	}
}

// ratioBound returns what Ratio does not go above within a bound.
func (a *Allowable) ratioBound(b *bound, grow float64) float64 {
	p, m := max(b.tension/a.Tension, b.compression/a.Compression), grow*b.bending/a.Bending+b.shear*a.ShearBends+b.twist*a.TwistBends
	v := b.shear/a.Shear + b.twist/a.Twist
	r := max(p/2+m, p+bendingShare*m, v)
	if b.twist > twistCounts*a.Twist {
		r = max(r, p+m+v*v)
	}
	return above * r
}

// passes reports whether no case within a bound is worse than what was found.
func (s *search) passes(b *bound, ratio float64) bool {
	side := math.Hypot(s.out[1], s.out[2])
	end := max(b.tension, b.compression)
	return ratio < s.member.value &&
		(!s.weld || above*LineForce(s.diameter, end, b.shear, s.grow*b.bending, b.twist) < s.line.value) &&
		(!s.round || above*ButtForce(s.diameter, end, b.shear, s.grow*b.bending, b.twist) < s.line.value) &&
		(!s.shell || above*s.wallBound(b, end, side) < s.wall.value) &&
		(!s.foot || b.bending < s.bending.value)
}

// wallBound returns what the use of a ball's wall does not go above within a bound, given
// the greatest axial force and how far the ball's radius is off the axis, as a sine.
func (s *search) wallBound(b *bound, end, side float64) float64 {
	c, along := &s.capacity, math.Abs(s.out[0])
	force := (end*along + b.shear*side) / min(c.Outward, c.Inward)
	moment := s.grow * math.Sqrt(sq(b.bending*along+b.twist*side)+sq(b.bending*side)) / c.Moment
	return max(force+moment, (b.shear+end*side)/c.Shear+(b.twist*along+b.bending*side)/c.Torque)
}

func sq(x float64) float64 { return x * x }

// find goes through all cases at a cut, given the columns. Pushes on what is not
// carried there are left out: it carries its weight alone then, which is a case of its
// own.
func (c *cases) find(s *search, columns []frame.SectionForces) { c.findIn(s, c.groups, columns) }

// findIn is find in the cases of some groups.
func (c *cases) findIn(s *search, groups []group, columns []frame.SectionForces) {
	const most = 16 // groups of which the worst is gone through first
	var bounds [most]bound
	var ratios [most]float64
	worst := 0
	for i := range groups[:min(len(groups), most)] {
		bounds[i] = c.bound(&groups[i], columns)
		ratios[i] = s.allow.ratioBound(&bounds[i], s.grow)
		if ratios[i] > ratios[worst] {
			worst = i
		}
	}
	c.try(s, &groups[worst], columns)
	for i := range groups {
		g := &groups[i]
		switch {
		case i == worst:
			continue
		case i < most:
			if s.passes(&bounds[i], ratios[i]) {
				continue
			}
		case c.carried(g, columns):
			b := c.bound(g, columns)
			if s.passes(&b, s.allow.ratioBound(&b, s.grow)) {
				continue
			}
		}
		c.try(s, g, columns)
	}
}

// carried reports whether a group has loads that are felt at a cut.
func (c *cases) carried(g *group, columns []frame.SectionForces) bool {
	if g.kind != pushed {
		return true
	}
	for k := range c.each {
		if felt(&columns[c.push+c.each*g.push+k]) {
			return true
		}
	}
	return false
}

// try looks at all cases of a group.
func (c *cases) try(s *search, g *group, columns []frame.SectionForces) {
	if !c.carried(g, columns) {
		return
	}
	for n := g.first; n < g.first+g.count; n++ {
		r := c.list[n].sum(columns)
		s.take(n, &r)
	}
}

// reaches reports whether any push of some groups is felt at a cut.
func (c *cases) reaches(groups []group, columns []frame.SectionForces) bool {
	for i := range groups {
		if g := &groups[i]; g.kind == pushed && c.carried(g, columns) {
			return true
		}
	}
	return false
}

// felt reports whether there is a force: a push is some N, the rest is rounding.
func felt(r *frame.SectionForces) bool {
	return r.Axial*r.Axial+r.Shear[0]*r.Shear[0]+r.Shear[1]*r.Shear[1] > 1e-12
}
