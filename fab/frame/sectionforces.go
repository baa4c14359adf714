package frame

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r3"
)

// A SectionForces is what one side of a cut across a post exerts on the other, on the
// part of the post towards the foot, at the axis: in N and N mm, along and across
// the axes of its beam (Beam.Axis and Beam.Across).
type SectionForces struct {
	Axial  float64    // positive in tension
	Shear  [2]float64 // across
	Twist  float64
	Moment [2]float64 // about the axes across
}

// Resultants returns the axial force, and the shear, the bending and the twist without
// their signs.
func (n *SectionForces) Resultants() (axial, shear, bending, twist float64) {
	shear = math.Sqrt(n.Shear[0]*n.Shear[0] + n.Shear[1]*n.Shear[1])
	bending = math.Sqrt(n.Moment[0]*n.Moment[0] + n.Moment[1]*n.Moment[1])
	return n.Axial, shear, bending, math.Abs(n.Twist)
}

// Add adds k times another of the same beam.
func (n *SectionForces) Add(k float64, d *SectionForces) {
	n.Axial += k * d.Axial
	n.Shear[0] += k * d.Shear[0]
	n.Shear[1] += k * d.Shear[1]
	n.Twist += k * d.Twist
	n.Moment[0] += k * d.Moment[0]
	n.Moment[1] += k * d.Moment[1]
}

// A Cut is the same as a SectionForces along the axes of space.
type Cut struct{ Force, Moment r3.Vec }

// Resultants returns the axial force in N, positive in tension, the shear in N, the
// bending and the twist in N mm, for a post's axis. Shear, bending and twist are
// not negative.
func (c Cut) Resultants(axis r3.Vec) (axial, shear, bending, twist float64) {
	axial, twist = r3.Dot(c.Force, axis), r3.Dot(c.Moment, axis)
	shear = math.Sqrt(max(0, r3.Norm2(c.Force)-axial*axial))
	bending = math.Sqrt(max(0, r3.Norm2(c.Moment)-twist*twist))
	return axial, shear, bending, math.Abs(twist)
}

// Local returns a vector along the beam and its axes across.
func (b *Beam) Local(v r3.Vec) (along, y, z float64) {
	return r3.Dot(b.Axis, v), r3.Dot(b.Across[0], v), r3.Dot(b.Across[1], v)
}

// Space returns a vector given along the beam and its axes across: the reverse of Local.
func (b *Beam) Space(along, y, z float64) r3.Vec {
	return r3.Add(r3.Scale(along, b.Axis), r3.Add(r3.Scale(y, b.Across[0]), r3.Scale(z, b.Across[1])))
}

// An end is an end of a beam in its body: how it moves, given how the body does.
type end struct {
	rows  []float64 // of Solution.moved, from the body's first unknown; nil for what keeps still
	cases int
	beam  *Beam
	arm   r3.Vec
	stiff bool // the arm has a length
}

func (s *Solution) end(b *Beam, body int, arm r3.Vec) end {
	e := end{cases: s.Loads.Cases, beam: b, arm: arm, stiff: arm != r3.Vec{}}
	if first := s.Loads.frame.Bodies[body].First; first >= 0 {
		e.rows = s.moved.block(first / six)
	}
	return e
}

// motion returns how the end moves and turns in a case, along the beam's axes.
func (e *end) motion(c int) (u, t [3]float64) {
	if e.rows == nil {
		return u, t
	}
	x, n := e.rows[c:], e.cases
	x0, x1, x2, t0, t1, t2 := x[0], x[n], x[2*n], x[3*n], x[4*n], x[5*n]
	if e.stiff {
		x0 += t1*e.arm.Z - t2*e.arm.Y
		x1 += t2*e.arm.X - t0*e.arm.Z
		x2 += t0*e.arm.Y - t1*e.arm.X
	}
	a, y, z := &e.beam.Axis, &e.beam.Across[0], &e.beam.Across[1]
	u = [3]float64{a.X*x0 + a.Y*x1 + a.Z*x2, y.X*x0 + y.Y*x1 + y.Z*x2, z.X*x0 + z.Y*x1 + z.Z*x2}
	t = [3]float64{a.X*t0 + a.Y*t1 + a.Z*t2, y.X*t0 + y.Y*t1 + y.Z*t2, z.X*t0 + z.Y*t1 + z.Z*t2}
	return u, t
}

// recover works out what is carried just inside the end of a beam towards the foot,
// in all cases: less the beam's stiffness times how its ends move, and plus what
// its own load exerts on the body.
func (s *Solution) recover(beam int) {
	b, n := &s.Loads.frame.Beams[beam], s.Loads.Cases
	k := &b.k
	from, to := s.end(b, b.A, b.armA), s.end(b, b.B, b.armB)
	lines, list := s.Loads.lineOf(beam), s.forcesOf(beam)
	for c := range list[:n] {
		ua, ta := from.motion(c)
		ub, tb := to.motion(c)
		d := [3]float64{ua[0] - ub[0], ua[1] - ub[1], ua[2] - ub[2]}
		// The part of the stiffness that mixes displacement and turn is the cross
		// product with the axis.
		y, z := k.mix[0][0]*ta[1]+k.mix[0][1]*tb[1], k.mix[0][0]*ta[2]+k.mix[0][1]*tb[2]
		r := SectionForces{
			Axial: -k.alongSame * d[0],
			Shear: [2]float64{-k.acrossSame*d[1] - z, -k.acrossSame*d[2] + y},
			Twist: -k.twistSame * (ta[0] - tb[0]),
			Moment: [2]float64{
				k.mix[0][0]*d[2] - k.bendA*ta[1] - k.bendOther*tb[1],
				-k.mix[0][0]*d[1] - k.bendA*ta[2] - k.bendOther*tb[2],
			},
		}
		if lines == nil {
			list[c] = r
			continue
		}
		if line := lines[c]; line != (r3.Vec{}) {
			along, y, z := b.Local(line)
			side, end := b.held.across[0]*b.Length, b.held.moment[0]*b.Length
			r.Axial += b.held.along[0] * b.Length * along
			r.Shear[0] += side * y
			r.Shear[1] += side * z
			r.Moment[0] -= end * z
			r.Moment[1] += end * y
		}
		list[c] = r
	}
}

// SectionForces returns what is carried across the post in all cases, just inside the end
// of a beam towards the foot (0) or the head (1). The list is used where it is
// long enough. That at the head follows from the other by the beam's
// equilibrium.
func (s *Solution) SectionForces(beam, end int, list []SectionForces) []SectionForces {
	if !s.Reaches(beam) {
		list = slices.Grow(list[:0], s.Loads.Cases)[:s.Loads.Cases]
		clear(list)
		return list
	}
	list = append(list[:0], s.forcesOf(beam)...)
	if end == 0 {
		return list
	}
	b, lines := &s.Loads.frame.Beams[beam], s.Loads.lineOf(beam)
	for c := range list {
		r := &list[c]
		var along, y, z float64
		if lines != nil && lines[c] != (r3.Vec{}) {
			along, y, z = b.Local(lines[c])
		}
		half := b.Length / 2
		r.Axial -= b.Length * along
		r.Shear[0] -= half * y
		r.Shear[1] -= half * z
		r.Moment[0] += b.Length * r.Shear[1]
		r.Moment[1] -= b.Length * r.Shear[0]
		r.Shear[0] -= half * y
		r.Shear[1] -= half * z
	}
	return list
}

// Axials returns the axial force in all cases, as SectionForces does, at both ends of a beam.
func (s *Solution) Axials(beam int, from, to []float64) {
	if !s.Reaches(beam) {
		clear(from[:s.Loads.Cases])
		clear(to[:s.Loads.Cases])
		return
	}
	b, lines := &s.Loads.frame.Beams[beam], s.Loads.lineOf(beam)
	for c, r := range s.forcesOf(beam) {
		from[c], to[c] = r.Axial, r.Axial
		if lines != nil {
			to[c] -= b.Length * r3.Dot(b.Axis, lines[c])
		}
	}
}

// Cuts returns what is carried across the post at both ends of a beam in a case:
// just inside its end towards the foot, and towards the head.
func (s *Solution) Cuts(beam, c int) (from, to Cut) {
	b, line := &s.Loads.frame.Beams[beam], s.Loads.lineIn(beam, c)
	var r SectionForces
	if list := s.forcesOf(beam); list != nil {
		r = list[c]
	}
	from = Cut{b.Space(r.Axial, r.Shear[0], r.Shear[1]), b.Space(r.Twist, r.Moment[0], r.Moment[1])}
	to.Force = r3.Sub(from.Force, r3.Scale(b.Length, line))
	middle := r3.Sub(from.Force, r3.Scale(b.Length/2, line))
	to.Moment = r3.Sub(from.Moment, r3.Scale(b.Length, r3.Cross(b.Axis, middle)))
	return from, to
}
