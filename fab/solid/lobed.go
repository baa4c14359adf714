package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"
	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
)

// A Lobed is the ball that N gores make which are bent one way only: N
// cylinders of its radius, each with its axis through the centre and level to
// the pole, cut each other off along N ridges. A sphere of its radius touches
// it along the middle of each gore and lies within it everywhere.
//
// With x relative to the centre, g_k towards the middle of gore k and p along
// the pole, x lies in the body when
//
//	max_k(x . g_k)^2 + (x . p)^2 <= R^2 .
//
// The body is what N convex bodies have in common, each the front of a cylinder
// with everything behind it, so that it is convex for odd N too.
type Lobed struct {
	center  r3.Vec
	x, y, z r3.Vec // towards the middle of gore 1, a quarter turn on, and the pole
	radius  float64
	lobes   []r2.Vec // g_k in x and y
	apart   float64  // distance of g_k from g_k+1

	// Toward the lower pole and the upper, at most the radius.
	flat [2]float64 // height of a flat end
	dome [2]float64 // height above which a dished cap, part of the sphere, takes over
}

// NewLobed returns a ball of n lobes that the sphere of the given radius
// touches, with the middle of the first gore towards prime. Pole and prime are
// unit vectors square to each other.
func NewLobed(center r3.Vec, radius float64, n int, pole, prime r3.Vec) *Lobed {
	b := &Lobed{
		center: center,
		x:      prime, y: r3.Cross(pole, prime), z: pole,
		radius: radius,
		lobes:  make([]r2.Vec, n),
		apart:  2 * math.Sin(math.Pi/float64(n)),
		flat:   [2]float64{radius, radius}, dome: [2]float64{radius, radius},
	}
	for k := range b.lobes {
		sin, cos := math.Sincos(2 * math.Pi * float64(k) / float64(n))
		b.lobes[k] = r2.Vec{X: cos, Y: sin}
	}
	return b
}

// Flatten cuts the ball off flat at a distance from its centre toward a pole, as blunt
// gores or a flat cap do.
func (b *Lobed) Flatten(pole int, height float64) { b.flat[pole] = min(height, b.radius) }

// Dome puts a dished cap, which lies on the sphere, on a pole from a distance from the
// centre outward. The gores end there, square to the pole.
func (b *Lobed) Dome(pole int, height float64) { b.dome[pole] = min(height, b.radius) }

// Ends returns the distances from the centre, toward the lower pole and the upper, at which
// flat ends cut the ball off and at which dished caps take over; the radius for none.
func (b *Lobed) Ends() (flat, dome [2]float64) { return b.flat, b.dome }

// Within returns the sphere that touches all lobes from within.
func (b *Lobed) Within() Sphere { return Sphere{Center: b.center, Radius: b.radius} }

// local returns a direction in the ball's own axes.
func (b *Lobed) local(v r3.Vec) r3.Vec {
	return r3.Vec{X: r3.Dot(v, b.x), Y: r3.Dot(v, b.y), Z: r3.Dot(v, b.z)}
}

// Leave implements Surface.
func (b *Lobed) Leave(o, d r3.Vec) (float64, bool) {
	o, d = b.local(r3.Sub(o, b.center)), b.local(d)
	t, _, _, ok := b.leave(o, d, b.facing(o, d))
	return t, ok
}

// Distance implements Surface.
func (b *Lobed) Distance(p r3.Vec) float64 {
	q := b.local(r3.Sub(p, b.center))
	_, a := b.outermost(q, b.facing(q, r3.Vec{}))
	d, z := math.Sqrt(a*a+q.Z*q.Z)-b.radius, math.Abs(q.Z)
	pole := design.PoleAt(q.Z)
	if b.dome[pole] < b.radius {
		// The gores to the edge of the cap, and the sphere that lies within them.
		return min(max(d, z-b.dome[pole]), norm(q)-b.radius)
	}
	return max(d, z-b.flat[pole])
}

// Meet implements Surface.
func (b *Lobed) Meet(t Tube) Contour {
	t.Origin = b.local(r3.Sub(t.Origin, b.center))
	t.Along, t.Zero, t.Right = b.local(t.Along), b.local(t.Zero), b.local(t.Right)
	c := &lobedContour{body: b, wall: newWall(t)}
	g := c.wall.ray(0, 1)
	c.lobe = b.facing(c.wall.from(&g, t.Outer), g.dir)
	return c
}

type lobedContour struct {
	body *Lobed
	wall wall // in the ball's own axes
	lobe int  // the last lobe met, where to begin the next search
}

// leave finds the exit at a radius.
func (c *lobedContour) leave(g *ray, r float64) (exit, bool) {
	t, normal, face, ok := c.body.leave(c.wall.from(g, r), g.dir, c.lobe)
	if !ok {
		return exit{}, false
	}
	if face < len(c.body.lobes) {
		c.lobe = face
	}
	return newExit(t, normal, g.dir, g.out, g.on, c.wall.swing(r, t), face), true
}

// contact makes the contact of a touch at a radius with a rim.
func (c *lobedContour) contact(top exit, r float64, rim exit, g *ray) Contact {
	made := contact(top, r, rim)
	q := r3.Add(c.wall.from(g, r), r3.Scale(top.t, g.dir))
	switch b, n, pole := c.body, len(c.body.lobes), design.PoleAt(q.Z); {
	case top.face >= 0 && top.face < n:
		made.Clear = b.clear(q, top.face)
	case top.face == n+1 && b.dome[pole] == b.radius:
		// Within the flat end, up to where the lobe that is nearest begins.
		_, a := b.outermost(q, c.lobe)
		made.Clear = math.Sqrt(b.radius*b.radius-b.flat[pole]*b.flat[pole]) - a
	}
	return made
}

// Touch implements Contour. Face is the number of the lobe, or from N on the
// dished cap and the flats.
func (c *lobedContour) Touch(sin, cos float64) (Contact, bool) {
	inner, outer := c.wall.Inner, c.wall.Outer
	g := c.wall.ray(sin, cos)
	rim, ok := c.leave(&g, outer)
	if !ok {
		return Contact{}, false
	}
	dished := min(c.body.dome[0], c.body.dome[1]) < c.body.radius
	if rim.across >= 0 && !dished {
		return c.contact(rim, outer, rim, &g), true
	}
	bore, ok := c.leave(&g, inner)
	if !ok {
		return Contact{}, false
	}
	leave := func(r float64) (exit, bool) { return c.leave(&g, r) }
	var top exit
	var r float64
	if dished && c.nearCap(&g, rim, outer) {
		// Across the edge of a dished cap, beside which is a hollow at each
		// corner of the opening.
		top, r = scan(bore, rim, inner, outer, leave)
	} else {
		top, r = highest(bore, rim, inner, outer, leave)
	}
	return c.contact(top, r, rim, &g), true
}

// nearCap reports whether the wall may touch the edge of a dished cap, given
// where its outside leaves the ball: within twice its thickness.
func (c *lobedContour) nearCap(g *ray, rim exit, outer float64) bool {
	q := r3.Add(c.wall.from(g, outer), r3.Scale(rim.t, g.dir))
	return math.Abs(math.Abs(q.Z)-c.body.dome[design.PoleAt(q.Z)]) < 2*(outer-c.wall.Inner) || rim.face > len(c.body.lobes)
}

// facing returns the lobe that a line faces where it leaves the sphere, or at
// its nearest to the centre where it misses that.
func (b *Lobed) facing(o, d r3.Vec) int {
	t := -r3.Dot(o, d)
	q := r3.Add(o, r3.Scale(t, d))
	if half := b.radius*b.radius - r3.Norm2(q); half > 0 {
		q = r3.Add(q, r3.Scale(math.Sqrt(half), d))
	}
	n := len(b.lobes)
	k := int(math.Round(math.Atan2(q.Y, q.X) / (2 * math.Pi) * float64(n)))
	return ((k % n) + n) % n
}

// leave finds where the line leaves the body, in the ball's own axes, with the
// normal there, not of unit length, and the face. It starts from a lobe and goes on to the lobe that
// stands out farthest where the line leaves the last one. No step can pass the
// true end, since the body lies in each lobe's own, and each step comes nearer,
// so that no lobe comes twice.
func (b *Lobed) leave(o, d r3.Vec, lobe int) (t float64, normal r3.Vec, face int, ok bool) {
	n := len(b.lobes)
	var a float64
	var q r3.Vec
	for range n + 1 {
		if t, ok = b.leaveLobe(o, d, lobe); !ok {
			return 0, r3.Vec{}, 0, false
		}
		q = r3.Add(o, r3.Scale(t, d))
		next := lobe
		if next, a = b.outermost(q, lobe); next == lobe {
			break
		}
		lobe = next
	}
	// A line that misses the ball may come to an end in front of no lobe.
	if !(a*a+q.Z*q.Z <= b.radius*b.radius*(1+onSurface)) {
		return 0, r3.Vec{}, 0, false
	}
	switch z, flat, dome := math.Abs(q.Z), b.flat[design.PoleAt(q.Z)], b.dome[design.PoleAt(q.Z)]; {
	case z > flat:
		t, ok = b.leaveEnd(o, d, math.Copysign(flat, q.Z))
		return t, r3.Vec{Z: math.Copysign(1, q.Z)}, n + 1, ok
	case z > dome:
		if t, ok = (Sphere{Radius: b.radius}).Leave(o, d); ok {
			if p := r3.Add(o, r3.Scale(t, d)); p.Z*math.Copysign(1, q.Z) >= dome {
				return t, p, n, true
			}
		}
		t, ok = b.leaveEnd(o, d, math.Copysign(dome, q.Z))
		return t, r3.Vec{Z: math.Copysign(1, q.Z)}, n + 1, ok
	}
	normal = r3.Vec{X: a * b.lobes[lobe].X, Y: a * b.lobes[lobe].Y, Z: q.Z}
	return t, normal, lobe, r3.Dot(normal, d) > grazing*b.radius
}

// tie is how much farther out, as a share of the radius, a lobe must stand to
// take over from its neighbour: rounding, so that neither does on a ridge.
const tie = 1e-13

// onSurface is how far outside the lobes, as a share of the radius squared, a
// point that lies on them may come to lie by rounding.
const onSurface = 1e-9

// outermost climbs from a lobe to the one that stands out farthest at q, which
// it returns with how far q lies along it. How far q lies along the lobes rises
// and falls once round the ball, so that neighbours suffice.
func (b *Lobed) outermost(q r3.Vec, lobe int) (int, float64) {
	n := len(b.lobes)
	g := b.lobes[lobe]
	a := q.X*g.X + q.Y*g.Y
	for _, step := range [2]int{1, n - 1} {
		for moved := false; ; moved = true {
			next := lobe + step
			if next >= n {
				next -= n
			}
			g = b.lobes[next]
			c := q.X*g.X + q.Y*g.Y
			if c <= a+tie*b.radius {
				if moved {
					return lobe, a
				}
				break
			}
			lobe, a = next, c
		}
	}
	return lobe, a
}

// clear returns how far a point on a lobe lies from its ridges and from its
// ends, where those are cut off.
func (b *Lobed) clear(q r3.Vec, lobe int) float64 {
	n := len(b.lobes)
	g, after, before := b.lobes[lobe], b.lobes[(lobe+1)%n], b.lobes[(lobe+n-1)%n]
	clear := min(q.X*(g.X-after.X)+q.Y*(g.Y-after.Y), q.X*(g.X-before.X)+q.Y*(g.Y-before.Y)) / b.apart
	if end := min(b.flat[design.PoleAt(q.Z)], b.dome[design.PoleAt(q.Z)]); end < b.radius {
		clear = min(clear, end-math.Abs(q.Z))
	}
	return clear
}

// leaveLobe finds where a line leaves the body of one lobe alone: in front, the
// cylinder; behind its axis everything up to its height, since there other
// lobes bound the ball.
func (b *Lobed) leaveLobe(o, d r3.Vec, lobe int) (float64, bool) {
	g := b.lobes[lobe]
	a, rise := o.X*g.X+o.Y*g.Y, d.X*g.X+d.Y*g.Y
	square := rise*rise + d.Z*d.Z
	half := a*rise + o.Z*d.Z
	if disc := half*half - square*(a*a+o.Z*o.Z-b.radius*b.radius); disc >= 0 && square > grazing*grazing {
		t := (math.Sqrt(disc) - half) / square
		if a+t*rise >= 0 {
			return t, true
		}
	} else if square > grazing*grazing && a-half/square*rise > 0 {
		return 0, false // passes in front
	}
	// Far is beyond the ball on any line that meets it.
	far := 4*b.radius + norm(o)
	if math.Abs(d.Z) < grazing {
		return far, true
	}
	return min(far, (math.Copysign(b.radius, d.Z)-o.Z)/d.Z), true
}

// leaveEnd finds where a line leaves by the plane of one end, which is at the
// given height, if that lies within the lobes.
func (b *Lobed) leaveEnd(o, d r3.Vec, height float64) (float64, bool) {
	if d.Z*math.Copysign(1, height) < grazing {
		return 0, false
	}
	t := (height - o.Z) / d.Z
	q := r3.Add(o, r3.Scale(t, d))
	_, a := b.outermost(q, 0)
	return t, a*a+q.Z*q.Z <= b.radius*b.radius*(1+tie)
}

// scanSteps is the number of places across a wall at which the edge of a cap is
// looked at. Between two of them lies at most one change of face, the wall being
// thin beside the cap.
const scanSteps = 16

// scan is highest for heights with more than one top. Between equal steps across
// the wall it looks at both sides of each change of face, where the heights may
// leap, and for smooth tops. One within the wall may be a corner, so that its
// slope is not known.
func scan(bore, rim exit, from, to float64, leave func(r float64) (exit, bool)) (exit, float64) {
	best, at := bore, from
	if rim.t > bore.t {
		best, at = rim, to
	}
	try := func(e exit, r float64) {
		if e.t > best.t {
			best, at = e, r
			best.face = Rough
		}
	}
	// part halves between two places until they are one, keeping to the first as
	// long as before says so of the middle.
	part := func(a, b exit, lo, hi float64, before func(exit) bool) (exit, exit, float64, float64) {
		for hi-lo > radiusResolution {
			mid := (lo + hi) / 2
			e, ok := leave(mid)
			if !ok {
				break
			}
			if before(e) {
				a, lo = e, mid
			} else {
				b, hi = e, mid
			}
		}
		try(a, lo)
		try(b, hi)
		return a, b, lo, hi
	}
	smooth := func(a, b exit, lo, hi float64) {
		if a.across > 0 && b.across < 0 {
			part(a, b, lo, hi, func(e exit) bool { return e.across > 0 })
		}
	}
	before, r := bore, from
	for i := 1; i <= scanSteps; i++ {
		next, e, ok := from+(to-from)*float64(i)/scanSteps, rim, true
		if i < scanSteps {
			e, ok = leave(next)
		}
		if !ok {
			continue
		}
		try(e, next)
		if e.face == before.face {
			smooth(before, e, r, next)
		} else {
			a, b, lo, hi := part(before, e, r, next, func(e exit) bool { return e.face == before.face })
			smooth(before, a, r, lo)
			smooth(b, e, hi, next)
		}
		before, r = e, next
	}
	return best, at
}
