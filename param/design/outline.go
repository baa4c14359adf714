package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
)

// An Outline is a convex outline in plan, in mm: a circle about the origin where
// Radius is not 0, else the polygon of its Corners, counter-clockwise.
type Outline struct {
	Radius  float64
	Corners []r2.Vec
}

// Outline returns the outline of a base of any shape.
func (b *Base) Outline() Outline {
	switch b.Shape {
	case Plate:
		x, y, at := b.Width/2, b.Depth/2, b.At
		return Outline{Corners: []r2.Vec{{X: at.X - x, Y: at.Y - y}, {X: at.X + x, Y: at.Y - y}, {X: at.X + x, Y: at.Y + y}, {X: at.X - x, Y: at.Y + y}}}
	case Disc:
		return Outline{Radius: b.Width / 2}
	}
	return Outline{Corners: b.Corners}
}

// IsRound reports whether the outline is a circle.
func (o Outline) IsRound() bool { return o.Radius > 0 }

// Sides goes through the sides of a polygon: the corner that each starts from, and
// the unit vector square to it, outward.
func (o Outline) Sides(yield func(from, out r2.Vec) bool) {
	for i, from := range o.Corners {
		side := r2.Unit(r2.Sub(o.Corners[(i+1)%len(o.Corners)], from))
		if !yield(from, r2.Vec{X: side.Y, Y: -side.X}) {
			return
		}
	}
}

// Reach returns how far the outline reaches from the origin along a way, in mm
// times the way's length.
func (o Outline) Reach(way r2.Vec) float64 {
	if o.IsRound() {
		return o.Radius * math.Hypot(way.X, way.Y)
	}
	reach := math.Inf(-1)
	for _, c := range o.Corners {
		reach = max(reach, r2.Dot(c, way))
	}
	return reach
}

// Box returns the least rectangle along x and y about the outline.
func (o Outline) Box() r2.Box {
	return r2.Box{
		Min: r2.Vec{X: -o.Reach(r2.Vec{X: -1}), Y: -o.Reach(r2.Vec{Y: -1})},
		Max: r2.Vec{X: o.Reach(r2.Vec{X: 1}), Y: o.Reach(r2.Vec{Y: 1})},
	}
}

// Area returns the area within, in mm2.
func (o Outline) Area() float64 {
	if o.IsRound() {
		return math.Pi * o.Radius * o.Radius
	}
	area := 0.0
	for i, c := range o.Corners {
		area += r2.Cross(c, o.Corners[(i+1)%len(o.Corners)]) / 2
	}
	return area
}

// Middle returns the centre of the area of a base in plan, which is the origin but
// for a polygon and a pad.
func (b *Base) Middle() r2.Vec {
	if b.Shape != Polygon {
		return b.At
	}
	return Centroid(b.Corners)
}

// Centroid returns the centre of area of a polygon; the zero vector for one
// without area. It is taken about the first corner, so that a small polygon far
// out keeps its figures.
func Centroid(poly []r2.Vec) r2.Vec {
	var area float64
	var sum r2.Vec
	for i := 1; i+1 < len(poly); i++ {
		b, c := r2.Sub(poly[i], poly[0]), r2.Sub(poly[i+1], poly[0])
		a := r2.Cross(b, c)
		area += a
		sum = r2.Add(sum, r2.Scale(a/3, r2.Add(b, c)))
	}
	if area == 0 {
		return r2.Vec{}
	}
	return r2.Add(poly[0], r2.Scale(1/area, sum))
}

// Distance returns how far in mm a point is from the outline: negative within,
// where it is the distance to the nearest side.
func (o Outline) Distance(p r2.Vec) float64 {
	if o.IsRound() {
		return math.Hypot(p.X, p.Y) - o.Radius
	}
	within, near := math.Inf(-1), math.Inf(1)
	for i, a := range o.Corners {
		b := o.Corners[(i+1)%len(o.Corners)]
		side, rel := r2.Sub(b, a), r2.Sub(p, a)
		l := math.Hypot(side.X, side.Y)
		within = max(within, -r2.Cross(side, rel)/l)
		at := r2.Sub(rel, r2.Scale(max(0, min(1, r2.Dot(rel, side)/(l*l))), side))
		near = min(near, math.Hypot(at.X, at.Y))
	}
	if within <= 0 {
		return within
	}
	return near
}

// Inset returns the outline that lies a distance in mm within, corner for corner.
// It reports false where the outline is not wide enough to keep all its sides.
func (o Outline) Inset(by float64) (Outline, bool) {
	if o.IsRound() {
		return Outline{Radius: o.Radius - by}, by < o.Radius
	}
	n := len(o.Corners)
	in := Outline{Corners: make([]r2.Vec, n)}
	for i, c := range o.Corners {
		// The corner goes in along the line that halves its angle.
		before, after := r2.Unit(r2.Sub(c, o.Corners[(i+n-1)%n])), r2.Unit(r2.Sub(o.Corners[(i+1)%n], c))
		half := r2.Sub(after, before)
		in.Corners[i] = r2.Add(c, r2.Scale(by/r2.Cross(before, after), half))
	}
	for i := range in.Corners {
		was := r2.Sub(o.Corners[(i+1)%n], o.Corners[i])
		if r2.Dot(was, r2.Sub(in.Corners[(i+1)%n], in.Corners[i])) <= 0 {
			return Outline{}, false
		}
	}
	return in, true
}

// Path returns the outline as a polygon, counter-clockwise: a circle has the given
// number of corners, the first half a step before the x axis.
func (o Outline) Path(round int) []r2.Vec {
	if !o.IsRound() {
		return o.Corners
	}
	poly := make([]r2.Vec, round)
	for i := range poly {
		sin, cos := math.Sincos((float64(i) - 0.5) * 2 * math.Pi / float64(round))
		poly[i] = r2.Vec{X: o.Radius * cos, Y: o.Radius * sin}
	}
	return poly
}

// along returns the point at a share of the way round a polygon from its first
// corner.
func (o Outline) along(share float64) r2.Vec {
	girth := 0.0
	n := len(o.Corners)
	for i, c := range o.Corners {
		girth += r2.Norm(r2.Sub(o.Corners[(i+1)%n], c))
	}
	distance := share * girth
	for i, c := range o.Corners {
		side := r2.Sub(o.Corners[(i+1)%n], c)
		l := r2.Norm(side)
		if distance <= l {
			return r2.Add(c, r2.Scale(distance/l, side))
		}
		distance -= l
	}
	return o.Corners[0]
}
