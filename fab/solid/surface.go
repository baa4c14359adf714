package solid

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"
)

// A Surface is the outside of a body that a tube's end meets.
type Surface interface {
	// Leave returns the greatest t for which o + t d lies in the body, where d
	// is a unit vector. It reports false where the line misses the body.
	Leave(o, d r3.Vec) (t float64, ok bool)

	// Meet returns the line along which the wall of a tube meets the body.
	Meet(Tube) Contour

	// Distance returns how far outside a point is, in mm; negative inside. It is
	// never steeper than 1, and has the sign of where the point is.
	Distance(p r3.Vec) float64
}

// Span returns between which distances along the unit vector d from the point o
// a line is inside a convex body. It reports false where the line misses it.
func Span(s Surface, o, d r3.Vec) (enter, leave float64, ok bool) {
	leave, ok = s.Leave(o, d)
	if !ok {
		return 0, 0, false
	}
	back, ok := s.Leave(o, r3.Scale(-1, d))
	return -back, leave, ok && -back < leave
}

// A Tube is the end of a tube, or of a cone, that comes down on a body. Along is
// a unit vector away from the body; Zero and Right are those of bearings 0 and
// 90 deg, square to it and to each other.
//
// The wall of a cone leans out by Flare. Its heights are along the slant, and
// its radii are those at the origin, of which Outer less Inner is the thickness
// square through the wall.
type Tube struct {
	Origin, Along, Zero, Right r3.Vec
	Inner, Outer               float64 // mm, radii of the wall
	Flare                      float64 // rad, by which the wall widens along Along; 0 for a tube
}

// radial returns the directions outward and onward, in the sense of growing
// bearing, at a bearing of the given sine and cosine.
func (t *Tube) radial(sin, cos float64) (out, on r3.Vec) {
	out = r3.Add(r3.Scale(cos, t.Zero), r3.Scale(sin, t.Right))
	on = r3.Sub(r3.Scale(cos, t.Right), r3.Scale(sin, t.Zero))
	return out, on
}

// A wall is a tube with what is worked out once for all bearings.
type wall struct {
	Tube
	mid      float64 // mm, radius of the middle of the wall at the origin
	sin, cos float64 // of the flare
}

func newWall(t Tube) wall {
	w := wall{Tube: t, mid: (t.Inner + t.Outer) / 2}
	w.sin, w.cos = math.Sincos(t.Flare)
	return w
}

// A ray is a wall's section at one bearing: its lines run along dir, side by
// side from inside to outside along out, which is square to dir.
type ray struct {
	base, dir, out r3.Vec // base is on the middle line, at height 0
	on             r3.Vec // onward, in the sense of growing bearing
}

func (w *wall) ray(sin, cos float64) ray {
	out, on := w.radial(sin, cos)
	g := ray{base: r3.Add(w.Origin, r3.Scale(w.mid, out)), dir: w.Along, out: out, on: on}
	if w.Flare != 0 {
		g.dir = r3.Add(r3.Scale(w.cos, w.Along), r3.Scale(w.sin, out))
		g.out = r3.Sub(r3.Scale(w.cos, out), r3.Scale(w.sin, w.Along))
	}
	return g
}

// from returns where the line at a radius starts.
func (w *wall) from(g *ray, r float64) r3.Vec { return r3.Add(g.base, r3.Scale(r-w.mid, g.out)) }

// swing returns the distance from the axis of the point at a height on the line
// at a radius.
func (w *wall) swing(r, t float64) float64 { return w.mid + (r-w.mid)*w.cos + t*w.sin }

// A convex is a convex body of one or more smooth faces.
type convex interface {
	// exit is Leave with the normal at the exit, not of unit length, and the
	// face.
	exit(o, d r3.Vec) (t float64, normal r3.Vec, face int, ok bool)

	// clear returns how far a point on a face lies from the others, or less.
	clear(q r3.Vec, face int) float64
}

// A convexContour follows any wall on any convex body.
type convexContour struct {
	body convex
	wall wall
}

// Touch implements Contour.
func (c *convexContour) Touch(sin, cos float64) (Contact, bool) {
	w := &c.wall
	g := w.ray(sin, cos)
	leave := func(r float64) (exit, bool) {
		t, normal, face, ok := c.body.exit(w.from(&g, r), g.dir)
		return newExit(t, normal, g.dir, g.out, g.on, w.swing(r, t), face), ok
	}
	rim, ok := leave(w.Outer)
	if !ok {
		return Contact{}, false
	}
	bore, ok := leave(w.Inner)
	if !ok {
		return Contact{}, false
	}
	top, r := highest(bore, rim, w.Inner, w.Outer, leave)
	made := contact(top, r, rim)
	made.Clear = c.body.clear(r3.Add(w.from(&g, r), r3.Scale(top.t, g.dir)), top.face)
	return made, true
}

// A Contour is how the wall of a tube meets a body, bearing by bearing.
type Contour interface {
	// Touch finds where the wall touches first at the bearing of the given sine
	// and cosine. It reports false where the outside of the wall misses the
	// body, for then it does not stand on it.
	Touch(sin, cos float64) (Contact, bool)
}

// A Contact is where a wall touches a body first. A sheet is cut square
// through its thickness, so that the whole wall is cut where any of it touches.
// Heights are in mm along the tube from its origin, slopes in mm/rad.
type Contact struct {
	At       float64 // the greatest height over the wall: where the wall is cut
	Slope    float64 // of At against the bearing
	Toe      float64 // height where the outside of the wall alone meets the body
	ToeSlope float64 // of Toe against the bearing
	Radius   float64 // mm, where across the wall it touches, from inside to outside

	// Clear is how far, in mm, the touch lies from the nearest line on the
	// surface where two faces meet, or less: two touches on the same face may
	// have another between them if both are nearer than the tube bends away.
	Clear float64

	// Face tells the smooth pieces of a contour apart: between contacts of
	// unlike Face it has a kink.
	Face int
}

// Rough is the Face of a contact whose Slope is not known.
const Rough = -1

// An exit is where a line leaves a body: the height, its slopes across the wall
// and against the bearing, and the piece of the surface that it leaves by. With
// a fifth field the compiler would keep it out of registers.
type exit struct {
	t      float64
	across float64
	turn   float64
	face   int
}

// newExit returns the exit at height t by a piece of surface of the given
// normal, on the line at radius r along d.
func newExit(t float64, normal, d, out, on r3.Vec, r float64, face int) exit {
	rise := 1 / r3.Dot(normal, d)
	return exit{
		t:      t,
		across: -r3.Dot(normal, out) * rise,
		turn:   -r3.Dot(normal, on) * rise * r,
		face:   face,
	}
}

// contact makes the contact of a touch at a radius with a rim, not known to be
// clear of anything.
func contact(top exit, r float64, rim exit) Contact {
	return Contact{At: top.t, Slope: top.turn, Toe: rim.t, ToeSlope: rim.turn, Radius: r, Face: top.face}
}

// radiusResolution is how finely a touch within the wall is found, in mm. The
// height is flat there or has a kink of a slope near 1, so that its own error
// is no more than this, a thousandth of what a surface plate resolves.
const radiusResolution = 1e-7

// highest returns the greatest height of a convex body over the wall, given the
// heights at its inner and outer edge. leave gives the height at a radius.
//
// Heights along parallel lines in one plane are a concave function for a convex
// body: one that rises outward at the outer edge, or inward at the inner, has
// its highest there. Else the slope changes sign once between, at a smooth top
// or at a ridge, and halving finds it.
func highest(bore, rim exit, inner, outer float64, leave func(r float64) (exit, bool)) (exit, float64) {
	switch {
	case rim.across >= 0:
		return rim, outer
	case bore.across <= 0:
		return bore, inner
	}
	for outer-inner > radiusResolution {
		mid := (inner + outer) / 2
		e, ok := leave(mid)
		if !ok {
			break
		}
		if e.across > 0 {
			bore, inner = e, mid
		} else {
			rim, outer = e, mid
		}
	}
	top, at := bore, inner
	if rim.t > bore.t {
		top, at = rim, outer
	}
	if bore.face != rim.face {
		// The touch runs along the ridge, where both heights stay equal.
		top.turn = (bore.across*rim.turn - bore.turn*rim.across) / (bore.across - rim.across)
		top.face = ridge + min(bore.face, rim.face)
	}
	return top, at
}

// ridge is added to the lower of two faces for a touch on the ridge between
// them.
const ridge = 1 << 20
