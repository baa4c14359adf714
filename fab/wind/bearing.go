package wind

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// pascals turns Pa x mm2 into N.
const pascals = 1e-6

// turn works out n bearings, of which n is even. The wind from behind has the same
// forces as that from the front, turned round, since no area and no coefficient
// tells the two apart.
func (w *Wind) turn(n int) {
	w.Bearings = make([]Bearing, n)
	forces := make([]float64, n*len(w.Items))
	for i := range w.Items {
		w.Items[i].Uplift = w.Items[i].lift()
	}
	lift := w.lift()
	for k := range w.Bearings {
		b := &w.Bearings[k]
		b.From = 2 * math.Pi * float64(k) / float64(n)
		if k < n/2 {
			b.Side, forces = forces[:len(w.Items)], forces[len(w.Items):]
			b.Cap, forces = forces[:len(w.Items)], forces[len(w.Items):]
			sin, cos := math.Sincos(b.From)
			b.Direction = r3.Vec{X: -cos, Y: -sin}
			w.blow(b)
		} else {
			front := &w.Bearings[k-n/2]
			from := b.From
			*b = *front
			b.From, b.Direction = from, r3.Scale(-1, front.Direction)
			b.Force, b.Moment = r3.Scale(-1, front.Force), r3.Scale(-1, front.Moment)
		}
	}
	for k := range w.Bearings {
		b := &w.Bearings[k]
		b.Force, b.Moment = r3.Add(b.Force, lift.Force), r3.Add(b.Moment, lift.Moment)
		if better := w.tips(b) - w.tips(&w.Bearings[w.Worst]); better > 1e-9*w.tips(b) {
			w.Worst = k
		}
	}
	worst := &w.Bearings[w.Worst]
	for i := range w.Items {
		it := &w.Items[i]
		side, head := it.body.Areas(worst.Direction)
		it.Area, it.Force = side+head, worst.Side[i]+worst.Cap[i]
	}
}

// tips returns the moment about the ground that turns the piece over, or all of that about
// the middle of the plate that holds it to a wall.
func (w *Wind) tips(b *Bearing) float64 {
	if w.wall != nil {
		return r3.Norm(r3.Sub(b.Moment, r3.Cross(w.wall.InSpace(r3.Vec{}), b.Force)))
	}
	return math.Hypot(b.Moment.X, b.Moment.Y)
}

// lift returns what lifts the whole, from whatever bearing the wind comes.
func (w *Wind) lift() (all Bearing) {
	for i := range w.Items {
		if up := w.Items[i].Uplift; up != 0 {
			f := r3.Vec{Z: up}
			all.Force = r3.Add(all.Force, f)
			all.Moment = r3.Add(all.Moment, r3.Cross(w.Items[i].body.Middle(), f))
		}
	}
	return all
}

// blow works out one bearing, whose direction is set, but for the lift.
func (w *Wind) blow(b *Bearing) {
	var along, turning float64 // N along the wind, N mm about the ground
	add := func(force float64, at r3.Vec) {
		f := r3.Scale(force, b.Direction)
		b.Force = r3.Add(b.Force, f)
		b.Moment = r3.Add(b.Moment, r3.Cross(at, f))
		along += force
		turning += force * at.Z
	}
	for i := range w.Items {
		it := &w.Items[i]
		side, head := it.body.Areas(b.Direction)
		pressure := it.Pressure * it.Gust * pascals
		b.Side[i] = pressure * it.Coefficient * side
		b.Cap[i] = pressure * it.CapCoefficient * head
		b.Area += side + head
		add(b.Side[i], it.body.Middle())
		if b.Cap[i] != 0 {
			add(b.Cap[i], it.Part.Post.Ends[design.Head].At)
		}
	}
	if along > 0 {
		b.Center = turning / along
	}
	b.Scale = 1
	if least := w.Least * pascals * b.Area; least > along && along > 0 {
		b.Scale = least / along
	}
}

// lift returns the force in N that lifts an item, from whatever bearing the wind
// comes.
func (it *Item) lift() float64 {
	if it.Lift == 0 {
		return 0
	}
	side, _ := it.body.Areas(r3.Vec{X: 1})
	if it.isEgg() {
		side = it.Part.Ball.Shadow(r3.Vec{Z: 1})
	}
	if it.isBowl() {
		r := it.Part.Ball.RimRadius()
		side = math.Pi * r * r
	}
	return it.Pressure * it.Gust * pascals * it.Lift * side
}

// A Load is the wind's force on one item, to load a frame with.
type Load struct {
	Part   *design.Part
	Side   r3.Vec // N, on a post along its axis in proportion to its width; on a ball or a plate at its centre
	Cap    r3.Vec // N, at a post's head
	Uplift r3.Vec // N, at a ball's centre
}

// Loads yields the loads of a bearing, one for each item, times a factor.
func (w *Wind) Loads(b *Bearing, factor float64) func(yield func(Load) bool) {
	return func(yield func(Load) bool) {
		for i := range w.Items {
			it := &w.Items[i]
			l := Load{
				Part: it.Part, Side: r3.Scale(factor*b.Side[i], b.Direction),
				Cap: r3.Scale(factor*b.Cap[i], b.Direction), Uplift: r3.Vec{Z: factor * it.Uplift},
			}
			if !yield(l) {
				return
			}
		}
	}
}
