package cast

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab"
	"stabile/fab/solid"
	"stabile/param/design"
)

// Solids returns the solids of a job's parts.
func Solids(parts []fab.Part) []Solid {
	var list []Solid
	for i := range parts {
		switch p := &parts[i]; {
		case p.Base != nil:
			list = appendBase(list, i, p.Base)
		case p.Ball != nil:
			s := ballSolid(i, p.Body)
			s.hollow(p.Part, p.Openings)
			list = append(list, s)
		case p.Post != nil:
			s := postSolid(i, p.Part)
			s.hollow(p.Part, p.Openings)
			list = append(list, s)
		}
	}
	return list
}

func appendBase(list []Solid, part int, b *design.Base) []Solid {
	under := b.Under()
	if k := b.Block; k.Given() {
		s := NewBox(part, r3.Vec{X: -k.Width / 2, Y: -k.Depth / 2}, r3.Vec{X: k.Width / 2, Y: k.Depth / 2, Z: under})
		s.Stone = k.Of
		list = append(list, s)
	}
	switch {
	case b.Thick() <= 0:
		return list
	case b.OnWall():
		low, high := b.InSpace(r3.Vec{X: -b.Width / 2, Y: -b.Depth / 2, Z: b.Top}), b.InSpace(r3.Vec{X: b.Width / 2, Y: b.Depth / 2})
		return append(list, NewBox(part, low, high))
	case b.Shape == design.Disc:
		return append(list, NewTube(part, r3.Vec{Z: under}, design.Upright, b.Thick(), b.Width/2, b.Width/2))
	case b.Shape == design.Polygon:
		return append(list, NewPrism(part, b.Outline(), under, b.Top))
	}
	return append(list, NewBox(part, r3.Vec{X: b.At.X - b.Width/2, Y: b.At.Y - b.Depth/2, Z: under}, r3.Vec{X: b.At.X + b.Width/2, Y: b.At.Y + b.Depth/2, Z: b.Top}))
}

// ballSolid returns the outside of a ball as its body has it.
func ballSolid(part int, body *solid.Body) Solid {
	b := body.Part.Ball
	pole, prime := b.Pole, b.Prime
	if pole == (r3.Vec{}) {
		pole = design.Upright
	}
	if prime == (r3.Vec{}) {
		prime, _ = design.Tilt(pole)
	}
	s := closedBall(part, b, solid.Whole(body.Outside()), pole, prime)
	if b.Bowl {
		thick := 1.0 // of one that is bought
		if m := body.Part.Metal; m != nil && b.Build != design.Bought {
			thick = m.Thickness
		}
		s.open(b.RimHeight(), thick)
	}
	return s
}

// closedBall returns a ball with the given outside.
func closedBall(part int, b *design.Ball, outside solid.Radial, pole, prime r3.Vec) Solid {
	switch outside := outside.(type) {
	case *solid.Egg:
		s := closedBall(part, b, outside.Ball, pole, prime)
		s.stretch(b.Polar() / b.Radius)
		return s
	case solid.Flattened:
		s := NewBall(part, b.Center, b.Radius, pole, prime)
		s.Flat = outside.End
		return s
	case solid.Zoned:
		return NewZoned(part, b.Center, b.Radius, b.Zones, pole, prime)
	case *solid.Lobed:
		s := NewLobed(part, b.Center, b.Radius, b.Gores, pole, prime)
		s.Flat, s.Dome = outside.Ends()
		return s
	}
	return NewBall(part, b.Center, b.Radius, pole, prime)
}

// postSolid returns a tube with its ends. One that meets a plane is cut to it.
// One that meets a ball or the side of another goes on into it, so that their
// union has the trimmed edge.
func postSolid(part int, p *design.Part) Solid {
	post := p.Post
	s := NewTube(part, post.Ends[design.Foot].At, post.Direction, post.Length, post.Ends[design.Foot].Diameter/2, post.Ends[design.Head].Diameter/2)
	if p.Metal != nil {
		s.Wall = min(p.Metal.Thickness, s.Radius, post.Narrowest()/2)
	}
	for i, end := range post.Ends {
		met := solid.Met(p, i)
		if i == design.Foot && post.Sunk > 0 {
			met = solid.Level(0) // the rest is in the ground
		}
		switch met := met.(type) {
		case nil:
		case solid.Plane:
			s.End(i, Plane{r3.Scale(-1, met.Normal), -met.Height})
		case solid.Cylinder, solid.Cone:
			s.End(i, across(end.At, post.Inward(i), end.With.Post, i))
		default:
			if end.With.Ball.Bowl {
				s.ontoBowl(i, end, end.With)
				continue
			}
			if end.With.Ball.IsEgg() {
				s.goIntoEgg(i, end.With.Ball)
				continue
			}
			s.goInto(i, end.With.Ball.Center, end.With.Ball.Radius)
		}
	}
	s.Open[0] = post.Ends[design.Foot].Meets == design.Free
	s.Open[1] = post.Ends[design.Head].Meets == design.Free && !post.Shut()
	for i, end := range post.Ends {
		if end.Meets == design.OnBall && end.With.Ball.Bowl {
			s.Open[i] = true // what it ends on closes it, below the plane
		}
	}
	return s
}

// goInto lets an end of a tube end within a ball: half way between where its
// whole circle is within the sphere and the ball's middle, since a ball with
// flats is less than the sphere.
func (s *Solid) goInto(i int, center r3.Vec, radius float64) {
	rel := r3.Sub(center, s.Center)
	along := r3.Dot(rel, s.Axis)
	wide := norm(r3.Sub(rel, r3.Scale(along, s.Axis))) + max(s.Radius, s.Radius+s.Slope*s.Length)
	s.endWithin(i, along, math.Sqrt(max(0, radius*radius-wide*wide))/2)
}

// goIntoEgg is goInto of an egg, looked at all round the tube.
func (s *Solid) goIntoEgg(i int, b *design.Ball) {
	along := r3.Dot(r3.Sub(b.Center, s.Center), s.Axis)
	out := r3.Scale(float64(1-2*i), s.Axis) // out of the egg, along the tube
	wide, back := max(s.Radius, s.Radius+s.Slope*s.Length), math.Inf(1)
	const lines = 48
	for k := range lines {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / lines)
		side := r3.Add(r3.Scale(wide*cos, s.Zero), r3.Scale(wide*sin, s.Right))
		t, _ := b.Leave(r3.Add(r3.Add(s.Center, r3.Scale(along, s.Axis)), side), out)
		back = min(back, max(0, t))
	}
	s.endWithin(i, along, back/2)
}

// endWithin ends an end of a tube a distance back from abreast of a ball's middle.
func (s *Solid) endWithin(i int, along, back float64) {
	sign := float64(2*i - 1)
	along -= sign * back
	if i == 1 && along < s.Length/2 || i == 0 && along > s.Length/2 {
		return // no ball at this end
	}
	n := r3.Scale(sign, s.Axis)
	s.End(i, Plane{n, r3.Dot(n, s.Center) + sign*along})
}

// across returns the plane in which a tube whose end is on the side of another
// post ends: square to it where its axis passes the other's.
func across(at, way r3.Vec, host *design.Post, i int) Plane {
	rel := r3.Sub(at, host.Ends[design.Foot].At)
	u := host.Direction
	// The nearest point to the host's axis on the tube's own.
	cos := r3.Dot(way, u)
	t := 0.0
	if sin2 := 1 - cos*cos; sin2 > steepest*steepest {
		t = (cos*r3.Dot(rel, u) - r3.Dot(rel, way)) / sin2
	}
	n := r3.Scale(-1, way)
	return Plane{n, r3.Dot(n, r3.Add(at, r3.Scale(min(t, 0), way)))}
}
