package strength

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/shell"
	"stabile/param/design"
)

// The rule for the wall of a ball is for spheres. Of an egg the wall at a joint is taken as
// that of a sphere of the greatest radius to which it is bent anywhere in the joint or nearer
// to it than the clearance of the rule: what the rule says that a wall carries grows less with
// the radius, by each load. A bound, common practice, no source. Angles are as seen from the
// egg's middle, and what a length takes up is counted where the wall is nearest to that.

const eggSource = "; an egg as a ball of the greatest radius that it has there, a bound, common practice, no source"

// nearest returns how far in mm the nearest of a ball's outside is from its centre.
func nearest(b *design.Ball) float64 { return min(b.Radius, b.Polar()) }

// squareTo returns the unit vector square to the wall of a ball where a line from its middle
// along a unit vector meets it.
func squareTo(ball *design.Part, out r3.Vec) r3.Vec {
	if !ball.Ball.IsEgg() {
		return out
	}
	return r3.Unit(ball.Ball.Normal(out))
}

// onEgg gives a joint on an egg its radius, and finds what its ring takes up.
func (s *Shell) onEgg(j shell.Joint) shell.Joint {
	b := s.Ball.Ball
	s.half = math.Asin(min(1, j.Diameter/2/nearest(b)))
	most := b.Profile().Flattest()
	j.Radius = most - j.Wall/2
	room := s.half + j.Clearance()/nearest(b)
	up := math.Asin(max(-1, min(1, math.Abs(r3.Dot(s.out, b.Pole)))))
	greatest := 0.0
	for _, angle := range [2]float64{max(0, up-room), min(math.Pi/2, up+room)} {
		// By the angle at the middle, to the latitude there.
		sin, cos := math.Sincos(angle)
		along, across := b.Profile().Bends(math.Atan2(sin*b.Radius*b.Radius, cos*b.Polar()*b.Polar()))
		greatest = max(greatest, along, across)
	}
	j.Radius = greatest - j.Wall/2
	return j
}

// eggRinged is ringed of an egg: a cone is bent the least at its wide edge, square to its wall.
func (s *Shell) eggRinged(room, lean float64) {
	b := s.Ball.Ball
	angle := func(edge int) float64 { // from the upper pole
		radius, height := b.RingCorner(edge, s.Joint.Wall/2)
		return math.Atan2(radius, height)
	}
	if lean-room < angle(b.Zones) {
		s.Gap = WallPole
		return
	}
	s.Joint.Single = true
	for k := range b.Zones {
		high, low := angle(k+1), angle(k)
		if lean+room < high || lean-room > low {
			continue
		}
		s.Seamed = s.Seamed || lean-room < high || lean+room > low
		lower, _ := b.RingCorner(k, s.Joint.Wall/2)
		upper, _ := b.RingCorner(k+1, s.Joint.Wall/2)
		s.Joint.Radius = max(s.Joint.Radius, max(lower, upper)/math.Cos(b.RingLatitude(k)))
	}
}
