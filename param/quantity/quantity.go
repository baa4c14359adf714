package quantity

// A Quantity is a number with its dimension, in the coherent units of this
// package.
type Quantity struct {
	Number float64
	Dim    Dimension
}

// Accessors for the units that the rest of the program works in. None checks
// the dimension: that is the evaluator's work.

// Millimetres returns a length in mm.
func (q Quantity) Millimetres() float64 { return q.Number }

// Kilograms returns a mass in kg.
func (q Quantity) Kilograms() float64 { return q.Number }

// Radians returns an angle in rad.
func (q Quantity) Radians() float64 { return q.Number }

// Newtons returns a force in N.
func (q Quantity) Newtons() float64 { return q.Number / 1e3 }

// Megapascals returns a pressure or stress in MPa, which is N/mm2.
func (q Quantity) Megapascals() float64 { return q.Number / 1e3 }

// MetresPerSecond returns a speed in m/s.
func (q Quantity) MetresPerSecond() float64 { return q.Number / 1e3 }

// KilogramsPerCubicMetre returns a density in kg/m3.
func (q Quantity) KilogramsPerCubicMetre() float64 { return q.Number * 1e9 }
