package eval

import (
	"math"

	"stabile/param/design"
)

// seamStep is by how much a seam is turned to look for a place that keeps apart.
const seamStep = math.Pi / 36

// turnSeams turns the seams of posts that say nothing of it, where that which faces away
// from the viewer would come near another seam or run under a joint: to the nearest
// bearing at the back that keeps apart, or else to that which does best.
func (e *evaluator) turnSeams() {
	var branches []*design.Part
	for _, p := range e.design.Parts {
		if p.Post != nil && p.Post.Ends[design.Foot].Meets == design.OnSide {
			branches = append(branches, p)
		}
	}
	for _, p := range e.design.Parts {
		if p.Post == nil {
			continue
		}
		if _, given := p.Props["seam"]; given || p.Post.Bought != nil {
			continue
		}
		first := seamBearing
		if p.Post.Ring != nil {
			first = p.Post.Seam // which keeps off those of its neighbours
		}
		best, most := p.Post.Seam, math.Inf(-1)
		for k := 0; k <= 18 && most < design.SeamsApart; k++ {
			for _, way := range [2]float64{1, -1} {
				seam := first + way*float64(k)*seamStep
				// Alike but for rounding, the nearer to the back is kept.
				if room, _ := p.SeamRoom(seam, branches); room > most+1e-6 {
					best, most = seam, room
					if room >= design.SeamsApart {
						break
					}
				}
			}
		}
		p.Post.Seam = best
		if p.Post.Ring != nil {
			p.Post.Seam += e.gapTurn(p) / 2 // it is the middle of the gap that lies so, not its edge
		}
	}
}

// gapTurn returns the angle in rad that the seam of a tube takes up in its flat: that of its
// root gap, less what the weld shrinks.
func (e *evaluator) gapTurn(p *design.Part) float64 {
	gap := p.Post.Gap
	if s := e.design.Shop; s != nil && s.Welding != nil {
		gap -= s.Welding.Shrink
	}
	return gap / (p.Post.Ends[design.Foot].Diameter/2 - p.Metal.Thickness/2)
}
