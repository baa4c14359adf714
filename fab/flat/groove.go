package flat

import (
	"math"

	"stabile/param/design"
)

// leastGroove is the narrowest groove round a cap, in mm, that is reported: as far as edges may stand off
// each other.
const leastGroove = 0.1

// groove returns the groove along the seams of a ball whose edges, cut square, lean by an
// angle in rad from the plane between two. At the outside each is the thickness times its
// sine short of the plane where their inner corners meet, and half of that where the
// middles do, which the inner corners then run over.
func groove(p *design.Part, lean float64) Groove {
	sin, cos := math.Sincos(lean)
	t := p.Metal.Thickness
	if p.Ball.EdgeMid {
		return Groove{Top: t * sin, File: t / 2 * sin / cos}
	}
	return Groove{Top: 2 * t * sin}
}

// capGroove returns the groove round a cap, and reports whether it is wide enough to report.
// A flat cap stands upright in ends that lean out. A dished one with straight sides is cut
// back so that the lobes clear its corners, and leaves the middles of its sides open
// through the whole sheet.
func (s *segmented) capGroove(p *design.Part, pole int) (g Groove, ok bool) {
	sin, cos := math.Sincos(s.Latitude(s.End[pole]))
	t := p.Metal.Thickness
	switch {
	case s.CapFlat[pole] && p.Ball.EdgeMid:
		g = Groove{Top: t / 2 * cos, File: t / 2 * cos}
	case s.CapFlat[pole]:
		g = Groove{Top: t * cos}
	case p.Ball.Straight && !p.Ball.EdgeMid:
		turn := math.Sin(math.Pi / float64(p.Ball.Gores))
		g = Groove{Top: t * turn * turn * sin * cos}
	}
	return g, g.Top >= leastGroove
}

// open returns the root gap of the part's seams of a kind, and how much wider they are at
// the outside, in mm.
func (d *developer) open(k SeamKind) (root, top float64) {
	p := d.part
	if p.Post != nil {
		if k == TubeSeam || k == CourseSeam {
			root = p.Post.Gap
		}
		return root, 0
	}
	if p.Ball == nil {
		return 0, 0
	}
	b := p.Ball
	switch {
	case k == GoreSeam && b.Build == design.RolledGores:
		top = groove(p, math.Pi/float64(b.Gores)).Top
	case k == RingEdge || k == PoleEdge:
		top = groove(p, b.RingTurn()/2).Top
	case k == CapEdge:
		s, _ := segment(p)
		for _, pole := range poles(b) {
			if g, ok := s.capGroove(p, pole); ok {
				top = max(top, g.Top)
			}
		}
	}
	return b.Gap, top
}
