package solid

import "gonum.org/v1/gonum/spatial/r3"

// A Surface is the outside of a body that a tube's end meets.
type Surface interface {
	// Leave returns the greatest t for which o + t d lies in the body, where d
	// is a unit vector. It reports false where the line misses the body.
	Leave(o, d r3.Vec) (t float64, ok bool)

	// Meet returns the line along which the wall of a tube meets the body.
	Meet(Tube) Contour
}

// A Tube is the end of a tube that comes down on a body. Along is a unit vector
// away from the body; Zero and Right are those of bearings 0 and 90 deg, square
// to it and to each other.
type Tube struct {
	Origin, Along, Zero, Right r3.Vec
	Inner, Outer               float64 // mm, radii of the wall
}

// radial returns the directions outward and onward, in the sense of growing
// bearing, at a bearing of the given sine and cosine.
func (t *Tube) radial(sin, cos float64) (out, on r3.Vec) {
	out = r3.Add(r3.Scale(cos, t.Zero), r3.Scale(sin, t.Right))
	on = r3.Sub(r3.Scale(cos, t.Right), r3.Scale(sin, t.Zero))
	return out, on
}

// A Contour is how the wall of a tube meets a body, bearing by bearing.
type Contour interface {
	// Touch finds where the wall touches first at the bearing of the given sine
	// and cosine. It reports false where the outside of the wall misses the
	// body, for then it does not stand on it.
	Touch(sin, cos float64) (Contact, bool)
}

// A Contact is where a wall touches a body first. A sheet is cut square
// through its thickness, so that the whole wall is cut where any of it touches.
// Heights are in mm along the tube from its origin, slopes in mm/rad.
type Contact struct {
	At       float64 // the greatest height over the wall: where the wall is cut
	Slope    float64 // of At against the bearing
	Toe      float64 // height where the outside of the wall alone meets the body
	ToeSlope float64 // of Toe against the bearing
	Radius   float64 // mm, where across the wall it touches, from inside to outside

	// Clear is how far, in mm, the touch lies from the nearest line on the
	// surface where two faces meet, or less: two touches on the same face may
	// have another between them if both are nearer than the tube bends away.
	Clear float64

	// Face tells the smooth pieces of a contour apart: between contacts of
	// unlike Face it has a kink.
	Face int
}

// Rough is the Face of a contact whose Slope is not known.
const Rough = -1

// An exit is where a line leaves a body: the height, its slopes across the wall
// and against the bearing, and the piece of the surface that it leaves by. With
// a fifth field the compiler would keep it out of registers.
type exit struct {
	t      float64
	across float64
	turn   float64
	face   int
}

// newExit returns the exit at height t by a piece of surface of the given
// normal, on the line at radius r along d.
func newExit(t float64, normal, d, out, on r3.Vec, r float64, face int) exit {
	rise := 1 / r3.Dot(normal, d)
	return exit{
		t:      t,
		across: -r3.Dot(normal, out) * rise,
		turn:   -r3.Dot(normal, on) * rise * r,
		face:   face,
	}
}

// contact makes the contact of a touch at a radius with a rim, not known to be
// clear of anything.
func contact(top exit, r float64, rim exit) Contact {
	return Contact{At: top.t, Slope: top.turn, Toe: rim.t, ToeSlope: rim.turn, Radius: r, Face: top.face}
}

// radiusResolution is how finely a touch within the wall is found, in mm. The
// height is flat there or has a kink of a slope near 1, so that its own error
// is no more than this, a thousandth of what a surface plate resolves.
const radiusResolution = 1e-7

// highest returns the greatest height of a convex body over the wall, given the
// heights at its inner and outer edge. leave gives the height at a radius.
//
// Heights along parallel lines in one plane are a concave function for a convex
// body: one that rises outward at the outer edge, or inward at the inner, has
// its highest there. Else the slope changes sign once between, at a smooth top
// or at a ridge, and halving finds it.
func highest(bore, rim exit, inner, outer float64, leave func(r float64) (exit, bool)) (exit, float64) {
	switch {
	case rim.across >= 0:
		return rim, outer
	case bore.across <= 0:
		return bore, inner
	}
	for outer-inner > radiusResolution {
		mid := (inner + outer) / 2
		e, ok := leave(mid)
		if !ok {
			break
		}
		if e.across > 0 {
			bore, inner = e, mid
		} else {
			rim, outer = e, mid
		}
	}
	top, at := bore, inner
	if rim.t > bore.t {
		top, at = rim, outer
	}
	if bore.face != rim.face {
		// The touch runs along the ridge, where both heights stay equal.
		top.turn = (bore.across*rim.turn - bore.turn*rim.across) / (bore.across - rim.across)
		top.face = ridge + min(bore.face, rim.face)
	}
	return top, at
}

// ridge is added to the lower of two faces for a touch on the ridge between
// them.
const ridge = 1 << 20
