package strength

import (
	"fmt"
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/ground"
	"stabile/param/design"
	"stabile/param/quantity"
)

// A Sunk is a post that is set in concrete in the ground, in the case that uses most of what
// the ground holds. The weight counts in full and what is not weight with the factor of
// service, since the limits are of allowable stresses. A twist about the upright is left out.
type Sunk struct {
	Part    *design.Part
	Unknown bool // what the ground holds is not known
	Case    check.Case
	Use     float64 // 1 the limit
	Depth   float64 // mm, that the worst case needs
	Force   float64 // N, level, of that case
	Moment  float64 // N mm, at the ground
	Bearing float64 // share of what the ground carries under the concrete
}

const sunkSource = "IBC 1807.3.2.1, not held at grade, and 1806.2"

// sunk checks each post that is set in concrete.
func (s *Strength) sunk(c *cases, in Input) error {
	soil, f := soilOf(in), in.factors()
	for i := range c.frame.Posts {
		part := c.frame.Posts[i].Part
		post := part.Post
		if !(post.Sunk > 0) {
			continue
		}
		out := Sunk{Part: part, Unknown: !(soil.Lateral > 0)}
		if out.Unknown {
			s.Sunk = append(s.Sunk, out)
			continue
		}
		columns := c.underFoot(&c.frame.Posts[i])
		set := ground.Set{Width: post.Pier}
		area := math.Pi / 4 * post.Pier * post.Pier
		own := area * post.Sunk * 1e-9 * ground.ConcreteDensity * quantity.Gravity
		at := post.Ends[design.Foot].At
		rest := columns[weightZ]
		bend := r3.Sub(rest.Moment, r3.Cross(at, rest.Force))
		for n := range c.list {
			dead := c.list[n].terms[0].share
			w := c.foot(columns, n, at)
			factored := func(all, weight r3.Vec) r3.Vec {
				weight = r3.Scale(dead, weight)
				return r3.Add(weight, r3.Scale(f.service, r3.Sub(all, weight)))
			}
			force, moment := factored(w.Force, rest.Force), factored(w.Moment, bend)
			p, m := math.Hypot(force.X, force.Y), math.Hypot(moment.X, moment.Y)
			// A moment with next to no force is that force very high up.
			const tall = 1e5 // mm
			p = max(p, m/tall)
			depth := 0.0
			if p > 0 {
				var err error
				if depth, err = set.Depth(soil, p, m/p); err != nil {
					return fmt.Errorf("%s: %w", part.Name, err)
				}
			}
			const kPa = 1e3
			bearing := max(0, force.Z+own) / area * kPa / soil.Bearing
			if use := max(depth/post.Sunk, bearing); use > out.Use {
				out.Use, out.Case, out.Depth, out.Force, out.Moment, out.Bearing = use, c.load(n), depth, p, m, bearing
			}
		}
		s.Sunk = append(s.Sunk, out)
	}
	return nil
}

// sunkChecks adds the checks of posts in concrete.
func (c *checks) sunkChecks() {
	for i := range c.s.Sunk {
		p := &c.s.Sunk[i]
		k := check.Check{ID: check.Footing, Part: p.Part.Name, Limit: 1, Source: sunkSource}
		if p.Unknown {
			k.Verdict, k.Why = check.Undecided, SetUnknown{}
			c.add(k)
			continue
		}
		k.Found, k.Case = p.Use, p.Case
		c.judge(k)
	}
}

// sunkFindings adds what there is to say of posts in concrete.
func (s *Strength) sunkFindings(f *found) {
	var parts []string
	for i := range s.Sunk {
		p := &s.Sunk[i]
		parts = append(parts, p.Part.Name)
		if p.Use > 1 {
			f.add(finding.Danger, check.Footing, SetFails{Use: p.Use, Case: p.Case, Depth: p.Depth, Sinks: p.Bearing > p.Depth/p.Part.Post.Sunk}, p.Part.Name)
		}
	}
	if len(parts) > 0 {
		f.add(finding.Note, check.Footing, SetInGround{}, parts...)
	}
}

// SetUnknown: what the ground about a post that is set in concrete holds is not given.
type SetUnknown struct{}

// SetFails: the ground does not hold a post that is set in concrete.
type SetFails struct {
	Use   float64
	Case  check.Case
	Depth float64 // mm, that is needed
	Sinks bool    // it is the weight that is too much
}

// SetInGround is how a post is set in concrete: common practice.
type SetInGround struct{}

// Fact marks the facts.
func (SetUnknown) Fact()  {}
func (SetFails) Fact()    {}
func (SetInGround) Fact() {}
