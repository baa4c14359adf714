package flat

import "stabile/param/quantity"

// Tolerances are how near a flat is cut by hand, in mm: what the sheets ask for, and
// under which an edge is not told from a straight one.
type Tolerances struct {
	Line float64 // of a straight cut: a scribed line that the shear or the file splits
	Trim float64 // of a trimmed edge, along a curve
}

// ByHand returns the tolerances of a shop that works in a system of units: common
// practice, no source.
func ByHand(units quantity.System) Tolerances {
	if units == quantity.Inch {
		const inch = 25.4
		return Tolerances{Line: inch / 32, Trim: inch / 64}
	}
	return Tolerances{Line: 0.5, Trim: 0.3}
}

// filed reports whether an end that is trimmed is as good as square: its curve rises and
// falls by less than a hand cuts to, so that it is cut square at its longest and filed
// until it fits.
func (e *trim) filed() bool {
	low, high := e.reach()
	return !e.square && high-low < e.hand
}

// laidOut reports whether an end needs a table of ordinates to be laid out.
func (e *trim) laidOut() bool { return !e.square && !e.filed() }
