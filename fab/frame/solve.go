package frame

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A Solution is how a frame answers to load cases.
type Solution struct {
	Loads *Loads
	moved table
	inner []SectionForces // just inside the end of a beam towards the foot: a row for each beam that is reached
	row   []int32         // of each beam, its row in inner; -1 where no load reaches it
}

// Solve works out the loads, and uses them up: nothing can be added to them
// afterwards.
func (f *Frame) Solve(l *Loads) *Solution {
	s := &Solution{Loads: l, moved: l.nodal, row: make([]int32, len(f.Beams))}
	l.nodal = table{}
	f.factors.solveAll(&s.moved)
	count := 0
	for i := range f.Beams {
		b := &f.Beams[i]
		if s.row[i] = -1; len(l.line) > 0 || b.A != b.B && (s.moves(b.A) || s.moves(b.B)) {
			s.row[i] = int32(count)
			count++
		}
	}
	s.inner = make([]SectionForces, count*l.Cases)
	for i := range f.Beams {
		if f.Beams[i].A != f.Beams[i].B && s.Reaches(i) {
			s.recover(i)
		}
	}
	return s
}

// moves reports whether a body can move in any case.
func (s *Solution) moves(body int) bool {
	first := s.Loads.frame.Bodies[body].First
	return first >= 0 && s.moved.block(first/six) != nil
}

// Reaches reports whether any load can be felt in a beam: where it is false all that
// is carried there is nothing.
func (s *Solution) Reaches(beam int) bool { return s.row[beam] >= 0 }

// forcesOf returns what is carried inside the end of a beam towards the foot in all
// cases; nil where no load reaches it.
func (s *Solution) forcesOf(beam int) []SectionForces {
	n, row := s.Loads.Cases, int(s.row[beam])
	if row < 0 {
		return nil
	}
	return s.inner[row*n : (row+1)*n]
}

// motion returns how the end of a body's arm moves, and turns.
func (s *Solution) motion(body, c int, arm r3.Vec) (u, t r3.Vec) {
	i, n := s.Loads.frame.Bodies[body].First, s.Loads.Cases
	if i < 0 {
		return u, t
	}
	x := s.moved.block(i / six)
	if x == nil {
		return u, t
	}
	x = x[c:]
	u = r3.Vec{X: x[0], Y: x[n], Z: x[2*n]}
	t = r3.Vec{X: x[3*n], Y: x[4*n], Z: x[5*n]}
	return r3.Add(u, r3.Cross(t, arm)), t
}

// Reaction returns what the ground exerts on the sculpture in a case, the weight
// of the base and what lies on it included, about the origin.
func (s *Solution) Reaction(c int) Wrench {
	f, l := s.Loads.frame, s.Loads
	// The loads that go straight into the ground are counted here and again in
	// the beams' ends, but for those on the base and on balls that lie on it.
	w := Wrench{r3.Scale(-1, l.fixed[c].Force), r3.Scale(-1, l.fixed[c].Moment)}
	for i := range f.Beams {
		b, line := &f.Beams[i], l.lineIn(i, c)
		if b.A == b.B || f.Bodies[b.A].First >= 0 && f.Bodies[b.B].First >= 0 {
			continue // within the ground its loads are counted once
		}
		forces, moments := b.ends(r3.Scale(b.Length, line))
		if f.Bodies[b.A].First < 0 {
			w.add(forces[0], b.From)
			w.Moment = r3.Add(w.Moment, moments[0])
		}
		if f.Bodies[b.B].First < 0 {
			w.add(forces[1], b.To)
			w.Moment = r3.Add(w.Moment, moments[1])
		}
		w = s.atGround(w, i, c)
	}
	return w
}

// Foot returns what the ground exerts on the foot or head of a post in a case,
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

// atGround adds what the ground exerts on the ends of a beam.
func (s *Solution) atGround(w Wrench, beam, c int) Wrench {
	f := s.Loads.frame
	b := &f.Beams[beam]
	if f.Bodies[b.A].First >= 0 && f.Bodies[b.B].First >= 0 {
		return w
	}
	from, to := s.Cuts(beam, c)
	if f.Bodies[b.A].First < 0 {
		w.Moment = r3.Sub(w.Moment, from.Moment)
		w.add(r3.Scale(-1, from.Force), b.From)
	}
	if f.Bodies[b.B].First < 0 {
		w.Moment = r3.Add(w.Moment, to.Moment)
		w.add(to.Force, b.To)
	}
	return w
}

// Moved returns how far a point fixed to a part moves in a case, in mm: of a
// post one at the nearest of its stations, of a ball any.
func (s *Solution) Moved(p *design.Part, at r3.Vec, c int) r3.Vec {
	f := s.Loads.frame
	body, ok := f.nearest(p, at)
	if !ok {
		return r3.Vec{}
	}
	u, _ := s.motion(body, c, r3.Sub(at, f.Bodies[body].At))
	return u
}

// Swing returns how a point fixed to a part moves in the shape of a mode, as Moved
// does.
func (f *Frame) Swing(p *design.Part, at r3.Vec, shape [][2]r3.Vec) r3.Vec {
	body, ok := f.nearest(p, at)
	if !ok {
		return r3.Vec{}
	}
	return r3.Add(shape[body][0], r3.Cross(shape[body][1], r3.Sub(at, f.Bodies[body].At)))
}

// nearest returns the body of a ball or the base, or that of a post's station
// which is nearest to a point.
func (f *Frame) nearest(p *design.Part, at r3.Vec) (body int, ok bool) {
	body, ok = f.body[p]
	if i, isPost := f.post[p]; isPost {
		stations := f.Posts[i].Stations
		best := math.Inf(1)
		for _, st := range stations {
			if d := r3.Norm(r3.Sub(st.At, at)); d < best {
				best, body, ok = d, st.Body, true
			}
		}
	}
	return body, ok
}
