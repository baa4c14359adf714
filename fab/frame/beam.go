package frame

import (
	"gonum.org/v1/gonum/spatial/r3"
)

// The section of a tube is alike in all directions, so that each of its
// matrices, between the displacements u and turns t of its two ends, is made of
// three parts: along the axis x, P = x x'; across it, Q = 1 - P; and X, the cross
// product with x. No axes across the beam need to be chosen.

// A tubeMatrix is a symmetric matrix of a piece of tube or taper, for its ends A
// and B, 0 and 1:
//
//	u u  along P + across Q: the same end, and from one to the other
//	t t  twist P + bend Q: A, B, and from one to the other
//	u t  mix X, less at A and plus at B, by the end of u and that of t
type tubeMatrix struct {
	alongSame, alongOther   float64
	acrossSame, acrossOther float64
	twistSame, twistOther   float64
	bendA, bendB, bendOther float64
	mix                     [2][2]float64
}

// shear returns 12 E I / (k G A L2), by which shear adds to the bending of a
// tube, with k the share of the area that carries shear.
func shear(s Section, length float64) float64 {
	return 12 * s.Inertia * 2 * (1 + poisson) / (shearShare * s.Area * length * length)
}

// gauss has the points and weights of Gauss and Legendre's rule of five points
// on the interval from 0 to 1.
var gauss = [5][2]float64{
	{0.046910077030668, 0.118463442528095}, {0.230765344947158, 0.239314335249683}, {0.5, 0.284444444444444},
	{0.769234655052842, 0.239314335249683}, {0.953089922969332, 0.118463442528095},
}

// stiffness returns that of a piece of length l whose section is given at
// shares of its length from A. Units are N, mm. For slender, shear is left out.
//
// It is the inverse of how far B gives when A is clamped, a sum over the
// length of s2 / E I + 1 / k G A for a force, s / E I between the two, and 1 / E I
// for a moment, with s from B; what A carries follows from equilibrium. A tube,
// alike along its length, comes to the well-known 12, 6, 4 and 2 of
// Przemieniecki, Theory of Matrix Structural Analysis (1968), eq. 5.116.
//
// Springs at A and B add to how far B gives: that at A turns all of the beam. With
// them, what the ends take of a load spread along the beam (hold) is that with which B
// keeps still.
func stiffness(section func(share float64) Section, modulus, l float64, slender bool, springs [2]Spring) (tubeMatrix, hold) {
	g := modulus / (2 * (1 + poisson))
	var give, turn, both, pull, twist float64
	var sunk, turned, pulled float64 // what B does under a load of 1 spread along the beam
	for _, p := range gauss {
		s, w := section(p[0]), p[1]*l
		far := (1 - p[0]) * l
		give += w * far * far / (modulus * s.Inertia)
		if !slender {
			give += w / (shearShare * g * s.Area)
		}
		both += w * far / (modulus * s.Inertia)
		turn += w / (modulus * s.Inertia)
		pull += w / (modulus * s.Area)
		twist += w / (g * s.Torsion)
		bent := far * far / (2 * l)
		sunk += w * bent * far / (modulus * s.Inertia)
		if !slender {
			sunk += w * far / l / (shearShare * g * s.Area)
		}
		turned += w * bent / (modulus * s.Inertia)
		pulled += w * far / l / (modulus * s.Area)
	}
	held := evenly(l)
	if springs != ([2]Spring{}) {
		turnA, pushA := springs[0].gives()
		turnB, pushB := springs[1].gives()
		give, both, turn, pull = give+l*l*turnA, both+l*turnA, turn+turnA+turnB, pull+pushA+pushB
		sunk, turned, pulled = sunk+l*l/2*turnA, turned+l/2*turnA, pulled+pushA
		det := give*turn - both*both
		held.along[1], held.across[1], held.moment[1] = pulled/pull, (turn*sunk-both*turned)/det, (give*turned-both*sunk)/det
		held.along[0], held.across[0] = 1-held.along[1], 1-held.across[1]
		held.moment[0] = l*(0.5-held.across[1]) - held.moment[1]
	}
	det := give*turn - both*both
	across, mixB, bendB := turn/det, both/det, give/det
	mixA := l*across - mixB
	other := l*mixB - bendB
	k := tubeMatrix{
		alongSame: 1 / pull, alongOther: -1 / pull,
		acrossSame: across, acrossOther: -across,
		twistSame: 1 / twist, twistOther: -1 / twist,
		bendA: l*mixA - other, bendB: bendB, bendOther: other,
		mix: [2][2]float64{{mixA, mixB}, {mixA, mixB}},
	}
	return k, held
}

// consistentMass returns the mass matrix, in kg and mm, that goes with the
// shapes of the stiffness of a tube, the inertia of turning sections included:
// Przemieniecki, eq. 11.36. For slender, both are left out.
func consistentMass(s Section, mass, l float64, slender bool) tubeMatrix {
	phi, g := shear(s, l), s.Inertia/s.Area/(l*l) // g is (radius of gyration / length)2
	if slender {
		phi, g = 0, 0
	}
	m := mass / ((1 + phi) * (1 + phi))
	polar := mass * 2 * s.Inertia / s.Area
	bend := m * l * l * (1./105 + phi/60 + phi*phi/120 + (2./15+phi/6+phi*phi/3)*g)
	same := m * l * (11./210 + 11./120*phi + phi*phi/24 + (1./10-phi/2)*g)
	other := m * l * (-13./420 - 3./40*phi - phi*phi/24 + (1./10-phi/2)*g)
	return tubeMatrix{
		alongSame: mass / 3, alongOther: mass / 6,
		acrossSame:  m * (13./35 + 7./10*phi + phi*phi/3 + 6./5*g),
		acrossOther: m * (9./70 + 3./10*phi + phi*phi/6 - 6./5*g),
		twistSame:   polar / 3, twistOther: polar / 6,
		bendA: bend, bendB: bend,
		bendOther: m * l * l * (-1./140 - phi/60 - phi*phi/120 - (1./30+phi/6-phi*phi/6)*g),
		mix:       [2][2]float64{{same, other}, {other, same}},
	}
}

// geometric returns what an axial force adds to the stiffness, tension being
// positive: Przemieniecki, eq. 15.38. Shear is left out of its shapes.
func geometric(axial, l float64) tubeMatrix {
	p := axial / (30 * l)
	return tubeMatrix{
		acrossSame: 36 * p, acrossOther: -36 * p,
		bendA: 4 * l * l * p, bendB: 4 * l * l * p, bendOther: -l * l * p,
		mix: [2][2]float64{{3 * l * p, 3 * l * p}, {3 * l * p, 3 * l * p}},
	}
}

// A tensor is 3 by 3.
type tensor [3][3]float64

func (m *tensor) add(k float64, n *tensor) {
	for i := range m {
		for j := range m[i] {
			m[i][j] += k * n[i][j]
		}
	}
}

func mul(a, b *tensor) (c tensor) {
	for i := range c {
		for j := range c[i] {
			c[i][j] = a[i][0]*b[0][j] + a[i][1]*b[1][j] + a[i][2]*b[2][j]
		}
	}
	return c
}

// cross returns the matrix of v x.
func cross(v r3.Vec) tensor {
	return tensor{{0, -v.Z, v.Y}, {v.Z, 0, -v.X}, {-v.Y, v.X, 0}}
}

// outer returns v w'.
func outer(v, w r3.Vec) tensor {
	return tensor{
		{v.X * w.X, v.X * w.Y, v.X * w.Z}, {v.Y * w.X, v.Y * w.Y, v.Y * w.Z}, {v.Z * w.X, v.Z * w.Y, v.Z * w.Z},
	}
}

var unit = tensor{{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}

// A joined matrix is 6 by 6, between two bodies: blocks of displacement and
// turn.
type joined [2][2]tensor

// between returns the part of a tube's matrix between its ends i and j (0 for A,
// 1 for B), carried to the bodies' points of reference: with the arm r, an end
// moves by u + t x r.
func (m *tubeMatrix) between(b *Beam, i, j int) (k joined) {
	p := outer(b.Axis, b.Axis)
	x := cross(b.Axis)
	along, across, twist, bend := m.alongOther, m.acrossOther, m.twistOther, m.bendOther
	if i == j {
		along, across, twist, bend = m.alongSame, m.acrossSame, m.twistSame, [2]float64{m.bendA, m.bendB}[i]
	}
	uu, tt := &k[0][0], &k[1][1]
	uu.add(across, &unit)
	uu.add(along-across, &p)
	tt.add(bend, &unit)
	tt.add(twist-bend, &p)
	signs := [2]float64{-1, 1} // and X' = -X
	k[0][1].add(signs[i]*m.mix[i][j], &x)
	k[1][0].add(-signs[j]*m.mix[j][i], &x)
	k.carry([2]r3.Vec{b.armA, b.armB}[i], [2]r3.Vec{b.armA, b.armB}[j])
	return k
}

// carry takes a matrix from the ends of two arms to their roots.
func (k *joined) carry(ri, rj r3.Vec) {
	if rj != (r3.Vec{}) {
		r := cross(rj)
		a, b := mul(&k[0][0], &r), mul(&k[1][0], &r)
		k[0][1].add(-1, &a)
		k[1][1].add(-1, &b)
	}
	if ri != (r3.Vec{}) {
		r := cross(ri)
		a, b := mul(&r, &k[0][0]), mul(&r, &k[0][1])
		k[1][0].add(1, &a)
		k[1][1].add(1, &b)
	}
}
