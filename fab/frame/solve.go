package frame

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A Solution is how a frame answers to load cases.
type Solution struct {
	Loads  *Loads
	moved  []float64 // a row for each unknown, a column for each case
	forces []beamEnds
}

// beamEnds are the force and moment that bodies bear on the two ends of a beam.
type beamEnds struct{ fa, ma, fb, mb r3.Vec }

// Solve works out the loads.
func (f *Frame) Solve(l *Loads) *Solution {
	s := &Solution{Loads: l, moved: append([]float64(nil), l.nodal...), forces: make([]beamEnds, len(f.Beams)*l.Cases)}
	f.factored.solve(s.moved, l.Cases)
	for i := range f.Beams {
		if b := &f.Beams[i]; b.A != b.B {
			for c := range l.Cases {
				s.forces[i*l.Cases+c] = s.recover(b, c, l.line[i*l.Cases+c])
			}
		}
	}
	return s
}

// motion returns how the end of a body's arm moves, and turns.
func (s *Solution) motion(body, c int, arm r3.Vec) (u, t r3.Vec) {
	i, n := s.Loads.frame.Bodies[body].First, s.Loads.Cases
	if i < 0 {
		return u, t
	}
	x := s.moved[i*n+c:]
	u = r3.Vec{X: x[0], Y: x[n], Z: x[2*n]}
	t = r3.Vec{X: x[3*n], Y: x[4*n], Z: x[5*n]}
	return r3.Add(u, r3.Cross(t, arm)), t
}

// recover works out the forces on the ends of a beam: its stiffness times how
// its ends move, less what its own load bears on the bodies.
func (s *Solution) recover(b *Beam, c int, line r3.Vec) beamEnds {
	ua, ta := s.motion(b.A, c, b.armA)
	ub, tb := s.motion(b.B, c, b.armB)
	k, x := &b.k, b.Axis
	du, diff := r3.Sub(ua, ub), r3.Sub(ta, tb)

	force := r3.Scale(k.acrossSame, du)
	force = r3.Add(force, r3.Scale((k.alongSame-k.acrossSame)*r3.Dot(x, du), x))
	force = r3.Sub(force, r3.Cross(x, r3.Add(r3.Scale(k.mix[0][0], ta), r3.Scale(k.mix[0][1], tb))))

	lever := r3.Cross(x, du)
	twist := r3.Scale(k.twistSame*r3.Dot(x, diff), x)
	across := func(v r3.Vec) r3.Vec { return r3.Sub(v, r3.Scale(r3.Dot(x, v), x)) }
	qa, qb := across(ta), across(tb)
	ma := r3.Add(r3.Add(r3.Scale(k.mix[0][0], lever), twist), r3.Add(r3.Scale(k.bendA, qa), r3.Scale(k.bendOther, qb)))
	mb := r3.Add(r3.Sub(r3.Scale(k.mix[0][1], lever), twist), r3.Add(r3.Scale(k.bendOther, qa), r3.Scale(k.bendB, qb)))

	half := r3.Scale(b.Length/2, line)
	end := r3.Scale(b.Length*b.Length/12, r3.Cross(x, line))
	return beamEnds{
		fa: r3.Sub(force, half), ma: r3.Sub(ma, end),
		fb: r3.Sub(r3.Scale(-1, force), half), mb: r3.Add(mb, end),
	}
}

// A Cut is what one side of a cut across a post bears on the other: on the part
// of the post towards the foot, at the axis.
type Cut struct{ Force, Moment r3.Vec }

// Add returns the cut plus k times another.
func (c Cut) Add(k float64, d Cut) Cut {
	return Cut{r3.Add(c.Force, r3.Scale(k, d.Force)), r3.Add(c.Moment, r3.Scale(k, d.Moment))}
}

// Axial returns the pull in N, negative for a push, along the unit vector of a
// post's axis.
func (c Cut) Axial(axis r3.Vec) float64 { return r3.Dot(c.Force, axis) }

// Resultants returns the pull in N, the shear in N, the bending and the twist in
// N mm, for a post's axis. Shear, bending and twist are not negative.
func (c Cut) Resultants(axis r3.Vec) (pull, shear, bending, twist float64) {
	pull, twist = r3.Dot(c.Force, axis), r3.Dot(c.Moment, axis)
	shear = math.Sqrt(max(0, r3.Norm2(c.Force)-pull*pull))
	bending = math.Sqrt(max(0, r3.Norm2(c.Moment)-twist*twist))
	return pull, shear, bending, math.Abs(twist)
}

// Cuts returns what is borne across the post at both ends of a beam in a case:
// just inside its end towards the foot, and towards the head.
func (s *Solution) Cuts(beam, c int) (from, to Cut) {
	e := &s.forces[beam*s.Loads.Cases+c]
	return Cut{r3.Scale(-1, e.fa), r3.Scale(-1, e.ma)}, Cut{e.fb, e.mb}
}

// Reaction returns what the ground bears on the sculpture in a case, the weight
// of the base and what lies on it included, about the origin.
func (s *Solution) Reaction(c int) Wrench {
	f, l := s.Loads.frame, s.Loads
	// The loads that go straight into the ground are counted here and again in
	// the beams' ends, but for those on the base and on balls that lie on it.
	w := Wrench{r3.Scale(-1, l.fixed[c].Force), r3.Scale(-1, l.fixed[c].Moment)}
	for i := range f.Beams {
		b, line := &f.Beams[i], l.line[i*l.Cases+c]
		if b.A == b.B {
			continue // within the ground: its loads are counted once
		}
		half := r3.Scale(b.Length/2, line)
		end := r3.Scale(b.Length*b.Length/12, r3.Cross(b.Axis, line))
		if f.Bodies[b.A].First < 0 {
			w.add(half, b.From)
			w.Moment = r3.Add(w.Moment, end)
		}
		if f.Bodies[b.B].First < 0 {
			w.add(half, b.To)
			w.Moment = r3.Sub(w.Moment, end)
		}
		w = s.atGround(w, i, c)
	}
	return w
}

// Foot returns what the ground bears on the foot or head of a post in a case,
// about the origin; it is zero for a post that does not stand on the ground.
func (s *Solution) Foot(p *design.Part, c int) (w Wrench) {
	f := s.Loads.frame
	if i, ok := f.post[p]; ok {
		for k := range f.Posts[i].Beams() {
			w = s.atGround(w, f.Posts[i].First+k, c)
		}
	}
	return w
}

// atGround adds what the ground bears on the ends of a beam.
func (s *Solution) atGround(w Wrench, beam, c int) Wrench {
	f := s.Loads.frame
	b, e := &f.Beams[beam], &s.forces[beam*s.Loads.Cases+c]
	if f.Bodies[b.A].First < 0 {
		w.Moment = r3.Add(w.Moment, e.ma)
		w.add(e.fa, b.From)
	}
	if f.Bodies[b.B].First < 0 {
		w.Moment = r3.Add(w.Moment, e.mb)
		w.add(e.fb, b.To)
	}
	return w
}

// Moved returns how far a point fixed to a part moves in a case, in mm: of a
// post the nearer of its ends, of a ball any point of it.
func (s *Solution) Moved(p *design.Part, at r3.Vec, c int) r3.Vec {
	f := s.Loads.frame
	body, ok := f.body[p]
	if i, isPost := f.post[p]; isPost {
		stations := f.Posts[i].Stations
		best := math.Inf(1)
		for _, st := range stations {
			if d := r3.Norm(r3.Sub(st.At, at)); d < best {
				best, body, ok = d, st.Body, true
			}
		}
	}
	if !ok {
		return r3.Vec{}
	}
	u, _ := s.motion(body, c, r3.Sub(at, f.Bodies[body].At))
	return u
}
