package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A Body is a part in space, taken as solid, as far as its outside goes.
type Body struct {
	Part *design.Part
	Rims [2][]r3.Vec // of a post, its trimmed edges on the outside, foot first; empty where they are not known
	form
}

// A form is what a body is of: a ball, a rod, a slab, one that is hung on a wall, or a stack.
type form interface {
	// Distance returns how far outside a point is, in mm; negative inside. It is
	// never steeper than 1, so that a sphere of the radius |Distance(p)| about p
	// lies wholly on one side of the surface.
	Distance(p r3.Vec) float64

	// Span returns between which distances along the unit vector d from the point
	// p a line is inside. A rod goes on into what its ends meet.
	Span(p, d r3.Vec) (enter, leave float64, ok bool)

	Bounds() r3.Box

	// Spine returns an axis and a radius about it within which the body lies.
	Spine() (from, to r3.Vec, radius float64)

	// less returns the form taken smaller all round.
	less(by float64) form
}

// New returns the body of a part. Where the trimmed edges of a post are not given
// its ends are taken to lie as what they meet has them.
func New(p *design.Part, rims [2][]r3.Vec) *Body {
	b := &Body{Part: p, Rims: rims}
	switch {
	case p.Post != nil:
		b.form = newRod(p, rims)
	case p.Ball != nil:
		b.form = round{p, Outside(p)}
	default:
		b.form = slab{outline: p.Base.Outline(), bottom: p.Base.Under(), top: p.Base.Top}
		if p.Base.OnWall() {
			b.form = hung{b.form.(slab), p.Base}
		} else if k := p.Base.Block; k.Given() {
			b.form = stack{b.form.(slab), slab{outline: k.Outline(), top: k.Height}}
		}
	}
	return b
}

// Less returns the body taken smaller all round by a number of mm.
func (b *Body) Less(by float64) *Body { return &Body{b.Part, b.Rims, b.less(by)} }

// Bodies returns the body of each part of a design, in its order, the ends of posts
// taken to lie as what they meet has them.
func Bodies(d *design.Design) []*Body {
	list := make([]*Body, len(d.Parts))
	for i, p := range d.Parts {
		list[i] = New(p, [2][]r3.Vec{})
	}
	return list
}

// Outside returns the outside of a ball; nil for other bodies.
func (b *Body) Outside() Radial {
	r, _ := b.form.(round)
	return r.Radial
}

// A round is a ball.
type round struct {
	part *design.Part
	Radial
}

func (r round) Span(p, d r3.Vec) (enter, leave float64, ok bool) { return Span(r.Radial, p, d) }

func (r round) Bounds() r3.Box {
	c, hull := r.part.Ball.Center, r.part.Ball.Hull()
	reach := r3.Vec{X: hull, Y: hull, Z: hull}
	return r3.Box{Min: r3.Sub(c, reach), Max: r3.Add(c, reach)}
}

func (r round) Spine() (from, to r3.Vec, radius float64) {
	c := r.part.Ball.Center
	return c, c, r.part.Ball.Hull()
}

func (r round) less(by float64) form {
	part, ball := *r.part, *r.part.Ball
	ball.Radius -= by
	if ball.IsEgg() {
		ball.Tall -= 2 * by
	}
	part.Ball = &ball
	return round{&part, Outside(&part)}
}

// A slab is a level plate of a convex outline, less a number of mm all round.
type slab struct {
	outline design.Outline
	bottom  float64 // mm
	top     float64 // mm
	in      float64 // mm
}

func (s slab) Distance(p r3.Vec) float64 {
	z, q := max(s.bottom-p.Z, p.Z-s.top), s.outline.Distance(design.Plan(p))
	return min(max(q, z), 0) + math.Hypot(max(q, 0), max(z, 0)) + s.in
}

func (s slab) Span(p, d r3.Vec) (enter, leave float64, ok bool) {
	enter, leave, ok = between(p.Z, d.Z, s.bottom+s.in, max(s.top-s.in, s.bottom+s.in))
	if !ok {
		return 0, 0, false
	}
	q, way := design.Plan(p), design.Plan(d)
	if s.outline.IsRound() {
		e, l, in := ConeSpan(q.X*q.X+q.Y*q.Y, q.X*way.X+q.Y*way.Y, 1-d.Z*d.Z, p.Z, d.Z, s.outline.Radius-s.in, 0)
		enter, leave = max(enter, e), min(leave, l)
		return enter, leave, in && enter < leave
	}
	for from, out := range s.outline.Sides {
		e, l, in := between((q.X-from.X)*out.X+(q.Y-from.Y)*out.Y, way.X*out.X+way.Y*out.Y, math.Inf(-1), -s.in)
		if !in {
			return 0, 0, false
		}
		enter, leave = max(enter, e), min(leave, l)
	}
	return enter, leave, enter < leave
}

// between returns between which t the value x + t*dx lies in [lo, hi].
func between(x, dx, lo, hi float64) (enter, leave float64, ok bool) {
	if dx == 0 {
		return math.Inf(-1), math.Inf(1), lo <= x && x <= hi
	}
	a, b := (lo-x)/dx, (hi-x)/dx
	return min(a, b), max(a, b), true
}

func (s slab) Bounds() r3.Box {
	b := s.outline.Box()
	return r3.Box{Min: r3.Vec{X: b.Min.X, Y: b.Min.Y, Z: s.bottom}, Max: r3.Vec{X: b.Max.X, Y: b.Max.Y, Z: s.top}}
}

func (s slab) Spine() (from, to r3.Vec, radius float64) {
	b := s.outline.Box()
	x, y := (b.Min.X+b.Max.X)/2, (b.Min.Y+b.Max.Y)/2
	if radius = s.outline.Radius; radius == 0 {
		radius = math.Hypot(b.Max.X-x, b.Max.Y-y)
	}
	return r3.Vec{X: x, Y: y, Z: s.bottom}, r3.Vec{X: x, Y: y, Z: s.top}, radius
}

func (s slab) less(by float64) form { return slab{s.outline, s.bottom, s.top, s.in + by} }

// A stack is a plate on a block, which reaches at least as far out.
type stack struct{ plate, block slab }

func (s stack) Distance(p r3.Vec) float64 { return min(s.plate.Distance(p), s.block.Distance(p)) }

// Span goes over what lies between the two, where the line passes through both.
func (s stack) Span(p, d r3.Vec) (enter, leave float64, ok bool) {
	enter, leave, ok = s.block.Span(p, d)
	switch e, l, in := s.plate.Span(p, d); {
	case in && ok:
		return min(enter, e), max(leave, l), true
	case in:
		return e, l, true
	}
	return enter, leave, ok
}

func (s stack) Bounds() r3.Box {
	b := s.block.Bounds()
	b.Max.Z = s.plate.top
	return b
}

func (s stack) Spine() (from, to r3.Vec, radius float64) {
	from, to, radius = s.block.Spine()
	to.Z = s.plate.top
	return from, to, radius
}

func (s stack) less(by float64) form {
	return stack{s.plate.less(by).(slab), s.block.less(by).(slab)}
}

// norm is r3.Norm without its care for numbers near the ends of the range,
// which takes most of the time of a search.
func norm(v r3.Vec) float64 { return math.Sqrt(v.X*v.X + v.Y*v.Y + v.Z*v.Z) }
