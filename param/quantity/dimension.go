// Package quantity has numbers with dimensions, the units that a shop and an
// engineer write, and lengths as a rule reads them: fractions of an inch or
// millimetres.
//
// Inside, every number is in the coherent system of millimetre, kilogram,
// second and radian. A force is then in kg mm/s2 (a thousandth of a newton) and
// a pressure in kg/(mm s2) (a thousand pascals); the accessors of Quantity give
// the units that the rest of the program uses: mm, kg, N, MPa, rad, m/s.
package quantity

import (
	"fmt"
	"strings"
)

// A Dimension is a product of powers of length, mass, time and angle. Angle is
// kept as a dimension of its own, so that a length added to an angle is seen
// for the mistake it is.
type Dimension struct {
	Length, Mass, Time, Angle int8
}

// The dimensions that have a name of their own in the language.
var (
	Number   = Dimension{}
	Length   = Dimension{Length: 1}
	Area     = Dimension{Length: 2}
	Volume   = Dimension{Length: 3}
	Mass     = Dimension{Mass: 1}
	Time     = Dimension{Time: 1}
	Angle    = Dimension{Angle: 1}
	Speed    = Dimension{Length: 1, Time: -1}
	Force    = Dimension{Length: 1, Mass: 1, Time: -2}
	Pressure = Dimension{Length: -1, Mass: 1, Time: -2}
	Density  = Dimension{Length: -3, Mass: 1}
	Moment   = Dimension{Length: 2, Mass: 1, Time: -2}
	Rate     = Dimension{Time: -1} // a frequency
)

// maxPower bounds the powers of a dimension, so that products in a long
// expression cannot run over.
const maxPower = 12

// Times returns the dimension of a product. It reports false when a power runs
// out of any use.
func (d Dimension) Times(e Dimension) (Dimension, bool) {
	return d.plus(e, 1)
}

// Over returns the dimension of a quotient. It reports false when a power runs
// out of any use.
func (d Dimension) Over(e Dimension) (Dimension, bool) {
	return d.plus(e, -1)
}

func (d Dimension) plus(e Dimension, sign int8) (Dimension, bool) {
	sum := Dimension{
		Length: d.Length + sign*e.Length,
		Mass:   d.Mass + sign*e.Mass,
		Time:   d.Time + sign*e.Time,
		Angle:  d.Angle + sign*e.Angle,
	}
	for _, p := range []int8{sum.Length, sum.Mass, sum.Time, sum.Angle} {
		if p > maxPower || p < -maxPower {
			return Dimension{}, false
		}
	}
	return sum, true
}

// Root returns the dimension of a square root. It reports false when a power
// is odd.
func (d Dimension) Root() (Dimension, bool) {
	if d.Length%2 != 0 || d.Mass%2 != 0 || d.Time%2 != 0 || d.Angle%2 != 0 {
		return Dimension{}, false
	}
	return Dimension{d.Length / 2, d.Mass / 2, d.Time / 2, d.Angle / 2}, true
}

// String returns the dimension in the words of a diagnostic: "a length", "an
// angle", "a plain number", or the powers of a nameless one.
func (d Dimension) String() string {
	switch d {
	case Number:
		return "a plain number"
	case Length:
		return "a length"
	case Area:
		return "an area"
	case Volume:
		return "a volume"
	case Mass:
		return "a weight"
	case Time:
		return "a time"
	case Angle:
		return "an angle"
	case Speed:
		return "a speed"
	case Force:
		return "a force"
	case Pressure:
		return "a pressure"
	case Density:
		return "a density"
	case Moment:
		return "a moment"
	case Rate:
		return "a frequency"
	}
	var powers []string
	for _, p := range []struct {
		name  string
		power int8
	}{{"length", d.Length}, {"weight", d.Mass}, {"time", d.Time}, {"angle", d.Angle}} {
		switch p.power {
		case 0:
		case 1:
			powers = append(powers, p.name)
		default:
			powers = append(powers, fmt.Sprintf("%s^%d", p.name, p.power))
		}
	}
	return "a quantity of " + strings.Join(powers, " ")
}
