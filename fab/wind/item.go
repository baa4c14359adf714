package wind

import (
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

	// Mean is the mean wind of 10 min at Reference in m/s that comes about once in 50
	// years: v_m of EN 1991-1-4. Of ASCE 7, whose speeds are of gusts, it is worked out
	// from them.
	Mean float64

	// Gust is the factor on the force, G or c_s c_d.
	Gust float64

	// Area in mm2, Force in N along the wind and Uplift in N are those of the
	// worst bearing; Height in mm is that of the centre of the area.
	Area, Force, Uplift, Height float64

	body *solid.Body // the part's
	wall bool        // the piece is on a wall, whose face is y = 0
}

// width returns the item's width in mm, the b of a cylinder or a sphere.
func (it *Item) width() float64 {
	switch p := it.Part; {
	case p.Post != nil:
		return (p.Post.Ends[design.Foot].Diameter + p.Post.Ends[design.Head].Diameter) / 2
	case p.Ball != nil:
		return 2 * max(p.Ball.Radius, p.Ball.Polar())
	case p.Base.OnWall():
		return p.Base.Depth
	default:
		return p.Base.Top
	}
}

// nearGround reports whether the clear gap between a ball and the ground is less
// than its radius.
func (it *Item) nearGround() bool {
	b := it.Part.Ball
	if b == nil {
		return false
	}
	high := b.Reach(design.Upright)
	return b.Center.Z-high < max(b.Radius, high)
}

// onWall reports whether the item is the plate that holds the piece to a wall.
func (it *Item) onWall() bool { return it.Part.Base != nil && it.Part.Base.OnWall() }

// nearWall reports whether the clear gap between a ball and the wall is less than its radius.
func (it *Item) nearWall() bool {
	b := it.Part.Ball
	if !it.wall || b == nil {
		return false
	}
	deep := b.Reach(r3.Vec{Y: 1})
	return -b.Center.Y-deep < max(b.Radius, deep)
}
