package quantity

import (
	"math"
	"slices"
)

// A Unit is a named unit: a quantity of Scale coherent units.
type Unit struct {
	Name  string
	Dim   Dimension
	Scale float64
}

// The exact definitions of the inch, pound and standard gravity are those of
// the international yard and pound agreement of 1959 and of the third CGPM of
// 1901.
const (
	inch    = 25.4       // mm
	foot    = 12 * inch  // mm
	mile    = 5280       // feet
	pound   = 0.45359237 // kg
	gravity = 9806.65    // mm/s2
)

// Gravity is the standard acceleration of free fall in m/s2.
const Gravity = gravity / 1e3

var units = []Unit{
	{"in", Length, inch},
	{"ft", Length, foot},
	{"mm", Length, 1},
	{"cm", Length, 10},
	{"m", Length, 1000},
	{"deg", Angle, math.Pi / 180},
	{"rad", Angle, 1},
	{"lb", Mass, pound},
	{"oz", Mass, pound / 16},
	{"kg", Mass, 1},
	{"g", Mass, 1e-3},
	{"lbf", Force, pound * gravity},
	{"N", Force, 1e3},
	{"kN", Force, 1e6},
	{"psi", Pressure, pound * gravity / (inch * inch)},
	{"ksi", Pressure, 1000 * pound * gravity / (inch * inch)},
	{"psf", Pressure, pound * gravity / (foot * foot)},
	{"Pa", Pressure, 1e-3},
	{"kPa", Pressure, 1},
	{"MPa", Pressure, 1e3},
	{"mph", Speed, mile * foot / 3600},
	{"m/s", Speed, 1e3},
	{"km/h", Speed, 1e6 / 3600},
	{"ft/s", Speed, foot},
	{"lb/ft3", Density, pound / (foot * foot * foot)},
	{"kg/m3", Density, 1e-9},
	{"s", Time, 1},
	{"min", Time, 60},
	{"hr", Time, 3600},
	{"day", Time, 86400},
	{"days", Time, 86400},
	{"Hz", Rate, 1},
}

// LookupUnit returns the unit of the given name, such as "in" or "lb/ft3".
func LookupUnit(name string) (Unit, bool) {
	for _, u := range units {
		if u.Name == name {
			return u, true
		}
	}
	return Unit{}, false
}

// UnitNames returns the names of the units of a dimension, in the order in
// which a shop would think of them; of all dimensions when d is nil.
func UnitNames(d *Dimension) []string {
	var names []string
	for _, u := range units {
		if d == nil || u.Dim == *d {
			names = append(names, u.Name)
		}
	}
	return slices.Clip(names)
}

// Of returns n of the unit as a quantity.
func (u Unit) Of(n float64) Quantity {
	return Quantity{Number: n * u.Scale, Dim: u.Dim}
}
