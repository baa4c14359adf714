package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/check"
	"stabile/param/design"
)

// A Shell is where a post stands on a ball, or a ball on a post. No published
// rule at hand covers a ring of tube on a thin sphere, with a moment, so there is
// no ratio: the joint is not covered. Dent is a figure to judge by.
type Shell struct {
	Ball, Post *design.Part
	Where      check.Where // the post's Foot or Head
	Force      float64     // N, the greatest along the ball's radius
	Moment     float64     // N mm, the greatest about an axis across it
	Case       check.Case  // of the greatest moment
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

// outward returns the unit vector from a ball's middle to an end of a post, its
// foot (0) or head (1).
func outward(p, ball *design.Part, end int) r3.Vec {
	out := r3.Sub(p.Post.Ends[end].At, ball.Ball.Center)
	if r := r3.Norm(out); r > 0 {
		return r3.Scale(1/r, out)
	}
	return p.Post.Direction
}

// shell takes down what an end of a post does to a ball.
func (s *Strength) shell(c *cases, look *search, p, ball *design.Part, end int) {
	sh := Shell{
		Ball: ball, Post: p, Where: ends[end], Force: look.force,
		Moment: math.Sqrt(max(0, look.across.value)), Case: c.load(max(0, look.across.at)),
	}
	if m := ball.Metal; m != nil && m.Thickness > 0 {
		sh.Dent = Dent(sh.Force, ball.Ball.Radius-m.Thickness/2, m.Thickness, m.Modulus)
	}
	s.Shells = append(s.Shells, sh)
}
