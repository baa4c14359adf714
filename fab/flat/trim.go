package flat

import (
	"math"
	"slices"

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

// square is the rise and fall, in mm, under which an end counts as cut square.
const square = 1e-6

// A tube is the wall of a post, with the directions of bearings on it. A taper
// is a frustum of a cone: its heights run along the slant of the wall, its radii
// are those at its foot, and its thickness is square through the wall.
type tube struct {
	foot, along r3.Vec  // where the middle of the wall starts, on the axis, and the axis's unit vector
	zero, right r3.Vec  // directions of bearings 0 and 90 deg
	inner       float64 // mm, radius
	mean        float64
	outer       float64
	length      float64 // mm, along the wall from foot to head
	seam        float64 // rad, bearing of x = 0
	turn        float64 // rad, from one edge of the blank round to the other
	gap         float64 // mm, of the seam of a taper, beside its edge at the whole turn; a tube has it in its turn
	lie         float64 // mm, radius at which a tube is laid out: of sheet the middle of the wall, of a template its outside
	bought      bool    // cut from pipe or tube: a plane is sawn through the whole wall
	flare       float64 // rad, by which the wall of a taper leans out; 0 for a tube
	sin, cos    float64 // of the flare
}

// girth returns the radius of the middle of the wall at a height.
func (t *tube) girth(y float64) float64 { return t.mean + y*t.sin }

// skin returns the radius of the outside of the wall at a height.
func (t *tube) skin(y float64) float64 { return t.mean + (t.outer-t.mean)*t.cos + y*t.sin }

// at returns the point at a height on the outside of the tube, in the direction
// of a cut.
func (t *tube) at(c *cut, y float64) r3.Vec {
	r := t.skin(y)
	p := r3.Add(t.foot, r3.Scale(y*t.cos-(t.outer-t.mean)*t.sin, t.along))
	return r3.Add(p, r3.Add(r3.Scale(r*c.cos, t.zero), r3.Scale(r*c.sin, t.right)))
}

// onMiddle returns, from the foot of the wall, the point at a bearing and a height on the middle
// of the sheet.
func (t *tube) onMiddle(bearing, y float64) r3.Vec {
	sin, cos := math.Sincos(bearing)
	out := r3.Add(r3.Scale(cos, t.zero), r3.Scale(sin, t.right))
	return r3.Add(r3.Scale(y*t.cos, t.along), r3.Scale(t.girth(y), out))
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
	clear     float64 // mm, from the nearest line between two faces
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
	round   solid.Contour // for a ball of lobes, the sphere or the egg within it; else nil
	conical bool          // on sides of cones
}

// A trim is one end of a tube as it is cut.
type trim struct {
	*tube
	head bool    // trimmed from the head down
	hand float64 // mm, that a hand cuts a trimmed edge to

	free   bool // meets nothing
	sawn   bool // cut along a plane
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
	switch s := s.(type) {
	case solid.Plane:
		if e.bought {
			m.contour, e.sawn = sawn{m.contour, e.outer}, true
		}
	case *solid.Lobed:
		m.round = s.Within().Meet(e.wall())
	case solid.Zoned, solid.Cone:
		m.conical = true
	case *solid.Egg:
		switch s.Ball.(type) {
		case *solid.Lobed:
			m.round = s.Within().Meet(e.wall())
		case solid.Zoned:
			m.conical = true
		}
	}
	return m
}

// wall returns the tube as what it meets sees it come down.
func (e *trim) wall() solid.Tube {
	w := solid.Tube{
		Origin: e.foot, Along: e.along, Zero: e.zero, Right: e.right,
		Inner: e.inner, Outer: e.outer, Flare: e.flare,
	}
	if e.head {
		w.Origin = r3.Add(e.foot, r3.Scale(e.length*e.cos, e.along))
		w.Along = r3.Scale(-1, e.along)
		w.Flare = -e.flare
		w.Inner += e.length * e.sin
		w.Outer += e.length * e.sin
	}
	return w
}

// cut works out the point of the curve at an angle from the seam.
func (e *trim) cut(on *meeting, angle float64) (c cut) {
	sin, cos := math.Sincos(e.seam + angle)
	e.set(&c, on, direction{angle, sin, cos})
	return c
}

// set works out the point of the curve in a direction.
func (e *trim) set(c *cut, on *meeting, to direction) {
	c.angle, c.sin, c.cos = to.angle, to.sin, to.cos
	touch, ok := on.contour.Touch(to.sin, to.cos)
	if !ok || !(math.Abs(touch.At)+math.Abs(touch.Toe) <= math.MaxFloat64) {
		if !e.missed {
			e.missed, e.lost = true, to.angle
		}
		return
	}
	c.y, c.slope, c.toe, c.rise = touch.At, touch.Slope, touch.Toe, touch.ToeSlope
	c.radius, c.clear, c.face = touch.Radius, touch.Clear, touch.Face
	if e.head {
		c.y, c.slope, c.toe, c.rise = e.length-c.y, -c.slope, e.length-c.toe, -c.rise
	}
	skin := e.outer
	if e.flare != 0 {
		skin = e.skin(c.toe)
	}
	c.pace = math.Sqrt(skin*skin + c.rise*c.rise)
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
		e.free = true
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
		e.set(c, m, round[i])
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
		toe := e.even[0].toe
		e.flush(y, round)
		for i := range e.even {
			e.even[i].toe = toe
		}
		e.weld = 2 * math.Pi * e.skin(toe)
		return true
	}
	e.curve = append(slices.Grow(e.curve[:0], 3*steps), e.even[0].point())
	for i := range steps {
		e.between(m, &e.even[i], &e.even[i+1], halvings)
	}
	gap := 2*math.Pi - e.turn
	// What is added for shrinkage lies on what is there already.
	e.weld += math.Copysign(math.Hypot(gap*e.skin(e.even[0].toe), e.even[0].toe-e.even[steps].toe), gap)
	e.tip(m)
	if e.sawn {
		e.throughWall()
	}
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
	e.curve = append(e.curve[:0], first.point(), last.point())
	e.sum = y * e.turn
	e.moment = y * y / 2 * e.turn
	e.east = y * (last.sin - first.sin)
	e.north = y * (first.cos - last.cos)
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
		rim[i] = e.tube.at(&e.even[i], e.even[i].y)
	}
	return rim
}

// toes returns the line in which the outside of the tube meets what the end
// stands on. Between two even steps it is the cubic of their heights and slopes,
// where they go together; across a ridge, where they do not, the step is halved
// until what is left is short.
func (e *trim) toes(on *meeting) []r3.Vec {
	line := make([]r3.Vec, 0, 2*steps+1)
	half := e.turn / steps / 2
	sin, cos := math.Sincos(half)
	for i := range steps {
		a, b := &e.even[i], &e.even[i+1]
		line = append(line, e.at(a, a.toe))
		if math.Abs(b.toe-a.toe-half*(a.rise+b.rise)) > toeKink {
			line = e.ridge(on, line, a, b, toeHalvings)
			continue
		}
		m := cut{sin: a.sin*cos + a.cos*sin, cos: a.cos*cos - a.sin*sin}
		line = append(line, e.at(&m, (a.toe+b.toe)/2+half/4*(a.rise-b.rise)))
	}
	if e.turn < 2*math.Pi {
		line = append(line, e.at(&e.even[steps], e.even[steps].toe))
	}
	return line
}

// Heights that differ by this more than their slopes say, in mm, have a kink
// between them, toward which a step is halved a number of times: one of 10 mm comes to
// a tenth.
const (
	toeKink     = 0.005
	toeHalvings = 7
)

// ridge appends the line between two cuts, which are left out.
func (e *trim) ridge(on *meeting, line []r3.Vec, a, b *cut, halvings int) []r3.Vec {
	half := (b.angle - a.angle) / 2
	if halvings == 0 || math.Abs(b.toe-a.toe-half*(a.rise+b.rise)) <= toeKink {
		return line
	}
	m := e.cut(on, a.angle+half)
	if e.missed {
		return line
	}
	line = e.ridge(on, line, a, &m, halvings-1)
	return e.ridge(on, append(line, e.at(&m, m.toe)), &m, b, halvings-1)
}
