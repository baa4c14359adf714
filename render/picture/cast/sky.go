package cast

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// Hides returns the share, from 0 to 1, of the light from all round that the
// solid keeps from a surface at p with the normal n, each direction weighed by
// its cosine to n: the form factor between the two, in closed form.
//
// For a sphere at a distance of h radii whose direction has the cosine c to n it
// is c / h^2, which is exact where the sphere is wholly above the surface; where
// the surface's plane cuts it, a fit is taken that meets it at both ends. A tube
// is taken as a strip as wide as it is seen, integrated along its length. Of a
// plate only what stands beside p counts.
func (s *Solid) Hides(p, n r3.Vec) float64 {
	switch s.Kind {
	case Tube:
		if s.flatOnGround() {
			return s.plateHides(p, n)
		}
		return s.tubeHides(p, n)
	case Box:
		return s.plateHides(p, n)
	}
	rel := r3.Sub(s.Center, p)
	radius := (s.Radius + s.hull()) / 2
	if s.Stretch > 0 {
		// Where it is a ball: what is next to it, and its plane, stay so.
		rel, n = s.squash(rel), unit(s.scaled(n, s.Stretch))
	}
	dd := r3.Dot(rel, rel)
	toward := r3.Dot(rel, n) / radius // c h
	if toward <= -1 {
		return 0
	}
	hh := max(1, dd/(radius*radius))
	if toward >= 1 {
		return toward / (hh * math.Sqrt(hh))
	}
	// Cut by the plane of the surface: from 0 where it is just below to 1 / h^3
	// where it is just above, slope for slope.
	x := (toward + 1) / 2
	return x * x / (hh * math.Sqrt(hh))
}

// tubeHides integrates 2 r cos(psi) cos(theta) / (pi d^2) along the axis, with d
// the distance and psi the angle of the line of sight from square to the axis.
// With D the distance from the axis, e the direction to its nearest point and x
// along it from there, rho^2 = D^2 + x^2, it is
//
//	r / pi [ n.e (x / rho^2 + atan(x / D) / D) - n.a D / rho^2 ] .
func (s *Solid) tubeHides(p, n r3.Vec) float64 {
	rel := r3.Sub(s.Center, p)
	along := r3.Dot(rel, s.Axis)
	e := r3.Sub(rel, r3.Scale(along, s.Axis))
	dd := r3.Dot(e, e)
	z := min(max(-along, s.Reach[0]), s.Reach[1])
	r := s.Radius + s.Slope*z
	// A tube far off is not worth the trouble.
	if square := dd + (along+z)*(along+z); square > 500*r*(s.Reach[1]-s.Reach[0]) {
		return 0
	}
	d := math.Sqrt(dd)
	ne, na := r3.Dot(e, n), r3.Dot(s.Axis, n)
	if d > 0 {
		ne /= d
	}
	d = max(d, r)
	x0, x1 := along+s.Reach[0], along+s.Reach[1]
	// Only what is above the surface: d ne + x na > 0.
	switch level := -d * ne; {
	case na > 1e-9:
		x0 = max(x0, level/na)
	case na < -1e-9:
		x1 = min(x1, level/na)
	case ne <= 0:
		return 0
	}
	if x0 >= x1 {
		return 0
	}
	q0, q1 := 1/(dd+x0*x0+1e-9), 1/(dd+x1*x1+1e-9)
	if dd < r*r {
		q0, q1 = 1/(r*r+x0*x0), 1/(r*r+x1*x1)
	}
	turn := arctan((x1-x0)*d, d*d+x0*x1)
	f := r / math.Pi * (ne*(x1*q1-x0*q0+turn/d) - na*d*(q1-q0))
	return min(max(f, 0), 1)
}

// arctan is math.Atan2 for y >= 0 to within 0.0002 rad, which no eye sees
// (Abramowitz and Stegun, 4.4.49 cut short).
func arctan(y, x float64) float64 {
	ax := math.Abs(x)
	hi, lo := max(ax, y), min(ax, y)
	if hi == 0 {
		return 0
	}
	q := lo / hi
	qq := q * q
	a := q * (0.9998660 + qq*(-0.3302995+qq*(0.1801410+qq*(-0.0851330+qq*0.0208351))))
	if y > ax {
		a = math.Pi/2 - a
	}
	if x < 0 {
		a = math.Pi - a
	}
	return a
}

// flatOnGround reports whether a tube is a round plate that lies level.
func (s *Solid) flatOnGround() bool {
	return s.Length < s.Radius && s.Axis.Z > 1-1e-9
}

// plateHides is that of a level plate for a point beside it: half the sky lies
// on its side, up to the height that it has there.
func (s *Solid) plateHides(p, n r3.Vec) float64 {
	if p.Z >= s.High.Z || n.Z < 0.5 {
		return 0
	}
	h := s.High.Z - p.Z
	dx, dy := max(s.Low.X-p.X, p.X-s.High.X, 0), max(s.Low.Y-p.Y, p.Y-s.High.Y, 0)
	if max(dx, dy) > 12*h {
		return 0
	}
	away := math.Sqrt(dx*dx + dy*dy)
	if s.Kind == Tube {
		dx, dy = p.X-s.Center.X, p.Y-s.Center.Y
		away = max(math.Sqrt(dx*dx+dy*dy)-s.Radius, 0)
	}
	return 0.5 * (1 - away/math.Sqrt(away*away+h*h))
}

// faint is the share of the light that many solids together must be able to
// hide to be looked at one by one.
const faint = 0.004

// Sky returns the share of the light from all round that solids, but one, leave
// to a surface at p with the normal n.
func (w *World) Sky(p, n r3.Vec, but int32) float64 {
	open := 1.0
	if len(w.nodes) == 0 {
		return open
	}
	var stack [depth]int32
	top := 1
	for top > 0 {
		top--
		at := stack[top]
		nd := &w.nodes[at]
		rel := r3.Sub(nd.middle, p)
		if r3.Dot(rel, n) < -nd.radius {
			continue // behind the surface
		}
		dd := r3.Dot(rel, rel)
		if nd.radius*nd.radius < faint*dd {
			continue
		}
		if nd.second != 0 {
			stack[top], stack[top+1] = nd.second, at+1
			top += 2
			continue
		}
		for _, i := range w.order[nd.from:nd.to] {
			if i != but {
				open *= 1 - w.Solids[i].Hides(p, n)
			}
		}
	}
	return open
}

// Away returns how far a point is from the surface of the solid, less than 0
// within. It is exact near the faces and at least that near the edges.
func (s *Solid) Away(p r3.Vec) float64 {
	rel := r3.Sub(p, s.Center)
	if s.Stretch > 0 {
		return s.awayEgg(rel)
	}
	switch s.Kind {
	case Tube:
		z := r3.Dot(rel, s.Axis)
		rho := math.Sqrt(max(0, r3.Dot(rel, rel)-z*z))
		side := (rho - s.Radius - s.Slope*z) / math.Sqrt(1+s.Slope*s.Slope)
		return max(side, r3.Dot(s.Ends[0].Normal, p)-s.Ends[0].Height, r3.Dot(s.Ends[1].Normal, p)-s.Ends[1].Height)
	case Box:
		d := max(math.Abs(rel.X)-s.Half.X, math.Abs(rel.Y)-s.Half.Y, math.Abs(rel.Z)-s.Half.Z)
		for _, side := range s.Sides {
			d = max(d, r3.Dot(p, side.Normal)-side.Height)
		}
		return d
	case Lobed:
		x, y, z := r3.Dot(rel, s.Zero), r3.Dot(rel, s.Right), r3.Dot(rel, s.Axis)
		_, a := s.outermost(x, y)
		return math.Sqrt(a*a+z*z) - s.Radius
	case Zoned:
		z := r3.Dot(rel, s.Axis)
		rho := math.Sqrt(max(0, r3.Dot(rel, rel)-z*z))
		d := -far
		for _, g := range s.Rings {
			d = max(d, rho*g.X+z*g.Y)
		}
		return d - s.Radius
	}
	return norm(rel) - s.Radius
}
