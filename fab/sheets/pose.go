package sheets

import (
	"math"

	"gonum.org/v1/gonum/spatial/r2"

	"stabile/fab/layout"
	"stabile/param/design"
)

// A pose turns points by angle about the origin and then moves them by at.
type pose struct {
	angle float64
	at    r2.Vec
}

// sincos is exact at quarter turns, so that what is sheared square stays square.
func sincos(angle float64) (sin, cos float64) {
	if q := angle / (math.Pi / 2); math.Abs(q-math.Round(q)) < 1e-12 {
		switch (int(math.Round(q))%4 + 4) % 4 {
		case 0:
			return 0, 1
		case 1:
			return 1, 0
		case 2:
			return 0, -1
		}
		return -1, 0
	}
	return math.Sincos(angle)
}

func (q pose) all(points []r2.Vec) []r2.Vec {
	sin, cos := sincos(q.angle)
	out := make([]r2.Vec, len(points))
	for i, p := range points {
		out[i] = r2.Vec{
			X: float64(cos*p.X) - float64(sin*p.Y) + q.at.X,
			Y: float64(sin*p.X) + float64(cos*p.Y) + q.at.Y,
		}
	}
	return out
}

// then returns the pose that does q first and then o.
func (q pose) then(o pose) pose {
	sin, cos := sincos(o.angle)
	angle := math.Remainder(q.angle+o.angle, 2*math.Pi)
	return pose{angle, r2.Vec{
		X: float64(cos*q.at.X) - float64(sin*q.at.Y) + o.at.X,
		Y: float64(sin*q.at.X) + float64(cos*q.at.Y) + o.at.Y,
	}}
}

func rectOf(b r2.Box) layout.Rect {
	return layout.Rect{X: b.Min.X, Y: b.Min.Y, Width: b.Max.X - b.Min.X, Height: b.Max.Y - b.Min.Y}
}

// standing returns the pose that turns points by angle and sets the corner of
// their box on the origin, and the box's sizes.
func standing(points []r2.Vec, angle float64) (q pose, w, h float64) {
	b := design.Bounds(pose{angle: angle}.all(points))
	return pose{angle, r2.Scale(-1, b.Min)}, b.Max.X - b.Min.X, b.Max.Y - b.Min.Y
}

// fine is how far, in mm, two lengths may be apart and still be one setting of a
// stop or one side of a rectangle: the layout works in micrometres.
const fine = 0.004

func same(a, b float64) bool { return math.Abs(a-b) <= fine }
