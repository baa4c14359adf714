package frame

import (
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A Spring is how far what a post's end is welded to gives, in the end's own
// direction: the wall of a ball, or a base plate. A value of 0 is stiff. Twist and
// shear are stiff.
//
// The post's axis stands for the direction in which the wall gives. Where a post
// stands off the middle of a ball that is not quite the ball's radius.
type Spring struct {
	Rotational float64 // N mm/rad, about any axis across the post
	Axial      float64 // N/mm, along the post
}

// gives returns how much the spring gives, in rad/(N mm) and mm/N.
func (s Spring) gives() (turn, push float64) {
	if s.Rotational > 0 {
		turn = 1 / s.Rotational
	}
	if s.Axial > 0 {
		push = 1 / s.Axial
	}
	return turn, push
}

// A Seat is the ring by which a ball is welded to the ball, or the plate, that it rests on.
type Seat struct {
	At      r3.Vec // mm, its middle
	Axis    r3.Vec // unit vector, up from the ball below
	Ring    Section
	Length  float64 // mm, of the ring along its axis: that of both walls
	Modulus float64 // MPa
	Spring          // of both walls together
}

// A hold is what the ends of a beam that keep still take of a force of 1 that is
// spread evenly along it.
type hold struct {
	along, across [2]float64 // at A and B
	moment        [2]float64 // mm, at A and B, about the axis x the force
}

// evenly returns the hold of a beam without springs.
func evenly(l float64) hold {
	return hold{along: [2]float64{0.5, 0.5}, across: [2]float64{0.5, 0.5}, moment: [2]float64{l / 12, -l / 12}}
}

// ends returns what the bodies at the ends of a beam take of a force spread along it,
// if they kept still: the forces and moments at A and B.
func (b *Beam) ends(force r3.Vec) (forces, moments [2]r3.Vec) {
	turn := r3.Cross(b.Axis, force)
	along := r3.Scale(r3.Dot(b.Axis, force), b.Axis)
	across := r3.Sub(force, along)
	for i := range forces {
		if b.held.along[i] == b.held.across[i] {
			forces[i] = r3.Scale(b.held.along[i], force)
		} else {
			forces[i] = r3.Add(r3.Scale(b.held.along[i], along), r3.Scale(b.held.across[i], across))
		}
		moments[i] = r3.Scale(b.held.moment[i], turn)
	}
	return forces, moments
}

// seats makes the beams of the seats of balls.
func (f *Frame) seats() {
	for _, it := range f.Items {
		s := it.Seat
		if s == nil || it.Part.Ball == nil {
			continue
		}
		host, ok := f.body[it.Part.Ball.On]
		if !ok {
			continue
		}
		half := r3.Scale(s.Length/2, s.Axis)
		b := Beam{
			Post: -1, A: host, B: f.body[it.Part], From: r3.Sub(s.At, half), To: r3.Add(s.At, half),
			Axis: s.Axis, Length: s.Length, Section: s.Ring, Modulus: s.Modulus,
		}
		b.Across[0], b.Across[1] = design.Tilt(s.Axis)
		b.k, b.held = stiffness(func(float64) Section { return s.Ring }, s.Modulus, s.Length, f.slender, [2]Spring{s.Spring, {}})
		f.seat[it.Part] = len(f.Beams)
		f.Beams = append(f.Beams, b)
	}
}

// Seat returns the beam that stands for the seat of a ball; not ok for a ball that has
// none.
func (f *Frame) Seat(p *design.Part) (beam int, ok bool) {
	beam, ok = f.seat[p]
	return beam, ok
}
