package flat

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/fab/solid"
)

// This file traces the curve to which one end of a tube is cut. Points come
// with their slopes, so that two neighbours tell how far the curve between them
// strays from its chord, where two smooth pieces meet in a kink, and what the
// integrals are to fourth order: hardly a point is worked out that does not end
// up in the outline.

// Steps of the first sampling round the tube: a multiple of the stations of a
// table of ordinates.
const (
	stations = 24
	perPitch = 2
	steps    = stations * perPitch
)

// halvings is how often a step may be halved; the 4 mm of a common one come to
// a quarter of a micrometre.
const halvings = 14

// smooth is how far, in mm, a chord may lie from a smooth piece of curve: less
// than half of Chord, so that what slopes do not tell has room.
const smooth = 0.4 * Chord

// kinked is how far, in mm, a chord may pass a kink. It is always on the side
// where it takes too much away from one sheet or leaves too much on the other.
const kinked = 0.1 * Chord

// byKink is the greatest part of an even step over which both sides of a kink are
// taken for straight: what a curve strays over a whole step, some hundredths of
// a millimetre, is less by its square.
const byKink = 1.0 / 8

// square is the rise and fall, in mm, under which an end counts as cut square.
const square = 1e-6

// A tube is the wall of a post, with the directions of bearings on it.
type tube struct {
	foot, along r3.Vec  // where the axis starts, and its unit vector
	zero, right r3.Vec  // directions of bearings 0 and 90 deg
	inner       float64 // mm, radius
	mean        float64
	outer       float64
	seam        float64 // rad, bearing of x = 0
	turn        float64 // rad, from one edge of the blank round to the other
}

// at returns the point at a height on the outside of the tube.
func (t *tube) at(c *cut) r3.Vec {
	p := r3.Add(t.foot, r3.Scale(c.y, t.along))
	return r3.Add(p, r3.Add(r3.Scale(t.outer*c.cos, t.zero), r3.Scale(t.outer*c.sin, t.right)))
}

// A direction is an angle from the seam with the sine and cosine of its bearing.
type direction struct{ angle, sin, cos float64 }

// A cut is one point of the curve of a trimmed end. Heights are along the axis
// from the foot point.
type cut struct {
	angle     float64 // rad, from the seam
	sin, cos  float64 // of the bearing
	y, slope  float64 // mm and mm/rad
	toe, rise float64 // where the outside of the tube meets the surface, and its slope
	pace      float64 // mm/rad, length of the toe's line on the outside of the tube
	radius    float64 // mm, where across the wall it touches
	face      int
}

// A point is what the outline needs of a cut.
type point struct {
	angle, y, slope float64
	face            int
}

func (c *cut) point() point { return point{c.angle, c.y, c.slope, c.face} }

// A meeting is what an end is trimmed to. It is kept apart from trim so that
// the compiler can keep that off the heap.
type meeting struct {
	contour solid.Contour // nil for a free end
	round   solid.Contour // for a ball of lobes, the sphere within it; else nil
}

// A trim is one end of a tube as it is cut.
type trim struct {
	*tube
	head   bool    // trimmed from the head down
	length float64 // mm, of the axis

	square bool
	curve  []point // in order of angle, from one seam edge to the other
	even   [steps + 1]cut

	// Integrals over the angle, from edge to edge of the blank.
	sum    float64 // of y
	moment float64 // of y^2 / 2
	east   float64 // of y times the cosine of the bearing
	north  float64 // of y times its sine

	weld    float64 // mm, along the toe, the gap of the seam included
	scallop float64 // mm along the axis, the farthest that lobes push the cut beyond that to the sphere
	missed  bool    // the tube's outside misses the surface, at lost
	lost    float64 // rad, from the seam
}

// meet works out how the end meets a surface; nil for a free end.
func (e *trim) meet(s solid.Surface) meeting {
	if s == nil {
		return meeting{}
	}
	m := meeting{contour: s.Meet(e.wall())}
	if l, ok := s.(*solid.Lobed); ok {
		m.round = l.Within().Meet(e.wall())
	}
	return m
}

// wall returns the tube as what it meets sees it come down.
func (e *trim) wall() solid.Tube {
	w := solid.Tube{
		Origin: e.foot, Along: e.along, Zero: e.zero, Right: e.right,
		Inner: e.inner, Outer: e.outer,
	}
	if e.head {
		w.Origin = r3.Add(e.foot, r3.Scale(e.length, e.along))
		w.Along = r3.Scale(-1, e.along)
	}
	return w
}

// at works out the point of the curve at an angle from the seam.
func (e *trim) at(m *meeting, angle float64) cut {
	sin, cos := math.Sincos(e.seam + angle)
	return e.bearing(m, angle, sin, cos)
}

// bearing is at with the bearing's sine and cosine known.
func (e *trim) bearing(m *meeting, angle, sin, cos float64) cut {
	c := cut{angle: angle, sin: sin, cos: cos}
	touch, ok := m.contour.Touch(sin, cos)
	if !ok || !(math.Abs(touch.At)+math.Abs(touch.Toe) <= math.MaxFloat64) {
		if !e.missed {
			e.missed, e.lost = true, angle
		}
		return c
	}
	c.y, c.slope, c.toe, c.rise = touch.At, touch.Slope, touch.Toe, touch.ToeSlope
	c.radius, c.face = touch.Radius, touch.Face
	c.pace = math.Sqrt(e.outer*e.outer + c.rise*c.rise)
	if e.head {
		c.y, c.slope, c.toe, c.rise = e.length-c.y, -c.slope, e.length-c.toe, -c.rise
	}
	return c
}

// look sees how far lobes push the cut beyond that to the sphere within them.
func (e *trim) look(m *meeting, c *cut) {
	if m.round == nil {
		return
	}
	if sphere, ok := m.round.Touch(c.sin, c.cos); ok {
		if e.head {
			sphere.At = e.length - sphere.At
		}
		e.scallop = max(e.scallop, math.Abs(c.y-sphere.At))
	}
}

// run traces the whole curve at the even steps, whose sines and cosines are
// given, and between them. It reports whether all of the end meets the surface.
func (e *trim) run(m *meeting, round *[steps + 1]direction) bool {
	if m.contour == nil {
		y := 0.0
		if e.head {
			y = e.length
		}
		e.flush(y, round)
		return true
	}
	low, high := math.Inf(1), math.Inf(-1)
	onePiece := true
	for i := range e.even {
		c := &e.even[i]
		*c = e.bearing(m, round[i].angle, round[i].sin, round[i].cos)
		if e.missed {
			return false
		}
		if i%perPitch == 0 {
			e.look(m, c)
		}
		low, high = min(low, c.y), max(high, c.y)
		onePiece = onePiece && c.face == e.even[0].face
	}
	if high-low < square && onePiece {
		y := (low + high) / 2
		if e.head && math.Abs(y-e.length) < square {
			y = e.length // rests by its inside edge, as the length was measured
		}
		e.flush(y, round)
		e.weld = 2 * math.Pi * e.outer
		return true
	}
	e.curve = append(make([]point, 0, 3*steps), e.even[0].point())
	for i := range steps {
		e.between(m, &e.even[i], &e.even[i+1], halvings)
	}
	gap := 2*math.Pi - e.turn
	e.weld += math.Hypot(gap*e.outer, e.even[0].toe-e.even[steps].toe)
	e.tip(m)
	return !e.missed
}

// flush makes the end square at a height.
func (e *trim) flush(y float64, round *[steps + 1]direction) {
	e.square = true
	for i := range e.even {
		r := &round[i]
		e.even[i] = cut{angle: r.angle, sin: r.sin, cos: r.cos, y: y, toe: y}
	}
	first, last := e.even[0], e.even[steps]
	e.curve = []point{first.point(), last.point()}
	e.sum = y * e.turn
	e.moment = y * y / 2 * e.turn
	e.east = y * (last.sin - first.sin)
	e.north = y * (first.cos - last.cos)
}

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
		m := e.at(on, middle)
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
		if a.radius != b.radius {
			room /= 2
		}
		if 4.0/27*step*(math.Abs(a.slope-chord)+math.Abs(b.slope-chord)) <= room {
			e.take(a, b)
			return
		}
	default:
		// Where the tangents cross.
		k := (b.y - a.y - b.slope*step) / (a.slope - b.slope)
		if k > 0 && k < step {
			y := a.y + a.slope*k
			if math.Abs(y-(a.y+(b.y-a.y)*k/step)) <= kinked && step <= e.turn/steps*byKink {
				e.takeKink(a, b, k, y)
				e.look(on, b)
				return
			}
			middle = a.angle + min(max(k, step/64), step*63/64)
		} else if math.Abs(b.y-a.y) <= kinked && step*(math.Abs(a.slope)+math.Abs(b.slope)) <= kinked {
			e.take(a, b)
			return
		}
	}
	m := e.at(on, middle)
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
	middle := 1.5*(b.toe-a.toe)/step - (a.rise+b.rise)/4
	e.weld += step / 6 * (a.pace + 4*math.Sqrt(e.outer*e.outer+middle*middle) + b.pace)
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
	e.curve = append(e.curve, b.point())
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
	e.weld += math.Hypot(e.outer*step, b.toe-a.toe)
}

// tip adds the curve's farthest point, lowest of a foot and highest of a head,
// where it lies between two others: the size of the blank hangs on it. There
// the slope is nothing, which the false position of the slopes at its
// neighbours finds; at a kink a point is near enough.
func (e *trim) tip(on *meeting) {
	far := 0
	for i := range e.curve {
		if e.curve[i].y > e.curve[far].y == e.head {
			far = i
		}
	}
	sign := -1.0
	if e.head {
		sign = 1
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
		c := e.at(on, a.angle+(b.angle-a.angle)*a.slope/(a.slope-b.slope))
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

// reach returns the lowest and highest point of the curve.
func (e *trim) reach() (low, high float64) {
	low, high = math.Inf(1), math.Inf(-1)
	for i := range e.curve {
		low, high = min(low, e.curve[i].y), max(high, e.curve[i].y)
	}
	return low, high
}

// rim returns the trimmed edge on the outside of the tube.
func (e *trim) rim() []r3.Vec {
	n := steps
	if e.turn < 2*math.Pi {
		n++ // the far side of the gap
	}
	rim := make([]r3.Vec, n)
	for i := range rim {
		rim[i] = e.tube.at(&e.even[i])
	}
	return rim
}
