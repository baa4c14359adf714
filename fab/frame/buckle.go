package frame

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Buckling returns by how much the axial forces of the beams, and the weights of
// the balls with them, would have to grow for the frame to buckle. The forces
// are in N, tension positive, one for each beam. It is infinite where no growth
// does.
//
// It is linear buckling: the lowest positive factor at which stiffness and what
// the forces take from it come to nothing. Where the forces are the greatest
// compressions of several cases, and no tension is counted, the factor is not above that
// of any of the cases.
func (f *Frame) Buckling(axial []float64) (float64, error) {
	if f.Unknowns == 0 {
		return math.Inf(1), nil
	}
	g := f.mass.alike()
	any := false
	for i := range f.Beams {
		b := &f.Beams[i]
		if b.A == b.B || axial[i] == 0 {
			continue
		}
		any = true
		m := geometric(-axial[i], b.Length) // what is taken from the stiffness
		f.add(g, b, &m)
		// The beam's ends bear on stiff arms, which turn.
		axial := r3.Scale(axial[i], b.Axis)
		f.addTurning(g, b.A, axial, b.armA, 1)
		f.addTurning(g, b.B, axial, b.armB, -1)
	}
	if !any {
		return math.Inf(1), nil
	}
	for _, p := range f.parts {
		weight := r3.Vec{Z: -gravity * f.Items[p.item].Mass}
		f.addTurning(g, p.body, weight, p.arm, 1)
	}
	list, err := f.lowest(g, 1, roughly)
	if err != nil {
		return 0, err
	}
	if len(list) == 0 || !(list[0].value > 0) {
		return math.Inf(1), nil
	}
	return 1 / list[0].value, nil
}

// addTurning adds to g what a force on the end of a body's arm takes from the
// stiffness.
func (f *Frame) addTurning(g *skyline, body int, force, arm r3.Vec, sign float64) {
	first := f.Bodies[body].First
	if first < 0 || arm == (r3.Vec{}) {
		return
	}
	k := turning(r3.Scale(sign, force), arm)
	g.addBlock(first, first, &k)
}
