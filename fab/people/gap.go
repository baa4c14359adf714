package people

import (
	"math"
)

// The probes. The least and the most of a gap that traps a head are those of the US public
// playground safety handbook (3.5 and 9 in); the torso and head probes C and D of EN 1176-1
// (89 x 157 and 230, from memory) have the same widths. Finger traps are 8 to 25 mm, EN
// 1176-1 (from memory).
const (
	Torso       = 89.0
	TorsoLength = 157.0
	Head        = 230.0
	FingerLeast = 8.0
	FingerMost  = 25.0

	// wideVee is the angle in rad from which two parts that part upward trap no neck:
	// 55 degrees, the same handbook (from memory).
	wideVee = 55 * math.Pi / 180
)

// A Gap is a space between parts, as a person meets it.
type Gap struct {
	Width  float64 // mm, clear, where it is narrowest across
	Length float64 // mm, clear, the other way; 0 where it is not known, which counts as long
	Height float64 // mm, of its lower edge above the ground

	Bounded bool // it is closed all round
	Ground  bool // the ground is one of its sides

	// Vee means that two parts that meet below part upward from there, with Angle rad
	// between them, open at the top; Width is then the widest that it comes to.
	Vee   bool
	Angle float64
}

// A Trap is what a gap can hold fast.
type Trap string

// The traps.
const (
	NoTrap     Trap = ""
	HeadTrap   Trap = "head"
	NeckTrap   Trap = "neck"
	FingerTrap Trap = "finger"
)

// Traps returns what a gap can hold fast:
//
//   - a head, where it is bounded on all sides, not by the ground, and lets a torso through
//     (89 mm or more across, 157 mm the other way) but not a head (230 mm): at any height
//     within reach, since a child may come to it feet first;
//   - a neck, where two parts open upward at less than 55 degrees and come 45 mm or more
//     apart, half of the torso: it counts from a Foothold up;
//   - a finger, where it is bounded and 8 to 25 mm across.
//
// A gap whose lower edge is above Reach traps nobody. Figures that are not numbers trap, as
// a head does.
func (g Gap) Traps() Trap {
	for _, x := range []float64{g.Width, g.Length, g.Height, g.Angle} {
		if math.IsNaN(x) {
			return HeadTrap
		}
	}
	if g.Height > Reach {
		return NoTrap
	}
	narrow, long := g.Width, g.Length
	if long == 0 {
		long = math.Inf(1)
	}
	if long < narrow {
		narrow, long = long, narrow
	}
	switch {
	case g.Vee:
		if g.Angle < wideVee && g.Width >= Torso/2 && g.Height >= 0 && g.top() >= Foothold {
			return NeckTrap
		}
	case !g.Bounded:
	case narrow >= FingerLeast && narrow <= FingerMost:
		return FingerTrap
	case !g.Ground && narrow >= Torso && narrow < Head && long >= TorsoLength:
		return HeadTrap
	}
	return NoTrap
}

// top returns the height in mm up to which a vee opens.
func (g Gap) top() float64 {
	half := math.Tan(g.Angle / 2)
	if !(half > 0) {
		return math.Inf(1)
	}
	return g.Height + g.Width/2/half
}
