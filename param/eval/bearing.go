package eval

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/param/design"
	"stabile/param/quantity"
)

// coincidence is the distance in mm under which two places in plan are one, so
// that none is toward the other: a hundred times the rounding of places a
// kilometre out, and under anything that is measured.
const coincidence = 1e-6

// bearing returns the bearing in rad that an argument gives: an angle, or the
// direction in plan from a point of the part at hand to another part or point.
// The point is named for the diagnostic, as the head of a post.
func (b *body) bearing(a argument, from r3.Vec, point, of string) (float64, bool) {
	v := a.value
	if v.is(quantity.Angle) {
		return once(v.q.Number), true
	}
	var to r3.Vec
	wording := "this point"
	if v.kind == thing {
		to = middle(v.part.part)
		wording = v.part.what
	} else {
		p, ok := b.pointIn(v, a)
		if !ok {
			return 0, false
		}
		to = p
	}
	d := r3.Sub(to, from)
	if math.Hypot(d.X, d.Y) < coincidence {
		b.report(a.at, "give the bearing as an angle", "%s is directly above or below the %s of %s, so there is no bearing toward it", wording, point, of)
		return 0, false
	}
	return design.BearingOf(d), true
}

// sideBearing returns a bearing on the side of a post, from a point on its axis; on a tube of
// a ring that toward a part or a point is the direction there in space.
func (b *body) sideBearing(a argument, on *design.Post, axis r3.Vec, of string) (float64, bool) {
	v := a.value
	if on.Ring == nil || v.is(quantity.Angle) {
		return b.bearing(a, axis, "axis", of)
	}
	to, wording := r3.Vec{}, "this point"
	if v.kind == thing {
		to, wording = middle(v.part.part), v.part.what
	} else {
		p, ok := b.pointIn(v, a)
		if !ok {
			return 0, false
		}
		if to = p; v.point.n == 2 {
			to.Z = axis.Z
		}
	}
	way := r3.Sub(to, axis)
	if r3.Norm(r3.Sub(way, r3.Scale(r3.Dot(way, on.Direction), on.Direction))) < coincidence {
		b.report(a.at, "give the bearing as an angle", "%s lies on the axis of %s, so there is no bearing toward it", wording, of)
		return 0, false
	}
	return on.BearingTo(way), true
}

// once returns an angle in rad within one turn, from 0 up.
func once(angle float64) float64 {
	const turn = 2 * math.Pi
	if angle >= 0 && angle < turn {
		return angle
	}
	angle = math.Mod(angle, turn)
	if angle < 0 {
		angle += turn
	}
	return math.Mod(angle, turn) // a hair below 0 comes out as a whole turn
}

// pointIn returns a point in mm; z is 0 for a point in plan.
func (b *body) pointIn(v value, a argument) (r3.Vec, bool) {
	var mm [3]float64
	for i := range v.point.n {
		q := b.length(v.coordinate(i), a.at)
		if q.kind == failed {
			return r3.Vec{}, false
		}
		if math.Abs(q.q.Number) > mostLength {
			b.report(a.at, "", "this point is more than 1 km out")
			return r3.Vec{}, false
		}
		mm[i] = q.q.Number
	}
	return r3.Vec{X: mm[0], Y: mm[1], Z: mm[2]}, true
}

// spot returns the point in plan that a property gives; the middle of the base
// where it is not given.
func (b *body) spot(word string) (x, y float64, ok bool) {
	g := b.find(word)
	if g == nil {
		return 0, 0, true
	}
	p, ok := b.pointIn(g.args[0].value, g.args[0])
	return p.X, p.Y, ok
}

// toward returns the size and the bearing of a property such as "lean 6 deg
// toward moon", 0 and 0 where it is not given. A size that is not 0 must say
// which way.
func (b *body) toward(word string, from r3.Vec, point, of string) (size, bearing float64, ok bool) {
	g := b.find(word)
	if g == nil {
		return 0, 0, true
	}
	size = g.args[0].value.q.Number
	if size == 0 {
		return 0, 0, true // which way does not matter
	}
	if g.args[1].isGiven() {
		bearing, ok = b.bearing(g.args[1], from, point, of)
		return size, bearing, ok
	}
	b.report(g.at, "write it as "+g.at.Text()+" toward 90 deg", "'%s' does not say which way", word)
	return 0, 0, false
}
