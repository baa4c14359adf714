package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// Met returns what an end of a post meets, nil for one that is cut square: free, or
// with nothing but a smaller tube on it.
func Met(p *design.Part, end int) Surface {
	switch e, with := &p.Post.Ends[end], p.Post.Ends[end].With; {
	case e.Meets == design.OnPlate && with != nil:
		return Face(with.Base)
	case e.Meets == design.OnPlate:
		return Level(-p.Post.Sunk) // in its concrete
	case e.Meets == design.OnBall && with != nil:
		if r, ok := e.Doubled(); ok {
			return Sphere{with.Ball.Center, r}
		}
		return Whole(Outside(with))
	case e.Meets == design.OnSide && with != nil:
		return Side(with.Post)
	case e.Meets == design.OnHead && with != nil:
		if plane, cut := EndPlane(p.Post, end, with.Post, with.Post.EndBy(p, e.At)); cut {
			return plane
		}
	}
	return nil
}

// A rod is a post between its trimmed ends: a cylinder, or a cone where it tapers,
// less the balls and planes that it is cut to.
type rod struct {
	foot, along r3.Vec
	lo, hi      float64 // mm along from foot, of the furthest points of the ends
	radius      float64 // mm, at foot
	slope       float64 // of the radius for each mm along
	side        Surface
	cuts        []Surface
	hollow      []Surface // of those, balls that are open: the rod does not go on in them
}

func newRod(p *design.Part, rims [2][]r3.Vec) *rod {
	post := p.Post
	r := &rod{
		foot: post.Ends[design.Foot].At, along: post.Direction, hi: post.Length,
		radius: post.Ends[design.Foot].Diameter / 2, slope: post.Slope(), side: Side(post),
	}
	for i := range post.Ends {
		out := 0.0 // how far the end goes on beyond its middle
		switch s := Met(p, i).(type) {
		case nil, Cylinder, Cone:
		case Plane:
			out = beyondPlane(s, post, i)
			r.cuts = append(r.cuts, s)
		default:
			out = beyondBall(post.Ends[i].With.Ball, post, i)
			r.cuts = append(r.cuts, s)
			if post.Ends[i].With.Ball.Bowl {
				r.hollow = append(r.hollow, s)
			}
		}
		if len(rims[i]) > 0 {
			out = math.Inf(-1)
			for _, q := range rims[i] {
				out = max(out, -r3.Dot(r3.Sub(q, post.Ends[i].At), post.Inward(i)))
			}
		}
		if i == design.Foot {
			r.lo = -max(out, 0)
		} else if r.hi = post.Length + max(out, 0); len(rims[i]) > 0 {
			r.hi = post.Length + out
		}
	}
	return r
}

// beyondPlane returns how far the outside of an end goes on beyond its middle to
// where the whole of it has met a plane: on the side toward which it leans.
func beyondPlane(s Plane, post *design.Post, end int) float64 {
	way, widening := post.Inward(end), post.Slope()
	if end == design.Head {
		widening = -widening
	}
	cos := r3.Dot(s.Normal, way)
	sin := math.Sqrt(max(0, 1-cos*cos))
	if drop := cos + widening*sin; drop > 0 {
		return post.Ends[end].Diameter / 2 * sin / drop
	}
	return 0
}

// beyondBall returns how far the outside of an end goes on beyond its middle to
// where the whole of it has met a ball. The far side of the tube, at e + r from the
// line through the ball's centre, goes furthest; a tube wider than the ball goes to
// its middle. An egg is looked at all round.
func beyondBall(b *design.Ball, post *design.Post, end int) float64 {
	if b.IsEgg() {
		return beyondEgg(b, post, end)
	}
	way, rel := post.Inward(end), r3.Sub(b.Center, post.Ends[end].At)
	a := r3.Dot(rel, way)
	wide := r3.Norm(r3.Sub(rel, r3.Scale(a, way))) + post.Ends[end].Diameter/2
	return -a - math.Sqrt(max(0, b.Radius*b.Radius-wide*wide))
}

// eggLines is the number of lines along a tube at which it is looked how far it goes on.
const eggLines = 180

func beyondEgg(b *design.Ball, post *design.Post, end int) float64 {
	way, far := post.Inward(end), math.Inf(-1)
	zero, right := design.Tilt(way)
	for k := range eggLines {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / eggLines)
		off := r3.Add(r3.Scale(cos, zero), r3.Scale(sin, right))
		from := r3.Add(post.Ends[end].At, r3.Scale(post.Ends[end].Diameter/2, off))
		t, ok := b.Leave(from, way)
		if !ok {
			t = -r3.Dot(r3.Sub(post.Ends[end].At, b.Center), way)
		}
		far = max(far, -t)
	}
	return far
}

func (r *rod) Distance(p r3.Vec) float64 {
	s := r3.Dot(r3.Sub(p, r.foot), r.along)
	d := max(r.lo-s, s-r.hi, r.side.Distance(p))
	for _, c := range r.cuts {
		d = max(d, -c.Distance(p))
	}
	return d
}

func (r *rod) Span(p, d r3.Vec) (enter, leave float64, ok bool) {
	q := r3.Sub(p, r.foot)
	s, ds := r3.Dot(q, r.along), r3.Dot(d, r.along)
	enter, leave, ok = between(s, ds, r.lo, max(r.hi, r.lo))
	if !ok {
		return 0, 0, false
	}
	e, l, ok := ConeSpan(r3.Dot(q, q)-s*s, r3.Dot(q, d)-s*ds, 1-ds*ds, s, ds, r.radius, r.slope)
	enter, leave = max(enter, e), min(leave, l)
	for _, c := range r.cuts {
		plane, flat := c.(Plane)
		if !flat {
			continue // what lies within a ball is behind it
		}
		e, l, meets := between(plane.Distance(p), r3.Dot(plane.Normal, d), 0, math.Inf(1))
		enter, leave, ok = max(enter, e), min(leave, l), ok && meets
	}
	for _, s := range r.hollow {
		switch e, l, meets := Span(s, p, d); {
		case !meets || e >= leave || l <= enter:
		case e > enter:
			leave = e
		default:
			enter = l
		}
	}
	return enter, leave, ok && enter < leave
}

// ends returns the ends of the axis and the radii there.
func (r *rod) ends() (centers [2]r3.Vec, radii [2]float64) {
	for i, s := range [2]float64{r.lo, r.hi} {
		centers[i] = r3.Add(r.foot, r3.Scale(s, r.along))
		radii[i] = max(0, r.radius+r.slope*s)
	}
	return centers, radii
}

func (r *rod) Bounds() r3.Box {
	c, wide := r.ends()
	b := Frustum(c, r.along, wide)
	for _, c := range r.cuts {
		if p, ok := c.(Plane); ok && p.Normal.Z == 1 {
			b.Min.Z = max(b.Min.Z, min(p.Height, b.Max.Z))
		}
	}
	return b
}

func (r *rod) Spine() (from, to r3.Vec, radius float64) {
	c, wide := r.ends()
	return c[0], c[1], max(wide[0], wide[1])
}

// less leaves what the rod is cut to as it is.
func (r *rod) less(by float64) form {
	in := *r
	in.lo, in.hi, in.radius = r.lo+by, r.hi-by, r.radius-by*math.Hypot(1, r.slope)
	in.side = Cone{Point: r.foot, Axis: r.along, Radius: in.radius, Slope: r.slope}
	return &in
}
