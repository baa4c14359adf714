// Package sample makes designs for the tests of the drawings: a small stack
// that is known by heart, and random trees of balls and posts.
package sample

import (
	"fmt"
	"math"
	"math/rand/v2"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
)

// A Builder stacks parts into a design.
type Builder struct {
	Design *design.Design
	Metal  *design.Metal
}

// New returns a builder with a base plate of the given size, in mm.
func New(title string, units quantity.System, width, depth float64) *Builder {
	skin := &design.Metal{Name: "skin", Alloy: "low-carbon-steel", Gauge: 18, Thickness: 1.2141, Tolerance: 0.13, Density: 7850, Yield: 230, Modulus: 200000, GaugeTable: "manufacturers standard"}
	slab := &design.Metal{Name: "slab", Alloy: "low-carbon-steel", Thickness: 9.525, Tolerance: 0.3, Density: 7850, Yield: 230, Modulus: 200000}
	b := &Builder{&design.Design{Title: title, Fingerprint: "5a3c91f", Units: units}, skin}
	b.add(&design.Part{Name: "pad", Metal: slab, Base: &design.Base{
		Width: width, Depth: depth, Anchors: 4, AnchorDiameter: 12.7, AnchorEdge: 38.1, Top: slab.Thickness,
	}})
	return b
}

func (b *Builder) add(p *design.Part) *design.Part {
	b.Design.Parts = append(b.Design.Parts, p)
	return p
}

// OnBase adds a post on the base plate.
func (b *Builder) OnBase(name string, x, y, diameter, length, lean, bearing float64) *design.Part {
	base := b.Design.Parts[0]
	foot := r3.Vec{X: x, Y: y, Z: base.Base.Top}
	return b.post(name, base, foot, diameter, length, lean, bearing, design.Contact{Meets: design.OnPlate, With: base})
}

// OnBall adds a post on a ball, off its centre.
func (b *Builder) OnBall(name string, host *design.Part, diameter, length, lean, bearing, offset, offsetBearing float64) *design.Part {
	c, r := host.Ball.Center, host.Ball.Radius
	sin, cos := math.Sincos(offsetBearing)
	foot := r3.Vec{X: c.X + offset*cos, Y: c.Y + offset*sin, Z: c.Z + math.Sqrt(r*r-offset*offset)}
	p := b.post(name, host, foot, diameter, length, lean, bearing, design.Contact{Meets: design.OnBall, With: host})
	p.Post.Offset, p.Post.OffsetBear = offset, offsetBearing
	return p
}

// past reports whether a post on a ball would run past its side: the ball's centre is
// as far from the axis as the level way to the foot, and the way up to it, lie across.
func past(radius, diameter, lean, bearing, offset, offsetBearing float64) bool {
	sin, cos := math.Sincos(offsetBearing)
	foot := r3.Vec{X: offset * cos, Y: offset * sin, Z: math.Sqrt(radius*radius - offset*offset)}
	return r3.Norm(r3.Cross(foot, design.Leaning(lean, bearing)))+diameter/2 > 0.98*radius
}

func (b *Builder) post(name string, host *design.Part, foot r3.Vec, diameter, length, lean, bearing float64, end design.Contact) *design.Part {
	u := design.Leaning(lean, bearing)
	p := b.add(&design.Part{Name: name, Metal: b.Metal, Post: &design.Post{
		Ends: [2]design.End{
			{At: foot, Diameter: diameter, Contact: end},
			{At: r3.Add(foot, r3.Scale(length, u)), Diameter: diameter, Disc: true},
		},
		Direction: u, Length: length, Seam: math.Pi / 2, Lean: lean, LeanBearing: bearing,
	}})
	b.Design.Joints = append(b.Design.Joints, design.Joint{Post: p, End: design.Foot, A: host, B: p, At: foot})
	return p
}

// OnPost adds a ball on a post's head.
func (b *Builder) OnPost(name string, host *design.Part, diameter float64, gores int, offset, bearing float64) *design.Part {
	post := host.Post
	inside, r := post.Ends[design.Head].Diameter/2-host.Metal.Thickness, diameter/2
	up := math.Sqrt(r*r - (inside+offset)*(inside+offset))
	c := r3.Add(post.Ends[design.Head].At, r3.Add(r3.Scale(up, post.Direction), r3.Scale(offset, design.Toward(post.Direction, bearing))))
	x, _ := design.Tilt(r3.Vec{Z: 1})
	ball := &design.Ball{Center: c, Radius: r, Build: design.RolledGores, Gores: gores, Pole: r3.Vec{Z: 1}, Prime: x, Offset: offset, OffsetBear: bearing}
	if gores == 0 {
		ball.Build = design.Halves
	}
	p := b.add(&design.Part{Name: name, Metal: b.Metal, Ball: ball})
	post.Ends[design.Head].Contact, post.Ends[design.Head].Disc = design.Contact{Meets: design.OnBall, With: p}, false
	b.Design.Joints = append(b.Design.Joints, design.Joint{Post: host, End: design.Head, A: host, B: p, At: post.Ends[design.Head].At})
	return p
}

// Stack returns a design of two balls on two posts on a plate.
func Stack(units quantity.System) *design.Design {
	const deg = math.Pi / 180
	b := New("Harbour Lights", units, 609.6, 508)
	mast := b.OnBase("mast", -76.2, 0, 127, 914.4, 6*deg, 0)
	moon := b.OnPost("moon", mast, 304.8, 10, 19.05, math.Pi)
	spur := b.OnBall("spur", moon, 63.5, 355.6, 0, 0, 50.8, math.Pi/2)
	b.OnPost("star", spur, 152.4, 8, 0, 0)
	return b.Design
}

// Random returns a random tree of about n parts. Its parts may run into each
// other: it is for drawings, which must cope with all. Some hang on a wall.
func Random(seed uint64, n int, units quantity.System) *design.Design {
	rng := rand.New(rand.NewPCG(seed, 7))
	span := func(a, b float64) float64 { return a + (b-a)*rng.Float64() }
	b := New(fmt.Sprintf("Tree %d", seed), units, span(300, 900), span(250, 700))
	base := b.Design.Parts[0].Base
	if seed%5 == 3 {
		base.Block = design.Block{Width: base.Width + 80, Depth: base.Depth + 40, Height: 100 + 20*float64(seed%9), Of: design.Sandstone}
		base.Top += base.Block.Height
	}
	var balls []*design.Part
	for i := 1; len(b.Design.Parts) < n; i++ {
		bearing, lean := span(0, 2*math.Pi), 0.0
		if rng.IntN(2) == 0 {
			lean = span(0.02, 0.35)
		}
		d := span(25, 120)
		var post *design.Part
		if len(balls) == 0 || rng.IntN(4) == 0 {
			post = b.OnBase(fmt.Sprintf("post[%d]", i), span(-0.35, 0.35)*base.Width, span(-0.35, 0.35)*base.Depth, d, span(150, 1100), lean, bearing)
		} else {
			host := balls[rng.IntN(len(balls))]
			d = min(d, host.Ball.Radius*0.8)
			length, offset, off := span(100, 500), span(0, host.Ball.Radius-d/2)*0.7, span(0, 2*math.Pi)
			if past(host.Ball.Radius, d, lean, bearing, offset, off) {
				lean = 0
			}
			post = b.OnBall(fmt.Sprintf("post[%d]", i), host, d, length, lean, bearing, offset, off)
		}
		if len(b.Design.Parts) < n || rng.IntN(3) > 0 {
			r := span(0.75, 2.2) * d
			balls = append(balls, b.OnPost(fmt.Sprintf("ball[%d]", i), post, 2*r, []int{0, 6, 8, 12}[rng.IntN(4)], span(0, 0.2)*d, span(0, 2*math.Pi)))
		}
	}
	if seed%11 == 7 {
		hang(b.Design, span(2500, 3500))
	}
	return b.Design
}

// hang turns a design that stands on a plate to hang on a wall by it, at a height in mm.
func hang(d *design.Design, height float64) {
	base := d.Parts[0].Base
	base.Wall = height
	way := func(v r3.Vec) r3.Vec { return r3.Sub(base.InSpace(v), base.InSpace(r3.Vec{})) }
	for _, p := range d.Parts {
		switch {
		case p.Post != nil:
			q := p.Post
			for i := range q.Ends {
				q.Ends[i].At = base.InSpace(q.Ends[i].At)
			}
			q.Direction = way(q.Direction)
			q.Lean, q.LeanBearing = math.Acos(max(-1, min(1, q.Direction.Z))), design.BearingOf(q.Direction)
			if host := q.Ends[design.Foot].With; host != nil && host.Ball != nil {
				off := r3.Sub(q.Ends[design.Foot].At, host.Ball.Center) // what comes before it hangs already
				q.Offset, q.OffsetBear = math.Hypot(off.X, off.Y), design.BearingOf(off)
			}
		case p.Ball != nil:
			p.Ball.Center, p.Ball.Pole, p.Ball.Prime = base.InSpace(p.Ball.Center), way(p.Ball.Pole), way(p.Ball.Prime)
		}
	}
	for i := range d.Joints {
		d.Joints[i].At = base.InSpace(d.Joints[i].At)
	}
}
