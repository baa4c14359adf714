// Package domain holds the numbers that a formula takes to what it is meant for, so
// that no formula is worked out on nonsense: not a number, infinite, or far beyond
// anything that a sculpture has. The bounds are wide. The limits of a published rule
// are another matter: the rule's own package has them, as data.
package domain

import "fmt"

// A Value is a number with its name and its bounds, both included.
type Value struct {
	Name        string
	X           float64
	Least, Most float64
}

// Check returns an error that names the first value outside its bounds.
func Check(values ...Value) error {
	for _, v := range values {
		if !(v.X >= v.Least && v.X <= v.Most) {
			return fmt.Errorf("%s of %.6g is not within %.6g to %.6g", v.Name, v.X, v.Least, v.Most)
		}
	}
	return nil
}

// Length is a length in mm above 0: a hair to a kilometre.
func Length(name string, x float64) Value { return Value{name, x, 1e-3, 1e6} }

// Distance is a length in mm that may be 0.
func Distance(name string, x float64) Value { return Value{name, x, 0, 1e6} }

// Offset is a length in mm to either side.
func Offset(name string, x float64) Value { return Value{name, x, -1e6, 1e6} }

// Force is a force in N, or a moment in N mm, to either side.
func Force(name string, x float64) Value { return Value{name, x, -1e15, 1e15} }

// Weight is a force in N that is not negative.
func Weight(name string, x float64) Value { return Value{name, x, 0, 1e12} }

// Mass is a mass in kg, or in kg/m, that is not negative.
func Mass(name string, x float64) Value { return Value{name, x, 0, 1e9} }

// Stress is a strength or a modulus in MPa.
func Stress(name string, x float64) Value { return Value{name, x, 1e-3, 1e7} }

// Frequency is a natural frequency in Hz.
func Frequency(name string, x float64) Value { return Value{name, x, 0.01, 1e5} }

// Speed is a wind speed in m/s.
func Speed(name string, x float64) Value { return Value{name, x, 0.1, 300} }

// Ratio is a plain number that is not negative.
func Ratio(name string, x float64) Value { return Value{name, x, 0, 1e6} }
