package assembly

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/stand"
	"stabile/param/design"
)

// A Lift is what is lifted in one step.
type Lift struct {
	Mass, Low, High float64 // kg, with the weld metal in it; low and high by the tolerance of the thickness
	CG              r3.Vec  // mm, where it comes to be
	Heavy           bool    // more than one person should lift
	// Over is how far, in mm in plan, its centre of gravity lies within the ring
	// on which it is set; negative for one that lies outside of it.
	Over float64
	// Toward is the bearing in rad toward which it would fall, from the middle of
	// the ring.
	Toward float64
	// Tips is the angle in rad by which it could lean on that ring before it
	// falls; 0 for one that falls at once.
	Tips float64
	Prop bool // it must be held or propped until it is welded
}

// A Stage is how the work stands when a step is done, without ballast. On the
// bare ground what is not joined yet stands each by itself, and this is the worst of them.
type Stage struct {
	Mass   float64 // kg
	CG     r3.Vec
	Tips   float64 // rad, the least lean over an edge of the footprint that tips it; 0 where it does not stand
	Stands bool    // its centre of gravity lies over its footprint
}

// weight gathers masses with their moment.
type weight struct {
	mass, low, high float64
	moment          r3.Vec
}

func (w *weight) add(mass, low, high float64, at r3.Vec) {
	w.mass += mass
	w.low += low
	w.high += high
	w.moment = r3.Add(w.moment, r3.Scale(mass, at))
}

// merge adds another weight.
func (w *weight) merge(o *weight) {
	w.mass += o.mass
	w.low += o.low
	w.high += o.high
	w.moment = r3.Add(w.moment, o.moment)
}

func (w *weight) cg() r3.Vec {
	if !(w.mass > 0) {
		return r3.Vec{}
	}
	return r3.Scale(1/w.mass, w.moment)
}

// addItem adds an item with the metal of its own seams.
func (m *maker) addItem(w *weight, i int) {
	it := &m.in.Items[i]
	w.add(it.Mass, it.Low, it.High, it.CG)
	for _, k := range m.seams[i] {
		f := m.plan.Welds[k].Filler
		w.add(f, f, f, it.CG)
	}
}

// addLink adds the weld metal of a link.
func (m *maker) addLink(w *weight, k int) {
	f := m.filler(k)
	w.add(f, f, f, m.links[k].At)
}

// lift works out the lift of items that are set on what the links join.
func (m *maker) lift(w weight, links []int) *Lift {
	l := &Lift{Mass: w.mass, Low: w.low, High: w.high, CG: w.cg()}
	l.Heavy = l.High > OneLift
	var ring []r2.Vec
	var middle r3.Vec
	n := 0.0
	for _, k := range links {
		for _, x := range m.ring(&m.links[k]) {
			ring = append(ring, design.Plan(x))
			middle = r3.Add(middle, x)
			n++
		}
	}
	if n == 0 {
		return l
	}
	middle = r3.Scale(1/n, middle)
	away := r3.Sub(l.CG, middle)
	l.Toward = design.BearingOf(away)
	hull := stand.Hull(ring)
	if hull == nil {
		l.Over = -math.Hypot(away.X, away.Y)
		l.Prop = true
		return l
	}
	l.Over, _ = within(hull, design.Plan(l.CG))
	// What hangs below its joint does not stand on it.
	if l.Over > 0 && away.Z > 0 {
		l.Tips = math.Atan2(l.Over, away.Z)
	}
	l.Prop = l.Tips < stand.BarelyStands
	return l
}

// within returns how far a point lies within a convex polygon, counter-clockwise,
// negative outside, and the side that it lies nearest to or furthest out of.
func within(hull []r2.Vec, at r2.Vec) (least float64, side int) {
	least = math.Inf(1)
	for i, from := range hull {
		along := r2.Unit(r2.Sub(hull[(i+1)%len(hull)], from))
		if d := r2.Cross(along, r2.Sub(at, from)); d < least {
			least, side = d, i
		}
	}
	return least, side
}

// A body is what hangs together by welds: with a base all that is set in its
// place, on the bare ground as many as are not joined to each other yet.
type body struct {
	weight
	plate  []r2.Vec // the footprint of a base that is a plate
	floor  float64  // mm, height of what the plate lies on
	points []r2.Vec // on the ground
	into   *body    // the one that it has become part of
	stands bool
	tips   float64
}

// find returns the body that this one has become part of.
func (b *body) find() *body {
	for b.into != nil {
		b = b.into
	}
	return b
}

// absorb makes another body part of this one.
func (b *body) absorb(o *body) {
	b.merge(&o.weight)
	if b.plate == nil {
		b.plate, b.floor = o.plate, o.floor
	}
	b.points = append(b.points, o.points...)
	o.into, o.points = b, nil
}

// settle works out how the body stands by itself.
func (b *body) settle() {
	hull := b.plate
	if hull == nil {
		if hull = stand.Hull(b.points); hull != nil {
			b.points = hull
		}
	}
	t := stand.Tip(hull, stand.Weight{Mass: b.mass, CG: b.cg(), Floor: b.floor}, nil, 0)
	b.stands, b.tips = t.Stable(), 0
	if b.stands {
		b.tips = t.TipAngle
	}
}

// carries adds what an item has on the ground.
func (m *maker) bears(b *body, i int) {
	p := m.part(i)
	switch {
	case p.Base != nil:
		b.plate, b.floor = stand.Plate(p.Base), p.Base.Under()
	case p.Post != nil:
		thick := 0.0
		if p.Metal != nil {
			thick = p.Metal.Thickness
		}
		for k, end := range p.Post.Ends {
			if end.Meets == design.OnPlate && end.With == nil {
				b.points = append(b.points, stand.Ring(p.Post, thick, m.in.Items[i].Rims[k])...)
			}
		}
	case p.Ball != nil:
		if at := p.Lowest(); at.Z <= design.Touch {
			b.points = append(b.points, design.Plan(at))
		}
	}
}

// A site is what stands so far.
type site struct {
	*maker
	whole  weight
	bodies []*body // those that are not part of another
	of     []*body // of each unit
}

// set adds a unit with its joints to what stands.
func (s *site) set(p *placing, w weight) {
	s.whole.merge(&w)
	b := &body{weight: w}
	for _, i := range s.units[p.unit].items {
		s.bears(b, i)
	}
	s.of[p.unit] = b
	for _, k := range p.links {
		s.addLink(&b.weight, k)
		s.addLink(&s.whole, k)
		_, host := s.sides(p, k)
		if host == s.ground() {
			continue
		}
		if o := s.of[s.unitOf[host]].find(); o != b {
			b.absorb(o)
			s.bodies = slices.DeleteFunc(s.bodies, func(x *body) bool { return x == o })
		}
	}
	if w.mass > 0 || b.plate != nil {
		b.settle()
		s.bodies = append(s.bodies, b)
	}
}

// stage returns how what is set so far stands.
func (s *site) stage() *Stage {
	g := &Stage{Mass: s.whole.mass, CG: s.whole.cg(), Stands: true, Tips: math.Pi / 2}
	for _, b := range s.bodies {
		g.Stands = g.Stands && b.stands
		g.Tips = min(g.Tips, b.tips)
	}
	return g
}
