package eval

import (
	"math"

	"stabile/param/quantity"
)

// say returns a value as a diagnostic or an outcome shows it, in the file's
// units.
func (e *evaluator) say(v value) string {
	switch v.kind {
	case number:
		return e.quantity(v.q)
	case boolean:
		if v.yes {
			return "yes"
		}
		return "no"
	case text:
		return "'" + v.text + "'"
	}
	return v.String()
}

// mostShown is the greatest number, in coherent units, that is shown in digits.
const mostShown = 1e12

func (e *evaluator) quantity(q quantity.Quantity) string {
	if math.Abs(q.Number) > mostShown {
		return "too large to show"
	}
	u := e.design.Units
	inches := u == quantity.Inch
	in := func(unit string) string {
		k, _ := quantity.LookupUnit(unit)
		return quantity.Decimal(q.Number/k.Scale, 2) + " " + unit
	}
	of := func(inch, metric string) string {
		if inches {
			return in(inch)
		}
		return in(metric)
	}
	switch q.Dim {
	case quantity.Number:
		return quantity.Decimal(q.Number, 3)
	case quantity.Length:
		return e.mm(q.Number)
	case quantity.Angle:
		return quantity.Degrees(q.Number)
	case quantity.Mass:
		return u.Weight(q.Kilograms())
	case quantity.Force:
		return u.Force(q.Newtons())
	case quantity.Moment:
		return u.Moment(q.Number / 1e6)
	case quantity.Pressure:
		return of("psi", "MPa")
	case quantity.Speed:
		return of("mph", "m/s")
	case quantity.Density:
		return of("lb/ft3", "kg/m3")
	case quantity.Time:
		return in("s")
	case quantity.Rate:
		return in("Hz")
	}
	return q.Dim.String()
}

// mm returns a length as a rule reads it; as a decimal where the rule would
// read nothing.
func (e *evaluator) mm(mm float64) string {
	if s := e.design.Units.Length(mm, quantity.Fine); mm == 0 || s[:2] != "0 " {
		return s
	}
	return e.design.Units.Exact(mm)
}

// mms returns two lengths that differ so that the difference shows.
func (e *evaluator) mms(a, b float64) (string, string) {
	u := e.design.Units
	x, y := e.mm(a), e.mm(b)
	if x == y && a != b {
		x, y = u.Exact(a), u.Exact(b)
	}
	return x, y
}

// down returns a length rounded down to what a rule reads, so that it can be
// given as a bound to stay under.
func (e *evaluator) down(mm float64) string {
	return e.mm(math.Floor(mm/e.tick()*(1+sameness)) * e.tick())
}

// up returns a length rounded up to what a rule reads.
func (e *evaluator) up(mm float64) string {
	return e.mm(math.Ceil(mm/e.tick()*(1-sameness)) * e.tick())
}

func (e *evaluator) tick() float64 {
	if e.design.Units == quantity.Inch {
		return 25.4 / 32
	}
	return 0.1
}
