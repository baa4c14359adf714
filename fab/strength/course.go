package strength

import (
	"math"

	"stabile/fab/check"
	"stabile/fab/frame"
	"stabile/param/design"
)

// A round is the ring of weld between two courses of a post.
type round struct {
	station int
	look    search
}

// girdle takes note of the stations at which the courses of a post are welded round.
func (p *checked) girdle(items []frame.Item) {
	for _, it := range items {
		if it.Part != p.post.Part {
			continue
		}
		for _, along := range it.Rounds {
			best := 1
			for k := 1; k < len(p.members)-1; k++ {
				if math.Abs(p.members[k].Along-along) < math.Abs(p.members[best].Along-along) {
					best = k
				}
			}
			if p.round(best) == nil && best < len(p.members)-1 {
				p.rounds = append(p.rounds, round{station: best})
			}
		}
	}
}

// round returns the search for the ring of weld at a station; nil where there is none.
func (p *checked) round(station int) *search {
	for i := range p.rounds {
		if p.rounds[i].station == station {
			return &p.rounds[i].look
		}
	}
	return nil
}

// butt makes a search look at a butt weld round a post as well, of a mean diameter, for
// more than what was found in other windows.
func (s *search) butt(before *search, diameter float64) {
	if before.looked {
		s.line = before.line
	}
	s.looked, s.round, s.diameter = true, true, diameter
}

// shearInButt is by how much shear counts for more than what pulls or pushes square to a
// butt weld: von Mises.
var shearInButt = math.Sqrt(3)

// ButtForce returns the force in N/mm on a ring of butt weld of the given mean diameter,
// as LineForce has it, but with shear counted by von Mises as what pulls square to the
// weld.
func ButtForce(d, axial, shear, bending, twist float64) float64 {
	across := math.Abs(axial)/(math.Pi*d) + bending/(math.Pi*d*d/4)
	along := shear/(math.Pi*d) + twist/(math.Pi*d*d/2)
	return math.Hypot(across, shearInButt*along)
}

// ButtStress returns the stress in MPa that is allowed in a butt weld through the whole of
// the sheet: that of the base metal, AISC 360 Table J2.5, Fy over 1.67, where the filler
// carries as much.
func ButtStress(m *design.Metal) float64 {
	yield, _ := Yield(m)
	return min(yield/omega, shearInButt*fillerStress(m, nil))
}

// courses takes down the worst ring by which the courses of a post are welded.
func (s *Strength) courses(c *cases, p *checked) {
	var worst *round
	for i := range p.rounds {
		if r := &p.rounds[i]; r.look.looked && (worst == nil || r.look.line.value > worst.look.line.value) {
			worst = r
		}
	}
	if worst == nil || worst.look.line.at < 0 {
		return
	}
	part := p.post.Part
	w := Weld{
		Part: part, Where: check.Round, Along: p.post.Stations[worst.station].Along, Case: c.load(worst.look.line.at),
		Throat: part.Metal.Thickness, Allowed: ButtStress(part.Metal), Line: worst.look.line.value,
	}
	w.Stress = w.Line / w.Throat
	w.Ratio = w.Stress / w.Allowed
	s.Welds = append(s.Welds, w)
}
