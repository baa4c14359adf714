package shop

import (
	"math"

	"stabile/param/design"
)

// Thickest is how many times thicker than rated a sheet may be however narrow or
// soft it is: the whole load is then on a short length of blade or roll. Common
// practice, no source.
const Thickest = 1.5

// slack takes up the rounding of a product of lengths that were given in inches
// or by gauge, so that the sheet that a machine is rated for is one it takes.
const slack = 1e-9

// Load returns how much a sheet of the given thickness, yield and width uses of
// rolls or a brake, as a share of their rating: thickness squared times width
// times yield, which is in proportion to the moment that bends it, over that of
// the heaviest sheet that they take over their whole width. It is 1 at the
// rating.
//
// The fully plastic moment of a sheet is Y w t^2 / 4; the crank and the frame
// carry it whole, wherever in the rolls the sheet lies.
func Load(c design.Capacity, thickness, yield, width float64) float64 {
	return thickness * thickness * yield * width / (c.Thickness * c.Thickness * c.Yield * c.Width)
}

// Takes reports whether rolls or a brake take a sheet: no wider than they are,
// within their rating, and not thicker than Thickest times what they are rated
// for.
func Takes(c design.Capacity, thickness, yield, width float64) bool {
	return width <= c.Width*(1+slack) && thickness <= Thickest*c.Thickness*(1+slack) &&
		Load(c, thickness, yield, width) <= 1+slack
}

// ShearLoad returns how much cutting a sheet uses of a shear, as a share of its
// rating: thickness squared times tensile strength. A raked blade cuts only a
// short length at a time, a triangle of height t and length t over the tangent of
// the rake, so the force is t^2 tau / (2 tan rake) however long the cut is; the
// width is a limit of its own. The shearing strength tau is about the same share
// of the tensile strength in all these metals; the yield says nothing of
// it. So a shear rated in mild steel takes about 80 % of the thickness in
// stainless. A tensile strength is no less than the yield.
func ShearLoad(s *design.Shear, m *design.Metal) float64 {
	c := s.For(m)
	return m.Thickness * m.Thickness * max(m.Is().Tensile, m.Yield) / (c.Thickness * c.Thickness * max(c.Is().Tensile, c.Yield))
}

// Shears reports whether a shear cuts a metal, the length of the cut apart.
func Shears(s *design.Shear, m *design.Metal) bool {
	return m.Thickness <= Thickest*s.For(m).Thickness*(1+slack) && ShearLoad(s, m) <= 1+slack
}

// Cuts reports whether a cutter goes through a sheet of the given thickness.
func Cuts(c *design.Cutter, thickness float64) bool {
	return c.Thickness == 0 || thickness <= c.Thickness*(1+slack)
}

// Shearable returns the greatest thickness in mm that a shear cuts of a metal like
// the given one.
func Shearable(s *design.Shear, m *design.Metal) float64 {
	return min(m.Thickness/math.Sqrt(ShearLoad(s, m)), Thickest*s.For(m).Thickness)
}
