// Package shell works out what the thin wall of a hollow ball carries where a
// tube's ring is welded on it, or another ball's, and how far it gives there.
//
// The limit loads are those of EN 13445-3 clause 16.4, local loads on a nozzle in a
// spherical shell. The formulas are written from memory; elastic-plastic finite
// elements confirm them as a lower bound (cases K1 to K6 and K46 of the tests).
// The springs are fits to finite elements and a closed form.
//
// Lengths are in mm, forces in N, moments in N mm, stresses in MPa, angles in rad.
package shell

import (
	"fmt"
	"math"

	"stabile/fab/internal/domain"
)

// Safety is what the yield strength is divided by to give the design stress f of
// EN 13445-3, 6.2 (from memory).
const Safety = 1.5

// A Joint is a ring welded on a ball: the end of a tube, or the rim of a hole.
type Joint struct {
	Radius   float64 // of the ball, to the middle of its wall
	Wall     float64 // of the ball
	Diameter float64 // of the ring: the mean diameter of the tube, or of the hole
	Tube     float64 // wall of the tube; 0 with Rim

	// Strength is the design stress f of the ball, its yield over Safety. That of
	// the tube counts only where it is lower; 0 is the same.
	Strength, TubeStrength float64

	// Rim means that the load acts on the bare rim of a hole in the ball, without a
	// tube that holds the rim round: a seat on a holed ball, or an open seam under
	// the ring. kappa is then 0.
	Rim bool

	// Single means that the wall is curved one way only, with Radius: see Capacity.
	Single bool
}

// A Ratio is a ratio of lengths that a rule has limits for.
type Ratio string

// The ratios, in the symbols of the rule.
const (
	WallToRadius Ratio = "t/R"
	RadiusToWall Ratio = "R/t"
	Lambda       Ratio = "lambda"
	RingToBall   Ratio = "d/2R"
	TubeToWall   Ratio = "e_b/t"
)

// A Breach is a limit of a rule that a joint is outside of.
type Breach struct {
	Ratio       Ratio
	Value       float64
	Least, Most float64

	// Held means that the value at the limit was taken in place of the joint's
	// own, which is on the safe side. Where it is not, the rule does not reach the
	// joint: figures are given, but nothing may be decided by them.
	Held bool
}

// A Capacity is what the wall carries by each load alone.
type Capacity struct {
	Lambda float64 // d / sqrt(R t), held at the limits
	Kappa  float64 // how far the tube holds the ring round, 0 to 1

	// KappaInward is Kappa with the tube's wall taken as no thicker than the
	// ball's: with a thick tube the wall dimples before the limit load is reached.
	KappaInward float64

	Outward float64 // N, away from the ball's middle
	Inward  float64 // N, toward it
	Moment  float64 // N mm, the vector sum of both bending moments at the wall
	Shear   float64 // N, across the radius
	Torque  float64 // N mm, about the radius

	Breaches []Breach
}

// The limits of EN 13445-3 16.4 (from memory) and of the finite elements that confirm
// it.
const (
	thinnest, thickest = 0.001, 0.1 // t/R
	widest             = 0.5        // d/2R
	mostLambda         = 11
)

func (j Joint) check() error {
	values := []domain.Value{
		domain.Length("ball radius", j.Radius), domain.Length("ball wall", j.Wall),
		domain.Length("ring diameter", j.Diameter), domain.Distance("tube wall", j.Tube),
	}
	if err := domain.Check(values...); err != nil {
		return err
	}
	switch {
	case j.Wall > j.Radius:
		return fmt.Errorf("ball wall of %.6g is thicker than the ball's radius of %.6g", j.Wall, j.Radius)
	case j.Diameter > 2*j.Radius:
		return fmt.Errorf("ring of %.6g is wider than the ball of %.6g", j.Diameter, 2*j.Radius)
	case !j.Rim && !(j.Tube > 0):
		return fmt.Errorf("tube wall of %.6g: it must be more than 0", j.Tube)
	}
	return nil
}

// Capacity returns what the wall carries. With lambda = d / sqrt(R t),
//
//	kappa  = min(2 (f_b e_b / (f t)) sqrt(e_b / d), 1)
//	F_max  = f t2 (1.82 + 2.4 sqrt(1 + kappa) lambda + 0.91 kappa lambda2)
//	M_max  = f t2 (d / 4) (4.90 + 2.0 sqrt(1 + kappa) lambda + 0.91 kappa lambda2)
//
// EN 13445-3 16.4 (from memory). For a force inward e_b is capped at t: without
// that, large displacements bring the wall to dimple under 0.93 of F_max (finite
// elements, case K46). Torsion and shear are not in the clause; the wall is held to
// 2 T / (pi d2 t) + 2 V / (pi d t) <= f / sqrt(3), statics of a thin ring.
//
// Above lambda 11 or d/2R 0.5 the values at that limit are taken. A wall that is curved one way
// only carries less: that of EN 13445-3 16.5.
func (j Joint) Capacity() (Capacity, error) {
	if err := j.check(); err != nil {
		return Capacity{}, fmt.Errorf("ball wall: %w", err)
	}
	own := j.Strength
	if err := domain.Check(domain.Stress("design stress", own)); err != nil {
		return Capacity{}, fmt.Errorf("ball wall: %w", err)
	}
	tube := own
	if j.TubeStrength != 0 {
		if err := domain.Check(domain.Stress("design stress of the tube", j.TubeStrength)); err != nil {
			return Capacity{}, fmt.Errorf("ball wall: %w", err)
		}
		tube = min(own, j.TubeStrength)
	}
	if j.Single {
		return j.single(), nil
	}
	var c Capacity
	root := math.Sqrt(j.Radius * j.Wall)
	if x := j.Wall / j.Radius; x < thinnest || x > thickest {
		c.Breaches = append(c.Breaches, Breach{WallToRadius, x, thinnest, thickest, false})
	}
	if x := j.Diameter / root; x > mostLambda {
		c.Breaches = append(c.Breaches, Breach{Lambda, x, 0, mostLambda, true})
	}
	if x := j.Diameter / (2 * j.Radius); x > widest {
		c.Breaches = append(c.Breaches, Breach{RingToBall, x, 0, widest, true})
	}
	d := min(j.Diameter, mostLambda*root, 2*widest*j.Radius)
	c.Lambda = d / root
	kappa := func(wall float64) float64 {
		return min(2*tube*wall/(own*j.Wall)*math.Sqrt(wall/d), 1)
	}
	if !j.Rim {
		c.Kappa, c.KappaInward = kappa(j.Tube), kappa(min(j.Tube, j.Wall))
	}
	unit := own * j.Wall * j.Wall
	limit := func(first, second, kappa float64) float64 {
		return first + second*math.Sqrt(1+kappa)*c.Lambda + 0.91*kappa*c.Lambda*c.Lambda
	}
	c.Outward = unit * limit(1.82, 2.4, c.Kappa)
	c.Inward = unit * limit(1.82, 2.4, c.KappaInward)
	c.Moment = unit * d / 4 * limit(4.90, 2.0, c.Kappa)
	c.ring(j, d)
	return c, nil
}

// Decides reports whether the rule reaches the joint: a value held at a limit
// decides, a ratio that the rule has no answer for does not.
func (c Capacity) Decides() bool {
	for _, b := range c.Breaches {
		if !b.Held {
			return false
		}
	}
	return true
}

// A Load is what a joint does to the ball's wall.
type Load struct {
	Force  float64 // N along the ball's radius, outward positive
	Moment float64 // N mm about an axis across the radius: the vector sum
	Shear  float64 // N across the radius
	Torque float64 // N mm about the radius
}

// A Use is how much of what the wall carries a load takes; 1 is the limit.
type Use struct {
	Force, Moment float64 // each by itself
	Shear, Torque float64
	Interaction   float64 // the greater of Force + Moment and Shear + Torque
}

// Use returns how much of the wall a load takes. Force and moment are added up in a
// straight line, EN 13445-3 16.4 without pressure (from memory): finite elements
// reach sums of 1.18 and 1.21, but square sums of only 0.73 and 0.94 (case K44), so
// that a circle would not be safe. The ratios of posts that stand nearer to each
// other than Clearance are for the caller to add up.
func (c Capacity) Use(l Load) Use {
	axial := c.Outward
	if l.Force < 0 {
		axial = c.Inward
	}
	u := Use{
		Force: math.Abs(l.Force) / axial, Moment: math.Abs(l.Moment) / c.Moment,
		Shear: math.Abs(l.Shear) / c.Shear, Torque: math.Abs(l.Torque) / c.Torque,
	}
	u.Interaction = max(u.Force+u.Moment, u.Shear+u.Torque)
	return u
}

// Clearance returns how far a joint's weld must keep, along the wall, from other
// joints and from seams for the rule to take it alone: sqrt(R t), EN 13445-3 16.4
// (from memory). Nearer joints have their uses added up; near a seam that is welded through
// the wall has Seam; one left open under a ring makes it a Rim.
func (j Joint) Clearance() float64 { return math.Sqrt(max(0, j.Radius*j.Wall)) }

// FullWall returns the length from the joint over which the tube must have its full
// wall: sqrt(d e_b), EN 13445-3 16.4 (from memory).
func (j Joint) FullWall() float64 { return math.Sqrt(max(0, j.Diameter*j.Tube)) }
