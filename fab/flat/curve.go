package flat

import (
	"math"

	"stabile/fab/solid"
)

// This file follows the curve of a trimmed end between the points of the first
// sampling, and integrates it.

// halvings is how often a step may be halved; the 4 mm of a common one come to
// a quarter of a micrometre.
const halvings = 14

// smooth is how far, in mm, a chord may lie from a smooth piece of curve: less
// than half of Chord, so that what slopes do not tell has room.
const smooth = 0.4 * Chord

// kinked is how far, in mm, a chord may pass beside a kink.
const kinked = 0.1 * Chord

// straight is how far, in mm, a piece on a cone's side may bend from its chord without
// a look at its middle: the touch may move across the wall there and back.
const straight = 0.25 * edgeRoom

// asCubic is how far, in mm, the middle of a piece along which the touch moves
// across the wall may lie from the cubic of its ends: with the middle in between
// what is left comes to less than is looked for.
const asCubic = 0.5e-3

// roughness is how far, in mm, the curve may stray from the line between two
// points without slopes: half of what the middle of three such lies beside the
// line of the others at most.
const roughness = kinked / 2

// byKink is the greatest part of an even step over which both sides of a kink are
// taken for straight: what a curve strays over a whole step, some hundredths of
// a millimetre, is less by its square.
const byKink = 1.0 / 8

// atKink is the same for a piece with a kink that ends up in the outline: what
// a curve strays from two tangents over it comes to about a micrometre.
const atKink = 1.0 / 32

// nearKink is the part of a step within which a kink counts as next to its end.
const nearKink = 4

// between adds the curve from a to b, without a itself, parting it until chords
// are near enough: at the middle of a smooth piece, at the foreseen kink
// between two.
func (e *trim) between(on *meeting, a, b *cut, halvings int) {
	step := b.angle - a.angle
	middle := (a.angle + b.angle) / 2
	switch {
	case halvings == 0 || e.missed:
		e.take(a, b)
		return
	case a.face == solid.Rough || b.face == solid.Rough:
		m := e.cut(on, middle)
		if math.Abs(m.y-(a.y+b.y)/2) <= kinked {
			e.takeRough(a, &m, b)
			return
		}
		e.between(on, a, &m, halvings-1)
		e.between(on, &m, b, halvings-1)
		return
	case a.face == b.face:
		// Between two points a cubic strays from its chord by at most 4/27 of
		// the step for each unit by which a slope differs from the chord's.
		// Where the touch moves across the wall the curve bends unlike a cubic,
		// and is given half of that.
		chord, room := (b.y-a.y)/step, smooth
		leaps := false
		if a.radius != b.radius {
			room /= 2
			// From one edge of the wall to the other it may leap, with a kink
			// that the slopes do not show where the curve bends against it.
			leaps = math.Abs(a.radius-b.radius) > (e.outer-e.inner)/2 && step > e.turn/steps*byKink/2
		}
		// At a share u of a step a tube has bent r step^2 u (1 - u) / 2 away
		// from the chord: so far it may reach over onto another face and come
		// back, if it comes no faster away from there.
		bend := e.widest() * step * step / 2
		alone := a.clear+b.clear > bend || step <= e.turn/steps*byKink
		if alone && !leaps && 4.0/27*step*(math.Abs(a.slope-chord)+math.Abs(b.slope-chord)) <= room {
			if a.radius == b.radius && (!on.conical || step*math.Abs(a.slope-b.slope) < 8*straight) {
				e.take(a, b)
				return
			}
			m := e.cut(on, middle)
			if !e.missed && m.face == a.face && math.Abs(m.y-between(a.point(), b.point(), 0.5)) <= asCubic {
				e.take(a, &m)
				e.take(&m, b)
				return
			}
			e.between(on, a, &m, halvings-1)
			e.between(on, &m, b, halvings-1)
			return
		}
	default:
		// Where the tangents cross.
		k := (b.y - a.y - b.slope*step) / (a.slope - b.slope)
		if k > 0 && k < step {
			y := a.y + a.slope*k
			if math.Abs(y-(a.y+(b.y-a.y)*k/step)) <= kinked && step <= e.turn/steps*atKink {
				e.takeKink(a, b, k, y)
				e.look(on, b)
				return
			}
			// Next to one of the two that is well known, and a look a little beyond
			// has the kink between two near ones.
			if k < step/nearKink {
				k *= 1.5
			} else if rest := step - k; rest < step/nearKink {
				k = step - 1.5*rest
			}
			middle = a.angle + min(max(k, step/64), step*63/64)
		} else if math.Abs(b.y-a.y) <= kinked && step*(math.Abs(a.slope)+math.Abs(b.slope)) <= kinked && step <= e.turn/steps*byKink {
			e.take(a, b)
			return
		}
	}
	var m cut
	sin, cos := math.Sincos(e.seam + middle)
	e.set(&m, on, direction{middle, sin, cos})
	e.between(on, a, &m, halvings-1)
	e.between(on, &m, b, halvings-1)
}

// take adds a smooth piece of curve: the trapezoid and its end correction for
// the integrals, which is exact for a cubic, and Simpson's rule on the cubic
// for the length.
func (e *trim) take(a, b *cut) {
	e.curve = append(e.curve, b.point())
	step := b.angle - a.angle
	h, h2 := step/2, step*step/12
	e.sum += h*(a.y+b.y) + h2*(a.slope-b.slope)
	e.moment += h/2*(a.y*a.y+b.y*b.y) + h2*(a.y*a.slope-b.y*b.slope)
	e.east += h*(a.y*a.cos+b.y*b.cos) + h2*(a.slope*a.cos-a.y*a.sin-b.slope*b.cos+b.y*b.sin)
	e.north += h*(a.y*a.sin+b.y*b.sin) + h2*(a.slope*a.sin+a.y*a.cos-b.slope*b.sin-b.y*b.cos)
	skin := e.outer
	if e.flare != 0 {
		skin = e.skin((a.toe + b.toe) / 2)
	}
	chord := (b.toe - a.toe) / step
	if math.Abs(a.rise-chord)+math.Abs(b.rise-chord) > skin/2 {
		// The outside turns a corner that the cut does not, as where a tube
		// meets another of its own diameter.
		e.weld += step * math.Hypot(skin, chord)
		return
	}
	middle := 1.5*chord - (a.rise+b.rise)/4
	e.weld += step / 6 * (a.pace + 4*math.Sqrt(skin*skin+middle*middle) + b.pace)
}

// takeKink adds a piece with a kink k past a at height y, as two straight
// pieces.
func (e *trim) takeKink(a, b *cut, k, y float64) {
	e.curve = append(e.curve, b.point())
	rest := b.angle - a.angle - k
	t := k / (k + rest)
	m := cut{angle: a.angle + k, y: y, sin: a.sin + (b.sin-a.sin)*t, cos: a.cos + (b.cos-a.cos)*t}
	m.toe = a.toe + (b.toe-a.toe)*t
	e.straight(a, &m)
	e.straight(&m, b)
}

// takeRough adds a piece of which a middle point is known but no slopes.
func (e *trim) takeRough(a, m, b *cut) {
	e.curve = append(e.curve, m.point(), b.point())
	e.straight(a, m)
	e.straight(m, b)
}

// straight adds the integrals of a short straight piece.
func (e *trim) straight(a, b *cut) {
	step := b.angle - a.angle
	h := step / 2
	e.sum += h * (a.y + b.y)
	e.moment += h / 2 * (a.y*a.y + b.y*b.y)
	e.east += h * (a.y*a.cos + b.y*b.cos)
	e.north += h * (a.y*a.sin + b.y*b.sin)
	e.weld += math.Hypot(e.skin((a.toe+b.toe)/2)*step, b.toe-a.toe)
}

// tip adds the curve's farthest point, lowest of a foot and highest of a head,
// where it lies between two others: the size of the blank hangs on it. There
// the slope is nothing, which the false position of the slopes at its
// neighbours finds; at a kink a point is near enough.
func (e *trim) tip(on *meeting) {
	sign := -1.0
	if e.head {
		sign = 1
	}
	far := 0
	for i := range e.curve {
		if sign*(e.curve[i].y-e.curve[far].y) > 0 {
			far = i
		}
	}
	a, b := e.curve[far], e.curve[far]
	at := far
	switch s := sign * a.slope; {
	case s > 0 && far+1 < len(e.curve):
		b = e.curve[far+1]
		at = far + 1
	case s < 0 && far > 0:
		a = e.curve[far-1]
	}
	if a.angle == b.angle || a.face != b.face || a.face == solid.Rough || a.slope*b.slope >= 0 {
		return
	}
	m := a
	for range 8 {
		c := e.cut(on, a.angle+(b.angle-a.angle)*a.slope/(a.slope-b.slope))
		m = c.point()
		if e.missed || math.Abs(m.slope) < square {
			break
		}
		if m.slope*a.slope > 0 {
			a = m
		} else {
			b = m
		}
	}
	if sign*(m.y-e.curve[far].y) > 0 {
		e.curve = append(e.curve, point{})
		copy(e.curve[at+1:], e.curve[at:])
		e.curve[at] = m
	}
}
