package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// Middle returns the middle of the body as it is seen from the side. Of a taper it is
// that of the trapezium that it shows square to it.
func (b *Body) Middle() r3.Vec {
	switch p := b.Part; {
	case p.Post != nil:
		a, b := p.Post.Ends[design.Foot].Diameter, p.Post.Ends[design.Head].Diameter
		along := (a + 2*b) / (3 * (a + b))
		return r3.Add(p.Post.Ends[design.Foot].At, r3.Scale(along, r3.Sub(p.Post.Ends[design.Head].At, p.Post.Ends[design.Foot].At)))
	case p.Ball != nil:
		return p.Ball.Middle()
	default:
		// Of a plate on a block a little high, since the block is the wider.
		c := p.Base.Middle()
		if p.Base.OnWall() {
			return p.Base.InSpace(r3.Vec{X: c.X, Y: c.Y, Z: p.Base.Top / 2})
		}
		return r3.Vec{X: c.X, Y: c.Y, Z: p.Base.Top / 2}
	}
}

// Areas returns the areas in mm2 that the body shows to a wind along the level unit
// vector w: of its side, and of a post's closed free head.
func (b *Body) Areas(w r3.Vec) (side, head float64) {
	switch p := b.Part; {
	case p.Post != nil:
		side = postArea(p.Post, w)
		if p.Post.Ends[design.Head].Meets == design.Free {
			r := p.Post.Ends[design.Head].Diameter / 2
			head = math.Pi * r * r * math.Abs(r3.Dot(p.Post.Direction, w))
		}
	case p.Ball != nil && p.Ball.Bowl:
		side = bowlArea(p.Ball, w)
	case p.Ball != nil:
		side = p.Ball.Shadow(w)
	default:
		o, across := p.Base.Outline(), r2.Vec{X: -w.Y, Y: w.X}
		if p.Base.OnWall() {
			// It shows its face to a wind square to the wall, and its edge to one along it.
			side = o.Area()*math.Abs(w.Y) + p.Base.Depth*p.Base.Thick()*math.Abs(w.X)
			break
		}
		side = (o.Reach(across) + o.Reach(r2.Scale(-1, across))) * p.Base.Thick()
		if k := p.Base.Block; k.Given() {
			o = k.Outline()
			side += (o.Reach(across) + o.Reach(r2.Scale(-1, across))) * k.Height
		}
	}
	return side, head
}

// postArea returns the area in mm2 that the side of a tube or taper shows to a
// wind along the unit vector w.
//
// The side's outward normal at the angle v round the axis is cos(a) (towards v)
// + sin(a) (axis), with a half the angle of the cone. With c the cosine of the
// angle between axis and wind and s its sine, what faces the wind is
//
//	rm S integral of max(0, cos(a) s cos(v) + sin(a) c) dv
//	= 2 rm S (sqrt(A2 - B2) + B acos(-B / A)), A = cos(a) s, B = sin(a) c
//
// with rm the mean radius and S the slant length. The side that turns away
// shows the same with B of the other sign; the greater of the two is taken, so
// that the wind from behind meets as much. For a tube it is D L s.
func postArea(p *design.Post, w r3.Vec) float64 {
	r0, r1 := p.Ends[design.Foot].Diameter/2, p.Ends[design.Head].Diameter/2
	slant := math.Hypot(p.Length, r1-r0)
	if slant == 0 {
		return 0
	}
	c := r3.Dot(p.Direction, w)
	s := r3.Norm(r3.Cross(p.Direction, w))
	a, b := p.Length/slant*s, math.Abs((r1-r0)/slant*c)
	rm := (r0 + r1) / 2
	if b >= a {
		return 2 * math.Pi * rm * slant * b // the whole side faces the wind, or turns away
	}
	return 2 * rm * slant * (math.Sqrt(a*a-b*b) + b*math.Acos(-b/a))
}

// bowlOutline is the number of points of the outline that bowlArea goes round.
const bowlOutline = 180

// bowlArea returns the area of a bowl's outline seen along a unit vector, of the part of the
// sphere that its flats touch: of its farthest points all round.
func bowlArea(b *design.Ball, w r3.Vec) float64 {
	x, y := design.Tilt(w)
	var sum float64
	var first, last r2.Vec
	for k := range bowlOutline + 1 {
		sin, cos := math.Sincos(2 * math.Pi * float64(k%bowlOutline) / bowlOutline)
		way := r3.Add(r3.Scale(cos, x), r3.Scale(sin, y))
		far := r3.Scale(b.Radius, way)
		if up := r3.Dot(way, b.Pole); up > math.Sin(b.Rim) {
			out := r3.Sub(way, r3.Scale(up, b.Pole))
			far = r3.Scale(b.RimHeight(), b.Pole)
			if n := r3.Norm(out); n > 0 {
				far = r3.Add(far, r3.Scale(b.RimRadius()/n, out))
			}
		}
		at := r2.Vec{X: r3.Dot(far, x), Y: r3.Dot(far, y)}
		if k == 0 {
			first = at
		} else {
			sum += r2.Cross(r2.Sub(last, first), r2.Sub(at, first)) / 2
		}
		last = at
	}
	return sum
}
