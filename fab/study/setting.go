package study

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"stabile/param/quantity"
)

// A Setting gives an adjustable name a value. Value is how the command line
// would give it, such as "36 in"; it is the text that is worked out, and
// Quantity is what it comes to but for rounding of the tenth digit.
type Setting struct {
	Name     string
	Value    string
	Quantity quantity.Quantity
}

// String returns the setting as an option of the command line has it.
func (s Setting) String() string { return s.Name + "=" + s.Value }

// Number returns the value as a number of its unit, and the unit: 36, "in".
func (s Setting) Number() (float64, string) {
	text, unit, _ := strings.Cut(s.Value, " ")
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return s.Quantity.Number, ""
	}
	return x, unit
}

// set returns a setting of a name, written in the units of a system. It fails
// for quantities that have no unit of their own.
func set(name string, q quantity.Quantity, system quantity.System) (Setting, error) {
	text, err := write(q, system)
	if err != nil {
		return Setting{}, fmt.Errorf("'%s' cannot be varied: %w", name, err)
	}
	return Setting{Name: name, Value: text, Quantity: q}, nil
}

// digits is to how many significant digits values are written: enough for any
// shop, and few enough that 24 in + 3 x 1/3 in reads as 25 in.
const digits = 10

// write returns a quantity as the language has it.
func write(q quantity.Quantity, system quantity.System) (string, error) {
	if q.Dim == quantity.Number {
		return number(q.Number), nil
	}
	u, ok := system.UnitOf(q.Dim)
	if !ok {
		return "", fmt.Errorf("%s has no unit to be written in", q.Dim)
	}
	return number(q.Number/u.Scale) + " " + u.Name, nil
}

// number writes a number without an exponent, which the language does not have.
func number(x float64) string {
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', digits, 64), 64)
	if err != nil || math.IsInf(rounded, 0) || rounded == 0 {
		return "0"
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}

// join writes settings one after the other.
func join(list []Setting) string {
	texts := make([]string, len(list))
	for i, s := range list {
		texts[i] = s.Name + " " + s.Value
	}
	return strings.Join(texts, ", ")
}
