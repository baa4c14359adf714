package frame

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// Own returns about how often, in Hz, a post swings on its own foot with all that it
// carries, while what it stands on keeps still; 0 where nothing gives. The cases are
// those in which all weights are laid along x and along y, Loads.Gravity with those
// directions. Of the items, carried marks the post and all that stands on it.
//
// It is Rayleigh's quotient of the way in which it gives under its own weight laid
// sideways, g sum(m u) / sum(m u2), the lesser of the two directions; masses stand
// at the middles of beams. For a clamped tube it comes 3 % high.
func (s *Solution) Own(p *design.Part, carried []bool, cases [2]int) float64 {
	f := s.Loads.frame
	i, ok := f.post[p]
	if !ok {
		return 0
	}
	foot := &f.Bodies[f.Posts[i].Stations[0].Body]
	least := math.Inf(1)
	for k, along := range [2]r3.Vec{{X: 1}, {Y: 1}} {
		c := cases[k]
		u0, t0 := s.motion(f.Posts[i].Stations[0].Body, c, r3.Vec{})
		work, energy := 0.0, 0.0
		add := func(mass float64, u, at r3.Vec) {
			u = r3.Sub(r3.Sub(u, u0), r3.Cross(t0, r3.Sub(at, foot.At)))
			work += mass * r3.Dot(u, along)
			energy += mass * r3.Norm2(u)
		}
		for n := range f.Posts {
			if post := &f.Posts[n]; carried[post.item] {
				for b := post.First; b < post.First+post.Beams(); b++ {
					beam := &f.Beams[b]
					ua, _ := s.motion(beam.A, c, beam.armA)
					ub, _ := s.motion(beam.B, c, beam.armB)
					add(beam.Mass, r3.Scale(0.5, r3.Add(ua, ub)), r3.Scale(0.5, r3.Add(beam.From, beam.To)))
				}
			}
		}
		for _, part := range f.parts {
			if it := &f.Items[part.item]; carried[part.item] {
				u, _ := s.motion(part.body, c, part.arm)
				add(it.Mass, u, it.CG)
			}
		}
		if work > 0 && energy > 0 {
			// N/mm over kg is 1000 /s2.
			least = min(least, gravity*1e3*work/energy)
		}
	}
	if math.IsInf(least, 1) {
		return 0
	}
	return math.Sqrt(least) / (2 * math.Pi)
}
