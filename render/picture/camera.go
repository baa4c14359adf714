package picture

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"stabile/render/picture/cast"
)

// A view is where the eye is and which way it looks. The picture plane is upright
// as long as it can be, so that upright things stay so, and slides up or down in
// its own plane as a photographer's does.
type view struct {
	eye              r3.Vec
	right, up, ahead r3.Vec
	// The window on the picture plane at distance 1 that must be seen.
	left, rightmost, bottom, top float64
	parallel                     bool // the lines of sight are parallel, a mm to each unit of the picture plane
}

// ray returns the line of sight through a point of the picture plane.
func (v *view) ray(x, y float64) cast.Ray {
	to := r3.Vec{
		X: x*v.right.X + y*v.up.X,
		Y: x*v.right.Y + y*v.up.Y,
		Z: x*v.right.Z + y*v.up.Z,
	}
	if v.parallel {
		return cast.Ray{From: r3.Add(v.eye, to), Along: v.ahead}
	}
	to = r3.Add(to, v.ahead)
	return cast.Ray{From: v.eye, Along: r3.Scale(1/math.Sqrt(1+x*x+y*y), to)}
}

// A window is the stretch of picture plane that pixels are laid on, and how.
type window struct {
	*view
	x0, y0, pixel float64 // the middle of the first pixel, and from one to the next
}

// window lays w by h pixels on the picture plane so that all that must be seen
// is, with a margin.
func (v *view) window(w, h int) window {
	wide, high := v.rightmost-v.left, v.top-v.bottom
	const (
		beside = 1.14 // margins as shares of what is between them
		over   = 1.16
	)
	pixel := max(wide*beside/float64(w), high*over/float64(h))
	cx, cy := (v.left+v.rightmost)/2, (v.bottom+v.top)/2
	// A little more room above than below the middle shows more of the ground.
	cy -= 0.01 * pixel * float64(h)
	return window{v, cx - pixel*float64(w-1)/2, cy + pixel*float64(h-1)/2, pixel}
}

// ray returns the line of sight through a place in the picture, in pixels from
// the middle of the first, down and to the right.
func (w *window) ray(x, y float64) cast.Ray {
	return w.view.ray(w.x0+x*w.pixel, w.y0-y*w.pixel)
}

// place returns where a point is seen in the picture, in pixels from the middle of
// the first, and how far ahead it is: less than 0 behind the eye.
func (w *window) place(p r3.Vec) (x, y, depth float64) {
	rel := r3.Sub(p, w.eye)
	depth = r3.Dot(rel, w.ahead)
	if w.parallel {
		depth = 1
	}
	return (r3.Dot(rel, w.right)/depth - w.x0) / w.pixel, (w.y0 - r3.Dot(rel, w.up)/depth) / w.pixel, depth
}

// A blob is a ball of space that must be seen.
type blob struct {
	at     r3.Vec
	radius float64
}

// see widens the window to a blob. It reports false for one that is not well in
// front of the eye.
func (v *view) see(b blob) bool {
	rel := r3.Sub(b.at, v.eye)
	depth := r3.Dot(rel, v.ahead)
	if depth <= 1.05*b.radius || depth <= 0 {
		return false
	}
	x, y := r3.Dot(rel, v.right)/depth, r3.Dot(rel, v.up)/depth
	// A ball off the middle is seen as an ellipse.
	over := b.radius / math.Sqrt(depth*depth-b.radius*b.radius)
	rx, ry := over*math.Sqrt(1+x*x)*math.Sqrt(1+over*over), over*math.Sqrt(1+y*y)*math.Sqrt(1+over*over)
	v.left, v.rightmost = min(v.left, x-rx), max(v.rightmost, x+rx)
	v.bottom, v.top = min(v.bottom, y-ry), max(v.top, y+ry)
	return true
}

// mostShift is how far, as a tangent, the middle of the picture may lie off level
// before the eye looks up or down.
const mostShift = 0.24

// look turns the view toward a middle from a bearing, at a distance in plan and a
// height, and frames blobs. It reports false where the eye would be among them.
func look(middle r3.Vec, bearing, distance, height float64, blobs []blob) (view, bool) {
	sin, cos := math.Sincos(bearing)
	level := r3.Vec{X: -cos, Y: -sin}
	v := view{
		eye:   r3.Vec{X: middle.X + distance*cos, Y: middle.Y + distance*sin, Z: height},
		right: r3.Cross(level, r3.Vec{Z: 1}),
	}
	pitch := 0.0
	for range 6 {
		sin, cos := math.Sincos(pitch)
		v.ahead = r3.Add(r3.Scale(cos, level), r3.Vec{Z: sin})
		v.up = r3.Add(r3.Scale(-sin, level), r3.Vec{Z: cos})
		v.left, v.rightmost, v.bottom, v.top = math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
		for _, b := range blobs {
			if !v.see(b) {
				return v, false
			}
		}
		off := (v.bottom + v.top) / 2
		over := math.Abs(off) - mostShift
		if over <= 1e-3 {
			break
		}
		pitch += math.Copysign(math.Atan(over), off)
	}
	return v, true
}
