package fab

import (
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/assembly"
	"stabile/fab/flat"
	"stabile/param/design"
	"stabile/param/quantity"
)

// join adds the joints in which balls rest to what their ends tell of posts.
func (j *Job) join() {
	for _, joint := range j.Design.Joints {
		if joint.Post != nil || joint.Kind == design.ThreadJoint || joint.A == nil || joint.B == nil {
			continue
		}
		ball, other := joint.B, joint.A
		if ball.Ball == nil {
			ball, other = other, ball
		}
		if ball.Ball == nil || isFeet(other) {
			continue
		}
		for i := range j.Parts {
			if p := &j.Parts[i]; p.Part == ball {
				at := "rest"
				if other.Ball != nil {
					at = "seat"
				}
				p.Welds = append(p.Welds, Weld{With: other.Name, At: at, Length: restLength(ball, other)})
			}
		}
	}
}

// restLength returns the length, in mm, of the weld round a ball that rests on
// a plate or on another ball.
func restLength(p, other *design.Part) float64 {
	b := p.Ball
	if c := other.Ball; c != nil {
		_, radius, _ := flat.SeatCircle(b, c)
		return 2 * math.Pi * radius
	}
	if p.Metal == nil {
		return 0
	}
	// The gap under a sphere at q from where it touches is R - sqrt(R2 - q2).
	t := min(p.Metal.Thickness, b.Radius)
	return 2 * math.Pi * math.Sqrt(t*(2*b.Radius-t))
}

// weigh adds up parts and weld metal. The metal of a part's own seams lies
// about its centre of gravity, that of a joint where the two parts meet.
func (j *Job) weigh() {
	var moment r3.Vec
	add := func(mass float64, at r3.Vec) { moment = r3.Add(moment, r3.Scale(mass, at)) }
	for i := range j.Parts {
		p := &j.Parts[i]
		j.Mass.Total += p.Mass
		j.Mass.Low += p.Low
		j.Mass.High += p.High
		add(p.Mass, p.CG)
		if b := p.Base; b != nil {
			j.Mass.Ballast += b.Ballast
		}
		if p.Metal == nil {
			continue
		}
		t, perArea := p.Metal.Thickness, p.Metal.Density*1e-9 // kg per mm of a bead, for each mm2 of its section
		seam := assembly.ButtBead(t) * perArea * p.Seam
		j.Mass.Weld += seam
		add(seam, p.CG)
		of := r3.Scale(seam, p.CG)
		p.welded.mass = seam
		for _, w := range p.Welds {
			bead := assembly.FilletBead(t) * perArea * w.Length
			j.Mass.Weld += bead
			add(bead, p.at(w))
			of = r3.Add(of, r3.Scale(bead, p.at(w)))
			p.welded.mass += bead
		}
		p.welded.at = centroid(of, p.welded.mass)
	}
	j.Mass.Total += j.Mass.Weld
	j.Mass.Low += j.Mass.Weld
	j.Mass.High += j.Mass.Weld
	j.CG = centroid(moment, j.Mass.Total)
}

// at returns where a weld of the part is, at the middle of its ring.
func (p *Part) at(w Weld) r3.Vec {
	switch {
	case p.Post != nil && w.At == "foot":
		return p.Post.Ends[design.Foot].At
	case p.Post != nil:
		return p.Post.Ends[design.Head].At
	case p.Ball != nil && w.At == "thread":
		return p.Ball.Center
	case p.Ball != nil && w.At == "seat" && p.Ball.On != nil && p.Ball.On.Ball != nil:
		center, _, _ := flat.SeatCircle(p.Ball.On.Ball, p.Ball)
		return center
	case p.Ball != nil:
		return r3.Sub(p.Ball.Center, r3.Vec{Z: p.Ball.Radius})
	}
	return p.CG
}

// Result returns a result by the name that requirements know it by; it is a
// design.Results. Strength is worked out for it, if that has not been done.
func (j *Job) Result(name string) (q quantity.Quantity, reason string, ok bool) {
	length := func(mm float64) (quantity.Quantity, string, bool) {
		return quantity.Quantity{Number: mm, Dim: quantity.Length}, "", true
	}
	mass := func(kg float64) (quantity.Quantity, string, bool) {
		return quantity.Quantity{Number: kg, Dim: quantity.Mass}, "", true
	}
	switch name {
	case "weight":
		return mass(j.Mass.Total)
	case "height":
		return length(j.Size.Height)
	case "width":
		return length(j.Size.Width)
	case "depth":
		return length(j.Size.Depth)
	case "tipping":
		switch {
		case len(j.Tipping.Edges) == 0:
			return q, "there is no footprint", false
		case !j.Tipping.Loaded:
			return q, "the design gives no push, no slope and no wind of its site", false
		}
		return quantity.Quantity{Number: j.Tipping.Factor}, "", true
	case "wind":
		if j.Wind == nil {
			return q, "the design gives no wind of its site", false
		}
		return quantity.Quantity{Number: j.Wind.Greatest() * 1e3, Dim: quantity.Force}, "", true
	case "sheets":
		return j.sheetsResult()
	case "cost":
		return j.costResult()
	case "strength", "frequency":
		if !j.tried || j.still && name == "frequency" {
			j.still = false
			j.reckon()
		}
		switch {
		case j.Strength == nil:
			return q, "strength could not be worked out", false
		case name == "strength" && len(j.Strength.Members) == 0:
			return q, "there is no post to check", false
		case j.Design.Base() != nil && j.Design.Base().Base.Shape == design.Feet:
			return q, "the feet only stand on the ground, and what is known is of feet held fast in it", false
		case name == "strength":
			return quantity.Quantity{Number: j.Strength.Worst}, "", true
		case len(j.Strength.Modes) == 0:
			return q, "nothing stands that could sway", false
		case !j.Strength.Complete:
			return q, "a lower frequency may have been missed", false
		}
		return quantity.Quantity{Number: j.Strength.Modes[0].Frequency, Dim: quantity.Rate}, "", true
	}
	if part, ok := strings.CutSuffix(name, ".weight"); ok {
		for i := range j.Parts {
			if j.Parts[i].Name == part {
				return mass(j.Parts[i].Mass)
			}
		}
	}
	return q, "'" + name + "' is not worked out in this version", false
}
