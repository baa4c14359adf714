package quantity

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// A System is the shop's choice of units: what a bare length in a design means
// and how results read.
type System int

// The systems of units. The zero System is none: a design that has not chosen.
const (
	NoSystem System = iota
	Inch
	Millimetre
)

// String returns the word that chooses the system in a design.
func (s System) String() string {
	switch s {
	case Inch:
		return "inch"
	case Millimetre:
		return "mm"
	}
	return "none"
}

// Unit returns the unit that a bare length means.
func (s System) Unit() (Unit, bool) {
	switch s {
	case Inch:
		return LookupUnit("in")
	case Millimetre:
		return LookupUnit("mm")
	}
	return Unit{}, false
}

// Fineness is the least step of a rule to which a length is read.
type Fineness int

// Finenesses: general work reads to 1/16 in or 0.5 mm, flats to 1/32 in or
// 0.1 mm.
const (
	Coarse Fineness = iota
	Fine
)

// denominators are those of an inch that a rule reads to.
var denominators = [...]int{Coarse: 16, Fine: 32}

// Length returns a length given in mm as a rule reads it, with its unit: a
// fraction of an inch, or millimetres.
func (s System) Length(mm float64, f Fineness) string {
	if s == Inch {
		return s.Rule(mm, f) + " in"
	}
	return s.Rule(mm, f) + " mm"
}

// Rule is Length without the unit, for places where the unit is said once.
func (s System) Rule(mm float64, f Fineness) string {
	if s == Inch {
		return Fraction(mm/inch, denominators[f])
	}
	if f == Fine {
		return Decimal(mm, 1)
	}
	return Decimal(math.Round(mm*2)/2, 1)
}

// Exact returns a length given in mm as a decimal that resolves a hundredth of
// a millimetre, with its unit.
func (s System) Exact(mm float64) string {
	if s == Inch {
		return Decimal(mm/inch, 3) + " in"
	}
	return Decimal(mm, 2) + " mm"
}

// Weight returns a mass given in kg in pounds or kilograms, with its unit, to
// three significant figures and not finer than a hundredth.
func (s System) Weight(kg float64) string {
	if s == Inch {
		return significant(kg/pound) + " lb"
	}
	return significant(kg) + " kg"
}

// Force returns a force given in N in pounds-force or newtons, with its unit.
func (s System) Force(n float64) string {
	if s == Inch {
		return significant(n*1e3/(pound*gravity)) + " lbf"
	}
	return significant(n) + " N"
}

// Moment returns a moment given in N mm in foot pounds-force or newton metres,
// with its unit.
func (s System) Moment(nmm float64) string {
	if s == Inch {
		return significant(nmm*1e3/(pound*gravity*foot)) + " ft lbf"
	}
	return significant(nmm/1e3) + " N m"
}

// Speed returns a speed given in m/s in miles per hour or metres per second, with
// its unit.
func (s System) Speed(mps float64) string {
	if s == Inch {
		return Decimal(mps*3600e3/(5280*foot), 0) + " mph"
	}
	return Decimal(mps, 1) + " m/s"
}

// Pressure returns a pressure given in Pa in pounds-force per square foot or
// pascals, with its unit.
func (s System) Pressure(pa float64) string {
	if s == Inch {
		return significant(pa*foot*foot/(1e3*pound*gravity)) + " lbf/ft2"
	}
	return significant(pa) + " Pa"
}

// Stress returns a stress given in MPa in thousands of pounds-force per square
// inch or megapascals, with its unit.
func (s System) Stress(mpa float64) string {
	if s == Inch {
		return significant(mpa*inch*inch/(pound*gravity)) + " ksi"
	}
	return significant(mpa) + " MPa"
}

// Bearing returns an angle given in rad in whole degrees or to a tenth, in
// [0, 360), with its unit.
func Bearing(rad float64) string {
	deg := math.Mod(rad*180/math.Pi, 360)
	if deg < -0.05 {
		deg += 360
	}
	if deg >= 359.95 {
		deg = 0
	}
	return Decimal(deg, 1) + " deg"
}

// Degrees returns an angle given in rad in degrees to a tenth, with its unit.
func Degrees(rad float64) string {
	return Decimal(rad*180/math.Pi, 1) + " deg"
}

// Decimal returns x with at most the given number of decimals, without trailing
// zeros and never as a negative zero.
func Decimal(x float64, decimals int) string {
	s := strconv.FormatFloat(x, 'f', decimals, 64)
	if strings.Contains(s, ".") {
		s = strings.TrimRight(strings.TrimRight(s, "0"), ".")
	}
	if s == "-0" {
		return "0"
	}
	return s
}

// Fraction returns x to the nearest 1/denominator in lowest terms as the shop
// writes it: "5-1/4", "3/8", "12", "-1/2". The denominator is a power of two. A
// number too great to hold such a fraction is returned whole.
func Fraction(x float64, denominator int) string {
	if !(math.Abs(x) < maxWhole/float64(denominator)) {
		return Decimal(x, 0)
	}
	n := int64(math.Round(math.Abs(x) * float64(denominator)))
	whole, over, under := n/int64(denominator), n%int64(denominator), int64(denominator)
	for over != 0 && over%2 == 0 {
		over, under = over/2, under/2
	}
	sign := ""
	if x < 0 && n != 0 {
		sign = "-"
	}
	switch {
	case over == 0:
		return fmt.Sprintf("%s%d", sign, whole)
	case whole == 0:
		return fmt.Sprintf("%s%d/%d", sign, over, under)
	}
	return fmt.Sprintf("%s%d-%d/%d", sign, whole, over, under)
}

// maxWhole is the number up to which a float64 holds every whole number.
const maxWhole = 1 << 53

// significant returns x to three significant figures, but not finer than a
// hundredth, or a thousandth where that leaves nothing. Trailing zeros stay, so that columns of figures line up.
func significant(x float64) string {
	// The limits are where rounding brings another figure before the point.
	switch a := math.Abs(x); {
	case a < 0.0005:
		return "0"
	case a < 0.005:
		return strconv.FormatFloat(x, 'f', 3, 64)
	case a < 9.995:
		return strconv.FormatFloat(x, 'f', 2, 64)
	case a < 99.95:
		return strconv.FormatFloat(x, 'f', 1, 64)
	}
	return Decimal(x, 0)
}

// RoundStep returns the greatest of 1, 2 or 5 times a power of ten that is not above x,
// which is more than 0: a step by which numbers go that are read and written by hand.
func RoundStep(x float64) float64 {
	const rounding = 1e-9
	p := math.Pow(10, math.Floor(math.Log10(x)))
	for _, n := range []float64{5, 2} {
		if n*p <= x*(1+rounding) {
			return n * p
		}
	}
	return p
}

// Finite reports whether numbers are neither NaN nor infinite.
func Finite(xs ...float64) bool {
	for _, x := range xs {
		if math.IsNaN(x) || math.IsInf(x, 0) {
			return false
		}
	}
	return true
}
