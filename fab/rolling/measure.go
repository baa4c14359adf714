package rolling

import (
	"math"

	"stabile/param/quantity"
)

// A Check is what the sheet should measure after a pass, off the rolls: across
// its hollow side with a rule, or against a template.
type Check struct {
	Chord   float64 // mm, of a straight-edge laid inside, ends touching; 0 where there is no room for one
	Rise    float64 // mm, from the middle of the straight-edge to the sheet
	Reads   float64 // mm of radius that a misreading of 1/64 in, 0.4 mm, of the rise comes to
	Inside  float64 // mm, radius of a template for the hollow side
	Outside float64 // mm, radius of a template for the outside, or half of the diameter
}

// misread is how closely a rule is read, half of 1/32 in.
const misread = 25.4 / 64

// chords are the lengths of straight-edge that are used, in mm.
func chords(units quantity.System) []float64 {
	if units == quantity.Inch {
		const in = 25.4
		return []float64{1 * in, 2 * in, 3 * in, 4 * in, 6 * in, 8 * in, 10 * in, 12 * in, 18 * in, 24 * in}
	}
	return []float64{25, 50, 75, 100, 150, 200, 250, 300, 400, 500, 600}
}

const (
	// widest is the greatest chord in inside radii: beyond it a straight-edge
	// no longer sits surely across the hollow.
	widest = 1.6

	// covered is the share of a piece that a chord may take up: the ends are
	// not yet true.
	covered = 0.8
)

// measured returns what a sheet of the given thickness and length around measures
// when its middle has the given radius.
func measured(radius, thickness, around float64, units quantity.System) Check {
	inside := radius - thickness/2
	c := Check{Inside: inside, Outside: radius + thickness/2}
	room := min(widest*inside, 2*inside*math.Sin(min(covered*around/radius, math.Pi)/2))
	for _, chord := range chords(units) {
		if chord > room {
			break
		}
		half := chord / 2
		side := math.Sqrt(inside*inside - half*half)
		c.Chord = chord
		c.Rise = half * half / (inside + side) // inside - side, without cancelling
		// d(rise)/d(radius) = 1 - inside/side = -rise/side.
		c.Reads = misread * side / c.Rise
	}
	return c
}

// versine returns the height of an arc of the given radius over its chord, half
// of the arc being angle rad: radius (1 - cos angle), without cancelling.
func versine(radius, angle float64) float64 {
	sin := math.Sin(min(angle, math.Pi) / 2)
	return 2 * radius * sin * sin
}
