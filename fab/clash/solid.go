package clash

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
	"stabile/param/design"
)

// A body is a part in space, given by its distance function: negative inside,
// positive outside, and never steeper than 1, so that a sphere about p of the
// radius |distance(p)| lies wholly on one side of the surface. Inside, it is
// the distance to the nearest point of the surface.
type body interface {
	distance(p r3.Vec) float64
	bounds() r3.Box
	// spine returns an axis and a radius about it within which the solid lies.
	spine() (from, to r3.Vec, radius float64)
}

// A sphere is a ball of N rolled gores or of zones, or a true sphere where dirs
// is empty and step is 0.
//
// Each rolled gore is a piece of the cylinder of the ball's radius about the
// axis square to its middle direction and to the pole. Across a gore the
// surface is straight, so that with m the greatest of the components of a
// point along the gores' middle directions and z that along the pole, the
// surface is where the root of m2 + z2 is the radius.
type sphere struct {
	part   *design.Part
	center r3.Vec
	radius float64
	ridge  float64 // mm, of the sphere about the ridges; radius for a true sphere
	pole   r3.Vec
	dirs   []r3.Vec
	step   float64 // rad, latitude that each ring of a ball of zones takes up; 0 for others
}

// isRound reports whether the solid is a true sphere.
func (s *sphere) isRound() bool { return len(s.dirs) == 0 && s.step == 0 }

// newSphere returns the solid of a ball, on its outside.
func newSphere(p *design.Part) *sphere {
	b := p.Ball
	s := &sphere{part: p, center: b.Center, radius: b.Radius, ridge: b.Radius, pole: b.Pole}
	switch {
	case b.Pole == (r3.Vec{}):
	case b.IsZoned():
		s.step, s.ridge = b.ZoneStep(), b.Hull()
	case b.IsLobed() && b.Prime != (r3.Vec{}):
		s.ridge = b.Ridge()
		for i := range b.Gores {
			s.dirs = append(s.dirs, b.Meridian(2*math.Pi*float64(i)/float64(b.Gores)))
		}
	}
	return s
}

func (s *sphere) distance(p r3.Vec) float64 {
	rel := r3.Sub(p, s.center)
	if s.step > 0 {
		// In the plane through the poles: as far along the direction of the
		// nearest ring's middle as the sphere reaches.
		z, q := r3.Dot(rel, s.pole), norm(rel)
		latitude := math.Atan2(z, math.Sqrt(max(0, q*q-z*z))) + math.Pi/2
		return q*math.Cos(latitude-s.step*math.Round(latitude/s.step)) - s.radius
	}
	if len(s.dirs) == 0 {
		return norm(rel) - s.radius
	}
	m := 0.0
	for _, d := range s.dirs {
		m = max(m, r3.Dot(rel, d))
	}
	z := r3.Dot(rel, s.pole)
	return math.Sqrt(m*m+z*z) - s.radius
}

func (s *sphere) bounds() r3.Box {
	reach := r3.Vec{X: s.ridge, Y: s.ridge, Z: s.ridge}
	return r3.Box{Min: r3.Sub(s.center, reach), Max: r3.Add(s.center, reach)}
}

func (s *sphere) spine() (from, to r3.Vec, radius float64) { return s.center, s.center, s.ridge }

// A tube is a post as a solid rod between its trimmed ends: a cylinder, or a
// cone where it tapers, less the balls and the plane that it is cut to.
type tube struct {
	foot   r3.Vec
	u      r3.Vec
	lo, hi float64 // mm along u from foot, of the furthest points of the ends
	r0, k  float64 // the radius is r0 + k s at s mm along u from foot
	cosine float64 // of the half angle of the cone; 1 for a tube
	balls  []*sphere
	floor  float64 // mm, the height below which it is cut; -Inf for none
}

// newTube returns the solid of a post. The solid of a ball that an end meets is
// given; nil where it meets none. With a ball given for an end, that end
// reaches as far as its sphere allows and is cut to the ball.
func newTube(p *design.Post, foot, head *sphere) *tube {
	t := &tube{foot: p.Ends[design.Foot].At, u: p.Direction, hi: p.Length, r0: p.Ends[design.Foot].Diameter / 2, cosine: 1, floor: math.Inf(-1)}
	if p.Length > 0 {
		t.k = p.Slope()
		t.cosine = 1 / math.Hypot(1, t.k)
	}
	if foot != nil {
		t.lo = min(0, reach(foot, p.Ends[design.Foot].At, p.Direction, t.r0))
		t.balls = append(t.balls, foot)
	}
	if head != nil {
		r := p.Ends[design.Head].Diameter / 2
		t.hi = max(p.Length, p.Length-reach(head, p.Ends[design.Head].At, r3.Scale(-1, p.Direction), r))
		t.balls = append(t.balls, head)
	}
	for i, end := range p.Ends {
		if end.Meets != design.OnPlate {
			continue
		}
		t.floor = 0
		if b := end.With; b != nil && b.Base != nil {
			t.floor = b.Base.Top
		}
		// On the side toward which the tube leans, its end on the plate is lowest.
		way, widening := p.Inward(i), t.k
		if i == design.Head {
			widening = -t.k
		}
		lean := math.Sqrt(max(0, 1-way.Z*way.Z))
		if drop := way.Z + widening*lean; drop > 0 {
			more := end.Diameter / 2 * lean / drop
			if i == design.Foot {
				t.lo = -more
			} else {
				t.hi = p.Length + more
			}
		}
	}
	return t
}

// reach returns how far back, as a negative length along u from the point at,
// the outside of a tube of radius r about u goes until its whole edge has met
// the ball. The far side of the tube, at e + r from the line through the
// ball's centre, goes furthest; a tube wider than the ball goes to its middle.
func reach(b *sphere, at, u r3.Vec, r float64) float64 {
	rel := r3.Sub(b.center, at)
	a := r3.Dot(rel, u)
	e := r3.Norm(r3.Sub(rel, r3.Scale(a, u)))
	return a + math.Sqrt(max(0, b.radius*b.radius-(e+r)*(e+r)))
}

func (t *tube) distance(p r3.Vec) float64 {
	rel := r3.Sub(p, t.foot)
	s := r3.Dot(rel, t.u)
	q := norm(r3.Sub(rel, r3.Scale(s, t.u)))
	d := max(t.lo-s, s-t.hi, (q-t.r0-t.k*s)*t.cosine, t.floor-p.Z)
	for _, b := range t.balls {
		d = max(d, -b.distance(p))
	}
	return d
}

// ends returns the ends of the axis and the radii there.
func (t *tube) ends() (centers [2]r3.Vec, radii [2]float64) {
	for i, s := range []float64{t.lo, t.hi} {
		centers[i] = r3.Add(t.foot, r3.Scale(s, t.u))
		radii[i] = max(0, t.r0+t.k*s)
	}
	return centers, radii
}

func (t *tube) bounds() r3.Box {
	c, r := t.ends()
	out := r3.Vec{
		X: solid.CircleReach(t.u, r3.Vec{X: 1}),
		Y: solid.CircleReach(t.u, r3.Vec{Y: 1}),
		Z: solid.CircleReach(t.u, r3.Vec{Z: 1}),
	}
	b := union(
		r3.Box{Min: r3.Sub(c[0], r3.Scale(r[0], out)), Max: r3.Add(c[0], r3.Scale(r[0], out))},
		r3.Box{Min: r3.Sub(c[1], r3.Scale(r[1], out)), Max: r3.Add(c[1], r3.Scale(r[1], out))},
	)
	b.Min.Z = max(b.Min.Z, min(t.floor, b.Max.Z))
	return b
}

func (t *tube) spine() (from, to r3.Vec, radius float64) {
	c, r := t.ends()
	return c[0], c[1], max(r[0], r[1])
}

// A slab is a base on the ground: a plate of a convex outline.
type slab struct {
	outline design.Outline
	top     float64 // mm
}

func (s *slab) distance(p r3.Vec) float64 {
	z, q := max(-p.Z, p.Z-s.top), s.outline.Distance(design.Plan(p))
	return min(max(q, z), 0) + math.Hypot(max(q, 0), max(z, 0))
}

func (s *slab) bounds() r3.Box {
	b := s.outline.Box()
	return r3.Box{Min: r3.Vec{X: b.Min.X, Y: b.Min.Y}, Max: r3.Vec{X: b.Max.X, Y: b.Max.Y, Z: s.top}}
}

func (s *slab) spine() (from, to r3.Vec, radius float64) {
	b := s.bounds()
	x, y := (b.Min.X+b.Max.X)/2, (b.Min.Y+b.Max.Y)/2
	return r3.Vec{X: x, Y: y}, r3.Vec{X: x, Y: y, Z: s.top}, math.Hypot(b.Max.X-x, b.Max.Y-y)
}

func union(a, b r3.Box) r3.Box {
	return r3.Box{
		Min: r3.Vec{X: min(a.Min.X, b.Min.X), Y: min(a.Min.Y, b.Min.Y), Z: min(a.Min.Z, b.Min.Z)},
		Max: r3.Vec{X: max(a.Max.X, b.Max.X), Y: max(a.Max.Y, b.Max.Y), Z: max(a.Max.Z, b.Max.Z)},
	}
}

// overlap returns the box that two boxes share, and whether there is one.
func overlap(a, b r3.Box) (r3.Box, bool) {
	c := r3.Box{
		Min: r3.Vec{X: max(a.Min.X, b.Min.X), Y: max(a.Min.Y, b.Min.Y), Z: max(a.Min.Z, b.Min.Z)},
		Max: r3.Vec{X: min(a.Max.X, b.Max.X), Y: min(a.Max.Y, b.Max.Y), Z: min(a.Max.Z, b.Max.Z)},
	}
	return c, c.Min.X < c.Max.X && c.Min.Y < c.Max.Y && c.Min.Z < c.Max.Z
}

// norm is r3.Norm without its care for numbers near the ends of the range,
// which takes most of the time of a search.
func norm(v r3.Vec) float64 { return math.Sqrt(v.X*v.X + v.Y*v.Y + v.Z*v.Z) }
