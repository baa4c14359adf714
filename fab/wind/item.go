package wind

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

// An Item is a part that the wind meets.
type Item struct {
	Part      *design.Part
	Reference float64 // mm, the height at which the pressure is taken
	Pressure  float64 // Pa, q_z or q_p at Reference

	// Coefficient is C_f or c_f, without the gust factor. CapCoefficient is that
	// of a post's closed free head. Lift is c_f,z, 0 for none. Rule is where they
	// come from.
	Coefficient, CapCoefficient, Lift float64
	Rule                              Rule

	// Regime is what decides between the rows of a method's coefficients: D
	// sqrt(q) in m sqrt(Pa) for ASCE 7, Reynolds' number for EN 1991-1-4.
	// Roughness is the surface's in mm, 0 where the method does not need it.
	Regime, Roughness float64

	// Mean is the mean wind at Reference in m/s, v_m of EN 1991-1-4; 0 for ASCE 7,
	// whose speeds are of gusts.
	Mean float64

	// Gust is the factor on the force, G or c_s c_d.
	Gust float64

	// Area in mm2, Force in N along the wind and Uplift in N are those of the
	// worst bearing; Height in mm is that of the centre of the area.
	Area, Force, Uplift, Height float64
}

// newItem returns a part as the wind meets it.
func newItem(p *design.Part) Item {
	it := Item{Part: p}
	it.Height = it.center().Z
	return it
}

// center returns the centre of the item's body, where the force on it acts. Of a
// taper it is that of the trapezium that it shows to a wind square to it.
func (it *Item) center() r3.Vec {
	switch p := it.Part; {
	case p.Post != nil:
		a, b := p.Post.Ends[design.Foot].Diameter, p.Post.Ends[design.Head].Diameter
		along := (a + 2*b) / (3 * (a + b))
		return r3.Add(p.Post.Ends[design.Foot].At, r3.Scale(along, r3.Sub(p.Post.Ends[design.Head].At, p.Post.Ends[design.Foot].At)))
	case p.Ball != nil:
		return p.Ball.Center
	default:
		c := p.Base.Middle()
		return r3.Vec{X: c.X, Y: c.Y, Z: p.Base.Top / 2}
	}
}

// top returns the height in mm of the item's highest point.
func (it *Item) top() float64 {
	switch p := it.Part; {
	case p.Post != nil:
		return max(solid.EndReach(p.Post, design.Foot, design.Upright), solid.EndReach(p.Post, design.Head, design.Upright))
	case p.Ball != nil:
		return p.Ball.Center.Z + p.Ball.Radius
	default:
		return p.Base.Top
	}
}

// width returns the item's width in mm, the b of a cylinder or a sphere.
func (it *Item) width() float64 {
	switch p := it.Part; {
	case p.Post != nil:
		return (p.Post.Ends[design.Foot].Diameter + p.Post.Ends[design.Head].Diameter) / 2
	case p.Ball != nil:
		return 2 * p.Ball.Radius
	default:
		return p.Base.Top
	}
}

// nearGround reports whether the clear gap between a ball and the ground is less
// than its radius.
func (it *Item) nearGround() bool {
	b := it.Part.Ball
	return b != nil && b.Center.Z-b.Radius < b.Radius
}

// areas returns the areas in mm2 that an item shows to a wind along the unit
// vector w: of its body, and of a closed free head.
func (it *Item) areas(w r3.Vec) (side, head float64) {
	switch p := it.Part; {
	case p.Post != nil:
		side = postArea(p.Post, w)
		if p.Post.Ends[design.Head].Meets == design.Free {
			r := p.Post.Ends[design.Head].Diameter / 2
			head = math.Pi * r * r * math.Abs(r3.Dot(p.Post.Direction, w))
		}
	case p.Ball != nil:
		side = math.Pi * p.Ball.Radius * p.Ball.Radius
	default:
		o, across := p.Base.Outline(), r2.Vec{X: -w.Y, Y: w.X}
		side = (o.Reach(across) + o.Reach(r2.Scale(-1, across))) * p.Base.Top
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
