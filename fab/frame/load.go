package frame

import (
	"slices"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
)

// gravity is the acceleration of free fall in m/s2, so that kg times it are N.
const gravity = quantity.Gravity

// Loads are load cases side by side.
type Loads struct {
	frame *Frame
	Cases int
	nodal table
	line  []r3.Vec // N/mm along each beam: a row for each beam; empty where no beam carries any
	fixed []Wrench // on the ground straight, about the origin
}

// A Wrench is a force in N with a moment in N mm about the origin.
type Wrench struct{ Force, Moment r3.Vec }

// add adds a force at a point.
func (w *Wrench) add(force, at r3.Vec) {
	w.Force = r3.Add(w.Force, force)
	w.Moment = r3.Add(w.Moment, r3.Cross(at, force))
}

// NewLoads returns n cases without load.
func (f *Frame) NewLoads(n int) *Loads {
	return &Loads{
		frame: f, Cases: n,
		nodal: fullTable(f.Unknowns, n), line: make([]r3.Vec, len(f.Beams)*n), fixed: make([]Wrench, n),
	}
}

// NewPointLoads returns n cases without load, for forces at points alone (Loads.At).
// They take room only for what the forces reach, so that a force on one of many
// sculptures that stand apart costs as much as it would on that one.
func (f *Frame) NewPointLoads(n int) *Loads {
	return &Loads{frame: f, Cases: n, nodal: emptyTable(f.Unknowns, n), fixed: make([]Wrench, n)}
}

// lineOf returns what is spread along a beam in all cases; empty for nothing.
func (l *Loads) lineOf(beam int) []r3.Vec {
	if len(l.line) == 0 {
		return nil
	}
	return l.line[beam*l.Cases : (beam+1)*l.Cases]
}

// lineIn returns what is spread along a beam in a case.
func (l *Loads) lineIn(beam, c int) (v r3.Vec) {
	if list := l.lineOf(beam); list != nil {
		v = list[c]
	}
	return v
}

// onBody adds a force at the end of an arm, and a moment, to a body.
func (l *Loads) onBody(c, body int, force, moment, arm r3.Vec) {
	b := &l.frame.Bodies[body]
	moment = r3.Add(moment, r3.Cross(arm, force))
	if b.First < 0 {
		l.fixed[c].Force = r3.Add(l.fixed[c].Force, force)
		l.fixed[c].Moment = r3.Add(l.fixed[c].Moment, r3.Add(moment, r3.Cross(b.At, force)))
		return
	}
	rows := l.nodal.take(b.First / six)
	for i, v := range [six]float64{force.X, force.Y, force.Z, moment.X, moment.Y, moment.Z} {
		rows[i*l.Cases+c] += v
	}
}

// onBeam adds a force, spread evenly, to a beam.
func (l *Loads) onBeam(c, beam int, force r3.Vec) {
	b := &l.frame.Beams[beam]
	l.line[beam*l.Cases+c] = r3.Add(l.line[beam*l.Cases+c], r3.Scale(1/b.Length, force))
	forces, moments := b.ends(force)
	l.onBody(c, b.A, forces[0], moments[0], b.armA)
	l.onBody(c, b.B, forces[1], moments[1], b.armB)
}

// Gravity adds the weight of all parts, as it is where down is the given unit
// vector.
func (l *Loads) Gravity(c int, down r3.Vec) {
	for i := range l.frame.Beams {
		l.onBeam(c, i, r3.Scale(gravity*l.frame.Beams[i].Mass, down))
	}
	for _, p := range l.frame.parts {
		l.onBody(c, p.body, r3.Scale(gravity*l.frame.Items[p.item].Mass, down), r3.Vec{}, p.arm)
	}
	for _, it := range l.frame.Items {
		if it.Part.Base != nil {
			l.fixed[c].add(r3.Scale(gravity*it.Mass, down), it.CG)
		}
	}
}

// Along adds a force to a post, spread in proportion to its width, or to a ball
// at its centre, or to the base.
func (l *Loads) Along(c int, p *design.Part, force r3.Vec) { l.AlongEach(c, p, []r3.Vec{force}) }

// AlongEach adds forces as Along does, one to each of the cases from c on.
func (l *Loads) AlongEach(c int, p *design.Part, forces []r3.Vec) {
	i, ok := l.frame.post[p]
	if !ok {
		at := r3.Vec{}
		switch {
		case p.Ball != nil:
			at = p.Ball.Middle()
		case p.Base != nil:
			// What acts on the block under a plate does not come through the frame. The block
			// is the wider, so that its share is at least that of its height.
			at = p.Base.InSpace(r3.Vec{Z: (p.Base.Under() + p.Base.Top) / 2})
			if p.Base.Block.Given() {
				forces = slices.Clone(forces)
				for k := range forces {
					forces[k] = r3.Scale(p.Base.Thick()/p.Base.Top, forces[k])
				}
			}
		}
		if body, ok := l.frame.body[p]; ok {
			arm := r3.Sub(at, l.frame.Bodies[body].At)
			for k, force := range forces {
				l.onBody(c+k, body, force, r3.Vec{}, arm)
			}
		}
		return
	}
	post := &l.frame.Posts[i]
	whole := 0.0
	beams := l.frame.Beams[post.First : post.First+post.Beams()]
	for k := range beams {
		whole += beams[k].Diameter * beams[k].Length
	}
	for k := range beams {
		share := beams[k].Diameter * beams[k].Length / whole
		for n, force := range forces {
			l.onBeam(c+n, post.First+k, r3.Scale(share, force))
		}
	}
}

// At adds a force at a point on a part. On a post it is the nearest point of the
// axis that carries it, with the moment about that point. It should be at a
// station (see Item.Cuts), or its own bending of the beam that it stands on is
// missed.
func (l *Loads) At(c int, p *design.Part, at, force r3.Vec) {
	i, ok := l.frame.post[p]
	if !ok {
		body, ok := l.frame.body[p]
		if ok {
			l.onBody(c, body, force, r3.Vec{}, r3.Sub(at, l.frame.Bodies[body].At))
		}
		return
	}
	post := &l.frame.Posts[i]
	along := clamp(r3.Dot(r3.Sub(at, p.Post.Ends[design.Foot].At), p.Post.Direction), 0, p.Post.Length)
	k := 0
	for k < post.Beams()-1 && post.Stations[k+1].Along < along {
		k++
	}
	b := &l.frame.Beams[post.First+k]
	// Shared between the two ends of the beam by the law of the lever: what it
	// lacks is how the beam itself bends between them.
	share := (along - post.Stations[k].Along) / b.Length
	l.onBody(c, b.A, r3.Scale(1-share, force), r3.Vec{}, b.armA)
	l.onBody(c, b.B, r3.Scale(share, force), r3.Vec{}, b.armB)
	off := r3.Sub(at, r3.Add(p.Post.Ends[design.Foot].At, r3.Scale(along, p.Post.Direction)))
	if moment := r3.Cross(off, force); moment != (r3.Vec{}) {
		l.onBody(c, b.A, r3.Vec{}, r3.Scale(1-share, moment), b.armA)
		l.onBody(c, b.B, r3.Vec{}, r3.Scale(share, moment), b.armB)
	}
}

// Frame returns the frame that carries the loads.
func (l *Loads) Frame() *Frame { return l.frame }
