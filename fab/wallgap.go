package fab

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/people"
	"stabile/param/design"
)

// WallGap: between a part and the wall that the piece is on is room that holds a head, a neck
// or a finger, if it is got in there; whether the gap is closed enough for that is not worked out.
type WallGap struct {
	Trap   people.Trap
	Width  float64 // mm
	Height float64 // mm above the floor
}

// Fact marks the fact.
func (WallGap) Fact() {}

// wallGaps adds a check for each part that leaves such a gap to the wall, and reports whether
// there are any. None of them is decided: the wall closes a gap on one side alone.
func (b *builder) wallGaps() (found bool) {
	if b.Design.Wall() == nil {
		return false
	}
	for _, p := range b.Design.Parts {
		if p.Base != nil {
			continue
		}
		g, ok := toWall(p)
		if !ok {
			continue
		}
		found = true
		b.Checks = append(b.Checks, check.Check{
			ID: check.Entrapment, Part: p.Name, Verdict: check.Undecided, Why: g, Source: trapSource, Concern: finding.Life,
		})
	}
	return found
}

// toWall returns the lowest place in which the gap between a part and the wall y = 0 is of a
// width that traps, as if it were closed all round. A post that comes out of the wall leaves
// one that opens away from there, upward or to a side.
func toWall(p *design.Part) (gap WallGap, ok bool) {
	const stations = 60
	gap.Height = math.Inf(1)
	try := func(g people.Gap) {
		if trap := g.Traps(); trap != people.NoTrap && g.Height < gap.Height {
			gap, ok = WallGap{trap, g.Width, g.Height}, true
		}
	}
	from, to, radius := axis(p)
	if p.Ball != nil {
		radius = p.Ball.Reach(r3.Vec{Y: 1})
	}
	if p.Post != nil {
		for i := range p.Post.Ends {
			if p.Post.Ends[i].Meets != design.OnPlate {
				continue
			}
			u := p.Post.Inward(i)
			at := p.Post.Ends[i].At
			if u.Z > 0 {
				try(people.Gap{Vee: true, Angle: math.Asin(math.Min(1, -u.Y)), Width: -u.Y*p.Post.Length - radius, Height: at.Z})
			}
			return gap, ok
		}
	}
	for k := range stations + 1 {
		at := r3.Add(from, r3.Scale(float64(k)/stations, r3.Sub(to, from)))
		if clear := -at.Y - radius; clear > 0 {
			try(people.Gap{Width: clear, Height: at.Z, Bounded: true})
		}
	}
	return gap, ok
}
