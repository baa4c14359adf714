package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A Shell is where a post stands on a ball, or a ball on a post. No published
// rule at hand covers a ring of tube on a thin sphere, with a moment, so there is
// no ratio: the joint is not covered. Dent is a figure to judge by.
type Shell struct {
	Ball, Post *design.Part
	Where      string  // the post's "foot" or "head"
	Force      float64 // N, the greatest along the ball's radius
	Moment     float64 // N mm, the greatest about an axis across it
	Case       string  // of the greatest moment
	// Dent is how far in mm the force would press in the ball's wall if it
	// stood on a point: more than a ring does.
	Dent float64
}

// Dent returns how far a force on a point presses in a thin sphere, in mm:
// Reissner (1946), sqrt(3 (1 - v2)) / 4 P R / (E t2), which is 0.413 P R / (E t2) in
// steel. The radius is that of the middle of the wall.
func Dent(force, radius, thickness, modulus float64) float64 {
	const poisson = 0.3
	return math.Sqrt(3*(1-poisson*poisson)) / 4 * force * radius / (modulus * thickness * thickness)
}

// shell notes what an end of a post does to a ball.
func (s *Strength) shell(cuts []cut, p *design.Part, end int, meets design.End) {
	ball := meets.With
	if meets.Meets != design.OnBall || ball == nil || ball.Ball == nil {
		return
	}
	out := r3.Sub([2]r3.Vec{p.Post.Foot, p.Post.Head}[end], ball.Ball.Center)
	if r := r3.Norm(out); r > 0 {
		out = r3.Scale(1/r, out)
	} else {
		out = p.Post.Direction
	}
	sh := Shell{Ball: ball, Post: p, Where: ends[end]}
	most, at := -1.0, -1 // the square of the moment
	for n := range cuts {
		sh.Force = max(sh.Force, math.Abs(r3.Dot(cuts[n].Force, out)))
		twist := r3.Dot(cuts[n].Moment, out)
		if m := r3.Norm2(cuts[n].Moment) - twist*twist; m > most {
			most, at = m, n
		}
	}
	sh.Case = cuts[at].in.name()
	sh.Moment = math.Sqrt(max(0, most))
	if m := ball.Metal; m != nil && m.Thickness > 0 {
		sh.Dent = Dent(sh.Force, ball.Ball.Radius-m.Thickness/2, m.Thickness, m.Modulus)
	}
	s.Shells = append(s.Shells, sh)
}
