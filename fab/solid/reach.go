package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// Reach returns how far, in mm from the origin, a body reaches along a unit vector.
func (b *Body) Reach(way r3.Vec) float64 {
	p := b.Part
	switch {
	case p.Post != nil:
		return max(b.endReach(design.Foot, way), b.endReach(design.Head, way))
	case p.Ball != nil:
		return r3.Dot(r3.Add(p.Ball.Center, p.Farthest(way)), way)
	}
	base := p.Base
	own := base.OwnWay(way)
	flat := design.Plan(own)
	reach := max(own.Z*base.Under(), own.Z*base.Top) + base.Outline().Reach(flat)
	if base.OnWall() {
		return reach + r3.Dot(way, base.InSpace(r3.Vec{}))
	}
	if base.Block.Given() {
		reach = max(reach, max(0, way.Z)*base.Under()+base.Block.Outline().Reach(flat))
	}
	return reach
}

// endReach returns the reach of an end of a tube. Its wall is straight from edge to
// edge, so that it reaches no further than its edges: a circle where an end is
// free, else the trimmed rim. Where that is not known, the end of a tube on a plane
// is the ellipse in which the plane cuts it; others are taken as cut square.
func (b *Body) endReach(end int, way r3.Vec) float64 {
	post := b.Part.Post
	e := &post.Ends[end]
	if e.Meets == design.Free {
		return post.Reach(end, way)
	}
	if end == design.Foot && post.Sunk > 0 && way.Z == 0 {
		// To the sides as far as it is seen, at the ground.
		return r3.Dot(e.At, way) + e.Diameter/2*planeReach(Level(0), post.Direction, way)
	}
	if rim := b.Rims[end]; len(rim) > 0 {
		return rimReach(rim, way)
	}
	if plane, ok := Met(b.Part, end).(Plane); ok {
		if rise := r3.Dot(plane.Normal, post.Direction); math.Abs(rise) > grazing {
			return r3.Dot(e.At, way) + e.Diameter/2*planeReach(plane, post.Direction, way)
		}
	}
	return post.Reach(end, way)
}

// planeReach returns how far the ellipse in which a plane cuts a tube of radius 1 along an
// axis reaches from its middle along a unit vector.
func planeReach(plane Plane, axis, way r3.Vec) float64 {
	// What lies out from the axis comes down along it to the plane.
	tilted := r3.Sub(way, r3.Scale(r3.Dot(way, axis)/r3.Dot(plane.Normal, axis), plane.Normal))
	return r3.Norm(r3.Sub(tilted, r3.Scale(r3.Dot(tilted, axis), axis)))
}

// Frustum returns the box about a tube or taper along an axis, by its two ends.
func Frustum(ends [2]r3.Vec, axis r3.Vec, radii [2]float64) r3.Box {
	out := r3.Vec{X: design.CircleReach(axis, r3.Vec{X: 1}), Y: design.CircleReach(axis, r3.Vec{Y: 1}), Z: design.CircleReach(axis, r3.Vec{Z: 1})}
	a, b := r3.Scale(radii[0], out), r3.Scale(radii[1], out)
	return r3.Box{
		Min: r3.Vec{X: min(ends[0].X-a.X, ends[1].X-b.X), Y: min(ends[0].Y-a.Y, ends[1].Y-b.Y), Z: min(ends[0].Z-a.Z, ends[1].Z-b.Z)},
		Max: r3.Vec{X: max(ends[0].X+a.X, ends[1].X+b.X), Y: max(ends[0].Y+a.Y, ends[1].Y+b.Y), Z: max(ends[0].Z+a.Z, ends[1].Z+b.Z)},
	}
}

// rounding is the most, in mm, by which points differ that are alike but for
// rounding.
const rounding = 1e-7

// rimReach returns the reach of a closed curve given by points. Between the
// furthest point and its neighbours it is taken as a parabola, so that it comes
// out far finer than the points lie.
func rimReach(rim []r3.Vec, way r3.Vec) float64 {
	best, most := 0, math.Inf(-1)
	for i, p := range rim {
		if d := r3.Dot(p, way); d > most {
			best, most = i, d
		}
	}
	n := len(rim)
	if n < 3 {
		return most
	}
	before, at, after := rim[(best+n-1)%n], rim[best], rim[(best+1)%n]
	// Three points alike are a level stretch, such as the side of a leaning foot
	// that bears on the ground: there is no top between them.
	for _, step := range []int{1, n - 1} {
		one, two := rim[(best+step)%n], rim[(best+2*step)%n]
		if most-r3.Dot(one, way) < rounding && most-r3.Dot(two, way) < rounding {
			return most
		}
	}
	// The slopes of the two chords, at the middle of each; the top is where the
	// slope, running straight from one to the other, is 0.
	u, v := r3.Norm(r3.Sub(at, before)), r3.Norm(r3.Sub(after, at))
	if u == 0 || v == 0 {
		return most
	}
	rise, fall := (most-r3.Dot(before, way))/u, (r3.Dot(after, way)-most)/v
	bend := 2 * (fall - rise) / (u + v)
	if !(bend < 0) {
		return most
	}
	slope := (rise*v + fall*u) / (u + v)
	// No more than the straight continuation of the steeper chord allows.
	return most + min(slope*slope/(-2*bend), math.Abs(slope)*min(u, v)/2)
}
