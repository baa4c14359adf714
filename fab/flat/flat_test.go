package flat

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/written"
)

// steel is a metal of the density that the worked cases take.
func steel(thickness float64) *design.Metal {
	return &design.Metal{Name: "skin", Alloy: "low-carbon-steel", Thickness: thickness, Density: 7850}
}

// newPost returns a free post with its foot at a point, by hand: one that is written
// stands on something.
func newPost(diameter, thickness, length float64, foot, along r3.Vec) *design.Part {
	return &design.Part{
		Name: "mast", Metal: steel(thickness),
		Post: &design.Post{
			Ends:      [2]design.End{{At: foot, Diameter: diameter}, {At: r3.Add(foot, r3.Scale(length, along)), Diameter: diameter}},
			Direction: along, Length: length,
		},
	}
}

// newBall returns a ball with its pole up, by hand: without the post that holds one that
// is written, and open at the poles where that has small discs.
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
	if b.IsEgg() {
		return outsideEgg(p, x)
	}
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
	z, along, across := r3.Dot(x, b.Pole), r3.Dot(x, b.Prime), r3.Dot(x, r3.Cross(b.Pole, b.Prime))
	farthest := math.Inf(-1)
	step := turn(2 * math.Pi / float64(b.Gores))
	for way, k := (r2.Vec{X: 1}), 0; k < b.Gores; k, way = k+1, onward(way, step) {
		farthest = max(farthest, along*way.X+across*way.Y)
	}
	lobed := math.Inf(-1)
	if farthest > 0 {
		lobed = math.Hypot(farthest, z) - b.Radius
	}
	switch {
	case b.Straight && !flat:
		return lobed
	case b.Caps == 0:
		end := math.Acos(leastTip / 2 / (mean * math.Tan(math.Pi/float64(b.Gores))))
		return max(lobed, math.Abs(z)-b.Radius*math.Sin(end))
	case flat:
		return max(lobed, math.Abs(z)-edge-p.Metal.Thickness/2)
	}
	return min(max(lobed, math.Abs(z)-edge*b.Radius/mean), max(round, edge*b.Radius/mean-math.Abs(z)))
}

// outsideEgg is outside of an egg, from its centre. Near the ellipsoid the distance is what its
// equation is off by, over how fast that grows.
func outsideEgg(p *design.Part, x r3.Vec) float64 {
	b := p.Ball
	a, c := b.Radius, b.Tall/2
	off := func(r, z float64) float64 {
		return ((r/a)*(r/a) + (z/c)*(z/c) - 1) / (2 * math.Hypot(r/a/a, z/c/c))
	}
	z, along, across := r3.Dot(x, b.Pole), r3.Dot(x, b.Prime), r3.Dot(x, r3.Cross(b.Pole, b.Prime))
	if b.Build != design.RolledGores {
		return off(math.Hypot(along, across), z)
	}
	farthest := math.Inf(-1)
	step := turn(2 * math.Pi / float64(b.Gores))
	for way, k := (r2.Vec{X: 1}), 0; k < b.Gores; k, way = k+1, onward(way, step) {
		farthest = max(farthest, along*way.X+across*way.Y)
	}
	// The tips end where they are so wide at the middle of the sheet, which lies on the line square
	// to the outside.
	low, high := 0.0, math.Pi/2
	for range 60 {
		m := (low + high) / 2
		sin, cos := math.Sincos(m)
		n := math.Hypot(cos/a, sin/c)
		if (a*cos-p.Metal.Thickness/2*cos/a/n)*2*math.Tan(math.Pi/float64(b.Gores)) > leastTip {
			low = m
		} else {
			high = m
		}
	}
	return max(off(max(0, farthest), z), math.Abs(z)-c*math.Sin(low))
}

// turn returns the direction at an angle, and onward one turned on by another.
func turn(angle float64) r2.Vec {
	sin, cos := math.Sincos(angle)
	return r2.Vec{X: cos, Y: sin}
}

func onward(v, by r2.Vec) r2.Vec { return r2.Vec{X: v.X*by.X - v.Y*by.Y, Y: v.Y*by.X + v.X*by.Y} }

// randomBall returns the radius of a ball of any construction and any attitude, and
// what a text says of it.
func randomBall(rng *rand.Rand) (radius, thickness float64, text string) {
	radius = math.Exp(math.Log(30) + rng.Float64()*math.Log(15))
	thickness = 0.6 + rng.Float64()*min(3, radius/20)
	build, n, caps := design.Construction(rng.IntN(4)), 0, 0.0
	if build == design.RolledGores && rng.IntN(4) > 0 || build == design.DomedGores {
		n = 4 + rng.IntN(14)
		if rng.IntN(2) == 0 {
			caps = (0.1 + 0.8*rng.Float64()) * radius
		}
	} else if build == design.RolledGores {
		n = 4 + rng.IntN(45)
	}
	pole := anyTilt(rng, math.Pi)
	if rng.IntN(2) == 0 {
		pole = tilt{}
	}
	as := capped(build, n, caps)
	if rng.IntN(2) == 0 {
		as = strings.TrimSuffix(as, " round")
	}
	return radius, thickness, fmt.Sprintf("diameter %.12f, %s", 2*radius, as+poled(build, pole, 7*rng.Float64()))
}

func anyDirection(rng *rand.Rand) r3.Vec {
	return r3.Unit(r3.Vec{X: rng.NormFloat64(), Y: rng.NormFloat64(), Z: rng.NormFloat64()})
}

// randomPost returns a post on a plate or a ball, free or with a ball on its head, or
// false where the draw has the tube run past a ball or into it.
func randomPost(t testing.TB, rng *rand.Rand) (*design.Part, bool) {
	lean := anyTilt(rng, math.Pi/3)
	u := lean.way()
	outer := math.Exp(math.Log(8) + rng.Float64()*math.Log(15))
	inner := outer - (0.02+0.1*rng.Float64())*outer
	post := fmt.Sprintf("diameter %.12f, length %.12f, lean %v, seam toward %.12f rad, head open, metal skin", 2*outer, 1.5*outer+rng.Float64()*1000, lean, 7*rng.Float64())
	if rng.IntN(2) == 0 {
		post += fmt.Sprintf(", gap %.12f", 2*rng.Float64())
	}
	text := fmt.Sprintf("units mm\nmetal skin { alloy low-carbon-steel, thickness %.12f }\nmetal slab { alloy low-carbon-steel, thickness 9.5 }\n", outer-inner)
	text += "base pad { plate 4000 by 4000, metal slab }\n"
	if rng.IntN(3) > 0 {
		radius, thickness, ball := randomBall(rng)
		off, bearing := rng.Float64()*radius, rng.Float64()*2*math.Pi
		sin, cos := math.Sincos(bearing)
		foot := r3.Vec{X: off * cos, Y: off * sin, Z: math.Sqrt(radius*radius - off*off)}
		if along := r3.Dot(foot, u); along <= 0 || r3.Norm(r3.Sub(foot, r3.Scale(along, u)))+outer > 0.98*radius {
			return nil, false
		}
		text += fmt.Sprintf("metal under { alloy low-carbon-steel, thickness %.12f }\nball low on pad { %s, metal under }\n", thickness, ball)
		text += fmt.Sprintf("post mast on low { %s, offset %.12f toward %.12f rad }\n", post, off, bearing)
	} else {
		text += fmt.Sprintf("post mast on pad { %s, at (30, -20) }\n", post)
	}
	if rng.IntN(3) > 0 {
		radius, thickness, ball := randomBall(rng)
		if outer > 0.98*radius {
			return nil, false
		}
		e := rng.Float64() * (0.98*radius - outer)
		if rng.IntN(3) == 0 {
			e = 0
		}
		text += fmt.Sprintf("metal over { alloy low-carbon-steel, thickness %.12f }\nball high on mast { %s, offset %.12f toward %.12f rad, metal over }\n", thickness, ball, e, 7*rng.Float64())
	}
	return written.Design(t, text).Part("mast"), true
}
