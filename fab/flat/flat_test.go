package flat

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// steel is a metal of the density that the worked cases take.
func steel(thickness float64) *design.Metal {
	return &design.Metal{Name: "skin", Alloy: "low-carbon-steel", Thickness: thickness, Density: 7850}
}

// newPost returns a free post with its foot at a point.
func newPost(diameter, thickness, length float64, foot, along r3.Vec) *design.Part {
	return &design.Part{
		Name: "mast", Metal: steel(thickness),
		Post: &design.Post{
			Ends:      [2]design.End{{At: foot, Diameter: diameter}, {At: r3.Add(foot, r3.Scale(length, along)), Diameter: diameter}},
			Direction: along, Length: length,
		},
	}
}

// newBall returns a ball with its pole up.
func newBall(diameter, thickness float64, build design.Construction, gores int, center r3.Vec) *design.Part {
	return &design.Part{
		Name: "moon", Metal: steel(thickness),
		Ball: &design.Ball{
			Center: center, Radius: diameter / 2, Build: build, Gores: gores,
			Pole: r3.Vec{Z: 1}, Prime: r3.Vec{X: 1},
			EdgeMid: true, // so that edges meet where they are measured
		},
	}
}

// leastTip is where the tips of gores are cut blunt, in mm, when the shop does not
// say: the default of the language.
const leastTip = 3.0

// ground is what a post that stands on the ground meets.
var ground = design.Contact{Meets: design.OnPlate}

func onBall(ball *design.Part) design.Contact {
	return design.Contact{Meets: design.OnBall, With: ball}
}

// near reports whether two numbers agree to six digits.
func near(got, want float64) bool {
	return math.Abs(got-want) <= 5e-6*max(math.Abs(want), 1)
}

func develop(t testing.TB, p *design.Part) Developed {
	t.Helper()
	d, wrong := Develop(p)
	if err := wrong.Err(); err != nil {
		t.Fatalf("Develop: %v", err)
	}
	return d
}

// curves takes a tube's outline apart into the curves of its foot and head, both
// from left to right.
func curves(b Blank) (foot, head []r2.Vec) {
	n := 1
	for b.Outline[n].X > b.Outline[n-1].X {
		n++
	}
	foot = b.Outline[:n]
	for i := len(b.Outline) - 1; i >= n; i-- {
		head = append(head, b.Outline[i])
	}
	return foot, head
}

// rolled returns where a point of a flat comes to lie on the finished post, at
// a radius. It turns bearings with a rotation matrix of its own.
func rolled(p *design.Part, q r2.Vec, radius float64) r3.Vec {
	post := p.Post
	mean := post.Ends[design.Foot].Diameter/2 - p.Metal.Thickness/2
	sin, cos := math.Sincos(post.Seam + q.X/mean)
	return r3.Add(post.Ends[design.Foot].At, tilted(post.Direction, r3.Vec{X: radius * cos, Y: radius * sin, Z: q.Y}))
}

// tilted turns a vector by the shortest turn that brings +Z to a direction.
func tilted(direction, v r3.Vec) r3.Vec {
	up := r3.Vec{Z: 1}
	axis := r3.Cross(up, direction)
	if r3.Norm(axis) == 0 {
		return v
	}
	return r3.NewRotation(math.Atan2(r3.Norm(axis), r3.Dot(up, direction)), axis).Rotate(v)
}

// outside returns how far a point lies outside a ball, negative inside, found
// by trying every gore.
func outside(p *design.Part, x r3.Vec) float64 {
	b := p.Ball
	x = r3.Sub(x, b.Center)
	round := r3.Norm(x) - b.Radius
	mean := b.Radius - p.Metal.Thickness/2
	edge := math.Sqrt(mean*mean - b.Caps*b.Caps/4)
	flat := b.Caps > 0 && mean-edge <= p.Metal.Thickness
	switch {
	case b.Build == design.DomedGores && flat:
		return max(round, math.Abs(r3.Dot(x, b.Pole))-edge-p.Metal.Thickness/2)
	case b.Build != design.RolledGores:
		return round
	}
	z, third := r3.Dot(x, b.Pole), r3.Cross(b.Pole, b.Prime)
	lobed := math.Inf(-1)
	for k := range b.Gores {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(b.Gores))
		if a := r3.Dot(x, r3.Add(r3.Scale(cos, b.Prime), r3.Scale(sin, third))); a > 0 {
			lobed = max(lobed, math.Hypot(a, z)-b.Radius)
		}
	}
	if b.Caps == 0 {
		end := math.Acos(leastTip / 2 / (mean * math.Tan(math.Pi/float64(b.Gores))))
		return max(lobed, math.Abs(z)-b.Radius*math.Sin(end))
	}
	if flat {
		return max(lobed, math.Abs(z)-edge-p.Metal.Thickness/2)
	}
	return min(max(lobed, math.Abs(z)-edge*b.Radius/mean), max(round, edge*b.Radius/mean-math.Abs(z)))
}

// randomBall returns a ball of any construction and any attitude.
func randomBall(rng *rand.Rand, center r3.Vec) *design.Part {
	radius := math.Exp(math.Log(30) + rng.Float64()*math.Log(15))
	p := newBall(2*radius, 0.6+rng.Float64()*min(3, radius/20), design.Construction(rng.IntN(4)), 0, center)
	b := p.Ball
	if b.Build == design.RolledGores && rng.IntN(4) > 0 || b.Build == design.DomedGores {
		b.Gores = 4 + rng.IntN(14)
		if rng.IntN(2) == 0 {
			b.Caps = (0.1 + 0.8*rng.Float64()) * radius
		}
	} else if b.Build == design.RolledGores {
		b.Gores = 4 + rng.IntN(45)
	}
	b.Pole = anyDirection(rng)
	if rng.IntN(2) == 0 {
		b.Pole = r3.Vec{Z: 1}
	}
	b.Prime = r3.Unit(r3.Cross(b.Pole, anyDirection(rng)))
	return p
}

func anyDirection(rng *rand.Rand) r3.Vec {
	return r3.Unit(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()})
}

// randomPost returns a post with a random foot and head, or false where the
// draw has the tube run past a ball.
func randomPost(rng *rand.Rand) (*design.Part, bool) {
	lean, toward := rng.Float64()*math.Pi/3, rng.Float64()*2*math.Pi
	u := design.Leaning(lean, toward)
	outer := math.Exp(math.Log(8) + rng.Float64()*math.Log(15))
	p := newPost(2*outer, (0.02+0.1*rng.Float64())*outer, 1.5*outer+rng.Float64()*1000, r3.Vec{X: 30, Y: -20, Z: 9.5}, u)
	post := p.Post
	post.Seam = rng.Float64() * 2 * math.Pi
	if rng.IntN(2) == 0 {
		post.Gap = rng.Float64() * 2
	}
	inner := outer - p.Metal.Thickness
	if rng.IntN(3) > 0 {
		ball := randomBall(rng, r3.Vec{})
		off, bearing := rng.Float64()*ball.Ball.Radius, rng.Float64()*2*math.Pi
		sin, cos := math.Sincos(bearing)
		post.Ends[design.Foot].At = r3.Vec{X: off * cos, Y: off * sin, Z: math.Sqrt(ball.Ball.Radius*ball.Ball.Radius - off*off)}
		across := r3.Norm(r3.Sub(post.Ends[design.Foot].At, r3.Scale(r3.Dot(post.Ends[design.Foot].At, u), u)))
		if across+outer > 0.98*ball.Ball.Radius {
			return nil, false
		}
		post.Ends[design.Foot].Contact = onBall(ball)
	} else {
		post.Ends[design.Foot].Contact = design.Contact{Meets: design.OnPlate, With: &design.Part{Name: "pad", Base: &design.Base{Top: 9.5}}}
	}
	if rng.IntN(3) > 0 {
		ball := randomBall(rng, r3.Vec{})
		r := ball.Ball.Radius
		if outer > 0.98*r {
			return nil, false
		}
		e := rng.Float64() * (0.98*r - outer)
		if rng.IntN(3) == 0 {
			e = 0
		}
		axis := r3.Add(post.Ends[design.Foot].At, r3.Scale(post.Length+math.Sqrt(r*r-(inner+e)*(inner+e)), u))
		ball.Ball.Center = r3.Add(axis, r3.Scale(e, design.Toward(u, rng.Float64()*7)))
		post.Ends[design.Head].Contact = onBall(ball)
	}
	post.Ends[design.Head].At = r3.Add(post.Ends[design.Foot].At, r3.Scale(post.Length, u))
	return p, true
}
