package clash

import (
	"math"
	"strings"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
	"stabile/param/source"
)

// A maker builds designs by hand, part on part, by the rules of placement. The
// text that it makes up gives every part a place of its own.
type maker struct {
	design.Design
	file *source.File
}

func newMaker() *maker {
	m := &maker{file: source.NewFile("made.stabile", strings.Repeat("part here\n", 5000))}
	m.Units = quantity.Millimetre
	return m
}

func (m *maker) add(p *design.Part) *design.Part {
	n := len(m.Parts)
	p.Span = source.Span{File: m.file, From: 10 * n, To: 10*n + 4}
	p.Metal = &design.Metal{Name: "skin", Thickness: 1.5, Tolerance: 0.1, Density: 7850}
	m.Parts = append(m.Parts, p)
	return p
}

func (m *maker) plate(w, d, t float64) *design.Part {
	return m.add(&design.Part{Name: "pad", Base: &design.Base{Shape: design.Plate, Width: w, Depth: d, Top: t}})
}

// post stands a post on a base (at x, y), or on a ball (offset x, y in plan
// from its centre).
func (m *maker) post(name string, host *design.Part, x, y, diameter, length, lean, toward float64) *design.Part {
	u := design.Leaning(lean, toward)
	p := &design.Post{Direction: u, Length: length, Ends: [2]design.End{{Diameter: diameter}, {Diameter: diameter}}, Lean: lean, LeanBearing: toward}
	switch {
	case host.Ball != nil:
		r := host.Ball.Radius
		p.Ends[design.Foot].At = r3.Add(host.Ball.Center, r3.Vec{X: x, Y: y, Z: math.Sqrt(r*r - x*x - y*y)})
		p.Ends[design.Foot].Contact = design.Contact{Meets: design.OnBall, With: host}
	default:
		p.Ends[design.Foot].At = r3.Vec{X: x, Y: y, Z: host.Base.Top}
		p.Ends[design.Foot].Contact = design.Contact{Meets: design.OnPlate, With: host}
	}
	p.Ends[design.Head].At = r3.Add(p.Ends[design.Foot].At, r3.Scale(length, u))
	part := m.add(&design.Part{Name: name, Post: p})
	m.Joints = append(m.Joints, design.Joint{Post: part, End: design.Foot, A: host, B: part, At: p.Ends[design.Foot].At})
	return part
}

// ball rests a ball on a post's head, on its inside edge.
func (m *maker) ball(name string, on *design.Part, diameter, offset, toward float64) *design.Part {
	post := on.Post
	r, ri := diameter/2, post.Ends[design.Head].Diameter/2-on.Metal.Thickness
	center := r3.Add(post.Ends[design.Head].At, r3.Scale(math.Sqrt(r*r-(ri+offset)*(ri+offset)), post.Direction))
	center = r3.Add(center, r3.Scale(offset, design.Toward(post.Direction, toward)))
	part := m.ballAt(name, center, diameter)
	post.Ends[design.Head].Contact = design.Contact{Meets: design.OnBall, With: part}
	m.Joints = append(m.Joints, design.Joint{Post: on, End: design.Head, A: on, B: part, At: post.Ends[design.Head].At})
	return part
}

// rest puts a ball on the base.
func (m *maker) rest(name string, on *design.Part, x, y, diameter float64) *design.Part {
	top := 0.0 // on the ground
	if on != nil {
		top = on.Base.Top
	}
	part := m.ballAt(name, r3.Vec{X: x, Y: y, Z: top + diameter/2}, diameter)
	m.Joints = append(m.Joints, design.Joint{Kind: design.RestJoint, A: on, B: part, At: r3.Vec{X: x, Y: y, Z: top}})
	return part
}

func (m *maker) ballAt(name string, center r3.Vec, diameter float64) *design.Part {
	return m.add(&design.Part{Name: name, Ball: &design.Ball{
		Center: center, Radius: diameter / 2, Build: design.DomedGores, Gores: 8,
		Pole: r3.Vec{Z: 1}, Prime: r3.Vec{X: 1},
	}})
}

// between runs a post from ball to ball, centre to centre.
func (m *maker) between(name string, a, b *design.Part, diameter float64) *design.Part {
	u := r3.Unit(r3.Sub(b.Ball.Center, a.Ball.Center))
	p := &design.Post{
		Direction: u,
		Ends: [2]design.End{
			{At: r3.Add(a.Ball.Center, r3.Scale(a.Ball.Radius, u)), Diameter: diameter, Contact: design.Contact{Meets: design.OnBall, With: a}},
			{At: r3.Sub(b.Ball.Center, r3.Scale(b.Ball.Radius, u)), Diameter: diameter, Contact: design.Contact{Meets: design.OnBall, With: b}},
		},
	}
	p.Length = r3.Norm(r3.Sub(p.Ends[design.Head].At, p.Ends[design.Foot].At))
	part := m.add(&design.Part{Name: name, Post: p})
	m.Joints = append(m.Joints,
		design.Joint{Post: part, End: design.Foot, A: a, B: part, At: p.Ends[design.Foot].At},
		design.Joint{Post: part, End: design.Head, A: b, B: part, At: p.Ends[design.Head].At})
	return part
}

// lobe makes a ball one of n rolled gores.
func lobe(p *design.Part, n int, pole, prime r3.Vec) {
	p.Ball.Build, p.Ball.Gores, p.Ball.Pole, p.Ball.Prime = design.RolledGores, n, pole, prime
}
