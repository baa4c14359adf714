package sample

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/flat"
	"stabile/fab/stand"
	"stabile/param/design"
)

// Job works a design out without looking for collisions, so that the random
// designs of this package pass.
func Job(d *design.Design) *fab.Job {
	j := &fab.Job{Design: d, Parts: make([]fab.Part, len(d.Parts))}
	lo, hi := r3.Vec{X: math.Inf(1), Y: math.Inf(1)}, r3.Vec{X: math.Inf(-1), Y: math.Inf(-1), Z: 0}
	reach := func(q r3.Vec, r float64) {
		lo = r3.Vec{X: min(lo.X, q.X-r), Y: min(lo.Y, q.Y-r)}
		hi = r3.Vec{X: max(hi.X, q.X+r), Y: max(hi.Y, q.Y+r), Z: max(hi.Z, q.Z+r)}
	}
	var moment r3.Vec
	for i, p := range d.Parts {
		made, _ := flat.Develop(p)
		j.Parts[i] = fab.Part{Part: p, Mass: made.Mass, Low: made.Mass * 0.95, High: made.Mass * 1.05, CG: made.CG, Blanks: made.Blanks, Rims: made.Rims}
		j.Findings = append(j.Findings, made.Findings...)
		j.Mass.Total += made.Mass
		moment = r3.Add(moment, r3.Scale(made.Mass, made.CG))
		switch {
		case p.Base != nil:
			reach(r3.Vec{X: p.Base.Width / 2, Y: p.Base.Depth / 2}, 0)
			reach(r3.Vec{X: -p.Base.Width / 2, Y: -p.Base.Depth / 2}, 0)
		case p.Ball != nil:
			reach(p.Ball.Center, p.Ball.Radius)
		}
		for _, rim := range made.Rims {
			for _, q := range rim {
				reach(q, 0)
			}
		}
	}
	j.Mass.Low, j.Mass.High = 0.95*j.Mass.Total, 1.05*j.Mass.Total
	if j.Mass.Total > 0 {
		j.CG = r3.Scale(1/j.Mass.Total, moment)
	}
	j.Size = fab.Size{Width: hi.X - lo.X, Depth: hi.Y - lo.Y, Height: hi.Z, Min: lo, Max: hi}
	foot := stand.Plate(d.Base().Base)
	t := stand.Tip(foot, stand.Weight{Mass: j.Mass.Total, CG: j.CG, Top: j.Size.Height}, d.Site, stand.DefaultTarget)
	j.Tipping = &t
	j.Findings = append(j.Findings, t.Findings(stand.Weight{Mass: j.Mass.Total, CG: j.CG, Top: j.Size.Height}, d.Site, d.Units)...)
	return j
}
