package flat

import (
	"math"

	"gonum.org/v1/gonum/integrate/quad"

	"stabile/param/design"
)

// A Roundness is how far the outside of a ball lies from the true sphere of
// its diameter, in mm, along the radius and without regard to sign: at most,
// and on average over its area. A domed gore, a dished cap and a dished half
// count as raised to the true sphere. Of an egg it is how far it lies from the true ellipsoid,
// square to that.
type Roundness struct{ Greatest, Mean float64 }

// quadrature is the number of points of the Gauss-Legendre rules below. The
// functions are smooth: with 16 they come out to more than ten digits.
const quadrature = 16

// over integrates a smooth function.
func over(f func(float64) float64, from, to float64) float64 {
	return quad.Fixed(f, from, to, quadrature, nil, 0)
}

// roundness measures a ball as it is built.
func roundness(p *design.Part) *Roundness {
	b := p.Ball
	if b.IsEgg() {
		return eggRoundness(p)
	}
	switch b.Build {
	case design.Zones:
		return zonesRoundness(b.Zones, b.Radius)
	case design.RolledGores, design.DomedGores:
		if s, ok := segment(p); ok {
			return s.roundness(p)
		}
	}
	return &Roundness{}
}

// zonesRoundness is that of rings about the sphere. At an angle a from its
// middle line a ring is R (1 / cos a - 1) outside of the sphere; it is longest
// at the edges.
func zonesRoundness(n int, radius float64) *Roundness {
	half := math.Pi / float64(n+1) / 2
	var area, sum float64
	for k := range n + 2 {
		latitude := float64(k)*2*half - math.Pi/2
		from, to := -half, half
		if k == 0 {
			from = 0 // half of the polygon's side is the disc
		} else if k == n+1 {
			to = 0
		}
		// Of a piece of side ds = R da / cos^2 a, at R cos(latitude + a) / cos a
		// from the axis.
		ring := func(a float64) float64 {
			cos := math.Cos(a)
			return math.Cos(latitude+a) / (cos * cos * cos)
		}
		area += over(ring, from, to)
		sum += over(func(a float64) float64 { return ring(a) * (1/math.Cos(a) - 1) }, from, to)
	}
	return &Roundness{Greatest: radius * (1/math.Cos(half) - 1), Mean: radius * sum / area}
}

// roundness is that of gores with their caps. Across a rolled gore, at x from
// its middle, the outside is sqrt(R^2 + x^2) - R outside of the sphere, which
// over the width w of the gore comes to
//
//	(w sqrt(R^2 + w^2) + R^2 asinh(w / R)) / 2 - R w .
func (s *segmented) roundness(p *design.Part) *Roundness {
	b := p.Ball
	r := &Roundness{}
	var area, sum float64
	if b.Build == design.RolledGores {
		w0 := b.Radius * s.across
		r.Greatest = math.Hypot(b.Radius, w0*math.Cos(s.widest()/s.Mean)) - b.Radius
		for pole := range s.End {
			end := s.End[pole] / s.Mean
			if b.Straight && !s.CapFlat[pole] && !(b.Bowl && pole == design.UpperPole) {
				end = math.Pi / 2 // a dished cap carries the lobes on
			}
			sum += math.Copysign(over(func(a float64) float64 {
				w := w0 * math.Cos(a)
				return (w*math.Hypot(b.Radius, w)+b.Radius*b.Radius*math.Asinh(w/b.Radius))/2 - b.Radius*w
			}, 0, math.Abs(end)), end) * float64(2*b.Gores) * b.Radius
			area += float64(2*b.Gores) * w0 * b.Radius * math.Sin(end)
		}
	} else {
		for _, end := range s.End {
			area += 2 * math.Pi * b.Radius * b.Radius * math.Sin(end/s.Mean)
		}
	}
	for _, pole := range poles(b) {
		e := s.CapEdge[pole]
		switch {
		case s.CapFlat[pole]:
			// The flat lies at a height h, and at q from the pole sqrt(h^2 + q^2)
			// from the centre; over its area that integrates in closed form.
			h := math.Sqrt(s.Mean*s.Mean-e*e) + p.Metal.Thickness/2
			off := func(q float64) float64 { return math.Abs(math.Hypot(h, q) - b.Radius) }
			r.Greatest = max(r.Greatest, off(0), off(e))
			sum += over(func(q float64) float64 { return 2 * math.Pi * q * off(q) }, 0, e)
			area += math.Pi * e * e
		case b.Caps > 0 && !b.Straight:
			area += math.Pi * (e*e + s.CapRise[pole]*s.CapRise[pole])
		}
	}
	if area > 0 {
		r.Mean = sum / area
	}
	return r
}
