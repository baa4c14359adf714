package fab

import (
	"errors"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/finding"
	"stabile/fab/frame"
	"stabile/fab/stand"
	"stabile/fab/strength"
)

// CheckStrength works out the strength, sway and vibration of the job, if that
// has not been done, and brings its findings in: a part over its limit or free
// to move is a fault that names it. It is kept out of Build because it takes some
// times longer than all the rest, which a choice among many variations need not
// bear; a report or a drawing of one design is made after it.
func (j *Job) CheckStrength() {
	if !j.tried || j.still {
		j.still = false
		j.reckon()
	}
	if j.Strength != nil && j.Strength.Worst > 1 {
		said, err := j.Strength.Advise(j.strengthInput(), j.Design.Units)
		if err != nil {
			said = []finding.Finding{{Level: finding.Fault, Text: err.Error()}}
		}
		j.strong = said
	}
	j.find()
}

// CheckStatics is CheckStrength without what takes longest of it: how the whole
// swings by itself, which makes nothing fail, and what would help a part that does.
// The frequency is still there for who asks Result for it.
func (j *Job) CheckStatics() {
	if !j.tried {
		j.still = true
		j.reckon()
	}
	j.find()
}

// reckon works out strength and what there is to say of it, but not what would
// help, for which the design is worked out anew many times.
func (j *Job) reckon() {
	j.tried = true
	in := j.strengthInput()
	in.Still = j.still
	s, err := strength.Check(in)
	var free *frame.MechanismError
	switch {
	case errors.As(err, &free) && free.Part != nil:
		j.strong = []finding.Finding{{Level: finding.Fault, Part: free.Part.Name, Text: "is free to move: " + free.Why + "; strength was not worked out"}}
		return
	case err != nil:
		j.strong = []finding.Finding{{Level: finding.Fault, Text: err.Error() + "; it was not worked out"}}
		return
	}
	j.Strength = s
	j.strong = s.Findings(in, j.Design.Units)
}

// strengthInput gathers what strength is worked out from. The weld metal is
// counted with the part whose weld it is.
func (j *Job) strengthInput() strength.Input {
	in := strength.Input{Design: j.Design, Wind: j.Wind, Footprint: j.Tipping.Footprint, Target: j.Tipping.Target}
	for i := range j.Parts {
		p := &j.Parts[i]
		it := frame.Item{Part: p.Part, Mass: p.Mass + p.welded.mass}
		it.CG = centroid(r3.Add(r3.Scale(p.Mass, p.CG), r3.Scale(p.welded.mass, p.welded.at)), it.Mass)
		in.Items = append(in.Items, it)
		if p.Base != nil && p.Base.Anchors > 0 {
			in.Anchors = append(in.Anchors, anchors(p)...)
			in.AnchorHole = p.Base.AnchorDiameter
		}
		if p.Base != nil && len(in.Footprint) > 0 {
			middle := stand.Middle(in.Footprint)
			in.Ballast, in.BallastAt = j.Mass.Ballast, r3.Vec{X: middle.X, Y: middle.Y, Z: p.Base.Top}
		}
	}
	return in
}

// anchors returns the middles of the anchor holes of a base.
func anchors(p *Part) []r2.Vec {
	var list []r2.Vec
	for i := range p.Blanks {
		for _, h := range p.Blanks[i].Holes {
			list = append(list, h.Center)
		}
	}
	return list
}
