package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/param/design"
	"stabile/param/quantity"
)

// threads checks the two rings by which a ball is welded round a post. The post runs through and
// is checked without the ball's help; the ball hands on what acts on it, its weight with the wind
// or a push, and either ring alone is taken to carry all of it, along the post and across it.
// Loads that balance so are on the safe side in metal that yields before it breaks (lower bound
// theorem of plasticity).
func (s *Strength) threads(c *cases, in Input) {
	for _, it := range in.Items {
		p := it.Part
		if p.Ball == nil || p.Ball.Around == nil || p.Ball.Around.Post == nil || !walled(p) || p.Ball.Around.Metal == nil {
			continue
		}
		post := p.Ball.Around
		force, of := c.on(p, in, quantity.Gravity*it.Mass)
		r := post.Post.DiameterAt(p.Ball.Along) / 2
		half := math.Sqrt(max(0, p.Ball.Radius*p.Ball.Radius-r*r))
		for _, way := range [...]float64{-1, 1} {
			along := min(max(0, p.Ball.Along+way*half), post.Post.Length)
			d := post.Post.DiameterAt(along)
			sh := Shell{Ball: p, With: post, Where: check.Seat, out: r3.Scale(way, post.Post.Direction)}
			j := ringOn(p, d-post.Metal.Thickness, post.Metal)
			sh.take(j, j.Diameter > 0 && j.Diameter < 2*j.Radius)
			sh.Case, sh.Load.Force, sh.Load.Shear = of, -force, force
			if sh.Joint.Wall > 0 {
				sh.Use = sh.Capacity.Use(sh.Load)
				sh.Ratio = sh.Use.Interaction
			}
			s.Shells = append(s.Shells, sh)
			if way > 0 {
				continue
			}
			t := min(p.Metal.Thickness, post.Metal.Thickness)
			own, _ := Yield(p.Metal)
			other, _ := Yield(post.Metal)
			w := Weld{
				Part: p, With: post.Name, Where: check.Seat, Case: of, Throat: fillet * t, Line: LineForce(d, force, force, 0, 0),
				Allowed: min(ThroatStress(min(own, other)), fillerStress(p.Metal, post.Metal)),
			}
			w.Stress = w.Line / w.Throat
			w.Ratio = w.Stress / w.Allowed
			s.Welds = append(s.Welds, w)
		}
	}
}

// on returns the greatest force in N on a ball itself, its weight with the wind or a push on
// it, and its case.
func (c *cases) on(p *design.Part, in Input, weight float64) (force float64, of check.Case) {
	force, of = weight, check.Case{Kind: check.OwnWeight}
	take := func(level, down float64, k check.Case) {
		if f := math.Hypot(level, down); f > force {
			force, of = f, k
		}
	}
	if in.Wind != nil {
		for i := range in.Wind.Items {
			if in.Wind.Items[i].Part != p {
				continue
			}
			for k := range in.Wind.Bearings {
				b := &in.Wind.Bearings[k]
				take(b.Scale*b.Side[i], weight+in.Wind.Items[i].Uplift, check.Case{Kind: check.WindLoad, Bearing: b.From, Speed: c.speed, Least: b.Scale > 1, Sloping: c.slope > 0})
			}
		}
	}
	for i := range c.pushes {
		q := &c.pushes[i]
		if q.part != p {
			continue
		}
		if q.loads == nil {
			take(c.force, weight, check.Case{Kind: check.Push, Part: p.Name, Around: true})
			continue
		}
		level, down := q.most()
		take(level, weight+down, check.Case{Kind: check.PeopleLoad, Part: p.Name, Around: true})
	}
	return force, of
}
