package frame

import (
	"gonum.org/v1/gonum/spatial/r3"
)

// assemble fills the stiffness and the mass, and factors the stiffness.
func (f *Frame) assemble() error {
	f.stiff = newSkyline(f.profile())
	f.mass = f.stiff.alike()
	for i := range f.Beams {
		b := &f.Beams[i]
		if b.A != b.B {
			f.add(f.stiff, b, &b.k)
		}
		m := consistentMass(b.Section, b.Mass, b.Length, f.slender)
		f.add(f.mass, b, &m)
	}
	for _, p := range f.parts {
		if first := f.Bodies[p.body].First; first >= 0 {
			k := p.matrix(f.Items[p.item].Mass)
			f.mass.addBlock(first, first, &k)
		}
	}
	lower := f.stiff.alike()
	copy(lower.value, f.stiff.value)
	if negative, bad := lower.factor(); bad >= 0 || negative > 0 {
		return &MechanismError{Part: f.owner(max(bad, 0)), Why: "its stiffness is lost in rounding; is a part far thinner or shorter than its neighbours?"}
	}
	f.factors = lower.sparse()
	return nil
}

// profile returns the first column of each row.
func (f *Frame) profile() []int {
	first := make([]int, f.Unknowns)
	for i := range first {
		first[i] = i - i%6
	}
	for i := range f.Beams {
		a, b := f.Bodies[f.Beams[i].A].First, f.Bodies[f.Beams[i].B].First
		if a < 0 || b < 0 {
			continue
		}
		for k := range 6 {
			row := max(a, b) + k
			first[row] = min(first[row], a, b)
		}
	}
	return first
}

// add adds a beam's matrix. Of a beam within one body all four parts fall on
// the same place.
func (f *Frame) add(s *skyline, b *Beam, m *tubeMatrix) {
	ends := [2]int{f.Bodies[b.A].First, f.Bodies[b.B].First}
	for i, row := range ends {
		for j, column := range ends {
			if row >= 0 && column >= 0 && row >= column {
				k := m.between(b, i, j)
				s.addBlock(row, column, &k)
			}
		}
	}
}

// matrix returns the mass matrix of a ball about its body's point of reference.
func (p *place) matrix(mass float64) joined {
	var k joined
	k[0][0].add(mass, &unit)
	k[1][1].add(p.inertia, &unit)
	k.carry(p.arm, p.arm)
	return k
}

// turning returns what a force that keeps its direction adds to the stiffness
// of a body that turns, at the end of a stiff arm: the second term of a turn
// moves the end by t x (t x r) / 2, against which the force works.
func turning(force, arm r3.Vec) joined {
	var k joined
	a, b := outer(force, arm), outer(arm, force)
	k[1][1].add(0.5, &a)
	k[1][1].add(0.5, &b)
	k[1][1].add(-r3.Dot(force, arm), &unit)
	return k
}
