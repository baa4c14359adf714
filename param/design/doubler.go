package design

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// MostDoubled is how wide a doubling disc may be, as a share of the ball's diameter: its edge is
// then dished by 37 deg. Common practice, no source.
const MostDoubled = 0.6

// Doubled returns the radius in mm of the outside of the doubling disc on which an end of a
// post meets a ball, and false where there is none. The disc is of the ball's sheet.
func (e *End) Doubled() (radius float64, ok bool) {
	if !(e.Doubler > 0) || e.Meets != OnBall || e.With == nil || e.With.Ball == nil || e.With.Metal == nil {
		return 0, false
	}
	return e.With.Ball.Radius + e.With.Metal.Thickness, true
}

// DoublerEdge returns the circle, on the outside of the ball, that the edge of the doubling disc
// of an end of a post runs along: its middle, the unit vector out from the ball's, and its radius
// in mm. It lies about the point in which the post's axis meets the ball.
func (p *Post) DoublerEdge(end int) (middle, out r3.Vec, radius float64) {
	e := &p.Ends[end]
	c := e.With.Ball.Center
	out = r3.Sub(e.At, c)
	// The end of a tube under a ball is given within the ball.
	if along := r3.Dot(out, p.Direction); end == Head {
		off := r3.Sub(out, r3.Scale(along, p.Direction))
		down := math.Sqrt(max(0, e.With.Ball.Radius*e.With.Ball.Radius-r3.Norm2(off)))
		out = r3.Sub(off, r3.Scale(down, p.Direction))
	}
	if r3.Norm(out) > 0 {
		out = r3.Unit(out)
	} else {
		out = p.Direction
	}
	radius = e.Doubler / 2
	rise := math.Sqrt(max(0, e.With.Ball.Radius*e.With.Ball.Radius-radius*radius))
	return r3.Add(c, r3.Scale(rise, out)), out, radius
}
