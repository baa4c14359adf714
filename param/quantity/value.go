package quantity

import "math"

// UnitOf returns the unit in which a system writes quantities of a dimension; it
// reports false for a dimension without one, such as a plain number.
func (s System) UnitOf(d Dimension) (Unit, bool) {
	inch := map[Dimension]string{
		Length: "in", Mass: "lb", Force: "lbf", Speed: "mph", Pressure: "psi", Density: "lb/ft3",
	}
	metric := map[Dimension]string{
		Length: "mm", Mass: "kg", Force: "N", Speed: "m/s", Pressure: "MPa", Density: "kg/m3",
	}
	names := metric
	if s == Inch {
		names = inch
	}
	if name, ok := names[d]; ok {
		return LookupUnit(name)
	}
	if d == Angle {
		return LookupUnit("deg")
	}
	all := UnitNames(&d)
	if len(all) == 0 {
		return Unit{}, false
	}
	return LookupUnit(all[0])
}

// mostShown is the greatest number, in coherent units, that is written in digits.
const mostShown = 1e12

// Value returns a quantity of the language with its unit: a length to the step of
// flats, an angle to a tenth of a degree, a plain number to a thousandth, a weight,
// force or moment to three significant figures, anything else to a hundredth.
func (s System) Value(q Quantity) string {
	if math.Abs(q.Number) > mostShown {
		return "too large to show"
	}
	switch q.Dim {
	case Number:
		return Decimal(q.Number, 3)
	case Length:
		return s.Size(q.Millimetres())
	case Angle:
		return Degrees(q.Radians())
	case Mass:
		return s.Weight(q.Kilograms())
	case Force:
		return s.Force(q.Newtons())
	case Moment:
		return s.Moment(q.Number / 1e6)
	}
	if u, ok := s.UnitOf(q.Dim); ok {
		return Decimal(q.Number/u.Scale, 2) + " " + u.Name
	}
	return Decimal(q.Number, 3)
}

// Size returns a length given in mm to the step of flats, with its unit; as a
// decimal where that step would read nothing.
func (s System) Size(mm float64) string {
	if text := s.Rule(mm, Fine); mm != 0 && text == "0" {
		return s.Exact(mm)
	}
	return s.Length(mm, Fine)
}

// Step returns the step in mm to which a fineness reads.
func (s System) Step(f Fineness) float64 {
	if s == Inch {
		return inch / float64(denominators[f])
	}
	return [...]float64{Coarse: 0.5, Fine: 0.1}[f]
}

// Run returns a long length given in mm, such as of all welds, to a tenth of a foot
// or of a metre, with its unit.
func (s System) Run(mm float64) string {
	if s == Inch {
		return Decimal(mm/foot, 1) + " ft"
	}
	return Decimal(mm/1e3, 1) + " m"
}
