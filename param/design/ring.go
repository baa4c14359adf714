package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// A Ring is a hoop of like tubes, the head of each mitred to the foot of the next in half
// of the turn between them. Its tubes are posts, numbered from the one that it rests on or,
// lying, from the one on the side that it faces, counter-clockwise to whom it faces or
// looks down on it.
type Ring struct {
	Name   string
	Tubes  []*Part
	Center r3.Vec  // mm
	Axis   r3.Vec  // unit vector: level the way that it faces, or up where it lies
	First  r3.Vec  // unit vector, square to Axis, from the centre to the middle of tube 1
	Across float64 // mm, diameter of the circle that the outsides of its tubes touch
	Flat   bool    // it lies, its axis upright
	On     *Part   // the base or the post that it rests on; nil for the ground, and where it is placed outright
}

// HalfTurn returns half of the angle, in rad, by which each of n tubes of a ring turns from
// the one before: that of a mitre.
func HalfTurn(n int) float64 { return math.Pi / float64(n) }

// Apothem returns the distance in mm of the axes of its tubes from the centre of a ring.
func (r *Ring) Apothem() float64 { return (r.Across - r.Tubes[0].Post.Ends[Foot].Diameter) / 2 }

// Corner returns how far, in mm, the corners of a ring stand out of the circle that its
// tubes touch, R (1 / cos(pi / n) - 1): by that it is out of round.
func (r *Ring) Corner() float64 {
	return r.Across / 2 * (1/math.Cos(HalfTurn(len(r.Tubes))) - 1)
}

// At returns the point in the plane of the ring's axes at a distance in mm from its centre
// and an angle in rad, the way in which its tubes are counted, from the middle of tube 1.
func (r *Ring) At(radius, angle float64) r3.Vec {
	sin, cos := math.Sincos(angle)
	out := r3.Add(r3.Scale(cos, r.First), r3.Scale(sin, r3.Cross(r.Axis, r.First)))
	return r3.Add(r.Center, r3.Scale(radius, out))
}

// Top returns the height in mm of the highest point of a ring.
func (r *Ring) Top() float64 {
	thick := r.Tubes[0].Post.Ends[Foot].Diameter
	if r.Flat {
		return r.Center.Z + thick/2
	}
	top, half := math.Inf(-1), HalfTurn(len(r.Tubes))
	for k := range r.Tubes {
		top = max(top, r.At(r.Across/2/math.Cos(half), float64(2*k+1)*half).Z)
	}
	return top
}

// Bearings returns the directions, square to its axis, that bearings 0 and 90 deg have on a
// post: those of the post standing upright, as Tilt has them. On a tube of a ring 0 is out
// from the ring's centre and 270 deg the way of the ring's axis, so that like tubes are
// marked alike.
func (p *Post) Bearings() (zero, right r3.Vec) {
	if r := p.Ring; r != nil {
		return r3.Cross(p.Direction, r.Axis), r3.Scale(-1, r.Axis)
	}
	return Tilt(p.Direction)
}

// Facing returns the direction of a bearing in rad on a post, square to its axis.
func (p *Post) Facing(bearing float64) r3.Vec {
	zero, right := p.Bearings()
	sin, cos := math.Sincos(bearing)
	return r3.Add(r3.Scale(cos, zero), r3.Scale(sin, right))
}

// BearingTo returns the bearing in rad, in [0, 2 pi), on a post of a direction off its axis.
func (p *Post) BearingTo(way r3.Vec) float64 {
	zero, right := p.Bearings()
	bearing := math.Atan2(r3.Dot(way, right), r3.Dot(way, zero))
	if bearing < 0 {
		bearing += 2 * math.Pi
	}
	return bearing
}

// LyingLine returns the ends of the line in which a tube of a ring lies on what is under it.
func (p *Post) LyingLine() [2]r3.Vec {
	n := len(p.Ring.Tubes)
	half, radius := p.Length/2, p.Ends[Foot].Diameter/2
	if !p.Ring.Flat { // along its outside, which is longer by the mitres
		half += radius * math.Tan(HalfTurn(n))
	}
	middle := r3.Scale(0.5, r3.Add(p.Ends[Foot].At, p.Ends[Head].At))
	middle.Z -= radius
	return [2]r3.Vec{r3.Sub(middle, r3.Scale(half, p.Direction)), r3.Add(middle, r3.Scale(half, p.Direction))}
}
