package fab

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// measure finds the box about the whole: for each of the six ways along the
// axes, how far the furthest part reaches.
func (j *Job) measure() {
	reach := func(way r3.Vec) float64 {
		most := math.Inf(-1)
		for i := range j.Parts {
			most = max(most, j.Parts[i].reach(way))
		}
		if math.IsInf(most, -1) {
			return 0
		}
		return most
	}
	s := &j.Size
	s.Max = r3.Vec{X: reach(r3.Vec{X: 1}), Y: reach(r3.Vec{Y: 1}), Z: reach(r3.Vec{Z: 1})}
	s.Min = r3.Vec{X: 0 - reach(r3.Vec{X: -1}), Y: 0 - reach(r3.Vec{Y: -1}), Z: 0 - reach(r3.Vec{Z: -1})}
	s.Width, s.Depth, s.Height = s.Max.X-s.Min.X, s.Max.Y-s.Min.Y, s.Max.Z-s.Min.Z
}

// reach returns how far, in mm from the origin, the part reaches along a unit
// vector; -Inf for a base of feet.
func (p *Part) reach(way r3.Vec) float64 {
	switch {
	case p.Post != nil:
		return p.postReach(way)
	case p.Ball != nil:
		return r3.Dot(p.Ball.Center, way) + ballReach(p.Part, way)
	}
	return max(0, way.Z)*p.Base.Top + p.Base.Outline().Reach(design.Plan(way))
}

// postReach returns the reach of a tube. Its wall is straight from edge to
// edge, so that it reaches no further than its edges: a circle where an end is
// free, else the trimmed rim.
func (p *Part) postReach(way r3.Vec) float64 {
	post := p.Post
	most := math.Inf(-1)
	for i, end := range post.Ends {
		if end.Meets == design.Free {
			at := end.At
			along := r3.Dot(way, post.Direction)
			most = max(most, r3.Dot(at, way)+post.Ends[i].Diameter/2*math.Sqrt(max(0, 1-along*along)))
			continue
		}
		most = max(most, rimReach(p.Rims[i], way))
	}
	return most
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

// ballReach returns how far a ball reaches from its centre along a unit vector.
//
// Across a rolled gore the surface is straight, so that the furthest point of a
// lobed ball is on a ridge, which is an ellipse of the half axes R/cos(pi/N)
// square to the pole and R along it; caps cut the ridges off at their edge. The
// sphere that the flats touch lies within. Where blunt or flat ends cut off the
// very poles the sphere is taken all the same.
func ballReach(p *design.Part, way r3.Vec) float64 {
	b := p.Ball
	if b.Build == design.Zones {
		return zonedReach(b, way)
	}
	if b.Build != design.RolledGores || b.Gores < 3 {
		return b.Radius
	}
	limit := math.Pi / 2 // rad, the latitude of the ridges' ends
	if b.Caps > 0 && p.Metal != nil {
		limit = math.Acos(min(1, b.Caps/2/(b.Radius-p.Metal.Thickness/2)))
	}
	most, across := b.Radius, r3.Cross(b.Pole, b.Prime)
	pole := r3.Dot(way, b.Pole)
	out := b.Radius / math.Cos(math.Pi/float64(b.Gores))
	for k := range b.Gores {
		sin, cos := math.Sincos((2*float64(k) + 1) * math.Pi / float64(b.Gores))
		level := cos*r3.Dot(way, b.Prime) + sin*r3.Dot(way, across)
		latitude := max(-limit, min(limit, math.Atan2(b.Radius*pole, out*level)))
		s, c := math.Sincos(latitude)
		most = max(most, out*level*c+b.Radius*pole*s)
	}
	return most
}

// zonedReach returns the reach of a ball of zones: that of the edge, or the two,
// nearest to the direction. In a plane through the poles the edges are the
// corners of a regular polygon about the circle.
func zonedReach(b *design.Ball, way r3.Vec) float64 {
	step := math.Pi / float64(b.Zones+1)
	pole := max(-1, min(1, r3.Dot(way, b.Pole)))
	// From the lower pole on, corners lie at odd multiples of half a step.
	up := math.Asin(pole) + math.Pi/2
	corner := (math.Floor(up/step) + 0.5) * step
	corner = max(step/2, min(math.Pi-step/2, corner))
	return b.Radius / math.Cos(step/2) * math.Cos(up-corner)
}
