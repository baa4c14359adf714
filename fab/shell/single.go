package shell

import "math"

// Seam is z of EN 13445-3 5.6 (from memory), by which the design stress of a wall goes down where
// a butt weld through its full thickness lies in it or beside a joint: that of testing group 4,
// welds that are only looked at. Full radiography would have 1.
const Seam = 0.7

// The limits of EN 13445-3 16.5 (from memory), with D = 2 R.
const (
	thinnestSingle, thickestSingle = 0.002, 0.2 // t/R
	mostSingle                     = 10         // lambda_C
)

// single works out what a wall carries that is curved one way only, as a rolled gore is between
// its seams, and a ring of a ball of zones. It is part of a cylinder. EN 13445-3 16.5, local loads on a nozzle in a
// cylindrical shell (from memory), has, with lambda_C = d / sqrt(2 R t),
//
//	F_max = f t2 max(C1, 1.81),  C1 = 0.60072181 + 0.95196257 l + 0.0051957881 l2 - 0.001406381 l3
//	M_max = f t2 (d / 4) max(C2, 4.90),  C2 = 4.526315 + 0.064021889 l + 0.15887638 l2 - 0.021419298 l3 + 0.0010350407 l4
//
// C2 is of a moment that bends the wall round the cylinder. It is the weaker way, and is taken
// for both. Elastic-plastic finite elements of a post on the middle of a rolled gore of eight
// carry 7 times F_max and 3.7 times M_max: the ridges stiffen it.
func (j Joint) single() Capacity {
	var c Capacity
	root := math.Sqrt(2 * j.Radius * j.Wall)
	if x := j.Wall / j.Radius; x < thinnestSingle || x > thickestSingle {
		c.Breaches = append(c.Breaches, Breach{WallToRadius, x, thinnestSingle, thickestSingle, false})
	}
	if x := j.Diameter / root; x > mostSingle {
		c.Breaches = append(c.Breaches, Breach{Lambda, x, 0, mostSingle, true})
	}
	if x := j.Diameter / (2 * j.Radius); x > widest {
		c.Breaches = append(c.Breaches, Breach{RingToBall, x, 0, widest, true})
	}
	d := min(j.Diameter, mostSingle*root, 2*widest*j.Radius)
	l := d / root
	c.Lambda = l
	first := 0.60072181 + l*(0.95196257+l*(0.0051957881-l*0.001406381))
	second := 4.526315 + l*(0.064021889+l*(0.15887638+l*(-0.021419298+l*0.0010350407)))
	unit := j.Strength * j.Wall * j.Wall
	c.Outward = unit * max(first, 1.81)
	c.Inward = c.Outward
	c.Moment = unit * d / 4 * max(second, 4.90)
	c.ring(j, d)
	return c
}

// ring gives the capacity what a thin ring carries across the radius and in torsion.
func (c *Capacity) ring(j Joint, d float64) {
	c.Shear = j.Strength / math.Sqrt(3) * math.Pi * d * j.Wall / 2
	c.Torque = c.Shear * d
}

// The springs of a ball of flats over those of the sphere that they touch, by finite elements
// without a fillet (derived; five balls of 8 and 12 gores, lambda 2.8 to 7.7). A ring round the
// pole stands across all seams, and is softer by 1.15 to 1.55 in turning and 1.31 to 1.67 along
// the radius. One within a gore, clear of its seams, is softer by up to 4.1 and 2.4. One across a
// seam is by up to 1.55 in turning along the seam, and stiffer across it.
var (
	OfPole   = Springs{Rotational: 1 / 1.33, Axial: 1 / 1.48}
	OfMiddle = Springs{Rotational: 1 / 4.1, Axial: 1 / 2.4}
	OfSeam   = Springs{Rotational: 1 / 1.2, Axial: 1}
)

// Times returns springs softened by factors.
func (s Springs) Times(by Springs) Springs {
	s.Rotational, s.Axial = s.Rotational*by.Rotational, s.Axial*by.Axial
	return s
}
