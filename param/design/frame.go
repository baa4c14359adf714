package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Upright is the direction of a post that does not lean.
var Upright = r3.Vec{Z: 1}

// Tilt returns the directions that bearings 0 and 90 deg have on a post along
// the unit vector u: those of the post standing upright, carried over by the
// shortest tilt. A post straight down has no shortest tilt; it is tilted about
// the Y axis.
//
// The rotation that carries Z to u about the axis Z x u has these columns, by
// Rodrigues' formula.
func Tilt(u r3.Vec) (x, y r3.Vec) {
	if u.Z <= -1+1e-12 {
		return r3.Vec{X: -1}, r3.Vec{Y: 1}
	}
	k := 1 / (1 + u.Z)
	if u.Z < 0 {
		k = (1 - u.Z) / (u.X*u.X + u.Y*u.Y) // the same, without cancelling near straight down
	}
	x = r3.Vec{X: 1 - u.X*u.X*k, Y: -u.X * u.Y * k, Z: -u.X}
	y = r3.Vec{X: -u.X * u.Y * k, Y: 1 - u.Y*u.Y*k, Z: -u.Y}
	return x, y
}

// Toward returns the direction, square to the unit vector u, of the given
// bearing in rad on a post along u.
func Toward(u r3.Vec, bearing float64) r3.Vec {
	x, y := Tilt(u)
	sin, cos := math.Sincos(bearing)
	return r3.Add(r3.Scale(cos, x), r3.Scale(sin, y))
}

// Leaning returns the unit vector that leans from upright by the given angle
// toward a bearing, both in rad.
func Leaning(lean, bearing float64) r3.Vec {
	sin, cos := math.Sincos(lean)
	sinB, cosB := math.Sincos(bearing)
	return r3.Vec{X: sin * cosB, Y: sin * sinB, Z: cos}
}

// CircleReach returns how far a circle of radius 1 square to an axis reaches from
// its centre along a unit vector.
func CircleReach(axis, way r3.Vec) float64 { return r3.Norm(r3.Cross(axis, way)) }

// BearingOf returns the bearing in rad, in [0, 2 pi), of a direction given in
// plan. It is 0 for a direction straight up or down.
func BearingOf(v r3.Vec) float64 {
	if v.X == 0 && v.Y == 0 {
		return 0
	}
	b := math.Atan2(v.Y, v.X)
	if b < 0 {
		b += 2 * math.Pi
	}
	return b
}
