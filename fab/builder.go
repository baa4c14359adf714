package fab

import (
	"errors"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/fab/finding"
	"stabile/fab/frame"
	"stabile/fab/solid"
	"stabile/fab/stand"
	"stabile/fab/strength"
	"stabile/param/design"
)

// A builder finishes a job: what is wanted, and what requirements and questions
// turn out to read.
type builder struct {
	*Job
	want   Want
	made   []finding.Finding // of the making of the parts
	strong []finding.Finding // of strength

	required, asked []reading // by the requirements and the questions

	making []check.Check // of the parts
	shop   *Plan         // with checks and findings, whether or not the job is to have it

	bodies  []*solid.Body     // of the parts
	trapped []finding.Finding // of gaps that trap
	sited   []LoadFails       // what the piece does not carry of its site

	checked bool // strength was worked out, with modes where they are wanted, for good or ill
	modes   bool // so were the modes
}

// finish works out the rest of the job.
func (b *builder) finish() {
	if b.want&(WithModes|WithCures) != 0 {
		b.want |= WithStrength
	}
	if b.want&WithStrength != 0 {
		b.strength(b.want&WithModes != 0)
	}
	b.plan(b.want&WithPlan != 0)
	b.require()
	if b.want&WithMarks != 0 {
		b.Cuts = b.cuts()
	}
	b.check()
	b.decide()
	b.find()
	b.judge()
}

// strength works out the strength of the job, if that has not been done, with how
// the whole vibrates where that is wanted. It takes several times longer than all
// the rest, and what would help a post over its limit longer still.
func (b *builder) strength(modes bool) {
	if b.checked && (b.modes || !modes) {
		return
	}
	b.checked, b.modes = true, modes
	in := b.strengthInput()
	in.Still, in.PlateGives = !modes, modes
	var s *strength.Strength
	var err error
	if modes {
		if s, err = strength.Swing(in); err == nil {
			err = b.gusts(s)
			in = b.strengthInput()
			in.PlateGives, in.Before = true, s
		}
	}
	if err == nil {
		s, err = strength.Check(in)
	}
	var free *frame.MechanismError
	switch {
	case errors.As(err, &free) && free.Part != nil:
		b.strong = failed(strength.FreeToMove{}, free.Part.Name)
		return
	case err != nil:
		b.strong = failed(strength.Failed{Reason: err.Error()})
		return
	}
	b.Strength = s
	b.strong = s.Findings(in)
	if b.want&WithCures != 0 && s.Fails() {
		if b.strong, err = s.Advise(in); err != nil {
			b.strong = failed(strength.Failed{Reason: err.Error()})
		}
	}
}

// failed returns the finding that strength could not be worked out.
func failed(fact finding.Fact, parts ...string) []finding.Finding {
	return []finding.Finding{{Level: finding.Danger, Concern: finding.Life, Parts: parts, Check: string(check.Post), Fact: fact}}
}

// strengthInput gathers what strength is worked out from. The weld metal is
// counted with the part whose weld it is.
func (j *Job) strengthInput() strength.Input {
	in := strength.Input{Design: j.Design, Ties: j.Ties, Wind: j.Wind, Footprint: j.Tipping.Footprint, Target: j.Tipping.Target}
	if j.Tipping.Loaded && j.Tipping.Factor > 0 {
		in.Tips = 1 / j.Tipping.Factor
	}
	for i := range j.Parts {
		p := &j.Parts[i]
		it := frame.Item{Part: p.Part, Mass: p.Mass + p.WeldMetal.Mass, Rounds: p.Rounds, Weak: weak(p.Part)}
		it.CG = centroid(r3.Add(r3.Scale(p.Mass, p.CG), r3.Scale(p.WeldMetal.Mass, p.WeldMetal.CG)), it.Mass)
		in.Items = append(in.Items, it)
		switch {
		case p.Base == nil:
			continue
		case p.Base.Pad:
			in.Pads = append(in.Pads, strength.PadInput{Part: p.Part, Outline: stand.Plate(p.Base), Anchors: anchors(p)})
			continue
		}
		if p.Base.Anchors > 0 {
			in.Anchors = append(in.Anchors, anchors(p)...)
			in.AnchorHole = p.Base.AnchorDiameter
		}
		if p.Base.Block.Given() || p.Base.OnWall() {
			in.Footprint = stand.Plate(p.Base) // of the plate on the block, or on the wall in its own frame
		}
		if p.Base.OnWall() {
			in.Target = 1 // there is no factor against tipping for the anchors to reach
		}
		if len(in.Footprint) > 0 {
			middle := design.Centroid(in.Footprint)
			in.Ballast, in.BallastAt = j.Mass.Ballast, r3.Vec{X: middle.X, Y: middle.Y, Z: p.Base.Top}
		}
	}
	return in
}

// weak returns the stretches of a post that holes weaken.
func weak(p *design.Part) (list []frame.Weak) {
	if p.Post == nil || p.Metal == nil {
		return nil
	}
	for _, h := range p.Holes {
		net, ok := strength.NetAt(p, h.Along)
		if h.Disc || !ok {
			continue
		}
		whole := frame.Tube(p.Post.DiameterAt(h.Along), p.Metal.Thickness)
		reach := h.Extent(p.Post.Direction)
		w := frame.Weak{From: max(0, h.Along-reach), To: min(p.Post.Length, h.Along+reach), Share: min(1, net.Inertia/whole.Inertia)}
		if !slices.Contains(list, w) {
			list = append(list, w)
		}
	}
	return list
}

// anchors returns the middles of the anchor holes of a base.
func anchors(p *Part) []r2.Vec {
	var list []r2.Vec
	for i := range p.Blanks {
		for _, h := range p.Blanks[i].Holes {
			if h.Name == "" {
				list = append(list, r2.Add(p.Base.At, h.Center))
			}
		}
	}
	return list
}
