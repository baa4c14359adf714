package shell

import (
	"fmt"
	"math"
	"math/cmplx"

	"stabile/fab/internal/domain"
)

// Springs is how stiff a ball's wall is against a joint.
type Springs struct {
	Rotational float64 // N mm/rad, K_theta, about an axis across the ball's radius
	Axial      float64 // N/mm, K_F, along it
	Breaches   []Breach
}

// The range of the fit: what the finite elements spanned.
const (
	fitLambdaLeast, fitLambdaMost = 1.9, 12.3
	fitThickest, fitThinnest      = 50, 150 // R/t
	fitSlimmest, fitWidest        = 0.1, 0.5
	fitTubeLeast, fitTubeMost     = 0.5, 2
)

// Springs returns the springs of a tube's ring on a whole ball, E being the modulus:
//
//	K_theta = (E t2 d2 / R) G,  G = sqrt(1.56^2 + (0.69 lambda)^2) (e_b/t)^0.21 (1 - q2)^-1.08
//	K_F     = (E t2 / R) H,     H = (1.17 + 3.84 lambda^1.16) (e_b/t)^0.13 (1 - q2)^-0.58
//
// with q = d/2R: a fit to 66 runs of solid elements without a fillet, 2.5 % off on average
// and 8 % at most (K_F: 2 and 5 %; cases K7 to K10). A fillet of the wall's size makes the
// joint 8 to 19 % stiffer. Above their ranges lambda, q and e_b/t are held at the limit,
// which leaves the spring soft; below them, and for other R/t, the fit is carried on, which
// is a guess. A Breach reports either.
//
// A joint on a bare rim has the springs of such a rim.
func (j Joint) Springs(modulus float64) (Springs, error) {
	if err := j.check(); err != nil {
		return Springs{}, fmt.Errorf("ball springs: %w", err)
	}
	if err := domain.Check(domain.Stress("modulus", modulus)); err != nil {
		return Springs{}, fmt.Errorf("ball springs: %w", err)
	}
	if j.Rim {
		return j.rim(modulus), nil
	}
	var s Springs
	lambda := s.hold(Lambda, j.Diameter/math.Sqrt(j.Radius*j.Wall), fitLambdaLeast, fitLambdaMost)
	if x := j.Radius / j.Wall; x < fitThickest || x > fitThinnest {
		s.Breaches = append(s.Breaches, Breach{RadiusToWall, x, fitThickest, fitThinnest, false})
	}
	q := s.hold(RingToBall, j.Diameter/(2*j.Radius), fitSlimmest, fitWidest)
	tube := s.hold(TubeToWall, j.Tube/j.Wall, fitTubeLeast, fitTubeMost)
	curved := 1 - q*q
	g := math.Hypot(1.56, 0.69*lambda) * math.Pow(tube, 0.21) * math.Pow(curved, -1.08)
	h := (1.17 + 3.84*math.Pow(lambda, 1.16)) * math.Pow(tube, 0.13) * math.Pow(curved, -0.58)
	s.scale(j, modulus, g, h)
	return s, nil
}

// hold notes a ratio outside its range, and returns it capped at the top.
func (s *Springs) hold(r Ratio, x, least, most float64) float64 {
	if x < least || x > most {
		s.Breaches = append(s.Breaches, Breach{r, x, least, most, x > most})
	}
	return min(x, most)
}

// scale gives the springs their size from the plain numbers G and H.
func (s *Springs) scale(j Joint, modulus, g, h float64) {
	unit := modulus * j.Wall * j.Wall / j.Radius
	s.Rotational, s.Axial = unit*j.Diameter*j.Diameter*g, unit*h
}

// poisson is Poisson's ratio of steel, which the fits and the closed forms have.
const poisson = 0.3

// Ring returns the springs of a line load on a ring of a whole ball, with nothing
// that keeps the ring from turning in the wall: what a tube's foot has at least, and
// what a ball has that sits on another. Shallow shell theory (Reissner 1946) by
// Hankel's transform:
//
//	G = pi / (4 c I_1),  H = 2 pi / (c I_0),  c = sqrt(12 (1 - v2))
//	I_n = integral over x of J_n(mu x)2 x / (x4 + 1),  mu = (d/2) sqrt(c / (R t))
//
// I_n is the imaginary part of I_n(z) K_n(z), the modified Bessel functions, at z =
// mu e^(-i pi/4). Solid elements without a tube agree within 5 % to lambda 4, and are
// 9 % stiffer in turning at 7, where the ball is no longer shallow (case K11).
func (j Joint) Ring(modulus float64) (Springs, error) {
	rim := j
	rim.Rim = true
	if err := rim.check(); err != nil {
		return Springs{}, fmt.Errorf("ball springs: %w", err)
	}
	if err := domain.Check(domain.Stress("modulus", modulus)); err != nil {
		return Springs{}, fmt.Errorf("ball springs: %w", err)
	}
	var s Springs
	if q := j.Diameter / (2 * j.Radius); q > fitWidest {
		s.Breaches = append(s.Breaches, Breach{RingToBall, q, 0, fitWidest, false})
	}
	g, h := ringNumbers(j.Radius, j.Wall, j.Diameter)
	s.scale(j, modulus, g, h)
	return s, nil
}

func ringNumbers(radius, wall, diameter float64) (g, h float64) {
	c := math.Sqrt(12 * (1 - poisson*poisson))
	mu := diameter / 2 * math.Sqrt(c/(radius*wall))
	return math.Pi / (4 * c * besselProduct(1, mu)), 2 * math.Pi / (c * besselProduct(0, mu))
}

// besselProduct returns the imaginary part of I_n(z) K_n(z) at z = mu e^(-i pi/4),
// by the trapezoidal rule on
//
//	I_n(z) = 1/pi integral from 0 to pi of e^(z cos u) cos(n u)
//	K_n(z) = integral from 0 to infinity of e^(-z cosh u) cosh(n u)
//
// (Abramowitz and Stegun 9.6.19 and 9.6.24), which converges faster than any power of
// the step. The factors e^z and e^-z cancel and are left out of both.
func besselProduct(n int, mu float64) float64 {
	z := complex(mu, 0) * cmplx.Exp(complex(0, -math.Pi/4))
	steps := 64 + int(4*mu)
	var first complex128
	for k := 0; k <= steps; k++ {
		u := math.Pi * float64(k) / float64(steps)
		w := 1.0
		if k == 0 || k == steps {
			w = 0.5
		}
		first += complex(w*math.Cos(float64(n)*u)/float64(steps), 0) * cmplx.Exp(z*complex(math.Cos(u)-1, 0))
	}
	// The integrand has gone to nothing where Re z (cosh u - 1) is 40.
	top := math.Acosh(1 + 40/real(z))
	const parts = 2000
	var second complex128
	for k := 0; k <= parts; k++ {
		u := top * float64(k) / parts
		w := top / parts
		if k == 0 || k == parts {
			w /= 2
		}
		second += complex(w*math.Cosh(float64(n)*u), 0) * cmplx.Exp(-z*complex(math.Cosh(u)-1, 0))
	}
	return imag(first * second)
}

// rim returns the springs of a load on the bare rim of a hole: G = 0.29 + 0.184
// lambda, H = 0.25 + 1.70 lambda, a fit to finite elements of lambda 2 to 7, within 8 %
// (case K12).
func (j Joint) rim(modulus float64) Springs {
	const least, most = 2, 7
	var s Springs
	lambda := s.hold(Lambda, j.Diameter/math.Sqrt(j.Radius*j.Wall), least, most)
	s.scale(j, modulus, 0.29+0.184*lambda, 0.25+1.70*lambda)
	return s
}

// Series returns two springs one behind the other, as at a seat, where two balls give
// at the ring between them: 1/K = 1/K_A + 1/K_B.
func (s Springs) Series(o Springs) Springs {
	both := func(a, b float64) float64 {
		if a <= 0 || b <= 0 {
			return 0
		}
		return 1 / (1/a + 1/b)
	}
	return Springs{
		Rotational: both(s.Rotational, o.Rotational), Axial: both(s.Axial, o.Axial),
		Breaches: append(append([]Breach(nil), s.Breaches...), o.Breaches...),
	}
}
