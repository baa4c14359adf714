package fab

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/assembly"
	"stabile/fab/flat"
	"stabile/param/design"
)

// join adds the joints in which balls rest, and rings lie, to what the ends of posts say.
func (j *Job) join() {
	for _, joint := range j.Design.Joints {
		if joint.Post != nil || joint.Kind == design.ThreadJoint || joint.A == nil || joint.B == nil {
			continue
		}
		ball, other := joint.B, joint.A
		if ball.Ball == nil {
			ball, other = other, ball
		}
		if ball.Ball == nil {
			j.lay(joint.A, joint.B)
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

// lay adds the welds on both sides of the line in which a tube of a ring lies on the base.
func (j *Job) lay(a, b *design.Part) {
	for i := range j.Parts {
		p, other := &j.Parts[i], a
		if p.Part == a {
			other = b
		} else if p.Part != b {
			continue
		}
		if p.Post != nil && p.Post.Lies {
			line := p.Post.LyingLine()
			p.Welds = append(p.Welds, Weld{With: other.Name, At: "lies", Length: 2 * r3.Norm(r3.Sub(line[1], line[0]))})
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
	if b.IsEgg() {
		return eggRest(p)
	}
	t := min(p.Metal.Thickness, b.Radius)
	return 2 * math.Pi * math.Sqrt(t*(2*b.Radius-t))
}

// eggRest returns the length of the weld round an egg that rests on a plate: about where the gap
// under it has grown to the thickness of its sheet, an ellipse as its outside is bent there.
func eggRest(p *design.Part) float64 {
	b := p.Ball
	up, out := b.Pole.Z, r3.Vec{Z: -1}
	latitude := math.Asin(max(-1, min(1, -up)))
	along, across := b.Profile().Bends(latitude)
	t := min(p.Metal.Thickness, b.Reach(out))
	// Its half axes, by the radii; Ramanujan's length of an ellipse.
	m, n := math.Sqrt(t*(2*along-t)), math.Sqrt(t*(2*across-t))
	h := (m - n) * (m - n) / ((m + n) * (m + n))
	return math.Pi * (m + n) * (1 + 3*h/(10+math.Sqrt(4-3*h)))
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
			if b.Block.Given() {
				j.Mass.Block += b.Block.Mass()
			}
		}
		if p.Metal == nil {
			continue
		}
		t, perArea := p.Metal.Thickness, p.Metal.Density*1e-9 // kg per mm of a bead, for each mm2 of its section
		seam := assembly.ButtBead(p.Sheet().Thickness) * perArea * p.Seam
		j.Mass.Weld += seam
		add(seam, p.CG)
		of := r3.Scale(seam, p.CG)
		p.WeldMetal.Mass = seam
		for _, w := range p.Welds {
			bead := assembly.FilletBead(t) * perArea * w.Length
			j.Mass.Weld += bead
			add(bead, p.at(w))
			of = r3.Add(of, r3.Scale(bead, p.at(w)))
			p.WeldMetal.Mass += bead
		}
		p.WeldMetal.CG = centroid(of, p.WeldMetal.Mass)
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
	case p.Post != nil && w.At == "lies":
		line := p.Post.LyingLine()
		return r3.Scale(0.5, r3.Add(line[0], line[1]))
	case p.Post != nil:
		return p.Post.Ends[design.Head].At
	case p.Ball != nil && w.At == "thread":
		return p.Ball.Center
	case p.Ball != nil && w.At == "seat" && p.Ball.On != nil && p.Ball.On.Ball != nil:
		center, _, _ := flat.SeatCircle(p.Ball.On.Ball, p.Ball)
		return center
	case p.Ball != nil:
		return p.Ball.Bottom()
	}
	return p.CG
}
