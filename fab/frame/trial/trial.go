// Package trial puts sculptures together by hand, for tests of what is worked
// out from them. It gives them the joints that the text of a design would. What it makes
// no text gives: posts that stand on nothing, masses that are not those of the metal,
// walls to any number of digits, a number of parts to the letter.
package trial

import (
	"math"
	"math/rand/v2"
	"strconv"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/frame"
	"stabile/param/design"
)

// A Builder makes one sculpture.
type Builder struct {
	Design design.Design
	Metal  design.Metal // of the parts that are added next
	masses map[*design.Part]float64
}

// New returns a builder that works in steel of the given thickness in mm.
func New(thickness float64) *Builder {
	return &Builder{
		Metal:  design.Metal{Name: "skin", Alloy: "low-carbon-steel", Thickness: thickness, Density: 7850, Yield: 230, Modulus: 200e3},
		masses: map[*design.Part]float64{},
	}
}

func (b *Builder) add(p *design.Part) *design.Part {
	m := b.Metal
	p.Metal = &m
	b.Design.Parts = append(b.Design.Parts, p)
	return p
}

func (b *Builder) join(kind design.JointKind, post *design.Part, end int, x, y *design.Part, at r3.Vec) {
	b.Design.Joints = append(b.Design.Joints, design.Joint{Kind: kind, Post: post, End: end, A: x, B: y, At: at})
}

// Plate adds a rectangular base.
func (b *Builder) Plate(width, depth, thickness float64) *design.Part {
	was := b.Metal.Thickness
	b.Metal.Thickness = thickness
	p := b.add(&design.Part{Name: "plate", Base: &design.Base{Shape: design.Plate, Width: width, Depth: depth, Top: thickness}})
	b.Metal.Thickness = was
	return p
}

// Ball adds a ball placed outright.
func (b *Builder) Ball(name string, center r3.Vec, radius float64) *design.Part {
	return b.add(&design.Part{Name: name, Ball: &design.Ball{Center: center, Radius: radius, Build: design.Halves, Pole: r3.Vec{Z: 1}, Prime: r3.Vec{X: 1}}})
}

// Rest stands a ball on a host.
func (b *Builder) Rest(ball, host *design.Part) {
	ball.Ball.On = host
	kind, at := design.RestJoint, r3.Sub(ball.Ball.Center, r3.Vec{Z: ball.Ball.Radius})
	if host.Ball != nil {
		kind = design.SeatJoint
	}
	b.join(kind, nil, 0, host, ball, at)
}

// Post adds a free post, tied to nothing, from foot to head.
func (b *Builder) Post(name string, foot, head r3.Vec, d0, d1 float64) *design.Part {
	u := r3.Sub(head, foot)
	return b.add(&design.Part{Name: name, Post: &design.Post{
		Ends:   [2]design.End{{At: foot, Diameter: d0}, {At: head, Diameter: d1, Disc: true}},
		Length: r3.Norm(u), Direction: r3.Unit(u),
	}})
}

// Stand adds a post from a point of the plate's top, or from a point on another
// post, with its head at a point.
func (b *Builder) Stand(name string, host *design.Part, foot, head r3.Vec, d0, d1 float64) *design.Part {
	p := b.Post(name, foot, head, d0, d1)
	b.meet(p, design.Foot, host)
	return p
}

// Tie adds a post between two parts, on the line through the centres of balls or
// the given points of others, with its ends on the surfaces of balls.
func (b *Builder) Tie(name string, from, to *design.Part, foot, head r3.Vec, diameter float64) *design.Part {
	for i, p := range []*design.Part{from, to} {
		if p.Ball != nil {
			*[]*r3.Vec{&foot, &head}[i] = p.Ball.Center
		}
	}
	u := r3.Unit(r3.Sub(head, foot))
	if from.Ball != nil {
		foot = r3.Add(foot, r3.Scale(from.Ball.Radius, u))
	}
	if to.Ball != nil {
		head = r3.Sub(head, r3.Scale(to.Ball.Radius, u))
	}
	p := b.Post(name, foot, head, diameter, diameter)
	p.Post.Between = true
	b.meet(p, design.Foot, from)
	b.meet(p, design.Head, to)
	return p
}

// Tip sets a ball on the head of a post, its centre across the axis by the
// offset, and returns it.
func (b *Builder) Tip(name string, post *design.Part, radius float64, offset r3.Vec) *design.Part {
	p := post.Post
	inside := p.Ends[design.Head].Diameter/2 - post.Metal.Thickness + r3.Norm(offset)
	center := r3.Add(r3.Add(p.Ends[design.Head].At, offset), r3.Scale(math.Sqrt(radius*radius-inside*inside), p.Direction))
	ball := b.Ball(name, center, radius)
	ball.Ball.On = post
	b.meet(post, design.Head, ball)
	return ball
}

// Thread adds a ball around a post.
func (b *Builder) Thread(name string, post *design.Part, along, radius float64) *design.Part {
	at := r3.Add(post.Post.Ends[design.Foot].At, r3.Scale(along, post.Post.Direction))
	ball := b.Ball(name, at, radius)
	ball.Ball.Around, ball.Ball.Along = post, along
	b.join(design.ThreadJoint, post, 0, post, ball, at)
	return ball
}

func (b *Builder) meet(post *design.Part, which int, with *design.Part) {
	end := &post.Post.Ends[which]
	end.With = with
	switch {
	case with.Base != nil:
		end.Meets = design.OnPlate
	case with.Ball != nil:
		end.Meets = design.OnBall
	case r3.Norm(r3.Sub(end.At, with.Post.Ends[design.Head].At)) < 1e-9:
		end.Meets = design.OnHead
		with.Post.Ends[design.Head].Contact = design.Contact{Meets: design.OnHead, With: post}
	default:
		end.Meets = design.OnSide
		if which == design.Foot {
			post.Post.Along = r3.Dot(r3.Sub(end.At, with.Post.Ends[design.Foot].At), with.Post.Direction)
		}
	}
	b.join(design.EndJoint, post, which, post, with, end.At)
}

// Weigh gives a part a mass in kg other than its metal's.
func (b *Builder) Weigh(p *design.Part, mass float64) { b.masses[p] = mass }

// Items returns the parts with the mass of their metal and its middle.
func (b *Builder) Items() []frame.Item {
	items := make([]frame.Item, len(b.Design.Parts))
	for i, p := range b.Design.Parts {
		it := frame.Item{Part: p}
		t, density := p.Metal.Thickness, p.Metal.Density*1e-9
		switch {
		case p.Post != nil:
			a := math.Pi * (p.Post.Ends[design.Foot].Diameter - t) * t
			c := math.Pi * (p.Post.Ends[design.Head].Diameter - t) * t
			it.Mass = density * p.Post.Length * (a + c) / 2
			it.CG = r3.Add(p.Post.Ends[design.Foot].At, r3.Scale((a+2*c)/(3*(a+c)), r3.Sub(p.Post.Ends[design.Head].At, p.Post.Ends[design.Foot].At)))
		case p.Ball != nil:
			r, q := p.Ball.Radius, p.Ball.Radius-t
			it.Mass, it.CG = density*4*math.Pi/3*(r*r*r-q*q*q), p.Ball.Center
		default:
			it.Mass, it.CG = density*p.Base.Width*p.Base.Depth*p.Base.Top, r3.Vec{Z: p.Base.Top / 2}
		}
		if m, ok := b.masses[p]; ok {
			it.Mass = m
		}
		items[i] = it
	}
	return items
}

// Turned returns a copy of the sculpture turned about the upright axis by an
// angle in rad. Its base is left as it is.
func (b *Builder) Turned(angle float64) *Builder {
	turn := func(v r3.Vec) r3.Vec {
		sin, cos := math.Sincos(angle)
		return r3.Vec{X: cos*v.X - sin*v.Y, Y: sin*v.X + cos*v.Y, Z: v.Z}
	}
	c := New(b.Metal.Thickness)
	c.Design.Site = b.Design.Site
	of := map[*design.Part]*design.Part{}
	for _, p := range b.Design.Parts {
		q := *p
		of[p] = &q
		if q.Post != nil {
			post := *q.Post
			post.Ends[design.Foot].At, post.Ends[design.Head].At, post.Direction = turn(post.Ends[design.Foot].At), turn(post.Ends[design.Head].At), turn(post.Direction)
			q.Post = &post
		}
		if q.Ball != nil {
			ball := *q.Ball
			ball.Center = turn(ball.Center)
			q.Ball = &ball
		}
		c.Design.Parts = append(c.Design.Parts, &q)
		if m, ok := b.masses[p]; ok {
			c.masses[&q] = m
		}
	}
	for _, q := range c.Design.Parts {
		if q.Post != nil {
			q.Post.Ends[design.Foot].With, q.Post.Ends[design.Head].With = of[q.Post.Ends[design.Foot].With], of[q.Post.Ends[design.Head].With]
		}
		if q.Ball != nil {
			q.Ball.On, q.Ball.Around = of[q.Ball.On], of[q.Ball.Around]
		}
	}
	for _, j := range b.Design.Joints {
		j.Post, j.A, j.B, j.At = of[j.Post], of[j.A], of[j.B], turn(j.At)
		c.Design.Joints = append(c.Design.Joints, j)
	}
	return c
}

// Assembly returns the assembly of the worked cases D3 to F9 and G6: four balls
// and three posts on a plate.
func Assembly() *Builder {
	b := New(1.5)
	plate := b.Plate(600, 400, 10)
	one := b.Ball("B1", r3.Vec{Z: 600}, 120)
	b.Metal.Thickness = 1.2
	two := b.Ball("B2", r3.Vec{X: 220, Y: 80, Z: 1150}, 90)
	three := b.Ball("B3", r3.Vec{X: -180, Y: 120, Z: 1300}, 75)
	four := b.Ball("B4", r3.Vec{X: 180, Y: -120, Z: 90}, 80)
	b.Rest(four, plate)
	b.Metal.Thickness = 1.5
	b.Tie("P1", plate, one, r3.Vec{Z: 10}, r3.Vec{}, 60)
	b.Tie("P2", one, two, r3.Vec{}, r3.Vec{}, 48)
	b.Metal.Thickness = 1.2
	b.Tie("P3", one, three, r3.Vec{}, r3.Vec{}, 42)
	return b
}

// Random returns a sculpture of about n parts: trees of leaning posts and balls
// with branches, tapers, threaded balls and ties between balls.
func Random(rnd *rand.Rand, n int) *Builder {
	b := New(1 + rnd.Float64())
	plate := b.Plate(1000, 800, 12)
	var balls, posts []*design.Part
	between := func(lo, hi float64) float64 { return lo + (hi-lo)*rnd.Float64() }
	for i := 0; len(b.Design.Parts) < n; i++ {
		lean := design.Leaning(between(0, 0.4), between(0, 2*math.Pi))
		length, d := between(150, 900), between(25, 90)
		name := strconv.Itoa(i)
		host, foot, thick := plate, r3.Vec{X: between(-400, 400), Y: between(-300, 300), Z: 12}, d
		switch k := rnd.IntN(6); {
		case k <= 2 && len(balls) > 0:
			host = balls[rnd.IntN(len(balls))]
			foot = r3.Add(host.Ball.Center, r3.Scale(host.Ball.Radius, design.Leaning(between(0, 0.5), between(0, 6))))
		case k == 3 && len(posts) > 0:
			host = posts[rnd.IntN(len(posts))]
			h := host.Post
			along := between(0.2, 0.8) * h.Length
			out := design.Toward(h.Direction, between(0, 6))
			foot = r3.Add(r3.Add(h.Ends[design.Foot].At, r3.Scale(along, h.Direction)), r3.Scale(h.DiameterAt(along)/2, out))
			lean = r3.Unit(r3.Add(out, r3.Scale(0.5, h.Direction)))
		case k == 4 && len(balls) > 1:
			x, y := rnd.IntN(len(balls)), rnd.IntN(len(balls))
			if x != y && r3.Norm(r3.Sub(balls[x].Ball.Center, balls[y].Ball.Center)) > balls[x].Ball.Radius+balls[y].Ball.Radius+50 {
				b.Tie("tie"+name, balls[x], balls[y], r3.Vec{}, r3.Vec{}, between(20, 40))
			}
			continue
		}
		if rnd.IntN(4) == 0 {
			thick = between(0.5, 1) * d
		}
		post := b.Stand("post"+name, host, foot, r3.Add(foot, r3.Scale(length, lean)), d, thick)
		posts = append(posts, post)
		if rnd.IntN(4) > 0 {
			balls = append(balls, b.Tip("ball"+name, post, thick/2+between(30, 120), r3.Scale(between(0, 20), design.Toward(lean, between(0, 6)))))
		} else if length > 400 {
			b.Thread("bead"+name, post, length/2, d/2+between(20, 60))
		}
	}
	return b
}
