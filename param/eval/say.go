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

func (e *evaluator) quantity(q quantity.Quantity) string { return e.design.Units.Value(q) }

// mm returns a length as it is written everywhere.
func (e *evaluator) mm(mm float64) string { return e.design.Units.Size(mm) }

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

func (e *evaluator) tick() float64 { return e.design.Units.Step(quantity.Fine) }
