package flat

import (
	"math"

	"stabile/param/quantity"
)

// BeamCompass is the longest radius, in mm, that is struck about its centre in a small
// shop: 60 in and a little. Common practice, no source.
const BeamCompass = 1525.0

// A ByChord is how an arc is laid out whose centre is out of reach: from the chord between
// its corners, over which it rises away from the centre.
type ByChord struct {
	Chord float64 // mm, from corner to corner
	Rise  float64 // mm, of the middle of the arc over the middle of the chord

	// Heights are those of the arc over its chord, in mm: at the middle of the chord, and at
	// every step from there toward either corner.
	Heights []float64
}

// LongArcs are the two arcs of a fan by their chords, which lie square across its middle
// line.
type LongArcs struct {
	Large, Small ByChord
	Apart        float64 // mm, between the two chords
	Step         float64 // mm, along both chords
}

// ByChords returns how the arcs of a fan are laid out that is too large to be struck, at
// round steps of a system of units; nil for one that can be.
func (f *Fan) ByChords(units quantity.System) *LongArcs {
	if f.Large <= BeamCompass || f.Angle >= math.Pi {
		return nil
	}
	half := math.Sin(f.Angle / 2)
	l := LongArcs{Step: roundStep(f.Large*half, units), Apart: (f.Large - f.Small) * math.Cos(f.Angle/2)}
	l.Large, l.Small = byChord(f.Large, f.Large*half, l.Step), byChord(f.Small, f.Small*half, l.Step)
	return &l
}

// byChord lays out the arc of a radius over a chord, of which half is given. Heights are
// differences of the distances of a point and of the chord from the centre, written so that
// nothing is lost where those are nearly alike.
func byChord(radius, half, step float64) ByChord {
	low := math.Sqrt(radius*radius - half*half)
	over := func(x float64) float64 {
		return (half - x) * (half + x) / (math.Sqrt(radius*radius-x*x) + low)
	}
	c := ByChord{Chord: 2 * half, Rise: over(0)}
	for i := 0; float64(i)*step < half; i++ {
		c.Heights = append(c.Heights, over(float64(i)*step))
	}
	return c
}
