package rolling

import (
	"math"

	"stabile/param/design"
)

const (
	// rollModulus is the modulus in MPa of the steel that rolls are of.
	rollModulus = 200e3

	// barrelled is the share of the diameter by which the middle of a piece may
	// be larger than its ends before it is worth a caution.
	barrelled = 0.02
)

// bow returns how far, in mm, the back roll stands lower under the middle of a
// sheet than under its edges, the sheet being in the middle of the rolls and
// pushing with the given force in N per mm. The roll is a solid beam of length L
// = the usable width on two bearings, under an even load q over w: by twice
// integrating its moment, with R = q w / 2 at each bearing and the sheet's edge
// at a = (L - w)/2,
//
//	E I slope at the bearing = C = R L^2/8 - q (w/2)^3/6 ,
//	E I sag in the middle    = C L/2 - R L^3/48 + q (w/2)^4/24 ,
//	E I sag at the edge      = C a - R a^3/6 ,
//
// which for w = L is the handbooks' 5 q L^4 / 384 in the middle. The upper roll
// bows the other way by about as much again, which is not counted.
func bow(r *design.Rolls, back, across, force float64) float64 {
	span, half := max(r.Width, across), across/2
	inertia := math.Pi / 4 * back * back * back * back
	reaction := force * half
	a := span/2 - half
	slope := reaction*span*span/8 - force*half*half*half/6
	middle := slope*span/2 - reaction*span*span*span/48 + force*half*half*half*half/24
	edge := slope*a - reaction*a*a*a/6
	return (middle - edge) / (rollModulus * inertia)
}
